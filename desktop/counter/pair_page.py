"""A pair: what hatches, a look to aim at, and the chance of it by clutches."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout, QWidget

from core.counter.answer import CLUTCHES, Answer, Goal, answer
from core.counter.card import clutch_words, hatching_words
from core.counter.growing import hatchling_words, pair_words
from core.counter.pair import is_quick
from core.explain.numbers import Numbers, of_100, price
from core.plan.model import Plan, Sex
from desktop.counter import parts
from desktop.counter.look_tap import LookTap, Tens
from desktop.counter.reckoner import Reckoner
from desktop.counter.stall import Stall
from desktop.counter.taps import NameTap
from desktop.counter.type import Type
from desktop.theme import SECOND
from desktop.widgets.labels import PlainLabel
from desktop.words import counter as words


class Chance(QWidget):
    """One line: so many clutches, ten dots, and the number."""

    def __init__(self, type_: Type, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.clutches = PlainLabel(font=type_.text)
        self.tens = Tens(type_)
        self.number = PlainLabel(font=type_.number)
        self._in_100 = PlainLabel(words.IN_100, font=type_.note, ink=SECOND)
        layout = parts.side_by_side(type_.px(12))
        layout.addWidget(self.clutches, 1)
        layout.addWidget(self.tens)
        layout.addWidget(self.number, 0, Qt.AlignmentFlag.AlignRight)
        layout.addWidget(self._in_100)
        self.setLayout(layout)
        self.number.setMinimumWidth(type_.px(78))
        self.number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)

    def show_chance(self, plan: Plan, count: int, chance: float) -> None:
        """The chance of one at least in `count` clutches."""
        self.clutches.setText(words.clutches(plan, count))
        self.tens.set_share(of_100(chance))
        self.number.setText(str(of_100(chance)))
        self.setAccessibleName(words.chance_spoken(plan, count, chance))


class PairPage(QWidget):
    """Follows the stall as long as a pair is picked."""

    change_wanted = Signal(str)
    card_wanted = Signal()
    best_wanted = Signal()
    start_wanted = Signal()

    def __init__(
        self, type_: Type, stall: Stall, numbers: Numbers, reckoner: Reckoner, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._type, self._stall, self._numbers, self._reckoner = type_, stall, numbers, reckoner
        self.answer: Answer | None = None
        self.fields: dict[Sex, NameTap] = {"male": NameTap(type_), "female": NameTap(type_)}
        self.sum_head = PlainLabel(font=type_.note, ink=SECOND)
        self.sum = PlainLabel(font=type_.name)
        self.looks: list[LookTap] = []
        self.goal = parts.head(type_)
        self.chances = [Chance(type_) for _ in range(CLUTCHES)]
        self.clutch, self.growing, self.tap_note = (parts.note(type_) for _ in range(3))
        self.wrong = parts.head(type_)
        self._looks_here = QVBoxLayout()
        self._looks_here.setSpacing(0)
        self.foot = parts.Actions(type_)
        self.card = self.foot.add(words.ODDS_CARD, "main")
        self.best = self.foot.add(words.back_to_best("male"))
        self.start = self.foot.add(words.START_OVER)
        self._lay_out()
        self._connect()

    def _connect(self) -> None:
        for sex, field in self.fields.items():
            field.clicked.connect(partial(self.change_wanted.emit, sex))
        self.card.clicked.connect(self.card_wanted)
        self.best.clicked.connect(self.best_wanted)
        self.start.clicked.connect(self.start_wanted)
        self._reckoner.answered.connect(self._show)
        self._reckoner.failed.connect(self._refuse)
        self._stall.changed.connect(self.follow)

    def _lay_out(self) -> None:
        type_ = self._type
        across = QBoxLayout.Direction.LeftToRight if type_.is_wide else QBoxLayout.Direction.TopToBottom
        inside = QWidget()
        columns = QBoxLayout(across, inside)
        columns.setContentsMargins(0, 0, type_.px(8), 0)
        columns.setSpacing(type_.px(48))
        # Below each other they are as high as their words.
        columns.addLayout(self._hatching(), 3 if type_.is_wide else 0)
        columns.addLayout(self._reaching(), 2 if type_.is_wide else 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(type_.px(20))
        self._body = parts.touched(inside, hatching_words(self._stall.plan))
        self._pair = self._pair_line(across)
        if type_.is_wide:
            layout.addLayout(self._pair)
        else:
            # Large text scrolls as a whole.
            whole = QVBoxLayout()
            whole.addLayout(self._pair)
            columns.insertLayout(0, whole)
        layout.addWidget(self._body, 1)
        layout.addWidget(self.foot)

    def _pair_line(self, across: QBoxLayout.Direction) -> QBoxLayout:
        line = QBoxLayout(across)
        line.setSpacing(self._type.px(20))
        line.addWidget(self.fields["male"], 1)
        line.addWidget(parts.mark(self._type, words.TIMES))
        line.addWidget(self.fields["female"], 1)
        price_here = QVBoxLayout()
        price_here.setSpacing(0)
        for label in (self.sum_head, self.sum):
            label.setAlignment(Qt.AlignmentFlag.AlignRight)
            price_here.addWidget(label)
        line.addLayout(price_here)
        return line

    def _hatching(self) -> QVBoxLayout:
        left = QVBoxLayout()
        left.setSpacing(self._type.px(4))
        left.addWidget(parts.head(self._type, hatching_words(self._stall.plan)))
        left.addWidget(self.tap_note)
        self.tap_note.setText(words.TAP_A_LOOK)
        left.addWidget(self.wrong)
        left.addLayout(self._looks_here)
        left.addStretch(1)
        return left

    def _reaching(self) -> QVBoxLayout:
        right = QVBoxLayout()
        right.setSpacing(self._type.px(14))
        right.addWidget(self.goal)
        for chance in self.chances:
            right.addWidget(chance)
        right.addWidget(self.clutch)
        right.addWidget(self.growing)
        right.addStretch(1)
        return right

    def follow(self) -> None:
        """Asks what the pair gives."""
        if not self._stall.is_paired:
            return
        self._show_pair()
        plan, stall = self._stall.plan, self._stall
        male, female = stall.parent_of("male"), stall.parent_of("female")
        quick = is_quick(plan, male.carries, female.carries)
        self.wrong.hide()
        if self._reckoner.ask(partial(answer, plan, male, female, stall.goal), quick=quick):
            self._refuse(words.WAITING)

    def _show_pair(self) -> None:
        stall, plan = self._stall, self._stall.plan
        prices = []
        for sex, field in self.fields.items():
            pick, offer = stall.picked[sex], stall.offer(stall.picked[sex])
            figure = price(offer.price, self._numbers) if offer else ""
            prices += [float(offer.price)] if offer else []
            above = words.change(sex, at_home=not pick.offer)
            field.show_words(words.alone(plan, pick.carries), above, figure)
        waits = [offer.ready_in for pick in stall.picked.values() if (offer := stall.offer(pick))]
        self.sum.setText(price(sum(prices), self._numbers))
        self.sum_head.setText(words.pair_of(plan))
        for label in (self.sum, self.sum_head):
            label.setVisible(len(prices) == 2)
        self.best.setVisible(stall.at_home is not None)
        if stall.at_home is not None:
            self.best.setText(words.back_to_best(stall.at_home.sex))
            self.best.setAccessibleName(self.best.text())
        first = stall.year + max(waits, default=0)
        self.growing.setText(f"{pair_words(stall.year, first - stall.year)} {hatchling_words(plan, first)}")
        self.clutch.setText(clutch_words(plan, self._numbers))

    def _show(self, found: object) -> None:
        if not isinstance(found, Answer):
            return
        self.answer = found
        self.wrong.hide()
        while len(self.looks) < len(found.rows):
            tap = LookTap(self._type, found.rows[len(self.looks)])
            tap.clicked.connect(partial(self._aim, len(self.looks)))
            self.looks.append(tap)
            self._looks_here.addWidget(tap)
        for tap in self.looks[len(found.rows) :]:
            tap.hide()
        for tap, row in zip(self.looks, found.rows, strict=False):
            tap.show_row(row)
            tap.show()
        self.goal.setText(words.at_least_one(self._stall.plan, found.goal))
        for count, (line, chance) in enumerate(zip(self.chances, found.chances, strict=True), 1):
            line.show_chance(self._stall.plan, count, chance)
        self._show_answer(shown=True)

    def _refuse(self, sentence: str) -> None:
        self.answer = None
        self.wrong.setText(sentence)
        self.wrong.show()
        for tap in self.looks:
            tap.hide()
        self._show_answer(shown=False)

    def _show_answer(self, *, shown: bool) -> None:
        for part in (self.goal, *self.chances, self.tap_note):
            part.setVisible(shown)
        self.card.setEnabled(shown)

    def _aim(self, place: int) -> None:
        if self.answer is not None:
            look = self.answer.looks[place]
            self._stall.aim(Goal(look.forms, look.sex))

"""The table ranked for the animal at home, and the looks that it can be ranked for."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from core.counter.answer import goals
from core.counter.pair import is_quick
from core.counter.ranking import Partner, partners
from core.explain.numbers import Numbers, of_100
from desktop.counter import parts
from desktop.counter.reckoner import Reckoner
from desktop.counter.stall import Pick, Stall
from desktop.counter.taps import RowTap
from desktop.counter.type import Type
from desktop.words import counter as words

# Ranking more than these takes longer than a frame.
_QUICK_OFFERS = 40


class BestPage(QWidget):
    """Best first; a tap shows that pair."""

    goal_wanted = Signal()
    back_wanted = Signal()
    start_wanted = Signal()

    def __init__(
        self, type_: Type, stall: Stall, numbers: Numbers, reckoner: Reckoner, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._type, self._stall, self._numbers, self._reckoner = type_, stall, numbers, reckoner
        self.title = parts.title(type_)
        self.goal = RowTap(type_, "")
        self.remark = parts.note(type_)
        self.ranked: list[RowTap] = []
        self._partners: tuple[Partner, ...] = ()
        inside = QWidget()
        self._rows = QVBoxLayout(inside)
        self._rows.setContentsMargins(0, 0, type_.px(8), 0)
        self._rows.setSpacing(0)
        self._rows.addStretch(1)
        self.foot = parts.Actions(type_)
        self.back = self.foot.add(words.BACK)
        self.start = self.foot.add(words.START_OVER)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(type_.px(8))
        # Where the type is large the head would take the height from the rows, and goes with them.
        above = layout if type_.is_wide else self._rows
        for place, part in enumerate((self.title, self.goal, self.remark)):
            above.insertWidget(place, part)
        layout.addWidget(parts.touched(inside, words.TITLE), 1)
        layout.addWidget(self.foot)
        self.goal.clicked.connect(self.goal_wanted)
        self.back.clicked.connect(self.back_wanted)
        self.start.clicked.connect(self.start_wanted)
        reckoner.answered.connect(self._show)
        reckoner.failed.connect(self._refuse)

    def follow(self) -> None:
        """Ranks the table as it stands."""
        home, stall = self._stall.at_home, self._stall
        if home is None:
            return
        goal = stall.rank_goal()
        self.title.setText(words.best_for(stall.plan, home.sex, home.carries))
        self.goal.show_words(words.goal_field(stall.plan, goal))
        offers = stall.plan.for_sale
        quick = len(offers) <= _QUICK_OFFERS and all(is_quick(stall.plan, home.carries, one.carries) for one in offers)
        work = partial(partners, stall.plan, home.carries, home.sex, goal.forms, goal.sex)
        if self._reckoner.ask(work, quick=quick):
            self._refuse(words.WAITING)

    def _show(self, found: object) -> None:
        if not isinstance(found, tuple):
            return
        self._partners = found
        while len(self.ranked) < len(found):
            row = RowTap(self._type, "")
            row.clicked.connect(partial(self._pick, len(self.ranked)))
            self._rows.insertWidget(self._rows.count() - 1, row)
            self.ranked.append(row)
        plan, year = self._stall.plan, self._stall.year
        for row, partner in zip(self.ranked, found, strict=False):
            note = words.rank_note(plan, partner.offer, year, self._numbers)
            figure = f"{of_100(partner.chance)} {words.IN_100}"
            row.show_words(words.for_sale(plan, partner.offer), note, figure)
        for place, row in enumerate(self.ranked):
            row.setVisible(place < len(found))
        home = self._stall.at_home
        empty = words.none_of("female" if home and home.sex == "male" else "male")
        self.remark.setText("" if found else empty)
        self.remark.setVisible(not found)

    def _refuse(self, sentence: str) -> None:
        self._partners = ()
        for row in self.ranked:
            row.hide()
        self.remark.setText(sentence)
        self.remark.show()

    def _pick(self, place: int) -> None:
        offer = self._partners[place].offer
        self._stall.pick(Pick(offer.sex, offer.carries, offer.id))


class GoalPage(QWidget):
    """Looks to choose from, by taps; who leaves without one keeps the goal that there was."""

    chosen = Signal()
    back_wanted = Signal()

    def __init__(self, type_: Type, stall: Stall, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._type, self._stall = type_, stall
        self.rows: list[RowTap] = []
        inside = QWidget()
        self._grid = QGridLayout(inside)
        self._grid.setContentsMargins(0, 0, type_.px(8), 0)
        self._grid.setHorizontalSpacing(type_.px(24))
        self._grid.setVerticalSpacing(0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(type_.px(12))
        asked = words.choose_goal(stall.plan)
        self.foot = parts.Actions(type_)
        self.back = self.foot.add(words.BACK)
        layout.addWidget(parts.title(type_, asked))
        layout.addWidget(parts.touched(inside, asked), 1)
        layout.addWidget(self.foot)
        self.back.clicked.connect(self.back_wanted)

    def follow(self) -> None:
        """Shows what there is to choose from."""
        for row in self.rows:
            self._grid.removeWidget(row)
            row.hide()
            row.deleteLater()
        self.rows = []
        plan, columns = self._stall.plan, 2 if self._type.is_wide else 1
        for place, goal in enumerate(goals(plan)):
            row = RowTap(self._type, words.goal_name(plan, goal))
            row.setCheckable(True)
            row.setChecked(goal == self._stall.rank_goal())
            row.clicked.connect(partial(self._choose, place))
            self._grid.addWidget(row, place // columns, place % columns)
            self.rows.append(row)
        self._grid.setRowStretch(len(self.rows), 1)

    def _choose(self, place: int) -> None:
        self._stall.aim(goals(self._stall.plan)[place])
        self.chosen.emit()

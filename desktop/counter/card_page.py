"""The odds card, large enough to be photographed, with the ways to keep it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from core.counter.card import OddsCard, odds_card
from core.counter.pair import is_quick
from core.explain.numbers import Numbers
from desktop.counter import parts
from desktop.counter.kept_card import card_folder, keep_card, pdf_bytes, picture_bytes
from desktop.counter.reckoner import Reckoner
from desktop.counter.stall import Stall
from desktop.counter.taps import Button, Look
from desktop.counter.type import Type
from desktop.exports.asking import print_sheet
from desktop.exports.odds_card import HEIGHT, WIDTH, card_sheet, paint_card
from desktop.words import counter as words


class Sheet(QWidget):
    """Shows a card as large as there is room."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.card: OddsCard | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_card(self, card: OddsCard | None) -> None:
        """Another card, or none."""
        self.card = card
        said = [] if card is None else [card.male, words.TIMES, card.female, card.price, str(card.dots), card.headline]
        self.setAccessibleName(words.card_spoken(said))
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(round(WIDTH / 2), round(HEIGHT / 2))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if self.card is not None:
            painter = QPainter(self)
            paint_card(painter, QRectF(self.rect()), self.card)


class CardPage(QWidget):
    """The card fills the height; what to do with it stands beside it."""

    back_wanted = Signal()
    start_wanted = Signal()
    leave_wanted = Signal()

    def __init__(
        self, type_: Type, stall: Stall, numbers: Numbers, reckoner: Reckoner, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._stall, self._numbers, self._reckoner = stall, numbers, reckoner
        self.sheet = Sheet()
        self.told = parts.note(type_)
        self.buttons = [Button(type_, text, look) for text, look in _BUTTONS]
        self.pdf, self.picture, self.print, self.back, self.start, self.leave = self.buttons
        beside = QWidget()
        side = QVBoxLayout(beside)
        side.setContentsMargins(0, 0, 0, 0)
        side.setSpacing(type_.px(16))
        side.addWidget(parts.title(type_, words.ODDS_CARD))
        for button in self.buttons:
            side.addWidget(button)
        side.addWidget(self.told)
        side.addStretch(1)
        layout = parts.side_by_side(type_.px(32))
        layout.addWidget(self.sheet, 3)
        layout.addWidget(parts.touched(beside, words.ODDS_CARD), 2)
        self.setLayout(layout)
        self.pdf.clicked.connect(partial(self._keep, pdf_bytes, ".pdf"))
        self.picture.clicked.connect(partial(self._keep, picture_bytes, ".png"))
        self.print.clicked.connect(self._print)
        self.back.clicked.connect(self.back_wanted)
        self.start.clicked.connect(self.start_wanted)
        self.leave.clicked.connect(self.leave_wanted)
        reckoner.answered.connect(self._show)
        reckoner.failed.connect(self._refuse)

    def follow(self) -> None:
        """The card of the pair as it stands, for the look aimed at."""
        stall = self._stall
        male, female, goal = stall.parent_of("male"), stall.parent_of("female"), stall.rank_goal()
        work = partial(odds_card, stall.plan, male, female, goal.forms, self._numbers, goal.sex)
        if self._reckoner.ask(work, quick=is_quick(stall.plan, male.carries, female.carries)):
            self._refuse(words.WAITING)

    def _show(self, card: object) -> None:
        if isinstance(card, OddsCard):
            self.sheet.show_card(card)
            self.told.setText("")
            self._enable(able=True)

    def _refuse(self, sentence: str) -> None:
        self.sheet.show_card(None)
        self.told.setText(sentence)
        self._enable(able=False)

    def _enable(self, *, able: bool) -> None:
        for button in (self.pdf, self.picture, self.print):
            button.setEnabled(able)

    def _print(self) -> None:
        if self.sheet.card is not None:
            print_sheet(self, card_sheet(self.sheet.card))

    def _keep(self, content: Callable[[OddsCard], bytes], ending: str) -> None:
        card = self.sheet.card
        if card is None:
            return
        try:
            kept = keep_card(content(card), card_folder(), words.card_file(card.male, card.female), ending)
        except OSError as error:
            self.told.setText(words.not_saved(error.strerror or ""))
        else:
            self.told.setText(words.saved(str(kept)))


_BUTTONS: tuple[tuple[str, Look], ...] = (
    (words.SAVE_PDF, "main"), (words.SAVE_PICTURE, "plain"), (words.PRINT, "plain"), (words.BACK, "plain"),
    (words.START_OVER, "plain"), (words.LEAVE, "word"),
)  # fmt: skip

"""The selected route: its mark, its name, its steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from desktop import fonts
from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.marks import LIST_MARK_WIDTH, draw_list_mark, mark_of
from desktop.panels.steps.strip import StepsStrip
from desktop.theme import SECOND, colours_of
from desktop.widgets.labels import PlainLabel, ShortLabel
from desktop.widgets.text_tabs import TextTabs
from desktop.widgets.word import Word
from desktop.words import cautions as caution_words
from desktop.words import labels
from desktop.words.editor import EDIT_ROUTE
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from desktop.cautions.panel import CautionsPanel

# Room for three cautions under each other.
_LEAST_HEIGHT = 120


class MarkSign(QWidget):
    """A route's mark by itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._number: int | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_mark(self, mark: int | None) -> None:
        """The mark of that number, or nothing."""
        self._number = mark
        self.setAccessibleName("" if mark is None else mark_of(mark).name)
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(LIST_MARK_WIDTH + 2, 18)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        if self._number is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        middle = QPointF(self.width() / 2, self.height() / 2)
        draw_list_mark(painter, mark_of(self._number), colours_of(self.palette()), middle)


class Steps(QWidget):
    """Follows the document's selected route: its steps, or its cautions in their place.

    Why its chance is so, or why it beats another, is asked for here.
    """

    why_chance = Signal()
    why_beats = Signal()

    def __init__(self, document: Document, minder: Minder, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._minder, self._numbers = document, minder, numbers
        self.cautions: CautionsPanel | None = None
        self._mark = MarkSign(self)
        self.name = ShortLabel(font=fonts.sans(fonts.HEADING, bold=True), parent=self)
        self.name.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        self._failed = PlainLabel(font=fonts.sans(fonts.HEADING), ink=SECOND, parent=self)
        self.tabs = TextTabs((labels.STEPS, caution_words.TITLE), self)
        self.tabs.setAccessibleName(labels.OF_ROUTE)
        self.tabs.currentChanged.connect(self._turn)
        # The head stays as tall where no route is selected yet: nothing moves when the first one is.
        policy = self.tabs.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.tabs.setSizePolicy(policy)
        self.chance, self.beats = Word(labels.WHY_THIS_CHANCE, self), Word(labels.WHY_THIS_BEATS_THAT, self)
        self.chance.clicked.connect(self.why_chance)
        self.beats.clicked.connect(self.why_beats)
        self.strip = StepsStrip(numbers, self)
        self.edit = Word(EDIT_ROUTE, self)
        head = QHBoxLayout()
        head.setSpacing(16)
        for widget in (self._mark, self.name, self._failed, self.tabs, self.chance, self.beats):
            head.addWidget(widget)
        head.addStretch(1)
        head.addWidget(self.edit)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        self._layout.addLayout(head)
        self._layout.addWidget(self.strip)
        minder.changed.connect(self._count)
        document.plan_changed.connect(self._count)
        document.selection_changed.connect(self._show)
        document.answers_changed.connect(self._show)
        self._show()

    def set_roomy(self, roomy: bool) -> None:
        """Taller lanes where the window has the height."""
        self.strip.set_roomy(roomy)

    def _show(self) -> None:
        one = self._document.selected
        self._mark.show_mark(one.mark if one else None)
        self.name.setText(one.name if one else labels.NO_ROUTE)
        failed = one is not None and one.state == "failed"
        self._failed.setText(one.reason if one else "")
        self._failed.setVisible(failed)
        self.tabs.setVisible(one is not None)
        if one is None:
            self.tabs.setCurrentIndex(0)
        for word in (self.chance, self.beats):
            word.setVisible(one is not None)
        self.edit.setEnabled(one is not None)
        self.strip.show_route(self._document.plan, one)
        self._count()

    def show_cautions(self) -> None:
        """Turns to the cautions."""
        self.tabs.setCurrentIndex(1)

    def _count(self) -> None:
        one = self._document.selected
        found = (self._minder.of(one) or () if one else ()) + self._minder.of_plan
        self.tabs.setTabText(1, caution_words.tab(len(self._minder.unread(found))))
        self.tabs.updateGeometry()

    def _turn(self, tab: int) -> None:
        if tab == 1 and self.cautions is None:
            # Loaded when first asked for: the start does not wait for it.
            from desktop.cautions.panel import CautionsPanel

            self.cautions = CautionsPanel(self._document, self._minder, self._numbers, self)
            self._layout.addWidget(self.cautions)
        if self.cautions is not None:
            # As tall as the steps it stands for, so that nothing above it moves.
            self.cautions.setFixedHeight(max(self.strip.height(), _LEAST_HEIGHT))
            self.cautions.setVisible(tab == 1)
        self.strip.setVisible(tab == 0)

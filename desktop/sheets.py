"""A page of several sheets under tabs, in the comparison's place."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QScrollArea, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from desktop import fonts
from desktop.theme import NOTES, SECOND
from desktop.views import View
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel
from desktop.widgets.scrolled import scrolled
from desktop.widgets.text_tabs import TextTabs
from desktop.words import labels


class SheetsHead(Inked):
    """The way back and the tabs, with what else stands between them and below."""

    def __init__(
        self, back: QPushButton, tabs: TextTabs, between: Sequence[QWidget] = (), below: Sequence[QWidget] = ()
    ) -> None:
        super().__init__()
        self.back, self.tabs = back, tabs
        row = QHBoxLayout()
        row.setSpacing(16)
        for widget in (back, *between, tabs):
            row.addWidget(widget)
        row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 0, 24, 0)
        layout.setSpacing(4)
        layout.addLayout(row)
        for widget in below:
            layout.addWidget(widget)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        # By itself a tab bar takes the height it happens to have.
        tabs.setFixedHeight(int(QFontMetricsF(fonts.sans(fonts.HEADING, bold=True)).height()) + 10)
        self.dress()


class SheetsPage(View):
    """Shows one sheet at a time; what is under way stands at its foot (`state`)."""

    def __init__(self, head: SheetsHead, sheets: Sequence[QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.tabs = head.tabs
        self.state = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self._places = QStackedWidget()
        for sheet in sheets:
            self._places.addWidget(scrolled(sheet, sideways=True))
        self._column = layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 8, 0, 6)
        layout.setSpacing(8)
        layout.addWidget(head)
        layout.addWidget(self._places, 1)
        layout.addLayout(self._foot())
        head.back.clicked.connect(self.done)

    def lay_above(self, part: QWidget) -> None:
        """Puts something between the tabs and the sheets."""
        self._column.insertWidget(1, part)

    def first_focus(self) -> QWidget:  # noqa: D102
        return self.tabs

    def show_tab(self, tab: int) -> None:
        """Turns to one of the sheets."""
        self.tabs.setCurrentIndex(tab)

    @property
    def area(self) -> QScrollArea:
        """What scrolls the sheet that is shown."""
        shown = self._places.currentWidget()
        assert isinstance(shown, QScrollArea)
        return shown

    def _foot(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(24, 0, 24, 0)
        row.addWidget(PlainLabel(labels.ODDS, font=fonts.sans(fonts.NOTE), ink=NOTES))
        row.addStretch(1)
        row.addWidget(self.state)
        return row

"""The words above the route list: a new route, the counts to look at, what is hidden."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.panels.routes.actions import RouteActions
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import give_tip
from desktop.widgets.text_tabs import TextTabs
from desktop.widgets.word import Word
from desktop.words import labels
from desktop.words import route_actions as words

# The height of the line in letter sizes.
_TALL = 1.9


class RouteBar(Inked):
    """One quiet line; what is hidden is said on it, and shown again by it."""

    def __init__(self, document: Document, actions: RouteActions, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.new = button(words.NEW_ABOVE, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.new.setAccessibleName(words.NEW_ABOVE_NAME)
        self.search = button(words.FIND_ABOVE, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        # Only who owns animals has clutches to enter.
        self.season = button(labels.THIS_SEASON, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.worth = button(words.WORTH_ABOVE, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.matters = button(words.MATTERS_ABOVE, "link", self, font=fonts.sans(fonts.HEAD, bold=True))
        self.hidden = Word("", self)
        self.counts = TextTabs((words.CHEAPEST_COUNTS, words.COUNTS_AS_DRAWN), self, size=fonts.HEAD)
        self.counts.setAccessibleName(words.COUNTS)
        self.counts.setFixedHeight(round(fonts.sans(fonts.HEAD).pixelSize() * _TALL))
        give_tip(self.counts, words.COUNTS_TIP)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 0, 0, 0)
        layout.setSpacing(24)
        # With large text they take more than one line.
        links = Flow(gap=24)
        for one in (self.new, self.search, self.season, self.worth, self.matters, self.hidden):
            links.addWidget(one)
        layout.addLayout(links, 1)
        layout.addWidget(self.counts, 0, Qt.AlignmentFlag.AlignTop)
        self.new.clicked.connect(actions.new.trigger)
        self.hidden.clicked.connect(actions.show_all)
        self.counts.currentChanged.connect(self._count)
        document.answers_changed.connect(self._show)
        document.plan_changed.connect(self._show)
        self._actions = actions
        self.dress()
        self._show()

    def _count(self, place: int) -> None:
        self._document.look_at(as_drawn=place == 1)

    def _show(self) -> None:
        count = len(self._document.hidden)
        self.hidden.setVisible(bool(count))
        self.hidden.setText(words.hidden_line(count))
        self.hidden.setAccessibleName(words.hidden_name(count))
        self.hidden.updateGeometry()
        self.season.setVisible(bool(self._document.plan.my_animals))
        self.new.setEnabled(self._actions.new.isEnabled())
        self.counts.setCurrentIndex(int(self._document.as_drawn))

"""The page: reads downwards from question to answer, routes, evidence and steps."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.panels.answer_line import AnswerLine
from desktop.panels.charts.evidence import Evidence
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.goal_line import GoalLine
from desktop.panels.routes.actions import RouteActions
from desktop.panels.routes.bar import RouteBar
from desktop.panels.routes.view import RouteList
from desktop.panels.steps.panel import Steps
from desktop.theme import NOTES
from desktop.widgets.labels import PlainLabel
from desktop.words import labels
from desktop.words.numbers import Numbers


class Page(QWidget):
    """Lays the panels out; each of them follows the document by itself."""

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.chance = GoalChance(document, self)
        self.goal = GoalLine(document, numbers, self.chance)
        self.answer = AnswerLine(document, numbers, self.chance)
        self.routes = RouteList(document, numbers, self.chance)
        self.route_actions = RouteActions(document, numbers, self.routes)
        self.route_bar = RouteBar(document, self.route_actions)
        self.evidence = Evidence(document, numbers, self.chance)
        self.money, self.eggs = self.evidence.money, self.evidence.eggs
        self.steps = Steps(document, numbers)
        self.footer = PlainLabel(font=fonts.sans(fonts.NOTE), ink=NOTES)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 6, 24, 4)
        layout.setSpacing(8)
        layout.addWidget(self.goal)
        layout.addWidget(self.answer)
        layout.addLayout(self._list())
        layout.addWidget(self.evidence, 1)
        layout.addWidget(self.steps)
        layout.addWidget(self.footer)
        document.plan_changed.connect(self._foot)
        self._foot()

    def _list(self) -> QVBoxLayout:
        """The list close under its words."""
        part = QVBoxLayout()
        part.setSpacing(0)
        part.addWidget(self.route_bar)
        part.addWidget(self.routes)
        return part

    def set_roomy(self, roomy: bool) -> None:
        """Taller rows where the window has the height."""
        self.routes.set_roomy(roomy)
        self.steps.set_roomy(roomy)

    def _foot(self) -> None:
        self.footer.setText(labels.footer(self._document.plan.notes))

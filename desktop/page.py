"""The page: reads downwards from question to answer, routes, evidence and steps."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.advice.caution import OF_GOAL
from desktop import fonts
from desktop.cautions.minder import Minder
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
from desktop.widgets.labels import PlainLabel, ShortLabel
from desktop.words import labels
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from desktop.first.panel import FirstSteps


class Page(QWidget):
    """Lays the panels out; each of them follows the document by itself.

    In a plan without routes the steps to the first one stand in place of routes and evidence.
    """

    # What the person wants to say on the way to the first routes.
    wants = Signal(str)
    pastes = Signal(str)
    sample_wanted = Signal(Path)

    def __init__(self, document: Document, minder: Minder, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._minder, self._numbers = document, minder, numbers
        self.first: FirstSteps | None = None
        self.chance = GoalChance(document, self)
        self.goal = GoalLine(document, numbers, self.chance)
        self.answer = AnswerLine(document, numbers, self.chance)
        self.routes = RouteList(document, numbers, self.chance, minder)
        self.route_actions = RouteActions(document, self.routes)
        self.route_bar = RouteBar(document, self.route_actions)
        self.evidence = Evidence(document, numbers, self.chance)
        self.money, self.eggs = self.evidence.money, self.evidence.eggs
        self.steps = Steps(document, minder, numbers)
        self.goal_cautions = PlainLabel(font=fonts.sans(fonts.FORM))
        self.goal_cautions.setWordWrap(True)
        self.goal_cautions.setProperty("look", "caution")
        self.goal_cautions.hide()
        # Notes may be long, and large text makes them longer than a window is wide.
        self.footer = ShortLabel(font=fonts.sans(fonts.NOTE), ink=NOTES)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 2, 24, 1)
        # As close as it takes for seven routes to fit a window of 800 px without scrolling.
        layout.setSpacing(6)
        layout.addWidget(self.goal)
        layout.addWidget(self.answer)
        layout.addLayout(self._list())
        layout.addWidget(self.evidence, 1)
        layout.addWidget(self.steps)
        layout.addWidget(self.goal_cautions)
        layout.addWidget(self.footer)
        document.plan_changed.connect(self._follow)
        minder.changed.connect(self._mind_goal)
        self._follow()

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

    def _follow(self) -> None:
        empty = not self._document.plan.routes
        if empty and self.first is None:
            self.first = self._first_steps()
        if self.first is not None:
            self.first.setVisible(empty)
        for panel in (self.answer, self.route_bar, self.routes, self.evidence, self.steps):
            panel.setVisible(not empty)
        self._mind_goal()
        self.footer.setText(labels.footer(self._document.plan, self._numbers))

    def _mind_goal(self) -> None:
        """Without routes there is no tab for cautions; those on the animals wanted stand below the first steps."""
        found = [caution for caution in self._minder.unread(self._minder.of_plan) if caution.kind == OF_GOAL]
        self.goal_cautions.setText("\n".join(f"{caution.sentence} {caution.why}" for caution in found))
        self.goal_cautions.setVisible(bool(found) and not self._document.plan.routes)

    def _first_steps(self) -> FirstSteps:
        # Most starts never see it.
        from desktop.first.panel import FirstSteps

        made = FirstSteps(self._document, self._numbers)
        made.wants.connect(self.wants)
        made.pastes.connect(self.pastes)
        made.sample_wanted.connect(self.sample_wanted)
        layout = self.layout()
        if isinstance(layout, QVBoxLayout):
            layout.insertWidget(layout.indexOf(self.steps), made, 1)
        return made

"""The page for a new route: shapes on the left; the chosen one filled, worked out and drawn on the right."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from desktop import fonts
from desktop.find.greeting import Greeting
from desktop.find.search import RouteSearch
from desktop.new_route.filled import Filled
from desktop.new_route.shape_list import ShapeList
from desktop.new_route.trial import Trial
from desktop.panels.routes import edits
from desktop.theme import SECOND
from desktop.views import View
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, ShortLabel
from desktop.widgets.scrolled import scrolled
from desktop.widgets.tab_order import TabOrder
from desktop.words import goal as goal_words
from desktop.words import new_route as words
from desktop.words import route_actions as list_words
from desktop.words.numbers import Numbers


class NewRoute(View):
    """Nothing is changed until the route is added; that is one step."""

    # "for sale" or "mine".
    paste_asked = Signal(str)
    # The route that was just added is to be edited.
    edit_asked = Signal()
    # The program is to look for routes by itself.
    find_asked = Signal()

    def __init__(self, trial: Trial, search: RouteSearch, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._trial, self._numbers = trial, numbers
        self._body = Inked(self)
        self.back = button(words.BACK, "link", self._body)
        self.found = Greeting(trial.document, search, numbers, narrow=True, parent=self._body)
        self.search = self.found.all
        self.goal = ShortLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self._body)
        self.shapes = ShapeList(self._body)
        self.filled = Filled(trial, numbers, self._body)
        self.add = button(words.ADD, "main", self._body)
        self.add_and_edit = button(words.ADD_AND_EDIT, "plain", self._body)
        self.cancel = button(words.CANCEL, "plain", self._body)
        self.found.all_asked.connect(self.find_asked)
        self.found.added.connect(self.done)
        self._tab_order = TabOrder(self._body)
        self._lay_out()
        self.shapes.currentRowChanged.connect(self._show)
        self.filled.lack.paste_asked.connect(self.paste_asked)
        self.filled.made.connect(self._arrange)
        self.add.clicked.connect(self._add)
        self.add_and_edit.clicked.connect(self._add_and_edit)
        for leave in (self.back, self.cancel):
            leave.clicked.connect(self.done)
        trial.changed.connect(self._show)
        self.done.connect(trial.end)
        trial.begin()
        self._body.dress()
        self._show()

    def first_focus(self) -> QWidget:
        """The shapes, where choosing begins."""
        return self.shapes

    @property
    def is_settled(self) -> bool:
        """Whether every shape is filled and worked out."""
        return self._trial.is_settled

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(24)
        head.addWidget(self.back)
        head.addWidget(PlainLabel(words.TITLE, font=fonts.serif(fonts.SENTENCE, bold=True), parent=self._body))
        head.addWidget(self.goal, 1)
        foot = QHBoxLayout()
        foot.setSpacing(16)
        foot.addWidget(self.add)
        foot.addWidget(self.add_and_edit)
        foot.addWidget(self.cancel)
        foot.addStretch(1)
        chosen = QWidget()
        right = QVBoxLayout(chosen)
        right.setContentsMargins(0, 0, 0, 0)
        right.setSpacing(16)
        right.addWidget(self.filled)
        right.addLayout(foot)
        right.addStretch(1)
        columns = QHBoxLayout()
        columns.setSpacing(32)
        columns.addLayout(self._ways())
        columns.addWidget(scrolled(chosen, sideways=True), 1)
        inside = QVBoxLayout(self._body)
        inside.setContentsMargins(24, 8, 24, 16)
        inside.setSpacing(16)
        inside.addLayout(head)
        inside.addLayout(columns, 1)
        outside = QVBoxLayout(self)
        outside.setContentsMargins(0, 0, 0, 0)
        outside.addWidget(self._body)
        self._tab_order.follow_the_eye()

    def _ways(self) -> QVBoxLayout:
        """What the program finds stands first, then the shapes."""
        ways = QVBoxLayout()
        ways.setSpacing(16)
        self.found.setMaximumWidth(self.shapes.sizeHint().width())
        ways.addWidget(self.found)
        ways.addWidget(self.shapes, 1)
        return ways

    def _arrange(self) -> None:
        """Takes in what was made just now."""
        self._body.dress()
        self._tab_order.follow_the_eye()

    def _show(self) -> None:
        plan = self._trial.document.plan
        self.goal.setText(goal_words.as_text(plan, self._numbers))
        for shape, draft in self._trial.drafts.items():
            best = self._trial.finding(shape, as_drawn=False)
            lacks = words.lacking(plan, draft.proposal)
            self.shapes.show_figure(shape, words.figure(plan, best, self._numbers), lacks=lacks)
        self.filled.show_shape(self.shapes.shape)
        chosen = self._trial.drafts.get(self.shapes.shape)
        for button_ in (self.add, self.add_and_edit):
            button_.setEnabled(chosen is not None and chosen.route is not None and edits.has_room(plan))

    def _add_and_edit(self) -> None:
        if self._add():
            self.edit_asked.emit()

    def _add(self) -> bool:
        document, draft = self._trial.document, self._trial.drafts.get(self.shapes.shape)
        route = self._trial.route(self.shapes.shape) if draft is not None else None
        if draft is None or route is None:
            # The plan has just changed, and the shapes are being filled anew.
            return False
        plan, id_ = edits.added(document.plan, route, self.filled.typed_name(draft))
        faults = document.edit(plan, list_words.add_step(plan.routes[-1].name))
        if faults:
            self.filled.refuse(faults[0].message)
            return False
        found = next((one for one in document.shown if one.id == id_), None)
        if found is not None:
            document.select(found)
        self.done.emit()
        return True

"""The route editor: takes the place of the comparison for one route, until it is done."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QVBoxLayout, QWidget

from desktop import fonts
from desktop.document import Document
from desktop.editor import fields
from desktop.editor.actions import Actions
from desktop.editor.before import Before
from desktop.editor.board import Board, SeasonsHead
from desktop.editor.chance import AXIS, ChanceChart
from desktop.editor.change import Refused, route_of
from desktop.editor.details import Details
from desktop.editor.finding import FindingLine
from desktop.editor.head import Head
from desktop.editor.line import Key
from desktop.editor.parts import Typed, Where
from desktop.editor.problems import route_problem
from desktop.findings import Finding, as_drawn
from desktop.panels.charts.size import text_scale
from desktop.theme import NOTES
from desktop.views import View
from desktop.widgets.inked import Inked
from desktop.widgets.labels import ShortLabel
from desktop.widgets.scrolled import scrolled
from desktop.words import labels
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers

_LEAST_LINES, _LEAST_BELOW = 160, 250


class Editor(View):
    """Shows the selected route and keeps to it; ends by itself where the route is gone."""

    def __init__(self, document: Document, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        selected = document.selected
        self.route_id = selected.id if selected else ""
        document.keep_selection()
        self._before = Before(document, self.route_id)
        self._body = Inked(self)
        self.head = Head(self._body)
        self.finding = FindingLine(document, numbers, self._body)
        self.board = Board(numbers)
        self.seasons = SeasonsHead(self.board, self._body)
        self._lines = scrolled(self.board, self._body)
        self.details = Details(numbers)
        self._below = scrolled(self.details, self._body)
        self.chance = ChanceChart(numbers, self._body)
        self.footer = ShortLabel(font=fonts.sans(fonts.NOTE), ink=NOTES, parent=self._body)
        self.actions_on = Actions(document, self.route_id, numbers, self)
        self._lay_out()
        self._connect()
        self._show_route()
        self._body.dress()

    @property
    def is_settled(self) -> bool:
        """Whether nothing more comes by itself."""
        return self.board.is_whole and not self._fit_soon.isActive()

    def first_focus(self) -> QWidget:  # noqa: D102
        # A route that is still empty begins with its first animals.
        return self.head.name if self.board.chosen is not None else self.actions_on.add

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._fit()

    def apply(self, key: Key, field: str, what: str, change: object) -> str:
        """Puts a change into the plan; gives why not, as a sentence, or nothing."""
        if isinstance(change, Refused):
            return change.sentence
        return self.actions_on.edit(change, what, merge=f"{key.kind} {self.board.place(key)} {field}")

    def _ask_line(self, key: Key, field: str, what: str, change: object) -> None:
        line, plan = self.board.line(key), self._document.plan
        sentence = self.apply(key, field, what, change)
        if sentence and line is not None:
            line.refuse(field, sentence)
            self._fit()
        elif plan is self._document.plan:
            # As it was before: a refusal that stood here is over.
            self._show_route()

    def _ask_details(self, key: Key, field: str, what: str, change: object) -> None:
        plan = self._document.plan
        if sentence := self.apply(key, field, what, change):
            self.details.refuse(field, sentence)
        elif plan is self._document.plan:
            self._show_route()

    def _rename(self, text: str) -> None:
        part = self._name_part()
        if part is None:
            return
        change = part.put(text)
        sentence = self.apply(Key("counts", ""), part.key, part.what, change)
        self.head.refuse(sentence)

    def _move(self, by: int) -> None:
        if self.board.chosen is not None:
            self.actions_on.move(self.board.chosen, by)

    def _remove(self) -> None:
        if self.board.chosen is not None:
            self.actions_on.remove(self.board.chosen)

    def _go_to(self, key: Key) -> None:
        """To a line that has just been added."""
        self.board.choose(key)
        line = self.board.line(key)
        if line is not None:
            self._fit()
            self._lines.ensureWidgetVisible(line)
            field = next(iter(line.sentence.fields.values()), line.name)
            field.setFocus(Qt.FocusReason.TabFocusReason)

    def _open(self, _key: Key, _field: str) -> None:
        target = self.details.first_focus()
        if target is not None:
            target.setFocus(Qt.FocusReason.TabFocusReason)

    def _follow_focus(self, _old: QWidget | None, new: QWidget | None) -> None:
        if new is None or not self.board.isAncestorOf(new):
            return
        line = next((one for one in self.board.lines if one.isAncestorOf(new)), None)
        if line is not None:
            self._lines.ensureWidgetVisible(line, 0, 0)
            self.board.choose(line.key)
            self.details.look_at(str(new.property("key") or ""))

    def _show_route(self) -> None:
        plan = self._document.plan
        route = route_of(plan, self.route_id)
        if route is None or self._document.selected is None or self._document.selected.id != self.route_id:
            self.done.emit()
            return
        self.head.show_route(self._document.selected.mark, self._name_part(), self._document.history.undo_what)
        self.seasons.show_seasons(plan.goal.seasons)
        if self.board.show_route(plan, route):
            self._take_lines()
        self.footer.setText(labels.footer(plan, self._numbers))
        self._show_answers()
        self._show_details()
        self._fit()

    def _take_lines(self) -> None:
        """Lines or fields are others than before."""
        self._body.dress()
        self._set_tab_order()

    def _show_answers(self) -> None:
        plan, now = self._document.plan, self._now()
        route = route_of(plan, self.route_id)
        if route is None:
            return
        before = self._before.finding()
        self.finding.show_finding(now, before, route_problem(plan, route))
        drawn = as_drawn(plan, now) if now is not None else None
        outdated = now is not None and now.stale and not self._document.patient
        self.chance.show_chance(drawn, before, plan.goal.seasons, float_chance(plan.goal.chance), outdated=outdated)
        if self.board.chosen is not None and self.board.chosen.kind == "pairing":
            self._show_details()

    def _show_details(self) -> None:
        route = route_of(self._document.plan, self.route_id)
        if route is not None:
            self.details.show_line(self._document.plan, route, self.board.chosen, self._now())
            self._body.dress()

    def _now(self) -> Finding | None:
        return next((one for one in self._document.found if one.id == self.route_id), None)

    def _name_part(self) -> Typed | None:
        plan = self._document.plan
        route = route_of(plan, self.route_id)
        return fields.name_of_route(Where(plan, route, "", self._numbers)) if route is not None else None

    def _set_tab_order(self) -> None:
        """As the eye goes: line by line, each from its name on."""
        last: QWidget = self.head.done
        for action in (self.actions_on.add, self.actions_on.pair):
            QWidget.setTabOrder(last, action)
            last = action
        for line in self.board.lines:
            for widget in (line.name, *line.sentence.fields.values()):
                QWidget.setTabOrder(last, widget)
                last = widget

    def _fit(self) -> None:
        """The lines as tall as they need to be, as long as there is room below."""
        width = self._lines.viewport().width()
        wanted = self.board.heightForWidth(width) if width > 0 else 0
        others = self._body.height() - self._lines.height() - self._below.height()
        room = self._around.viewport().height() - others
        most = max(room - round(_LEAST_BELOW * text_scale()), round(_LEAST_LINES * text_scale()))
        self._lines.setFixedHeight(max(min(wanted, most), 1))
        left = int(self.board.seasons_left())
        self._below.setFixedWidth(max(left - round(AXIS * text_scale()) - 16, 200))
        self._over.setContentsMargins(0, 0, self.seasons.width() - left + 16, 0)
        self.seasons.update()

    def _connect(self) -> None:
        document = self._document
        document.plan_changed.connect(self._show_route)
        document.selection_changed.connect(self._show_route)
        document.answers_changed.connect(self._show_answers)
        self.head.left.connect(self.done)
        self.head.undo.clicked.connect(document.undo)
        self.head.name.taken.connect(self._rename)
        self.board.asked.connect(self._ask_line)
        self.board.opened.connect(self._open)
        self.board.resized.connect(self._fit)
        self.board.grew.connect(self._take_lines)
        # What stands around the lines has taken its place by then.
        self._fit_soon = QTimer(self, singleShot=True, interval=0)
        self._fit_soon.timeout.connect(self._fit)
        self.board.grew.connect(self._fit_soon.start)
        self.board.chosen_changed.connect(self._show_details)
        self.details.asked.connect(self._ask_details)
        self.details.moved.connect(self._move)
        self.details.removed.connect(self._remove)
        self.actions_on.added.connect(self._go_to)
        QApplication.instance().focusChanged.connect(self._follow_focus)  # type: ignore[union-attr]

    def _lay_out(self) -> None:
        self._over = over = QHBoxLayout(self.seasons)
        over.setSpacing(16)
        for widget in self.actions_on.widgets(self.seasons):
            over.addWidget(widget)
        over.insertStretch(1, 1)
        below = QHBoxLayout()
        below.setSpacing(16)
        below.addWidget(self._below)
        below.addWidget(self.chance, 1)
        layout = QVBoxLayout(self._body)
        layout.setContentsMargins(24, 8, 24, 6)
        layout.setSpacing(8)
        for part in (self.head, self.finding, self.actions_on.notice):
            layout.addWidget(part)
        layout.addSpacing(4)
        lines = QVBoxLayout()
        lines.setSpacing(0)
        lines.addWidget(self.seasons)
        lines.addWidget(self._lines)
        layout.addLayout(lines)
        layout.addLayout(below, 1)
        layout.addWidget(self.footer)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        # Where the text is large, or the window small, the whole page scrolls.
        self._around = scrolled(self._body, self, sideways=True)
        whole.addWidget(self._around)

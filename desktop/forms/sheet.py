"""A form drawn from its table: sentences with fields, what they mean, where a number came from, and refusals."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.document import Document
from desktop.forms.kinds import Choice, Panel, Prose
from desktop.forms.slots import ChoiceSlot, ProseSlot, Slot, TextSlot
from desktop.forms.table import Field, Form, Line
from desktop.forms.taking import take
from desktop.theme import ERROR, NOTES, SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked
from desktop.widgets.labels import PlainLabel
from desktop.widgets.tab_order import TabOrder
from desktop.words import forms as words
from desktop.words.numbers import Numbers

Editor = Callable[[Field, Document, Numbers, QWidget], Slot]
# Where a line's value came from, in words.
Origin = Callable[[Plan, Line, int, Numbers], str]
_NOTE_WIDTH, _TALL_GAP, _WIDEST = 300, 24, 1080


class LineView(QWidget):
    """One line: the sentence left, where its number came from right, meaning and refusal below."""

    def __init__(self, line: Line, document: Document, numbers: Numbers, editors: Mapping[str, Editor]) -> None:
        super().__init__()
        self.line, self._document, self._numbers = line, document, numbers
        self._units: list[tuple[PlainLabel, Field]] = []
        self._subject = 0
        self.origin = self._label(fonts.NOTE, NOTES)
        self.help = self._label(fonts.NOTE, NOTES, line.help)
        self.ideal = self._label(fonts.HEAD, QPalette.ColorRole.WindowText, line.ideal)
        self.ideal.setProperty("look", "caution")
        self.refusal = self._label(fonts.HEAD, ERROR)
        self.slots = [self._slot(field, editors) for field in line.fields]
        for slot in self.slots:
            slot.taken.connect(self._take)
            slot.unread.connect(self._refuse)
            if isinstance(slot, TextSlot):
                slot.edit.taken_back.connect(self._forget)
        self._lay_out()

    def show_plan(self, plan: Plan, subject: int, origin: Origin) -> None:
        """Shows the line for one entry of a list, or for the plan."""
        self._subject = subject
        for slot in self.slots:
            slot.show_value(plan, subject)
        for label, field in self._units:
            label.setText(words.unit(field.unit, field.value(plan, subject), plan.currency))
        said = origin(plan, self.line, subject, self._numbers)
        self.origin.setText(said)
        self.origin.setVisible(bool(said))
        self.ideal.setVisible(self.line.is_ideal(plan, subject))
        self.refuse("")

    def refuse(self, sentence: str) -> None:
        """Says beside the fields what was not taken, or nothing."""
        self.refusal.setText(sentence)
        self.refusal.setVisible(bool(sentence))
        if not sentence:
            for slot in self.slots:
                slot.set_refused(False)

    def _slot(self, field: Field, editors: Mapping[str, Editor]) -> Slot:
        if isinstance(field.kind, Panel):
            return editors[field.kind.editor](field, self._document, self._numbers, self)
        if isinstance(field.kind, Choice):
            return ChoiceSlot(field, self)
        if isinstance(field.kind, Prose):
            return ProseSlot(field, self)
        return TextSlot(field, self._numbers, self)

    def _take(self, value: Any) -> None:
        slot = self.sender()
        assert isinstance(slot, Slot)
        refusal = take(self._document, self._numbers, slot.field, self._subject, value)
        if refusal:
            self._refuse_at(slot, refusal)
        else:
            # The plan may say the same as before in other digits.
            slot.show_value(self._document.plan, self._subject)
            self.refuse("")

    def _refuse(self, sentence: str) -> None:
        slot = self.sender()
        assert isinstance(slot, Slot)
        self._refuse_at(slot, words.unread(slot.field.name, sentence))

    def _refuse_at(self, slot: Slot, sentence: str) -> None:
        self.refuse(sentence)
        slot.set_refused(True)
        if isinstance(slot.field.kind, Panel):
            # A choice that was not taken does not stay chosen; typed text stays, for the person to mend.
            slot.show_value(self._document.plan, self._subject)

    def _forget(self) -> None:
        self.refuse("")

    def _label(self, size: int, ink: Any, text: str = "") -> PlainLabel:
        label = PlainLabel(text, font=fonts.sans(size), ink=ink, parent=self)
        label.setWordWrap(True)
        label.setVisible(False)
        return label

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 6, 0, 6)
        grid.setHorizontalSpacing(_TALL_GAP)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(0, 1)
        block = [slot for slot in self.slots if isinstance(slot.field.kind, Panel | Prose)]
        if len(block) < len(self.slots) or any(slot.field.before for slot in block):
            grid.addWidget(self._sentence(), 0, 0)
        for place, slot in enumerate(block):
            grid.addWidget(slot.widget, 1 + place, 0)
        self.origin.setFixedWidth(_NOTE_WIDTH)
        texts = (self.refusal, self.ideal, self.help)
        for row, label in enumerate(texts):
            grid.addWidget(label, 1 + len(block) + row, 0)
        # Beside all the rest, so that a long source pushes nothing apart.
        grid.addWidget(self.origin, 0, 1, 1 + len(block) + len(texts), 1, Qt.AlignmentFlag.AlignTop)
        self.help.setVisible(bool(self.line.help))

    def _sentence(self) -> QWidget:
        line = QWidget(self)
        flow = Flow(line)
        for slot in self.slots:
            if slot.field.before:
                flow.addWidget(self._word(slot.field.before, line))
            if not isinstance(slot.field.kind, Panel | Prose):
                flow.addWidget(slot.widget)
            if slot.field.unit:
                unit = self._word("", line)
                self._units.append((unit, slot.field))
                flow.addWidget(unit)
        return line

    def _word(self, text: str, parent: QWidget) -> PlainLabel:
        return PlainLabel(text, font=fonts.sans(fonts.FORM), ink=SECOND, parent=parent)


class Sheet(Inked):
    """Some forms below each other; follows the document in place."""

    def __init__(
        self,
        forms: tuple[Form, ...],
        document: Document,
        numbers: Numbers,
        *,
        origin: Origin,
        editors: Mapping[str, Editor] | None = None,
        shown: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._document, self._origin = document, origin
        self.subject = 0
        self.lines: list[LineView] = []
        self._tab_order = TabOrder(self)
        self._titles: list[tuple[PlainLabel, Form, list[LineView]]] = []
        # Lines that are longer than this are hard to follow to the note at their end.
        self.setMaximumWidth(_WIDEST)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        for form in forms:
            self._add(form, layout, numbers, editors or {})
        layout.addStretch(1)
        document.plan_changed.connect(self._follow)
        # A form of a list's entry waits until it is told which one.
        if shown:
            self.show_entry(0)

    def show_entry(self, subject: int) -> None:
        """Shows the form for another entry of its list."""
        self.subject = subject
        self._follow()
        self.dress()

    def line_of(self, place: str) -> LineView:
        """The line that holds a field."""
        return next(one for one in self.lines if any(field.place == place for field in one.line.fields))

    def first_field(self) -> QWidget | None:
        """The first field, for a new entry to begin with."""
        return self.lines[0].slots[0].widget if self.lines else None

    def slot_of(self, place: str) -> Slot:
        """The widget's keeper of one field."""
        return next(slot for slot in self.line_of(place).slots if slot.field.place == place)

    def _add(self, form: Form, layout: QVBoxLayout, numbers: Numbers, editors: Mapping[str, Editor]) -> None:
        title = PlainLabel(form.title, font=fonts.sans(fonts.HEADING, bold=True), parent=self)
        title.setContentsMargins(0, _TALL_GAP - 8 if self.lines else 0, 0, 4)
        title.setVisible(bool(form.title))
        layout.addWidget(title)
        views = [LineView(line, self._document, numbers, editors) for line in form.lines]
        for view in views:
            layout.addWidget(view)
        self.lines += views
        self._titles.append((title, form, views))

    def _follow(self) -> None:
        plan = self._document.plan
        try:
            self._show(plan)
        except LookupError:
            # The entry that the form is about has gone; whoever shows the list says which one is next.
            return

    def _show(self, plan: Plan) -> None:
        for title, form, views in self._titles:
            is_there = form.when(plan, self.subject)
            title.setVisible(is_there and bool(form.title))
            for view in views:
                wanted = is_there and view.line.when(plan, self.subject)
                if wanted:
                    view.show_plan(plan, self.subject, self._origin)
                view.setVisible(wanted)
        # Some fields are made only once there is something to show in them.
        self._tab_order.follow_the_eye()

"""The widget of one field: made from its kind, set from the plan, and heard when the person changes it."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QObject, QSignalBlocker, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QPlainTextEdit, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.forms.kinds import Amount, Choice, Refused, Share, Whole, Words
from desktop.forms.table import Field
from desktop.words.numbers import Numbers

_WIDEST = 420
_NOTE_LINES = 5


class Slot(QObject):
    """A field of a form at work; `taken` brings a value to put in, `unread` why what was typed is none."""

    taken = Signal(object)
    unread = Signal(str)

    def __init__(self, field: Field, parent: QObject) -> None:
        super().__init__(parent)
        self.field = field

    @property
    def widget(self) -> QWidget:
        """What the person sees."""
        raise NotImplementedError

    def show_value(self, plan: Plan, subject: int) -> None:
        """Shows what the plan says."""
        raise NotImplementedError

    def set_refused(self, refused: bool) -> None:
        """Marks what stands in the field as not taken."""


class TextSlot(Slot):
    """A number or a few words on a rule."""

    def __init__(self, field: Field, numbers: Numbers, parent: QWidget, font: QFont | None = None) -> None:
        super().__init__(field, parent)
        assert isinstance(field.kind, Whole | Amount | Share | Words)
        self._kind, self._numbers = field.kind, numbers
        self.edit = SentenceField(
            field.name, font or fonts.sans(fonts.FORM, bold=True), parent, most=_WIDEST, quiet=font is None
        )
        self.edit.setPlaceholderText(field.hint or self._kind.empty or "")
        self.edit.setProperty("place", field.place)
        self.edit.taken.connect(self._take)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.edit

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        self.edit.hold(self._kind.show(self.field.value(plan, subject), self._numbers))

    def set_refused(self, refused: bool) -> None:  # noqa: D102
        self.edit.set_refused(refused)

    def _take(self, text: str) -> None:
        value = self._kind.read(text)
        if isinstance(value, Refused):
            self.unread.emit(value.sentence)
        else:
            self.taken.emit(value)


class ChoiceSlot(Slot):
    """One of a few words; the values behind them are asked for anew each time."""

    def __init__(self, field: Field, parent: QWidget, font: QFont | None = None) -> None:
        super().__init__(field, parent)
        assert isinstance(field.kind, Choice)
        self._kind = field.kind
        self._values: tuple[Any, ...] = ()
        self.choice = SentenceChoice(
            field.name, font or fonts.sans(fonts.FORM, bold=True), (), parent, most=_WIDEST, quiet=font is None
        )
        self.choice.setProperty("place", field.place)
        self.choice.activated.connect(self._take)
        self._shown = -1

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.choice

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        options = self._kind.options(plan, subject)
        value = self.field.value(plan, subject)
        self._values = tuple(one for one, _ in options)
        self._shown = self._values.index(value) if value in self._values else -1
        self.choice.show_words(tuple(text for _, text in options), self._shown)

    def set_refused(self, refused: bool) -> None:  # noqa: D102
        if refused:
            with QSignalBlocker(self.choice):
                self.choice.setCurrentIndex(self._shown)

    def _take(self, index: int) -> None:
        if index != self._shown:
            self.taken.emit(self._values[index])


class ProseSlot(Slot):
    """A text of several lines, taken letter by letter."""

    def __init__(self, field: Field, parent: QWidget) -> None:
        super().__init__(field, parent)
        self.edit = QPlainTextEdit(parent)
        self.edit.setAccessibleName(field.name)
        self.edit.setProperty("place", field.place)
        self.edit.setProperty("look", "prose")
        self.edit.setFont(fonts.sans(fonts.FORM))
        self.edit.setTabChangesFocus(True)
        self.edit.setPlaceholderText(field.hint)
        self.edit.setFixedHeight(self.edit.fontMetrics().lineSpacing() * _NOTE_LINES + 16)
        self.edit.textChanged.connect(self._take)

    @property
    def widget(self) -> QWidget:  # noqa: D102
        return self.edit

    def show_value(self, plan: Plan, subject: int) -> None:  # noqa: D102
        value = self.field.value(plan, subject)
        if value != self.edit.toPlainText():
            with QSignalBlocker(self.edit):
                self.edit.setPlainText(value)

    def _take(self) -> None:
        self.taken.emit(self.edit.toPlainText())

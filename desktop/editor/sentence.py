"""A sentence of words and fields; another one is shown in place, so that the field in use keeps the keyboard."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from desktop import fonts
from desktop.editor.parts import Chosen, Opens, Part, Typed, Word
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.panels.charts.size import text_scale
from desktop.theme import SECOND
from desktop.widgets.chevron import ROOM, draw_chevron
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel, give_tip

_WIDEST = 190
_ELIDE = Qt.TextElideMode.ElideRight
# A part by its kind and key: parts that agree in it are shown by the same widget.
_Sign = tuple[type, str]


class Sentence(QWidget):
    """Shows parts; `asked` tells which field asks for which change, `opened` which value is to be changed below."""

    # The key of the field, the name of the step, and the route it makes or why not.
    asked = Signal(str, str, object)
    opened = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._flow = Flow(self, gap=4, line_gap=2)
        self._signs: list[_Sign] = []
        self._parts: dict[str, Typed | Chosen | Opens] = {}
        self.fields: dict[str, SentenceField | SentenceChoice | QPushButton] = {}
        self._words: list[PlainLabel] = []

    def show_parts(self, parts: tuple[Part, ...]) -> bool:
        """Shows another sentence; whether its fields are others than before."""
        signs = [_sign(part) for part in parts]
        self._parts = {part.key: part for part in parts if not isinstance(part, Word)}
        is_other = signs != self._signs
        if is_other:
            self._build(parts)
            self._signs = signs
        self._update(parts)
        self.updateGeometry()
        return is_other

    def refuse(self, key: str) -> None:
        """Marks a field as not taken."""
        field = self.fields.get(key)
        if isinstance(field, SentenceField | SentenceChoice):
            field.set_refused(True)

    def text(self) -> str:
        """The sentence as it reads."""
        texts = []
        for widget in self._flow.widgets():
            if isinstance(widget, SentenceChoice):
                texts.append(widget.currentText())
            elif isinstance(widget, SentenceField):
                texts.append(widget.text() or widget.placeholderText())
            elif isinstance(widget, PlainLabel | QPushButton):
                texts.append(widget.text())
        return " ".join(texts)

    def _build(self, parts: tuple[Part, ...]) -> None:
        """Rearranges what there is; a field keeps its widget as long as it is in the sentence."""
        self._flow.clear()
        words = iter([*self._words])
        kept: dict[str, SentenceField | SentenceChoice | QPushButton] = {}
        for part in parts:
            if isinstance(part, Word):
                self._flow.addWidget(next(words, None) or self._new_word())
                continue
            old = self.fields.get(part.key)
            kept[part.key] = old if old is not None and _fits(old, part) else self._new_field(part)
            self._flow.addWidget(kept[part.key])
        for word in words:
            word.hide()
        for key, field in self.fields.items():
            if kept.get(key) is not field:
                field.hide()
                field.deleteLater()
        self.fields = kept

    def _update(self, parts: tuple[Part, ...]) -> None:
        words = iter(self._words)
        for part in parts:
            if isinstance(part, Word):
                word = next(words)
                word.setText(part.text)
                word.show()
            else:
                self._show(self.fields[part.key], part)

    def _show(self, field: SentenceField | SentenceChoice | QPushButton, part: Typed | Chosen | Opens) -> None:
        if isinstance(field, SentenceChoice):
            field.say(part.name, part.help)
        else:
            field.setAccessibleName(part.name)
            field.setAccessibleDescription(part.help)
        if isinstance(field, SentenceField) and isinstance(part, Typed):
            field.setPlaceholderText(part.hint)
            field.hold(part.text)
        elif isinstance(field, SentenceChoice) and isinstance(part, Chosen):
            field.show_words(tuple(option.label for option in part.options), part.at)
            give_tip(field, part.help)
        elif isinstance(field, QPushButton) and isinstance(part, Opens):
            text = field.fontMetrics().elidedText(part.text, _ELIDE, _widest())
            field.setText(text.replace("&", "&&"))
            field.setAccessibleName(f"{part.name}: {part.text}")
            give_tip(field, part.text if text != part.text else part.help)

    def _new_word(self) -> PlainLabel:
        word = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        self._words.append(word)
        return word

    def _new_field(self, part: Typed | Chosen | Opens) -> SentenceField | SentenceChoice | QPushButton:
        bold = fonts.sans(fonts.FORM, bold=True)
        made: SentenceField | SentenceChoice | QPushButton
        if isinstance(part, Typed):
            made = SentenceField(part.name, bold, self, most=_widest(), quiet=True)
            made.taken.connect(self._taken)
        elif isinstance(part, Chosen):
            made = SentenceChoice(part.name, bold, (), self, most=_widest(), quiet=True)
            made.activated.connect(self._activated)
        else:
            made = Opener(bold, self)
            made.clicked.connect(self._opened)
        made.setProperty("key", part.key)
        made.show()
        return made

    def _taken(self, text: str) -> None:
        part = self._parts.get(self._key())
        if isinstance(part, Typed):
            self.asked.emit(part.key, part.what, part.put(text))

    def _activated(self, place: int) -> None:
        part = self._parts.get(self._key())
        if isinstance(part, Chosen):
            self.asked.emit(part.key, part.what, part.options[place].make())

    def _opened(self) -> None:
        self.opened.emit(self._key())

    def _key(self) -> str:
        return str(self.sender().property("key"))


class Opener(QPushButton):
    """A value that is changed below: its words on a rule, with the sign of a choice."""

    def __init__(self, font: QFont, parent: QWidget) -> None:
        super().__init__(parent)
        self.setProperty("look", "field")
        self.setFont(font)
        self.setAutoDefault(False)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:  # noqa: D102
        words = self.fontMetrics().size(int(Qt.TextFlag.TextShowMnemonic), self.text())
        return QSize(words.width() + ROOM + 8, super().sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: D102
        super().paintEvent(event)
        draw_chevron(QPainter(self), self.rect(), self.palette().color(QPalette.ColorRole.ButtonText))


def _widest() -> int:
    return round(_WIDEST * text_scale())


def _sign(part: Part) -> _Sign:
    return (type(part), "" if isinstance(part, Word) else part.key)


def _fits(field: QWidget, part: Typed | Chosen | Opens) -> bool:
    kinds = {Typed: SentenceField, Chosen: SentenceChoice, Opens: QPushButton}
    return isinstance(field, kinds[type(part)])

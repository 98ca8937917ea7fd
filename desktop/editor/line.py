"""One line of the route editor: a name, a sentence with fields, and what is to be said about it."""

from __future__ import annotations

from typing import Literal, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from desktop import fonts
from desktop.editor.change import Change
from desktop.editor.parts import Part, Typed
from desktop.editor.sentence import Sentence
from desktop.forms.fields import SentenceField
from desktop.panels.charts.size import text_scale
from desktop.theme import ERROR, SECOND
from desktop.widgets.labels import PlainLabel

_TALL, _NAMES, _INDENT = 38, 108, 16


def least_tall() -> int:
    """How tall a line is whose sentence fits on one row."""
    return round(_TALL * text_scale())


class Key(NamedTuple):
    """What a line is about."""

    kind: Literal["group", "pairing", "finished", "counts"]
    id: str


class Line(QWidget):
    """Its left part; the seasons beside it are painted by the board."""

    # The key of the field, the name of the step, and the route it makes or why not.
    asked = Signal(str, str, object)
    opened = Signal(str)

    def __init__(self, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = key
        self._name_part: Typed | None = None
        bold = key.kind != "pairing"
        wide = round(_NAMES * text_scale())
        indent = 0 if bold else round(_INDENT * text_scale())
        font = fonts.sans(fonts.FORM, bold=bold)
        self.name = SentenceField("", font, self, most=wide - indent, bare=True)
        self.name.setAlignment(Qt.AlignmentFlag.AlignLeft)
        self.name.setVisible(key.kind in ("group", "pairing"))
        self.name.taken.connect(self._rename)
        self._title = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND, parent=self)
        self._title.setVisible(key.kind not in ("group", "pairing"))
        self._title.setWordWrap(True)
        self._title.setIndent(4)
        self.sentence = Sentence(self)
        self.sentence.asked.connect(self.asked)
        self.sentence.opened.connect(self.opened)
        self.problem = PlainLabel(font=fonts.sans(fonts.HEAD), parent=self)
        self.problem.setProperty("look", "caution")
        self.note = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        for label in (self.problem, self.note):
            label.setWordWrap(True)
        self._lay_out(wide, indent)

    def show_line(self, title: str, name: Typed | None, parts: tuple[Part, ...], problem: str) -> bool:
        """Shows what the route says now, and what is wrong with it; whether the fields are others than before."""
        self._title.setText(title)
        self._name_part = name
        if name is not None:
            self.name.setAccessibleName(name.name)
            self.name.hold(name.text)
        is_other = self.sentence.show_parts(parts)
        self._say(self.problem, problem)
        self._say(self.note, "")
        return is_other

    def refuse(self, field: str, sentence: str) -> None:
        """Says beside a field why it was not taken."""
        if field == "name":
            self.name.set_refused(True)
        else:
            self.sentence.refuse(field)
        self._say(self.note, sentence)

    def _say(self, label: PlainLabel, text: str) -> None:
        label.setText(text)
        label.setVisible(bool(text))
        self.updateGeometry()

    def _rename(self, text: str) -> None:
        part = self._name_part
        if part is not None:
            change: Change = part.put(text)
            self.asked.emit("name", part.what, change)

    def _lay_out(self, wide: int, indent: int) -> None:
        names = QWidget(self)
        names.setFixedWidth(wide)
        names_layout = QHBoxLayout(names)
        names_layout.setContentsMargins(indent, 0, 0, 0)
        names_layout.addWidget(self.name)
        names_layout.addWidget(self._title)
        names_layout.addStretch(1)
        right = QVBoxLayout()
        right.setSpacing(0)
        right.addWidget(self.sentence)
        right.addWidget(self.problem)
        right.addWidget(self.note)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 7, 2, 4)
        layout.setSpacing(6)
        layout.addWidget(names, 0, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(right, 1)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setMinimumHeight(least_tall())

"""Lines above the page that tell what the person should know, with what can be done about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from desktop import fonts
from desktop.theme import colours_of
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel

Action = tuple[str, Callable[[], object] | QMenu]


class Notices(Inked):
    """One line per matter, newest last; the same matter told again replaces what was told."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._lines: dict[str, Notice] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.hide()

    def tell(self, matter: str, text: str, actions: Sequence[Action] = ()) -> None:
        """Says it, with words to press; each that does something ends the notice too, a menu does not."""
        self.hush(matter)
        line = Notice(text, self)
        for name, act in actions:
            line.offer(name, act, self._hush_sender)
        line.setProperty("matter", matter)
        self._lines[matter] = line
        self._column.addWidget(line)
        self.dress()
        self.show()

    def hush(self, matter: str) -> None:
        """Nothing to say about this any more."""
        line = self._lines.pop(matter, None)
        if line is not None:
            self._column.removeWidget(line)
            line.hide()
            line.deleteLater()
        self.setVisible(bool(self._lines))

    def text(self, matter: str) -> str:
        """What is being said about a matter."""
        line = self._lines.get(matter)
        return line.label.text() if line else ""

    def press(self, matter: str, name: str) -> None:
        """Does what a word of a notice says."""
        for word in self._lines[matter].findChildren(QPushButton):
            if word.text() == name:
                word.click()

    def _hush_sender(self) -> None:
        pressed = self.sender()
        line = pressed.parent() if pressed else None
        # What was done may have told the same matter anew.
        if isinstance(line, Notice) and self._lines.get(matter := str(line.property("matter"))) is line:
            self.hush(matter)


class Notice(QWidget):
    """A sentence on a tint, then what can be done."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.label = PlainLabel(text, font=fonts.sans(fonts.FORM), parent=self)
        self.label.setWordWrap(True)
        # Read out by screen readers without being looked for.
        self.setAccessibleName(text)
        self._words = QHBoxLayout()
        self._words.setSpacing(16)
        row = QHBoxLayout(self)
        row.setContentsMargins(24, 6, 24, 6)
        row.setSpacing(24)
        row.addWidget(self.label, 1)
        row.addLayout(self._words)

    def offer(self, name: str, act: Callable[[], object] | QMenu, afterwards: Callable[[], None]) -> None:
        """One more thing to do."""
        word = button(name, "link", self)
        word.setAccessibleName(name)
        if isinstance(act, QMenu):
            word.setMenu(act)
        else:
            word.clicked.connect(act)
            word.clicked.connect(afterwards)
        self._words.addWidget(word)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        QPainter(self).fillRect(self.rect(), QColor(colours_of(self.palette()).selected))

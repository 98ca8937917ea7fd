"""Fields that stand in a sentence: bold words on a rule."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent
from PySide6.QtWidgets import QComboBox, QLineEdit, QListView, QWidget

from desktop.theme import LIGHT, Colours

# Room for the text's own margins, and that the last letter is never cut.
_SPARE = 14


class SentenceField(QLineEdit):
    """A short text in a sentence; it is taken on Enter or when the field is left, Escape takes it back."""

    taken = Signal(str)

    def __init__(self, name: str, font: QFont, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._held = ""
        self._refused = False
        self._colours = LIGHT
        self.setFont(font)
        self.setAccessibleName(name)
        self.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        self.setFrame(False)
        self.textChanged.connect(self._fit)
        self.editingFinished.connect(self._take)

    def hold(self, text: str) -> None:
        """Shows what the plan says; what is being typed is left alone."""
        self._held = text
        self.set_refused(False)
        if not (self.hasFocus() and self.isModified()):
            self.setText(text)

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours; said from outside, as a sheet changes the field's own palette."""
        self._colours = colours
        self._style()

    def set_refused(self, refused: bool) -> None:
        """Whether what stands here was not taken."""
        if refused != self._refused:
            self._refused = refused
            self._style()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() == Qt.Key.Key_Escape:
            self.setText(self._held)
            self.set_refused(False)
            return
        super().keyPressEvent(event)

    def sizeHint(self) -> QSize:  # noqa: D102
        text = self.text() or self.placeholderText()
        return QSize(QFontMetrics(self.font()).horizontalAdvance(text) + _SPARE, super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self.sizeHint()

    def _take(self) -> None:
        self.setModified(False)
        if self.text() != self._held:
            self.taken.emit(self.text())

    def _fit(self) -> None:
        self.setFixedWidth(self.sizeHint().width())

    def _style(self) -> None:
        rule = self._colours.error if self._refused else self._colours.accent
        self.setStyleSheet(_field_sheet("QLineEdit", self._colours, rule))


class SentenceChoice(QComboBox):
    """A choice between a few words in a sentence."""

    def __init__(self, name: str, font: QFont, words: tuple[str, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFont(font)
        self.setAccessibleName(name)
        self.addItems(words)
        # A list of our own: the one Qt makes has no name, and cannot safely be given one from here.
        self._list = QListView(self)
        self._list.setAccessibleName(name)
        self.setView(self._list)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours."""
        self.setStyleSheet(_field_sheet("QComboBox", colours, colours.accent))


def _field_sheet(kind: str, colours: Colours, rule: str) -> str:
    return (
        f"{kind} {{ background: transparent; color: {colours.text}; border: none; border-bottom: 2px solid {rule};"
        " padding: 0px 2px; }"
        f"{kind}:hover {{ background: {colours.hover}; }}"
        f"{kind}:focus {{ background: {colours.selected}; }}"
    )

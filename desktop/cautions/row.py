"""One caution: its sentence, why, and whether it was read."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QSizePolicy, QWidget

from desktop import fonts
from desktop.theme import NOTES, SECOND
from desktop.widgets.labels import PlainLabel
from desktop.widgets.word import Word
from desktop.words import cautions as words


class CautionRow(QWidget):
    """A sentence with its reason folded away.

    `marked` carries the key and whether it is read now, `turned` the key and whether the reason is shown now.
    """

    marked = Signal(str, bool)
    turned = Signal(str, bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.key = ""
        self._read = False
        self.sentence = _wrapped(fonts.FORM)
        self.reason = _wrapped(fonts.HEAD)
        self.more = _wrapped(fonts.HEAD)
        self.source = _wrapped(fonts.NOTE)
        self.reason.setForegroundRole(SECOND)
        self.more.setForegroundRole(SECOND)
        self.source.setForegroundRole(NOTES)
        self.why = Word(words.HIDE_WHY, self)
        self.mark = Word(words.MARK_UNREAD, self)
        for word in self.buttons():
            # As wide as its longest wording, so that nothing moves when it changes.
            word.setFixedWidth(word.sizeHint().width())
        keeps_its_place = self.mark.sizePolicy()
        keeps_its_place.setRetainSizeWhenHidden(True)
        self.mark.setSizePolicy(keeps_its_place)
        self.why.clicked.connect(self._turn)
        self.mark.clicked.connect(self._mark)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 2, 0, 4)
        layout.setHorizontalSpacing(16)
        layout.setVerticalSpacing(2)
        layout.addWidget(self.sentence, 0, 0)
        layout.addWidget(self.why, 0, 1, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self.mark, 0, 2, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self.reason, 1, 0)
        layout.addWidget(self.more, 2, 0)
        layout.addWidget(self.source, 3, 0)
        layout.setColumnStretch(0, 1)
        self._unfold(False)

    def show_caution(
        self, key: str, sentence: str, why: str, source: str, *, read: bool | None, unfolded: bool
    ) -> None:
        """Shows one; `read` None is for those that cannot be marked."""
        if key != self.key:
            self.more.setText("")
        self.key, self._read = key, bool(read)
        self.sentence.setText(words.read_sentence(sentence) if read else sentence)
        self.sentence.setForegroundRole(NOTES if read else self.foregroundRole())
        self.reason.setText(why)
        self.source.setText(words.sources(source))
        self.mark.setVisible(read is not None)
        self.mark.setText(words.MARK_UNREAD if read else words.MARK_READ)
        self.mark.updateGeometry()
        self.mark.setAccessibleName(words.mark_name(sentence, read=self._read))
        self.why.setAccessibleName(words.why_name(sentence))
        self._unfold(unfolded)

    @property
    def is_unfolded(self) -> bool:
        """Whether the reason is shown."""
        return not self.reason.isHidden()

    def buttons(self) -> tuple[QAbstractButton, ...]:
        """What can have the keyboard."""
        return self.why, self.mark

    def add(self, text: str) -> None:
        """One more sentence to the reason."""
        self.more.setText(text)
        self._unfold(self.is_unfolded)

    def _turn(self) -> None:
        self._unfold(not self.is_unfolded)
        self.turned.emit(self.key, self.is_unfolded)

    def _unfold(self, shown: bool) -> None:
        self.reason.setVisible(shown)
        for label in (self.more, self.source):
            label.setVisible(shown and bool(label.text()))
        self.why.setText(words.HIDE_WHY if shown else words.WHY)

    def _mark(self) -> None:
        self.marked.emit(self.key, not self._read)


def _wrapped(size: int) -> PlainLabel:
    label = PlainLabel(font=fonts.sans(size))
    label.setWordWrap(True)
    label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label

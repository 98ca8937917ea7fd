"""Fields that stand in a sentence: bold words on a rule."""

from __future__ import annotations

import sys
from functools import cache
from typing import Literal

from PySide6.QtCore import QEvent, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QComboBox, QLineEdit, QListView, QWidget

from desktop.theme import LIGHT, Colours, colour
from desktop.widgets.chevron import ROOM, draw_chevron
from desktop.widgets.labels import give_tip, tip
from desktop.widgets.ring import draw_ring

Rule = Literal["strong", "thin", "none"]
# Room for the sign of a choice, and its margins.
_ARROW = ROOM + 6
# Room for the text's own margins, and that the last letter is never cut.
_SPARE = 14
# An empty field can still be hit.
_NARROWEST = 28


class SentenceField(QLineEdit):
    """A short text in a sentence; it is taken on Enter or when the field is left, Escape takes it back.

    `most`: the widest it may be; what does not fit is elided while nobody types. `quiet`: a thin rule, for pages with
    many fields. `bare`: no rule until it is in use, for names.
    """

    taken = Signal(str)
    taken_back = Signal()

    def __init__(
        self,
        name: str,
        font: QFont,
        parent: QWidget | None = None,
        *,
        most: int | None = None,
        quiet: bool = False,
        bare: bool = False,
    ) -> None:
        super().__init__(parent)
        self._held = ""
        self._refused = False
        self._most = most
        self.setProperty("rule", "none" if bare else "thin" if quiet else "strong")
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
            self._show_held()
        # The hint of an empty field may be another.
        self._fit()

    def set_most(self, most: int) -> None:
        """Another widest width."""
        if most != self._most:
            self._most = most
            if not (self.hasFocus() or self._refused):
                self._show_held()
            self._fit()

    def set_refused(self, refused: bool) -> None:
        """Whether what stands here was not taken."""
        if refused != self._refused:
            self._refused = refused
            _show_refused(self, refused)

    def event(self, event: QEvent) -> bool:  # noqa: D102
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and not self.isModified():
            # Nothing is typed: undo and redo are about the plan.
            keys = QKeySequence.StandardKey
            if event.matches(keys.Undo) or event.matches(keys.Redo):
                event.ignore()
                return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() == Qt.Key.Key_Escape:
            if not self.isModified() and not self._refused:
                # Nothing to take back: Escape is about the page.
                event.ignore()
                return
            self.setText(self._held)
            self.set_refused(False)
            self.taken_back.emit()
            return
        super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        if not self._refused:
            self.setText(self._held)
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        super().focusOutEvent(event)
        if not self._refused and not self.hasFocus():
            self._show_held()

    def sizeHint(self) -> QSize:  # noqa: D102
        text = self.text() or self.placeholderText()
        wide = max(QFontMetrics(self.font()).horizontalAdvance(text) + _SPARE, _NARROWEST)
        return QSize(min(wide, self._most or wide), super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self.sizeHint()

    def _show_held(self) -> None:
        shown = self._held
        if self._most is not None and not self.hasFocus():
            shown = QFontMetrics(self.font()).elidedText(shown, Qt.TextElideMode.ElideRight, self._most - _SPARE)
            give_tip(self, self._held if shown != self._held else "")
        self.setText(shown)

    def _take(self) -> None:
        typed = self.isModified() or self._refused
        self.setModified(False)
        if typed and (self._refused or self.text() != self._held):
            self.taken.emit(self.text())

    def _fit(self) -> None:
        self.setFixedWidth(self.sizeHint().width())


class SentenceChoice(QComboBox):
    """A choice between a few words in a sentence; `most` and `quiet` as for a typed field.

    With `most` it is as wide as the current words, else as wide as the longest.
    """

    def __init__(
        self,
        name: str,
        font: QFont,
        words: tuple[str, ...],
        parent: QWidget | None = None,
        *,
        most: int | None = None,
        quiet: bool = False,
    ) -> None:
        super().__init__(parent)
        self._words: tuple[str, ...] = ()
        self._at = 0
        self._refused = False
        self._colours = LIGHT
        self._most = most
        self.setProperty("rule", "thin" if quiet else "strong")
        self.setFont(font)
        # A list of our own: the one Qt makes has no name, and cannot safely be given one from here.
        self._list = QListView(self)
        self.setView(self._list)
        self.say(name)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.show_words(words, 0)

    def say(self, name: str, more: str = "") -> None:
        """What screen readers say of it beside the words that it shows."""
        if self.accessibleName() != name:
            self.setAccessibleName(name)
            self._list.setAccessibleName(name)
        # Only on Windows does Qt tell its name; elsewhere it tells the words twice.
        told = (more,) if sys.platform == "win32" else (name, more)
        self.setAccessibleDescription(". ".join(filter(None, told)))

    def show_words(self, words: tuple[str, ...], at: int) -> None:
        """Shows these entries and chooses one, without telling of it."""
        self._at = at
        self.set_refused(False)
        with QSignalBlocker(self):
            if words != self._words:
                self._words = words
                self.clear()
                for word in words:
                    self.addItem(self._elided(word))
                    self.setItemData(self.count() - 1, tip(word), Qt.ItemDataRole.ToolTipRole)
                    self.setItemData(self.count() - 1, word, Qt.ItemDataRole.AccessibleTextRole)
            self.setCurrentIndex(at)
        self.updateGeometry()

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: D102
        # Who turns the wheel means the page.
        event.ignore()

    def ink(self, colours: Colours) -> None:
        """Takes on the page's colours; said from outside, as a sheet changes the field's own palette."""
        self._colours = colours

    def set_refused(self, refused: bool) -> None:
        """Whether what is chosen here was not taken; it stays until the field is left, so that arrows lead past it."""
        if refused != self._refused:
            self._refused = refused
            _show_refused(self, refused)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: D102
        super().paintEvent(event)
        painter = QPainter(self)
        if self.hasFocus():
            draw_ring(painter, self.rect(), colour(self._colours.accent))
        draw_chevron(painter, self.rect(), colour(self._colours.text))

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: D102
        super().focusOutEvent(event)
        if self._refused and event.reason() != Qt.FocusReason.PopupFocusReason:
            self.show_words(self._words, self._at)

    def sizeHint(self) -> QSize:  # noqa: D102
        whole = super().sizeHint()
        if self._most is None:
            return whole
        return QSize(QFontMetrics(self.font()).horizontalAdvance(self.currentText()) + _ARROW, whole.height())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return super().minimumSizeHint() if self._most is None else self.sizeHint()

    def showPopup(self) -> None:  # noqa: D102
        # The list is as wide as its words, however few the current ones are.
        self._list.setMinimumWidth(self._list.sizeHintForColumn(0) + _ARROW)
        super().showPopup()

    def _elided(self, word: str) -> str:
        if self._most is None:
            return word
        return QFontMetrics(self.font()).elidedText(word, Qt.TextElideMode.ElideRight, self._most)


def _show_refused(field: QWidget, refused: bool) -> None:
    """Has the sheet around a field told apart whether what stands there was taken."""
    field.setProperty("refused", refused)
    field.style().unpolish(field)
    field.style().polish(field)


@cache
def field_sheet(colours: Colours) -> str:
    """The look of all fields, for the sheet around them: a sheet of its own for each takes longer to set."""
    rules: tuple[Rule, ...] = ("strong", "thin", "none")
    looks = [_field_rules(kind, colours, rule) for kind in ("QLineEdit", "QComboBox") for rule in rules]
    return "\n".join(looks)


def _field_rules(kind: str, colours: Colours, rule: Rule) -> str:
    field = f'{kind}[rule="{rule}"]'
    refused = f'{field}[refused="true"]'
    ink = {"strong": colours.accent, "thin": colours.rule, "none": "transparent"}[rule]
    wide = 2 if rule == "strong" else 1
    return f"""
    {field} {{ background: transparent; color: {colours.text}; border: none; border-bottom: {wide}px solid {ink};
        padding: 0px 2px {2 - wide}px 2px; placeholder-text-color: {colours.notes}; }}
    {field}:hover {{ background: {colours.hover}; }}
    {field}:focus {{ background: {colours.selected}; border-bottom: 2px solid {colours.accent}; padding-bottom: 0px; }}
    {refused} {{ border-bottom: 2px solid {colours.error}; padding-bottom: 0px; }}
    {refused}:focus {{ border-bottom: 2px solid {colours.error}; }}
    QComboBox[rule="{rule}"]::drop-down {{ border: none; width: {ROOM}px; }}
    """

"""One gene, or the sides of one linked set: its name, its choices, and a percentage where there is one."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QRadioButton, QVBoxLayout, QWidget

from desktop import fonts
from desktop.forms.fields import SentenceField
from desktop.locale_reading import read_number
from desktop.panels.charts.size import text_scale
from desktop.theme import ERROR, NOTES
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel, give_tip
from desktop.words import carrying as words

# For names, and by how much that may grow with the text: choices need room as well.
_NAMES, _MOST_WIDENED = 136, 1.6
# A longer choice is cut, and whole in its tip.
_WIDEST = 320
_GAP = 16
# Qt's own greatest width.
_WITHOUT_END = (1 << 24) - 1


class Shown(msgspec.Struct, frozen=True):
    """What a row shows; `chosen` is the place of a choice, None where the file holds something else."""

    title: str
    note: str
    labels: tuple[str, ...]
    chosen: int | None
    as_written: str = ""
    percent: str = ""
    percent_name: str = ""
    # The choice that says nothing special.
    quiet: int = 0


class ChoiceRow(QWidget):
    """Choices as radio buttons: arrows within the row, Tab to the next one."""

    chosen = Signal(int)
    percent_taken = Signal(float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._title = PlainLabel(font=fonts.sans(fonts.FORM, bold=True), parent=self)
        self._note = PlainLabel(font=fonts.sans(fonts.NOTE), ink=NOTES, parent=self)
        for label in (self._title, self._note):
            label.setWordWrap(True)
        self._choices = QWidget(self)
        self._flow = Flow(self._choices)
        self._group = QButtonGroup(self)
        self._group.idClicked.connect(self._clicked)
        self.percent = SentenceField("", fonts.sans(fonts.FORM, bold=True), self._choices)
        self._sign = PlainLabel(words.PERCENT, font=fonts.sans(fonts.FORM), parent=self._choices)
        self._kept = PlainLabel(font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self._choices)
        self._refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self._refusal.setWordWrap(True)
        self._refusal.hide()
        self.percent.taken.connect(self._take_percent)
        self._labels: tuple[str, ...] = ()
        self._names = QWidget(self)
        self._grid = QGridLayout(self)
        self._is_narrow = False
        self._lay_out()

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        wide = max(_names_wide(), self._flow.minimumSize().width())
        return QSize(wide, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self._arrange()

    def _arrange(self) -> None:
        """Choices stand under the name where the widest of them has no room beside it."""
        is_narrow = self.width() < _names_wide() + _GAP + self._flow.minimumSize().width()
        if is_narrow != self._is_narrow:
            self._is_narrow = is_narrow
            self._place()

    def show_row(self, shown: Shown) -> None:
        """Shows a row; buttons stay as they are while the choices are the same."""
        self._title.setText(shown.title)
        self._note.setText(shown.note)
        if shown.labels != self._labels:
            self._build(shown)
        self._check(shown.chosen)
        is_possible = bool(shown.percent)
        for widget in (self.percent, self._sign):
            widget.setVisible(is_possible)
        if is_possible:
            self.percent.setAccessibleName(shown.percent_name)
            self.percent.hold(shown.percent)
        self._kept.setVisible(bool(shown.as_written))
        self._kept.setText(f"{words.AS_IN_THE_FILE}: {shown.as_written}")
        self._refusal.hide()
        self._choices.updateGeometry()
        self._arrange()

    def choice_buttons(self) -> list[QRadioButton]:
        """The choices in order."""
        return [one for one in self._group.buttons() if isinstance(one, QRadioButton)]

    def refuse(self, sentence: str) -> None:
        """Says beside the choices why the last one was not taken."""
        self._refusal.setText(sentence)
        self._refusal.show()

    def _build(self, shown: Shown) -> None:
        self._labels = shown.labels
        for old in self._group.buttons():
            self._group.removeButton(old)
            old.hide()
            old.deleteLater()
        self._flow.clear()
        for place, label in enumerate(shown.labels):
            font = fonts.sans(fonts.FORM)
            said = QFontMetrics(font).elidedText(label, Qt.TextElideMode.ElideRight, _WIDEST)
            choice = QRadioButton(said.replace("&", "&&"), self._choices)
            give_tip(choice, label if said != label else "")
            choice.setProperty("look", "choice")
            choice.setFont(font)
            choice.setAccessibleName(f"{shown.title}: {label}")
            choice.setProperty("quiet", place == shown.quiet)
            choice.setCursor(Qt.CursorShape.PointingHandCursor)
            self._group.addButton(choice, place)
            self._flow.addWidget(choice)
            choice.show()
        for widget in (self.percent, self._sign, self._kept):
            self._flow.addWidget(widget)
        if self._group.buttons():
            # The choices were made just now, but stand before it.
            self.setTabOrder(self._group.buttons()[-1], self.percent)

    def _check(self, chosen: int | None) -> None:
        with QSignalBlocker(self._group):
            # None of them can only be shown while the group does not insist on one.
            self._group.setExclusive(False)
            for place, choice in enumerate(self._group.buttons()):
                choice.setChecked(place == chosen)
            self._group.setExclusive(True)

    def _clicked(self, place: int) -> None:
        self.chosen.emit(place)

    def _take_percent(self, text: str) -> None:
        value = read_number(text, whole=False)
        if value is None or not 0 < value < 100:
            self.percent.set_refused(True)
            self.refuse(words.not_a_percent(text))
            return
        self.percent_taken.emit(float(value))

    def _lay_out(self) -> None:
        names = QVBoxLayout(self._names)
        names.setContentsMargins(0, 0, 0, 0)
        names.setSpacing(0)
        names.addWidget(self._title)
        names.addWidget(self._note)
        names.addStretch(1)
        self._grid.setContentsMargins(0, 6, 0, 6)
        self._grid.setHorizontalSpacing(_GAP)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(1, 1)
        self._place()

    def _place(self) -> None:
        parts = (self._names, self._choices, self._refusal)
        for part in parts:
            self._grid.removeWidget(part)
        self._names.setMaximumWidth(_WITHOUT_END if self._is_narrow else _names_wide())
        self._names.setMinimumWidth(_names_wide())
        if self._is_narrow:
            for row, part in enumerate(parts):
                self._grid.addWidget(part, row, 0, 1, 2)
            return
        self._grid.addWidget(self._names, 0, 0, 2, 1)
        self._grid.addWidget(self._choices, 0, 1)
        self._grid.addWidget(self._refusal, 1, 1)


def _names_wide() -> int:
    return round(_NAMES * min(text_scale(), _MOST_WIDENED))

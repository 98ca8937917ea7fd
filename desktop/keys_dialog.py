"""What the keys do, to be looked up."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QGridLayout, QVBoxLayout, QWidget

from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.theme import SECOND
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.widgets.scrolled import scrolled
from desktop.words import keys as words
from desktop.words import labels


class KeysDialog(QDialog):
    """Keys at the left, what they do at the right; the arrows scroll it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(words.TITLE)
        area = scrolled(_table())
        area.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        area.setAccessibleName(words.TITLE)
        buttons = QDialogButtonBox()
        buttons.addButton(labels.CLOSE, QDialogButtonBox.ButtonRole.RejectRole).setAccessibleName(labels.CLOSE)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 24, 24, 16)
        layout.setSpacing(16)
        layout.addWidget(area)
        layout.addWidget(buttons)
        room = self.screen().availableSize()
        self.resize(min(round(560 * text_scale()), room.width()), min(round(640 * text_scale()), room.height() - 40))


def _table() -> QWidget:
    table = QWidget()
    grid = QGridLayout(table)
    grid.setContentsMargins(0, 0, 8, 0)
    grid.setHorizontalSpacing(24)
    grid.setVerticalSpacing(4)
    grid.setColumnStretch(1, 1)
    top = Qt.AlignmentFlag.AlignTop
    for title, rows in words.PARTS:
        head = PlainLabel(title, font=fonts.sans(fonts.LEAD, bold=True))
        head.setContentsMargins(0, 12 if grid.count() else 0, 0, 4)
        grid.addWidget(head, grid.rowCount(), 0, 1, 2)
        for keys, does in rows:
            line = grid.rowCount()
            grid.addWidget(PlainLabel(keys, font=fonts.sans(fonts.FORM, bold=True)), line, 0, top)
            grid.addWidget(wrapped(does, fonts.sans(fonts.FORM), SECOND), line, 1, top)
    grid.setRowStretch(grid.rowCount(), 1)
    return table

"""What is wrong with a file, as a list that can be read and copied."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QPlainTextEdit, QVBoxLayout, QWidget

from core.text import tr
from desktop import fonts
from desktop.plan_files import Faults
from desktop.widgets.labels import PlainLabel
from desktop.words import labels


class FaultsDialog(QDialog):
    """Closes without a trace; the plan in the window was never touched."""

    def __init__(self, faults: Faults, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(labels.PROGRAM)
        self.head = PlainLabel(
            labels.faults_head(faults.path.name, 0 if faults.whole else len(faults.lines)),
            font=fonts.sans(fonts.LEAD, bold=True),
        )
        self.head.setWordWrap(True)
        self.list = QPlainTextEdit("\n".join(faults.lines))
        self.list.setReadOnly(True)
        self.list.setTabChangesFocus(True)
        self.list.setAccessibleName(tr("What is wrong with the file"))
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 24, 24, 16)
        layout.setSpacing(16)
        for widget in (self.head, self.list, buttons):
            layout.addWidget(widget)
        self.resize(680, 360)

"""The cautions beside the selected route, following the document."""

from __future__ import annotations

import msgspec
from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop.cautions.minder import Minder
from desktop.cautions.sheet import CautionSheet
from desktop.document import Document
from desktop.words import cautions as words


class CautionsPanel(QWidget):
    """Shows what the minder found; marks are kept in the plan, one step each."""

    def __init__(self, document: Document, minder: Minder, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._minder = document, minder
        self.sheet = CautionSheet(self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.sheet)
        self.sheet.marked.connect(self._mark)
        minder.changed.connect(self._show)
        document.selection_changed.connect(self._show)
        document.plan_changed.connect(self._show)
        self._show()

    def _show(self) -> None:
        one = self._document.selected
        of_route = self._minder.of(one) if one else None
        self.sheet.show_cautions(of_route, self._minder.of_plan, self._document.plan.cautions_read)

    def _mark(self, key: str, read: bool) -> None:
        plan = self._document.plan
        others = tuple(one for one in plan.cautions_read if one != key)
        marked = (*others, key) if read else others
        self._document.edit(msgspec.structs.replace(plan, cautions_read=marked), words.edit_name(read=read))

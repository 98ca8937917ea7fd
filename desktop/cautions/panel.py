"""The cautions beside the selected route, following the document."""

from __future__ import annotations

import msgspec
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.advice.caution import caution_key
from core.advice.surplus import Surplus
from core.routes.result import RouteResult
from desktop.cautions.minder import Minder
from desktop.cautions.sheet import CautionSheet
from desktop.document import Document
from desktop.words import cautions as words
from desktop.words.numbers import Numbers


class CautionsPanel(QWidget):
    """Shows what the minder found; marks are kept in the plan, one step each."""

    def __init__(self, document: Document, minder: Minder, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._minder, self._numbers = document, minder, numbers
        self._counted_of: RouteResult | None = None
        self.sheet = CautionSheet(self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.sheet)
        self.sheet.marked.connect(self._mark)
        self.sheet.unfolded.connect(self._count)
        minder.counted.connect(self._show_count)
        minder.changed.connect(self._show)
        document.selection_changed.connect(self._show)
        document.plan_changed.connect(self._show)
        self._show()

    def _show(self) -> None:
        one = self._document.selected
        of_route = self._minder.of(one) if one else None
        self.sheet.show_cautions(of_route, self._minder.of_plan, self._document.plan.cautions_read)
        if one is not None and of_route is not None and one.result is not self._counted_of:
            self._count_again(caution_key("surplus", one.id))

    def _count_again(self, key: str) -> None:
        """What is in sight of an older answer is counted anew."""
        if any(row.key == key and row.is_unfolded for row in self.sheet.rows()):
            self._count(key)

    def _count(self, key: str) -> None:
        """Surplus young are counted by look once somebody wants to know more of them."""
        one = self._document.selected
        if one is not None and key == caution_key("surplus", one.id):
            self._counted_of = one.result
            self.sheet.add(key, words.COUNTING)
            self._minder.count_surplus(one)

    def _show_count(self, route: str, found: tuple[Surplus, ...]) -> None:
        self.sheet.add(caution_key("surplus", route), words.by_look(found, self._numbers))

    def _mark(self, key: str, read: bool) -> None:
        plan = self._document.plan
        others = tuple(one for one in plan.cautions_read if one != key)
        marked = (*others, key) if read else others
        self._document.edit(msgspec.structs.replace(plan, cautions_read=marked), words.edit_name(read=read))

"""The ways out of the window: from menus and charts to what writes, prints and copies."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.menus import Menus
from desktop.page import Page
from desktop.panels.charts.chart import LiveChart
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from desktop.exports.desk import Desk


class Leaving(QObject):
    """Loads what writes when it is first asked for: the start does not wait for it."""

    def __init__(self, document: Document, minder: Minder, page: Page, numbers: Numbers, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._minder, self._page = document, minder, page
        self._numbers, self._window = numbers, window

    def connect_to(self, menus: Menus) -> None:
        """Answers the menus, the list and the charts."""
        actions = self._page.route_actions
        for asked, answer in (
            (menus.export_pdf.triggered, self._save_pdf), (menus.export_png.triggered, self._save_png),
            (menus.print_page.triggered, self._print), (menus.export_routes.triggered, self._save_routes),
            (actions.save.triggered, self._save_routes), (actions.copy.triggered, self._copy_routes),
            (self._page.evidence.save_asked, self._save_chart),
        ):  # fmt: skip
            asked.connect(answer)

    @cached_property
    def _desk(self) -> Desk:
        from desktop.exports.desk import Desk

        return Desk(self._document, self._minder, self._page, self._numbers, self._window)

    def _save_pdf(self) -> None:
        self._desk.save_pdf()

    def _save_png(self) -> None:
        self._desk.save_png()

    def _print(self) -> None:
        self._desk.print_page()

    def _save_routes(self) -> None:
        self._desk.save_routes()

    def _copy_routes(self) -> None:
        self._desk.copy_routes()

    def _save_chart(self, chart: LiveChart, kind: str) -> None:
        self._desk.save_chart(chart.name, chart.picture(), kind)

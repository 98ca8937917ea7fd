"""What of a window can leave the program: the page of the comparison, the table of routes, charts."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QDate, QLocale, QSize
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from core.advice.caution import Caution
from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.exports.asking import print_sheet, save, save_pdf, save_png
from desktop.exports.comparison import comparison_sheet, route_table
from desktop.exports.comparison_page import comparison_pages
from desktop.exports.outlined import chart_svg
from desktop.exports.paper import Sheet, as_png
from desktop.exports.tables import Table, as_csv, as_text, chart_table
from desktop.files.filing import is_sample
from desktop.findings import Finding
from desktop.page import Page
from desktop.panels.charts.image import chart_image
from desktop.panels.charts.series import Picture
from desktop.theme import LIGHT
from desktop.words import exports as words
from desktop.words.numbers import Numbers

# A chart as a file: in px of a screen, and how many px of a picture each of them is.
CHART_SIZE, _SHARP = QSize(900, 420), 3.0


class Desk:
    """Asks where to, and hands over values: nothing that is written needs the window any more."""

    def __init__(self, document: Document, minder: Minder, page: Page, numbers: Numbers, window: QWidget) -> None:
        self._document, self._minder, self._page = document, minder, page
        self._numbers, self._window = numbers, window

    def save_pdf(self) -> None:
        """The comparison as one page to print."""
        save_pdf(self._window, self.sheet(), self._folder())

    def save_png(self) -> None:
        """The same as a picture."""
        save_png(self._window, self.sheet(), self._folder())

    def print_page(self) -> None:
        """The same on paper, through the system's own dialog."""
        print_sheet(self._window, self.sheet())

    def save_routes(self) -> None:
        """The table of routes, with every column."""
        save(
            self._window,
            self._title(words.ROUTES),
            "csv",
            partial(as_csv, self.routes(), self._numbers),
            self._folder(),
        )

    def copy_routes(self) -> None:
        """The same to the clipboard."""
        QGuiApplication.clipboard().setText(as_text(self.routes()))

    def save_chart(self, name: str, picture: Picture, kind: str) -> None:
        """A chart as a picture or a drawing, always light, or the numbers behind it."""
        title, folder, numbers = self._title(name), self._folder(), self._numbers
        if kind == "csv":
            save(self._window, title, "csv", partial(as_csv, chart_table(picture, numbers), numbers), folder)
        elif kind == "svg":
            save(self._window, title, "svg", partial(chart_svg, picture, numbers, CHART_SIZE, title), folder)
        else:
            save(self._window, title, "png", partial(_chart_png, picture, numbers), folder)

    def sheet(self) -> Sheet:
        """The page, of the routes in the order of the list."""
        document, charts = self._document, self._page.evidence
        found = self._in_order()
        sheet = comparison_sheet(
            document.plan,
            found,
            document.verdict,
            (charts.money.chart.picture(), charts.eggs_picture()),
            self._cautions(found),
            self._numbers,
            QLocale().toString(QDate.currentDate(), QLocale.FormatType.LongFormat),
        )
        return comparison_pages(sheet, self._numbers)

    def routes(self) -> Table:
        """The table of routes."""
        return route_table(self._document.plan, self._in_order(), self._in_words, self._numbers)

    def _in_order(self) -> tuple[Finding, ...]:
        rows = self._page.routes.rows
        return tuple(sorted(self._document.shown, key=lambda one: rows.row_of(one.id)))

    def _cautions(self, found: tuple[Finding, ...]) -> list[Caution]:
        """Those on the best route first, then those on the whole plan."""
        best = self._document.verdict.best
        of_best = (self._minder.of(best) or ()) if best is not None and best in found else ()
        return [*self._minder.unread(of_best), *self._minder.unread(self._minder.of_plan)]

    def _in_words(self, one: Finding) -> str:
        known = self._minder.of(one)
        return "; ".join(caution.short for caution in self._minder.unread(known or ()))

    def _title(self, what: str) -> str:
        return f"{self._document.plan.title or words.UNNAMED}, {what}"

    def _folder(self) -> Path | None:
        path = self._document.path
        return None if path is None or is_sample(path) else path.parent


def _chart_png(picture: Picture, numbers: Numbers) -> bytes:
    return as_png(chart_image(picture, numbers, LIGHT, CHART_SIZE, _SHARP))

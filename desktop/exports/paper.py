"""What is painted once goes to a PDF, a picture or a printer."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QBuffer, QIODevice, QLocale, QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter, QPdfWriter

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

# Painted into a rectangle, whatever it stands for.
Paint = Callable[[QPainter, QRectF], None]
# Points of a PDF to an inch: fine enough for hairlines, and what is painted stays lines and letters.
_FINE = 1200
_PRINT_DPI = 300
_INCH = 25.4
# A quarter of a letter page, where paper is measured in inches.
_QUARTER_LETTER = QSizeF(4.25, 5.5)


class Sheet(msgspec.Struct, frozen=True):
    """Something to print: its title, its pages, and the paper it is meant for."""

    title: str
    pages: tuple[Paint, ...]
    paper: QPageSize

    @property
    def millimetres(self) -> QSizeF:
        """The size of a page."""
        return self.paper.size(QPageSize.Unit.Millimeter)


def card_paper(locale: QLocale | None = None) -> QPageSize:
    """A6, or a quarter of a letter page where that is the paper."""
    if page_paper(locale).id() == QPageSize.PageSizeId.Letter:
        return QPageSize(_QUARTER_LETTER, QPageSize.Unit.Inch, "Quarter letter", QPageSize.SizeMatchPolicy.ExactMatch)
    return QPageSize(QPageSize.PageSizeId.A6)


def page_paper(locale: QLocale | None = None) -> QPageSize:
    """The paper that is usual where the person lives."""
    inches = (locale or QLocale()).measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
    return QPageSize(QPageSize.PageSizeId.Letter if inches else QPageSize.PageSizeId.A4)


def as_pdf(sheet: Sheet) -> bytes:
    """The sheet as lines and letters, with its fonts in it."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setPageSize(sheet.paper)
    writer.setPageMargins(QMarginsF(0, 0, 0, 0))
    writer.setResolution(_FINE)
    writer.setTitle(sheet.title)
    writer.setCreator("Pairwright")
    painter = QPainter(writer)
    area = QRectF(writer.pageLayout().fullRectPixels(_FINE))
    for place, paint in enumerate(sheet.pages):
        if place:
            writer.newPage()
        paint(painter, area)
    painter.end()
    return bytes(buffer.data().data())


def as_picture(sheet: Sheet, page: int = 0, dots_an_inch: int = _PRINT_DPI) -> QImage:
    """One page as a picture, sharp enough to print."""
    size = sheet.millimetres * (dots_an_inch / _INCH)
    image = QImage(size.toSize(), QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(dots_an_inch / _INCH * 1000))
    image.setDotsPerMeterY(round(dots_an_inch / _INCH * 1000))
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    sheet.pages[page](painter, QRectF(0, 0, image.width(), image.height()))
    painter.end()
    return image


def as_png(image: QImage) -> bytes:
    """A picture as the bytes of a file."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    return bytes(buffer.data().data())


def print_on(printer: QPrinter, sheet: Sheet) -> None:
    """All pages on a printer's own paper, as large as they fit between its margins."""
    painter = QPainter(printer)
    for place, paint in enumerate(sheet.pages):
        if place:
            printer.newPage()
        paint(painter, _fitted(QRectF(painter.viewport()), sheet.millimetres))
    painter.end()


def prepare(printer: QPrinter, sheet: Sheet) -> None:
    """Asks the printer for the sheet's paper."""
    printer.setPageSize(sheet.paper)
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    printer.setDocName(sheet.title)


def _fitted(room: QRectF, size: QSizeF) -> QRectF:
    """The largest rectangle of the sheet's shape in the middle of the room."""
    shape = size.scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
    fitted = QRectF(0, 0, shape.width(), shape.height())
    fitted.moveCenter(room.center())
    return fitted

"""An odds card as a file, under a name of its own in a folder of its own: nobody is asked for either."""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF, QRectF, QSizeF, QStandardPaths, Qt
from PySide6.QtGui import QImage, QPageSize, QPainter, QPdfWriter

from core.counter.card import OddsCard
from desktop.exports.odds_card import paint_card
from desktop.words import counter as words

# A6 portrait.
_PAGE = QSizeF(105, 148)
_DPI, _MM_AN_INCH = 300, 25.4
_MOST_OF_A_NAME = 10_000


def card_folder() -> Path:
    """Among the person's documents."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return Path(place) / words.FOLDER


def picture_bytes(card: OddsCard) -> bytes:
    """The card as a PNG file, 300 dots an inch."""
    to_px = _DPI / _MM_AN_INCH
    picture = QImage(round(_PAGE.width() * to_px), round(_PAGE.height() * to_px), QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.white)
    picture.setDotsPerMeterX(round(to_px * 1000))
    picture.setDotsPerMeterY(round(to_px * 1000))
    painter = QPainter(picture)
    paint_card(painter, QRectF(picture.rect()), card)
    painter.end()
    buffer = _opened()
    picture.save(buffer, "PNG")  # type: ignore[call-overload]
    return bytes(buffer.data().data())


def pdf_bytes(card: OddsCard) -> bytes:
    """The card as a PDF file of its own size."""
    buffer = _opened()
    writer = QPdfWriter(buffer)
    writer.setPageSize(QPageSize(_PAGE, QPageSize.Unit.Millimeter, words.ODDS_CARD))
    writer.setPageMargins(QMarginsF(0, 0, 0, 0))
    writer.setResolution(_DPI)
    writer.setTitle(f"{words.ODDS_CARD}: {card.male} {words.TIMES} {card.female}")
    painter = QPainter(writer)
    paint_card(painter, QRectF(0, 0, writer.width(), writer.height()), card)
    painter.end()
    return bytes(buffer.data().data())


def keep_card(content: bytes, folder: Path, name: str, ending: str) -> Path:
    """Writes a file under a name that none has yet; `ending` with its dot. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    for number in range(1, _MOST_OF_A_NAME):
        path = folder / f"{name}{f'-{number}' if number > 1 else ''}{ending}"
        try:
            file = path.open("xb")
        except FileExistsError:
            continue
        try:
            with file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
        except OSError:
            path.unlink(missing_ok=True)
            raise
        return path
    raise FileExistsError(str(folder))


def _opened() -> QBuffer:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    return buffer

"""An odds card as a file, under a name of its own in a folder of its own: nobody is asked for either."""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QStandardPaths

from core.counter.card import OddsCard
from desktop.exports.odds_card import card_sheet
from desktop.exports.paper import as_pdf, as_picture, as_png
from desktop.words import counter as words

_MOST_OF_A_NAME = 10_000


def card_folder() -> Path:
    """Among the person's documents."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return Path(place) / words.FOLDER


def picture_bytes(card: OddsCard) -> bytes:
    """The card as a PNG file, sharp enough to print."""
    return as_png(as_picture(card_sheet(card)))


def pdf_bytes(card: OddsCard) -> bytes:
    """The card as a PDF file of its own size."""
    return as_pdf(card_sheet(card))


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

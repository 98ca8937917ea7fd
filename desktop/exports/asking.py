"""Asks where to, and writes whole or not at all; a failure is a sentence, and nothing is lost."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QDialog, QFileDialog, QWidget

from desktop.exports.paper import Sheet, as_pdf, as_picture, as_png, prepare, print_on
from desktop.exports.writing import write_beside
from desktop.words import exports as words

Kind = Literal["pdf", "png", "svg", "csv"]
# What no file name may hold on some system, and what would hide the file.
_FORBIDDEN = '<>:"/\\|?*'
_LONGEST = 80


def file_name(title: str, kind: Kind) -> str:
    """A name that every system takes, from a title that may hold anything."""
    kept = "".join(" " if one in _FORBIDDEN or not one.isprintable() else one for one in title)
    short = " ".join(kept.split())[:_LONGEST].strip(". ")
    return f"{short or words.UNNAMED}.{kind}"


def save(parent: QWidget, title: str, kind: Kind, content: Callable[[], bytes], folder: Path | None = None) -> bool:
    """Asks for a file and has it written beside the window; whether one was chosen.

    `content` is worked out in another thread: it must need nothing of the window.
    """
    start = (folder or _documents()) / file_name(title, kind)
    name, _ = QFileDialog.getSaveFileName(parent, words.SAVE_TITLE, str(start), words.FILTERS[kind])
    if not name:
        return False
    path = Path(name)
    path = path if path.suffix.lower() == f".{kind}" else path.with_name(f"{path.name}.{kind}")
    write_beside(parent, path, content)
    return True


def save_pdf(parent: QWidget, sheet: Sheet, folder: Path | None = None) -> bool:
    """The sheet as a PDF."""
    return save(parent, sheet.title, "pdf", partial(as_pdf, sheet), folder)


def save_png(parent: QWidget, sheet: Sheet, folder: Path | None = None) -> bool:
    """The first page as a picture, sharp enough to print."""
    return save(parent, sheet.title, "png", partial(_png_of, sheet), folder)


def _png_of(sheet: Sheet) -> bytes:
    return as_png(as_picture(sheet))


def print_sheet(parent: QWidget, sheet: Sheet) -> bool:
    """Through the system's own dialog; whether it was sent to a printer."""
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    prepare(printer, sheet)
    dialog = QPrintDialog(printer, parent)
    if dialog.exec() != QDialog.DialogCode.Accepted:
        return False
    print_on(printer, sheet)
    return True


def _documents() -> Path:
    return Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation))

"""The list as it was pasted: unclear words underlined where they stand; files can be dropped on it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QMimeData, Signal
from PySide6.QtGui import QColor, QTextBlock, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QFrame, QPlainTextEdit, QTextEdit, QWidget

from core.paste.parts import Line, Listing, Mark
from desktop import fonts
from desktop.paste.files import list_in
from desktop.theme import colours_of
from desktop.words import paste as words


class ListText(QPlainTextEdit):
    """Plain text; Tab goes on to the next part of the window."""

    # A file that was dropped or pasted, and is no list.
    refused = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFont(fonts.sans(fonts.FORM))
        self.setPlaceholderText(words.EXAMPLE)
        self.setAccessibleName(words.LEFT)
        self.setTabChangesFocus(True)

    def canInsertFromMimeData(self, source: QMimeData) -> bool:  # noqa: D102
        return any(url.isLocalFile() for url in source.urls()) or super().canInsertFromMimeData(source)

    def insertFromMimeData(self, source: QMimeData) -> None:  # noqa: D102
        paths = [Path(url.toLocalFile()) for url in source.urls() if url.isLocalFile()]
        if not paths:
            super().insertFromMimeData(source)
        for path in paths:
            self.insert_file(path)

    def insert_file(self, path: Path) -> None:
        """Adds the lines of a file where the cursor is."""
        text = list_in(path)
        if text is None:
            self.refused.emit(words.no_list(path.name))
        else:
            self.insertPlainText(text if text.endswith("\n") else f"{text}\n")

    def replace_lines(self, texts: list[str]) -> None:
        """Other lines, as one step that the text's own undo takes back; the view stays where it is."""
        place = self.verticalScrollBar().value()
        cursor = self.textCursor()
        cursor.select(QTextCursor.SelectionType.Document)
        cursor.insertText("\n".join(texts))
        self.verticalScrollBar().setValue(place)

    def underline(self, listing: Listing) -> None:
        """A wavy line under every unclear word."""
        ink = QTextCharFormat()
        ink.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
        ink.setUnderlineColor(QColor(colours_of(self.palette()).error))
        found = []
        for line, block, start in self._places(listing):
            found += [self._stretch(block, start, mark, ink) for mark in line.marks]
        self.setExtraSelections(found)

    def show_line(self, listing: Listing, wanted: int) -> None:
        """Brings a line of the listing into view."""
        for number, (_, block, _) in enumerate(self._places(listing)):
            if number == wanted:
                cursor = QTextCursor(block)
                self.setTextCursor(cursor)

    def _places(self, listing: Listing) -> Iterator[tuple[Line, QTextBlock, int]]:
        """Where each line stands as it was typed; lines laid out from CSV stand nowhere."""
        block = self.document().begin()
        for line in listing.lines:
            while block.isValid() and not block.text().strip():
                block = block.next()
            start = block.text().find(line.text) if block.isValid() else -1
            if start >= 0:
                yield line, block, start
            block = block.next()

    def _stretch(self, block: QTextBlock, start: int, mark: Mark, ink: QTextCharFormat) -> QTextEdit.ExtraSelection:
        stretch = QTextEdit.ExtraSelection()
        stretch.cursor = QTextCursor(self.document())
        stretch.cursor.setPosition(_place(block, start + mark.start))
        stretch.cursor.setPosition(_place(block, start + mark.end), QTextCursor.MoveMode.KeepAnchor)
        stretch.format = ink
        return stretch


def _place(block: QTextBlock, letters: int) -> int:
    """The place after so many letters of a block; Qt counts some letters as two."""
    return block.position() + len(block.text()[:letters].encode("utf-16-le", "surrogatepass")) // 2

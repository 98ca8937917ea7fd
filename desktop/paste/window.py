"""The paste window: the list on the left, what was understood on the right, one unclear word at a time below."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QTextBlock, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QTextEdit,
    QWidget,
)

from core.paste.parts import Line, Listing, Mark, Target, settle
from core.paste.read import read_list
from core.paste.take import add_for_sale, add_my_animals
from desktop.document import Document
from desktop.theme import colours_of
from desktop.words import paste as words

# A list longer than this is cut on the way in, so that typing in it stays quick.
_LONGEST = 200_000
_NUMBERS = (2, 3)


class PasteWindow(QDialog):
    """Reads what is pasted at once; adds the clear lines as one step that can be undone."""

    def __init__(self, document: Document, target: Target, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._target = target
        self._listing = Listing(())
        self._open: tuple[int, Line, Mark] | None = None
        self.setWindowTitle(words.TITLE)
        self.resize(1040, 620)
        self.text = QPlainTextEdit()
        self.text.setPlaceholderText(words.EXAMPLE)
        self.text.setAccessibleName(words.LEFT)
        self.text.setTabChangesFocus(True)
        self.table = _table()
        self.question = _plain_label()
        self.choices = QComboBox()
        self.choices.setAccessibleName(words.CHOICES)
        self.use = QPushButton(words.USE)
        self.summary = _plain_label()
        self.add = QPushButton()
        for button in (self.use, self.add):
            button.setAutoDefault(False)
        self._lay_out()
        self.text.textChanged.connect(self._read)
        self.use.clicked.connect(self._settle)
        self.choices.currentIndexChanged.connect(self._chosen)
        self.add.clicked.connect(self._add)
        self._read()

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(24, 24, 24, 24)
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(8)
        for column, (name, widget) in enumerate(((words.LEFT, self.text), (words.RIGHT, self.table))):
            label = QLabel(name)
            label.setBuddy(widget)
            grid.addWidget(label, 0, column)
            grid.addWidget(widget, 1, column)
            grid.setColumnStretch(column, 2 + column)
        grid.addWidget(self.question, 2, 0, 1, 2)
        for line, widgets in ((3, (self.choices, self.use)), (4, (self.summary, self.add))):
            row = QHBoxLayout()
            row.addWidget(widgets[0], 1)
            row.addWidget(widgets[1])
            grid.addLayout(row, line, 0, 1, 2)

    def _read(self) -> None:
        text = self.text.toPlainText()[:_LONGEST]
        self._listing = read_list(text, self._document.plan, self._target)
        self.table.setRowCount(len(self._listing.lines))
        for number, line in enumerate(self._listing.lines):
            for column, cell in enumerate(words.row(self._document.plan, line)):
                item = QTableWidgetItem(cell)
                if column in _NUMBERS:
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                self.table.setItem(number, column, item)
        self.summary.setText(words.summary(self._listing))
        clear = [line for line in self._listing.lines if line.settled]
        count = len(clear) if self._target == "for sale" else sum(line.quantity for line in clear)
        self.add.setText(words.add_button(self._target, count))
        self.add.setEnabled(bool(clear))
        self._underline()
        self._ask()

    def _underline(self) -> None:
        """A wavy line under the unclear words, where the lines stand as they were typed."""
        ink = QTextCharFormat()
        ink.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
        ink.setUnderlineColor(QColor(colours_of(self.palette()).error))
        block, found = self.text.document().begin(), []
        for line in self._listing.lines:
            while block.isValid() and not block.text().strip():
                block = block.next()
            shown = block.text() if block.isValid() else ""
            start = shown.find(line.text)
            if start >= 0:
                found += [self._stretch(block, start, mark, ink) for mark in line.marks]
            block = block.next()
        self.text.setExtraSelections(found)

    def _stretch(self, block: QTextBlock, start: int, mark: Mark, ink: QTextCharFormat) -> QTextEdit.ExtraSelection:
        stretch = QTextEdit.ExtraSelection()
        stretch.cursor = QTextCursor(self.text.document())
        stretch.cursor.setPosition(_place(block, start + mark.start))
        stretch.cursor.setPosition(_place(block, start + mark.end), QTextCursor.MoveMode.KeepAnchor)
        stretch.format = ink
        return stretch

    def _ask(self) -> None:
        marked = ((number, line) for number, line in enumerate(self._listing.lines) if line.marks)
        found = next(marked, None)
        self._open = (found[0], found[1], found[1].marks[0]) if found else None
        self.choices.clear()
        if self._open is None:
            self.question.setText(words.ALL_CLEAR if self._listing.lines else "")
        else:
            number, line, mark = self._open
            self.question.setText(words.question(number + 1, line, mark))
            self.choices.addItems([choice.words for choice in mark.choices] or [words.TO_TYPE])
            self.table.selectRow(number)
        # Nothing is chosen beforehand: a careless Enter must not guess.
        self.choices.setPlaceholderText(words.CHOOSE if self._open else "")
        self.choices.setCurrentIndex(-1)
        self.choices.setEnabled(self._open is not None and not self._listing.unread)
        self._chosen()

    def _chosen(self) -> None:
        has_choices = self._open is not None and bool(self._open[2].choices)
        self.use.setEnabled(has_choices and self.choices.currentIndex() >= 0 and not self._listing.unread)

    def _settle(self) -> None:
        if self._open is not None:
            number, line, mark = self._open
            texts = [other.text for other in self._listing.lines]
            texts[number] = settle(line, mark, mark.choices[self.choices.currentIndex()])
            self.text.setPlainText("\n".join(texts))

    def _add(self) -> None:
        lines = [line for line in self._listing.lines if line.settled]
        add = add_for_sale if self._target == "for sale" else add_my_animals
        faults = self._document.edit(add(self._document.plan, lines), words.added(len(lines)))
        if faults:
            self.summary.setText(faults[0].message)
            return
        self.text.setPlainText("\n".join(line.text for line in self._listing.lines if line.marks))
        if not self._listing.lines:
            self.accept()


def _place(block: QTextBlock, letters: int) -> int:
    """The place after so many letters of a block; Qt counts some letters as two."""
    return block.position() + len(block.text()[:letters].encode("utf-16-le", "surrogatepass")) // 2


def _table() -> QTableWidget:
    table = QTableWidget(0, len(words.COLUMNS))
    table.setHorizontalHeaderLabels(words.COLUMNS)
    table.setAccessibleName(words.RIGHT)
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
    table.verticalHeader().hide()
    return table


def _plain_label() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label

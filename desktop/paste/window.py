"""The paste window: the list on the left, what was understood on the right, one unclear word at a time below."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import QEvent, QModelIndex
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QHeaderView,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from core.paste.parts import Choice, Line, Mark, Target, settle
from core.paste.take import add_for_sale, add_my_animals
from desktop import fonts
from desktop.document import Document
from desktop.forms.fields import SentenceChoice
from desktop.paste.asking import Asking
from desktop.paste.reading import Reading
from desktop.paste.rows import ListingRows
from desktop.paste.text import ListText
from desktop.theme import SECOND, Colours, colours_of
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import paste as words
from desktop.words.numbers import Numbers

# A list longer than this is cut on the way in, so that typing in it stays quick.
_LONGEST = 200_000
_TARGETS: tuple[Target, ...] = ("for sale", "mine")
_ROW = 28


class PasteWindow(QDialog):
    """Reads what is pasted at once; adds the clear lines as one step that can be undone."""

    def __init__(self, document: Document, target: Target, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._reading = Reading(self)
        self._wanted: int | None = None
        self._colours: Colours | None = None
        self.setWindowTitle(words.TITLE)
        serif = fonts.serif(fonts.SENTENCE, bold=True)
        self.target = SentenceChoice(words.TARGET_NAME, serif, tuple(words.TARGETS[one] for one in _TARGETS))
        self.target.setCurrentIndex(_TARGETS.index(target))
        self.text = ListText()
        self.rows = ListingRows(numbers, self)
        self.table = _table(self.rows)
        self.asking = Asking()
        self.summary = PlainLabel(font=fonts.sans(fonts.FORM), ink=SECOND)
        self.summary.setWordWrap(True)
        self.add = button("", "main")
        self.close_button = button(words.CLOSE, "plain")
        self._page = Inked(self)
        self._lay_out()
        self.resize(1080, 640)
        self._ink()
        self.text.textChanged.connect(self._read)
        self.text.refused.connect(self.summary.setText)
        self.target.currentIndexChanged.connect(self._read)
        self.asking.settled.connect(self._settle)
        self.table.selectionModel().currentRowChanged.connect(self._row_chosen)
        self.add.clicked.connect(self._add)
        self.close_button.clicked.connect(self.reject)
        self._reading.done.connect(self._show)
        self._reading.progressed.connect(self._tell_progress)
        self._read()

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._ink()

    def _ink(self) -> None:
        colours = colours_of(self.palette())
        # A sheet changes palettes too: only another set of colours counts.
        if colours is self._colours:
            return
        self._colours = colours
        self._page.dress()
        self.rows.ink(colours)
        self.table.horizontalHeader().setStyleSheet(
            f"QHeaderView::section {{ background: transparent; border: none; color: {colours.second};"
            " padding: 2px 4px 4px 2px; }"
        )

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(6)
        head.addWidget(PlainLabel(words.HEAD, font=fonts.serif(fonts.SENTENCE), ink=SECOND))
        head.addWidget(self.target)
        head.addStretch(1)
        grid = QGridLayout()
        grid.setHorizontalSpacing(24)
        grid.setVerticalSpacing(4)
        for column, (name, widget) in enumerate(((words.LEFT, self.text), (words.RIGHT, self.table))):
            label = PlainLabel(name, font=fonts.sans(fonts.HEAD), ink=SECOND)
            label.setBuddy(widget)
            grid.addWidget(label, 0, column)
            grid.addWidget(_hairline(), 1, column)
            grid.addWidget(widget, 2, column)
            grid.addWidget(_hairline(), 3, column)
            grid.setColumnStretch(column, 2 + column)
        foot = QHBoxLayout()
        foot.setSpacing(16)
        foot.addWidget(self.summary, 1)
        foot.addWidget(self.add)
        foot.addWidget(self.close_button)
        page = QVBoxLayout(self._page)
        page.setContentsMargins(24, 16, 24, 16)
        page.setSpacing(12)
        page.addLayout(head)
        page.addLayout(grid, 1)
        page.addWidget(self.asking)
        page.addLayout(foot)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._page)
        # What comes next is to paste, and what the list is of was said on the way here.
        self.text.setFocus()

    def _target(self) -> Target:
        return _TARGETS[self.target.currentIndex()]

    def _read(self) -> None:
        self._reading.read(self.text.toPlainText()[:_LONGEST], self._document.plan, self._target())

    def _tell_progress(self, done: int, of: int) -> None:
        self.add.setEnabled(False)
        self.summary.setText(words.reading(done, of))

    def _show(self) -> None:
        listing = self._reading.listing
        self.rows.show_listing(listing, self._document.plan)
        self.summary.setText(words.summary(listing))
        clear = [line for line in listing.lines if line.settled]
        count = len(clear) if self._target() == "for sale" else sum(line.quantity for line in clear)
        self.add.setText(words.add_button(self._target(), count))
        self.add.setEnabled(bool(clear))
        self.text.underline(listing)
        self._ask()

    def _ask(self) -> None:
        lines = self._reading.listing.lines
        number = self._wanted
        if number is None or number >= len(lines) or lines[number].settled:
            number = next((place for place, line in enumerate(lines) if line.marks), None)
        self._wanted = number
        self.asking.ask(self._reading.listing, number)
        for before, after in pairwise((self.table, *self.asking.choices, self.add, self.close_button)):
            self.setTabOrder(before, after)
        if number is not None and self.table.currentIndex().row() != number:
            self.table.selectRow(number)

    def _row_chosen(self, now: QModelIndex) -> None:
        lines = self._reading.listing.lines
        if now.isValid() and now.row() < len(lines) and now.row() != self._wanted:
            self.text.show_line(self._reading.listing, now.row())
            if not lines[now.row()].settled:
                self._wanted = now.row()
                self._ask()

    def _settle(self, mark: Mark, places: list[int], choice: Choice) -> None:
        lines = self._reading.listing.lines
        if self._reading.busy or not all(place < len(lines) for place in places):
            return
        texts = [_settled(line, mark, choice) if at in places else line.text for at, line in enumerate(lines)]
        self.text.replace_lines(texts)

    def _add(self) -> None:
        lines = [line for line in self._reading.listing.lines if line.settled]
        add = add_for_sale if self._target() == "for sale" else add_my_animals
        faults = self._document.edit(add(self._document.plan, lines), words.added(len(lines)))
        if faults:
            self.summary.setText(faults[0].message)
            return
        self.text.setPlainText("\n".join(line.text for line in self._reading.listing.lines if line.marks))
        if not self._reading.listing.lines:
            self.accept()


def _settled(line: Line, asked: Mark, choice: Choice) -> str:
    """The line with the mark that was asked about said clearly; it may stand elsewhere in another line."""
    mark = next((one for one in line.marks if (one.reason, one.choices) == (asked.reason, asked.choices)), None)
    return settle(line, mark, choice) if mark else line.text


def _table(rows: ListingRows) -> QTableView:
    table = QTableView()
    table.setModel(rows)
    table.setAccessibleName(words.RIGHT)
    table.setFrameShape(QFrame.Shape.NoFrame)
    table.setFont(fonts.sans(fonts.FORM))
    table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    table.setTabKeyNavigation(False)
    table.setShowGrid(False)
    table.setWordWrap(False)
    head = table.horizontalHeader()
    head.setFont(fonts.sans(fonts.HEAD))
    head.setHighlightSections(False)
    head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
    for column in range(1, len(words.COLUMNS)):
        head.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
        wide = max(table.fontMetrics().horizontalAdvance(word) for word in (words.COLUMNS[column], words.UNCLEAR))
        table.setColumnWidth(column, wide + 24)
    table.verticalHeader().hide()
    table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    table.verticalHeader().setDefaultSectionSize(max(_ROW, table.fontMetrics().height() + 8))
    return table


def _hairline() -> QFrame:
    line = QFrame()
    line.setProperty("look", "hairline")
    line.setFixedHeight(1)
    return line

"""A part of the page that is a list: its entries at the left, the form of the chosen one at the right."""

from __future__ import annotations

from PySide6.QtCore import QAbstractListModel, QItemSelectionModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QListView, QMenu, QVBoxLayout, QWidget

from core.plan.places import value_at, with_value
from desktop import fonts
from desktop.assumptions.editors import EDITORS
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.document import Document
from desktop.forms.sheet import Origin, Sheet
from desktop.panels.charts.size import text_scale
from desktop.theme import NOTES
from desktop.widgets.flow import Flow
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, tip
from desktop.widgets.scrolled import scrolled
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers
from desktop.words.told import told

_LIST_WIDTH, _LEAST_LIST = 288, 80
_Index = QModelIndex | QPersistentModelIndex


class Items(Inked):
    """Adding, removing and moving are steps of the plan; what else speaks of an entry is told before it goes."""

    # A whole list is to be pasted; what it is of.
    paste_asked = Signal(str)
    # What each entry is worth is to be told.
    worth_asked = Signal()

    def __init__(self, listing: Listing, document: Document, numbers: Numbers, origin: Origin) -> None:
        super().__init__()
        self.listing, self._document, self._numbers = listing, document, numbers
        self._pending: Removal | None = None
        self.rows = _Rows(listing, document, numbers, self)
        self.add = button(words.ADD, "link", self)
        self.paste = button(words.PASTE, "link", self)
        self.paste.setVisible(listing.pasted is not None)
        self.remove = button(words.REMOVE, "link", self)
        self.worth = button(words.WORTH, "link", self)
        self.up, self.down = button(words.UP, "link", self), button(words.DOWN, "link", self)
        self.agree, self.keep = button(words.REMOVE_ALL, "plain", self), button(words.KEEP, "link", self)
        # Tab goes from one to the next in the order they are made.
        self.list = _EntryList(self.rows, listing.name, self)
        self.empty = PlainLabel(listing.empty, font=fonts.sans(fonts.FORM), ink=NOTES, parent=self)
        self.empty.setWordWrap(True)
        self.question = PlainLabel(font=fonts.sans(fonts.HEAD), parent=self)
        self.question.setProperty("look", "caution")
        self.question.setWordWrap(True)
        self.sheet = Sheet(listing.forms, document, numbers, origin=origin, editors=EDITORS, shown=False)
        self._lay_out()
        self.list.selectionModel().currentChanged.connect(self._choose)
        self.add.clicked.connect(self._add)
        self.paste.clicked.connect(self._paste)
        self.worth.clicked.connect(self.worth_asked)
        self.remove.clicked.connect(self._ask)
        self.agree.clicked.connect(self._remove_pending)
        self.keep.clicked.connect(self._forget)
        self.up.clicked.connect(self._move_up)
        self.down.clicked.connect(self._move_down)
        document.plan_changed.connect(self._follow)
        self.choose(0)
        self._follow()
        self.dress()

    @property
    def current(self) -> int:
        """The entry whose form is shown; -1 where there is none."""
        return self.list.currentIndex().row()

    def choose(self, entry: int) -> None:
        """Shows the form of an entry."""
        index = self.rows.index(min(max(entry, 0), self.rows.rowCount() - 1), 0)
        self.list.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)

    def _follow(self) -> None:
        # The form follows the plan by itself; here only the list, and what there is to do with it.
        before = self.current
        if self.rows.follow():
            self.choose(before)
        some = self.rows.rowCount() > 0
        self._forget()
        self.empty.setVisible(not some)
        self.list.setVisible(some)
        # With what scrolls it, whose bars would stay.
        self._beside.setVisible(some)
        self.remove.setVisible(some)
        self.worth.setVisible(some and self.listing.weighed)
        for one in (self.up, self.down):
            one.setVisible(self.listing.ordered and self.rows.rowCount() > 1)
        self._enable()

    def _choose(self) -> None:
        self._forget()
        self._enable()
        if self.current >= 0:
            self.sheet.show_entry(self.current)

    def _enable(self) -> None:
        self.up.setEnabled(self.current > 0)
        self.down.setEnabled(0 <= self.current < self.rows.rowCount() - 1)

    def _add(self) -> None:
        ways = self.listing.adding(self._document.plan)
        if len(ways) == 1:
            self.add_by(ways[0])
            return
        if not ways:
            self._say(words.NO_MORE_TO_ADD)
            return
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for way in ways:
            action = menu.addAction(way.label.replace("&", "&&"))
            action.setData(way)
        menu.triggered.connect(self._add_chosen)
        menu.popup(self.add.mapToGlobal(self.add.rect().bottomLeft()))

    def _add_chosen(self, action: QAction) -> None:
        way = action.data()
        if isinstance(way, Adding):
            self.add_by(way)

    def add_by(self, way: Adding) -> None:
        """Adds an entry in one of the listing's ways, and shows its form."""
        plan = way.add(self._document.plan)
        faults = self._document.edit(plan, way.step)
        if faults:
            self._say(told(plan, self.listing.name, faults[0]))
            return
        self.choose(self.rows.rowCount() - 1)
        first = self.sheet.first_field()
        if first is not None:
            first.setFocus()
        if isinstance(first, QLineEdit):
            # What is typed takes the place of the name that it has so far.
            first.selectAll()

    def _paste(self) -> None:
        self.paste_asked.emit(self.listing.pasted)

    def _ask(self) -> None:
        removal = self.listing.remove(self._document.plan, self.current)
        if removal.never:
            self._say(removal.never)
        elif removal.also:
            self._say(removal.also)
            self._pending = removal
            self.agree.show()
            self.keep.show()
            self.agree.setFocus()
        else:
            self._remove(removal)

    def _remove_pending(self) -> None:
        if self._pending is not None:
            self._remove(self._pending)

    def _remove(self, removal: Removal) -> None:
        faults = self._document.edit(removal.plan, words.removed(self.listing.one))
        if faults:
            self._forget()
            self._say(told(removal.plan, self.listing.name, faults[0]))
        elif self.rows.rowCount():
            self.list.setFocus()
        else:
            self.add.setFocus()

    def _say(self, sentence: str) -> None:
        self.question.setText(sentence)
        self.question.show()

    def _forget(self) -> None:
        self._pending = None
        for one in (self.question, self.agree, self.keep):
            one.hide()

    def _move_up(self) -> None:
        self._move(-1)

    def _move_down(self) -> None:
        self._move(1)

    def _move(self, by: int) -> None:
        at, plan = self.current, self._document.plan
        entries = list(value_at(plan, self.listing.place))
        entries.insert(at + by, entries.pop(at))
        if not self._document.edit(with_value(plan, self.listing.place, tuple(entries)), words.moved(self.listing.one)):
            self.choose(at + by)

    def _lay_out(self) -> None:
        doing, agreeing = Flow(gap=12), Flow(gap=12)
        for one in (self.add, self.paste, self.remove, self.up, self.down):
            doing.addWidget(one)
        for one in (self.agree, self.keep):
            agreeing.addWidget(one)
        left = QVBoxLayout()
        left.setSpacing(4)
        left.addLayout(doing)
        left.addWidget(self.worth)
        left.addWidget(self.question)
        left.addLayout(agreeing)
        left.addWidget(self.empty)
        self.list.setMinimumHeight(round(_LEAST_LIST * text_scale()))
        left.addWidget(self.list, 1)
        left.addStretch(0)
        side = QWidget(self)
        side.setLayout(left)
        left.setContentsMargins(0, 0, 0, 0)
        listed = scrolled(side, self)
        listed.setFixedWidth(round(_LIST_WIDTH * text_scale()))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(24)
        layout.addWidget(listed)
        self._beside = scrolled(self.sheet, self)
        # The list keeps its place.
        size = self._beside.sizePolicy()
        size.setRetainSizeWhenHidden(True)
        self._beside.setSizePolicy(size)
        layout.addWidget(self._beside, 1)


class _Rows(QAbstractListModel):
    """The entries in words; only those in sight are ever put into words."""

    def __init__(self, listing: Listing, document: Document, numbers: Numbers, parent: QWidget) -> None:
        super().__init__(parent)
        self._listing, self._document, self._numbers = listing, document, numbers
        self._count = listing.entries(document.plan)

    def rowCount(self, _parent: _Index | None = None) -> int:
        return self._count

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> str | None:
        plan, row = self._document.plan, index.row()
        if not 0 <= row < self._listing.entries(plan):
            return None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            note = self._listing.note(plan, row, self._numbers)
            title = self._listing.title(plan, row, self._numbers)
            return f"{title}\n{note}" if role == Qt.ItemDataRole.DisplayRole else f"{title}, {note}"
        if role == Qt.ItemDataRole.ToolTipRole:
            return tip(self._listing.title(plan, row, self._numbers))
        return None

    def follow(self) -> bool:
        """Looks at the plan again; whether the number of entries is another one."""
        count = self._listing.entries(self._document.plan)
        if count == self._count:
            if count:
                self.dataChanged.emit(self.index(0, 0), self.index(count - 1, 0))
            return False
        self.beginResetModel()
        self._count = count
        self.endResetModel()
        return True


class _EntryList(QListView):
    def __init__(self, rows: _Rows, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setModel(rows)
        self.setAccessibleName(name)
        self.setFont(fonts.sans(fonts.FORM))
        self.setProperty("look", "list")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setUniformItemSizes(True)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

"""Everything a plan takes for given: parts at the left, the form of one part at the right."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QStringListModel, Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QListView,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from desktop import fonts
from desktop.assumptions.items import Items
from desktop.assumptions.sections import SECTIONS
from desktop.document import Document
from desktop.panels.answer_line import AnswerLine
from desktop.panels.charts.goal_chance import GoalChance
from desktop.views import View
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.widgets.scrolled import scrolled
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers

# What stands around a section's name: its bar, and where the list has to scroll that bar as well.
_LIST_WIDTH, _AROUND = 184, 44


class AssumptionsPage(View):
    """Takes the place of the comparison; the answer stays in sight and current."""

    paste_asked = Signal(str)
    worth_asked = Signal()

    def __init__(self, document: Document, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._numbers = document, numbers
        self.head = _Head(document, self)
        self.head.finish.clicked.connect(self.done)
        self.answer = AnswerLine(document, numbers, chance)
        inked = Inked(self)
        self.sections = _SectionList(inked)
        self.places = QStackedWidget(self)
        self._open: dict[int, QWidget] = {}
        self._areas: dict[int, QWidget] = {}
        body = QHBoxLayout()
        body.setSpacing(24)
        side = QVBoxLayout(inked)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self.sections)
        inked.dress()
        body.addWidget(inked)
        body.addWidget(self.places, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 8, 24, 6)
        layout.setSpacing(10)
        layout.addWidget(self.head)
        layout.addWidget(self.answer)
        layout.addLayout(body, 1)
        self.sections.selectionModel().currentChanged.connect(self._follow)
        self.show_section(SECTIONS[0].key)

    def first_focus(self) -> QWidget:  # noqa: D102
        return self.sections

    def show_section(self, key: str) -> None:
        """Opens one part by its key."""
        self.sections.setCurrentIndex(self.sections.model().index(_index_of(key), 0))

    @property
    def section(self) -> QWidget:
        """The part that is open."""
        return self._open[self.sections.currentIndex().row()]

    def _follow(self, now: QModelIndex) -> None:
        row = now.row()
        if row not in self._open:
            part = SECTIONS[row].make(self._document, self._numbers)
            self._open[row] = part
            if isinstance(part, Items):
                part.paste_asked.connect(self.paste_asked)
                part.worth_asked.connect(self.worth_asked)
            self._areas[row] = part if SECTIONS[row].fills else scrolled(part)
            self.places.addWidget(self._areas[row])
        self.places.setCurrentWidget(self._areas[row])


class _Head(Inked):
    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self._document = document
        title = PlainLabel(words.TITLE, font=fonts.serif(fonts.SENTENCE, bold=True), parent=self)
        self.undo = button(words.undo(None), "plain", self)
        self.finish = button(words.DONE, "main", self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(12)
        layout.addWidget(title)
        layout.addStretch(1)
        layout.addWidget(self.undo)
        layout.addWidget(self.finish)
        self.undo.clicked.connect(document.undo)
        # Not the history itself: its stack speaks once more while a window is taken down.
        document.plan_changed.connect(self._show)
        self._show()
        self.dress()

    def _show(self) -> None:
        what = self._document.history.undo_what
        text = words.undo(what)
        self.undo.setText(text.replace("&", "&&"))
        self.undo.setAccessibleName(text)
        self.undo.setEnabled(what is not None)


class _SectionList(QListView):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        titles = [section.title for section in SECTIONS]
        self.setModel(QStringListModel(titles, self))
        self.setAccessibleName(words.SECTIONS)
        self.setFont(fonts.sans(fonts.HEADING))
        self.setProperty("look", "list")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        widest = max(map(QFontMetrics(self.font()).horizontalAdvance, titles))
        self.setFixedWidth(max(_LIST_WIDTH, widest + _AROUND))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)


def _index_of(key: str) -> int:
    return next(i for i, section in enumerate(SECTIONS) if section.key == key)

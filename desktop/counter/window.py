"""The counter view: its pages, one at a time, over the whole screen."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QStackedWidget, QVBoxLayout, QWidget

from core.explain.numbers import Numbers
from core.plan.model import Sex
from core.plan.read import load_plan
from desktop.counter import parts
from desktop.counter.best_page import BestPage, GoalPage
from desktop.counter.card_page import CardPage
from desktop.counter.home_page import HomePage
from desktop.counter.pair_page import PairPage
from desktop.counter.reckoner import Reckoner
from desktop.counter.stall import Stall
from desktop.counter.table_page import TablePage
from desktop.counter.taps import Button
from desktop.counter.type import type_for
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.plan_files import TABLE
from desktop.widgets.tab_order import TabOrder
from desktop.words import counter as words


class CounterView(QDialog):
    """Escape leaves, or goes back from the question what should hatch.

    Of the plan it shows what is for sale, and nothing of costs, of my animals or of notes.
    Where nothing is for sale it stands on a table of its own, invented for trying out. `year`: this one; `room`: of the
    screen that it is to fill.
    """

    def __init__(
        self, document: Document, evaluator: Evaluator, numbers: Numbers, year: int, room: QSize,
        parent: QWidget | None = None,
    ) -> None:  # fmt: skip
        super().__init__(parent, Qt.WindowType.Window)
        self.setWindowTitle(words.TITLE)
        self.setWindowModality(Qt.WindowModality.WindowModal)
        is_invented = not document.plan.for_sale
        shown = Document(load_plan(TABLE), parent=self) if is_invented else document
        self.type = type_ = type_for(room)
        self.stall = stall = Stall(shown, year, is_invented=is_invented, parent=self)
        of_pair, of_table, of_card = (Reckoner(evaluator, self) for _ in range(3))
        self.table = TablePage(type_, stall, numbers)
        self.pair = PairPage(type_, stall, numbers, of_pair)
        self.home = HomePage(type_, stall)
        self.best = BestPage(type_, stall, numbers, of_table)
        self.goal = GoalPage(type_, stall)
        self.card = CardPage(type_, stall, numbers, of_card)
        self.pages = QStackedWidget()
        for page in (self.table, self.pair, self.home, self.best, self.goal, self.card):
            self.pages.addWidget(page)
        self.leave = Button(type_, words.LEAVE, "word")
        self._lay_out()
        self._connect()
        self._tab_order = TabOrder(self)
        for reckoner in (of_pair, of_table):
            reckoner.answered.connect(self._tab_order.follow_the_eye)
        self._tab_order.follow_the_eye()
        # No ring stands on a button before a key is used.
        self.table.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: D102
        if event.key() == Qt.Key.Key_Escape and self.pages.currentWidget() is self.goal:
            self._show_best()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        type_ = self.type
        foot = parts.side_by_side(type_.px(24))
        self._cautions = parts.note(type_, words.CAUTIONS)
        self._cautions.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        foot.addWidget(self._cautions, 1)
        foot.addWidget(self.leave, 0, Qt.AlignmentFlag.AlignVCenter)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(type_.px(40), type_.px(20), type_.px(40), type_.px(12))
        layout.setSpacing(type_.px(8))
        layout.addWidget(self.pages, 1)
        layout.addLayout(foot)

    def _connect(self) -> None:
        self.stall.paired.connect(self._show_pair)
        self.table.home_wanted.connect(self._show_home)
        self.home.best_wanted.connect(self._show_best)
        self.home.table_wanted.connect(self._show_table)
        self.best.goal_wanted.connect(self._show_goals)
        self.best.back_wanted.connect(self._show_home)
        for left in (self.goal.chosen, self.goal.back_wanted):
            left.connect(self._show_best)
        self.pair.change_wanted.connect(self._change)
        self.pair.card_wanted.connect(self._show_card)
        self.pair.best_wanted.connect(self._show_best)
        self.card.back_wanted.connect(self._show_pair)
        for page in (self.home, self.best, self.pair, self.card):
            page.start_wanted.connect(self._start_over)
        self.leave.clicked.connect(self.reject)
        self.card.leave_wanted.connect(self.reject)

    def _show_table(self) -> None:
        self._turn_to(self.table)

    def _show_pair(self) -> None:
        self.pair.follow()
        self._turn_to(self.pair)

    def _show_home(self) -> None:
        if self.stall.at_home is None:
            self.stall.bring_home("female", {})
        self._turn_to(self.home)

    def _show_best(self) -> None:
        home = self.stall.at_home
        if home is not None:
            self.stall.bring_home(home.sex, home.carries)
            self.best.follow()
            self._turn_to(self.best)

    def _show_goals(self) -> None:
        self.goal.follow()
        self._turn_to(self.goal)

    def _show_card(self) -> None:
        # The card is of the look that stands there as the goal, also where nobody tapped it.
        if self.pair.answer is not None:
            self.stall.aim(self.pair.answer.goal)
        self.card.follow()
        self._turn_to(self.card)

    def _change(self, sex: Sex) -> None:
        """One of the pair is to be another: at home it is said anew, else picked."""
        if self.stall.picked[sex].offer:
            self.stall.let_go(sex)
            self._turn_to(self.table)
        else:
            self._show_home()

    def _start_over(self) -> None:
        self.stall.start_over()
        self._turn_to(self.table)

    def _turn_to(self, page: QWidget) -> None:
        # The card has cautions of its own, and the height to be photographed.
        for part in (self._cautions, self.leave):
            part.setVisible(page is not self.card)
        self.pages.setCurrentWidget(page)
        self._tab_order.follow_the_eye()
        # Tab begins with the page that came into sight.
        page.setFocus()

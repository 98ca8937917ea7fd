"""The main window: panels in reading order, and the few things that concern the whole of it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtGui import QAction, QCloseEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QMainWindow, QMessageBox, QScrollArea, QVBoxLayout, QWidget

from desktop.ahead import Ahead
from desktop.appearance import Appearance
from desktop.cautions.minder import Minder
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.files.dropping import Dropping
from desktop.files.filing import Filing, is_sample
from desktop.files.places import log_file
from desktop.first.progress import can_find, section_for
from desktop.first.sample_line import SampleLine
from desktop.leaving import Leaving
from desktop.menus import Menus
from desktop.page import Page
from desktop.plan_files import samples
from desktop.views import Views
from desktop.widgets.notices import Notices
from desktop.words import files as file_words
from desktop.words import labels
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from core.paste.parts import Target
    from desktop.counter.window import CounterView
    from desktop.errand import Errand
    from desktop.find.search import RouteSearch
    from desktop.new_route.trial import Trial
    from desktop.paste.window import PasteWindow
    from desktop.worth.answers import Answers


class MainWindow(QMainWindow):
    """Joins the document, the evaluator and the page."""

    # Another window is wanted.
    wants_another = Signal()
    closed = Signal()

    def __init__(self, document: Document, evaluator: Evaluator, appearance: Appearance, numbers: Numbers) -> None:
        super().__init__()
        self.document, self._evaluator, self._numbers = document, evaluator, numbers
        self.menus = Menus(self, appearance)
        # The bar's first word stands over the page's left edge, without the style's line below it.
        self.menuBar().setStyleSheet("QMenuBar { border: none; padding: 0px 14px; }")
        # Made before the page: it stands above it, and Tab comes to it first.
        self.sample_line = SampleLine(self.menus.samples)
        self.sample_line.starts_empty.connect(self._start_new)
        self.menuBar().setCornerWidget(self.sample_line)
        self.sample_line.hide()
        self.minder = Minder(document, evaluator, numbers, self)
        self.page = Page(document, self.minder, numbers)
        self._ahead = Ahead(document, evaluator, self)
        self.page.route_actions.fill(self.menus.route)
        scroll = QScrollArea()
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        # It follows what has the focus by itself.
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.page)
        self.notices = Notices()
        self.views = Views(scroll)
        self._explaining: Errand | None = None
        self._weighing: tuple[Errand, Answers] | None = None
        self._search: RouteSearch | None = None
        self.setCentralWidget(_below(self.notices, self.views))
        self.resize(1280, 800)
        self._trial: Trial | None = None
        evaluator.arrived.connect(document.take)
        self.filing = Filing(document, self.notices, self)
        self.filing.moved.connect(self._title)
        self.filing.moved.connect(self._greet)
        self.sample_line.goes_on.connect(self.filing.open)
        document.plan_changed.connect(self._title)
        document.plan_changed.connect(self._propose)
        document.asked.connect(self.work_out)
        self.page.routes.sight_changed.connect(self._tell_sight)
        document.history.changed.connect(self._show_history)
        self.page.wants.connect(self._lead_to)
        self.page.pastes.connect(self._paste_topic)
        self.page.sample_wanted.connect(self.filing.open)
        self._dropping = Dropping(self)
        self._dropping.plan_dropped.connect(self.filing.open)
        self._dropping.list_dropped.connect(self._paste_file)
        self._connect_menus()
        self._leaving = Leaving(document, self.minder, self.page, numbers, self)
        self._leaving.connect_to(self.menus)
        self._title()
        self._propose()

    def edit_route(self) -> None:
        """Opens the editor on the selected route, in the place of the comparison."""
        if self.document.selected is None:
            return
        # Loaded when first needed, so that the start stays quick.
        from desktop.editor.page import Editor

        page = self.views.page()
        if isinstance(page, Editor) and page.route_id == self.document.selected.id:
            return
        editor = Editor(self.document, self._numbers)
        editor.head.why.clicked.connect(self._why_chance)
        self.views.open(editor)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: D102
        if not self.filing.may_go():
            event.ignore()
            return
        self.filing.stop()
        self._evaluator.stop()
        super().closeEvent(event)
        self.closed.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self.page.set_roomy(self.height() >= 1000)

    def show_assumptions(self, section: str = "") -> None:
        """Everything the plan takes for given, in the comparison's place."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.assumptions.page import AssumptionsPage

        page = self.views.page()
        if not isinstance(page, AssumptionsPage):
            page = AssumptionsPage(self.document, self._numbers, self.page.chance)
            page.paste_asked.connect(self._paste)
            page.worth_asked.connect(self._worth)
            self.views.open(page)
        if section:
            page.show_section(section)

    def show_why(self, tab: int = 0) -> None:
        """Why the selected route's chance is what it is, or why it beats another, in the comparison's place."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.errand import Errand
        from desktop.why.page import WhyPage

        page = self.views.page()
        if not isinstance(page, WhyPage):
            if self._explaining is None:
                self._explaining = Errand(self._evaluator, self)
            page = WhyPage(self.document, self._numbers, self._explaining)
            self.views.open(page)
        page.show_tab(tab)

    def show_season(self) -> None:
        """What hatched, and what it says, in the comparison's place."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.season.page import SeasonPage

        if not isinstance(self.views.page(), SeasonPage):
            page = SeasonPage(self.document, self._numbers, self._evaluator)
            page.edit_asked.connect(self._my_animals)
            page.carried.connect(self._tell_step)
            self.views.open(page)

    def _tell_step(self, sentence: str) -> None:
        from desktop.undo_notice import UndoNotice

        UndoNotice(self.document, self.notices, sentence)

    def _my_animals(self) -> None:
        self.show_assumptions("mine")

    def show_worth(self, tab: int = 0) -> None:
        """What each animal for sale is worth, or which assumptions matter most, in the comparison's place."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.errand import Errand
        from desktop.worth.answers import Answers
        from desktop.worth.page import WorthPage

        page = self.views.page()
        if not isinstance(page, WorthPage):
            if self._weighing is None:
                self._weighing = Errand(self._evaluator, self), Answers()
            page = WorthPage(self.document, self._numbers, *self._weighing)
            self.views.open(page)
        page.show_tab(tab)

    def find_routes(self) -> None:
        """The cheapest routes that can be built from the lists, in the comparison's place."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.find.page import FindPage

        if not isinstance(self.views.page(), FindPage):
            page = FindPage(self.document, self._route_search(), self._numbers)
            page.paste_asked.connect(self._paste)
            self.views.open(page)

    def _route_search(self) -> RouteSearch:
        """The one search of this window, made when first asked for."""
        from desktop.find.search import RouteSearch

        if self._search is None:
            self._search = RouteSearch(self.document, self._evaluator, self)
        return self._search

    def _propose(self) -> None:
        """A plan without routes is greeted with what can be found."""
        if self.page.first is not None and can_find(self.document.plan) and not self.document.plan.routes:
            self.page.first.propose(self._route_search())

    def show_counter(self) -> CounterView:
        """What is for sale, for a customer, over the whole screen."""
        # Loaded when first asked for: the start does not wait for it.
        from desktop.counter.window import CounterView

        year = QDate.currentDate().year()
        view = CounterView(self.document, self._evaluator, self._numbers, year, self.screen().size(), self)
        view.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        view.showFullScreen()
        return view

    def _worth(self) -> None:
        self.show_worth(0)

    def _matters(self) -> None:
        self.show_worth(1)

    def _why_beats(self) -> None:
        self.show_why(1)

    def _why_chance(self) -> None:
        self.show_why(0)

    def _connect_menus(self) -> None:
        menus, filing = self.menus, self.filing
        menus.new.triggered.connect(self._start_new)
        menus.new_window.triggered.connect(self.wants_another)
        menus.open.triggered.connect(filing.ask_for_file)
        menus.recent.opened.connect(filing.open)
        menus.samples.aboutToShow.connect(self._list_samples)
        menus.samples.triggered.connect(self._open_listed)
        menus.save.triggered.connect(filing.save)
        menus.save_as.triggered.connect(filing.save_as)
        menus.close.triggered.connect(self.close)
        self.menus.paste_for_sale.triggered.connect(self._paste_for_sale)
        self.menus.paste_mine.triggered.connect(self._paste_mine)
        self.page.route_actions.edit.triggered.connect(self.edit_route)
        self.page.steps.edit.clicked.connect(self.edit_route)
        self.page.routes.activated.connect(self.edit_route)
        self.page.route_actions.new.triggered.connect(self._new_route)
        self.menus.undo.triggered.connect(self.document.undo)
        self.menus.redo.triggered.connect(self.document.redo)
        self.menus.assumptions.triggered.connect(self._all_assumptions)
        for asked in (self.menus.why_chance.triggered, self.page.steps.why_chance):
            asked.connect(self._why_chance)
        for asked in (self.menus.why_beats.triggered, self.page.steps.why_beats):
            asked.connect(self._why_beats)
        for asked in (self.menus.season.triggered, self.page.route_bar.season.clicked):
            asked.connect(self.show_season)
        for asked in (self.menus.find.triggered, self.page.route_bar.search.clicked):
            asked.connect(self.find_routes)
        for asked in (self.menus.worth.triggered, self.page.route_bar.worth.clicked):
            asked.connect(self._worth)
        for asked in (self.menus.matters.triggered, self.page.route_bar.matters.clicked):
            asked.connect(self._matters)
        self.menus.counter.triggered.connect(self.show_counter)
        self.page.goal.assumptions.clicked.connect(self._all_assumptions)
        self.menus.quit.triggered.connect(QApplication.closeAllWindows)
        self.menus.keyboard.triggered.connect(self._tell_keys)
        self.menus.about.triggered.connect(self._tell_about)

    def _title(self) -> None:
        self.setWindowTitle(file_words.title(self.document.plan, self.filing.place))

    def work_out(self) -> None:
        """Has the routes worked out that wait for it, and nothing else."""
        if self.document.pending:
            self._tell_sight()
            self._evaluator.start(self.document.plan, self.document.pending)
        else:
            self._evaluator.cancel()

    def _tell_sight(self) -> None:
        self._evaluator.look_at(self.page.routes.in_sight())

    def _show_history(self) -> None:
        history = self.document.history
        self.setWindowModified(not history.is_clean)
        self.menus.show_steps(history.undo_what, history.redo_what)

    def _greet(self) -> None:
        """Over a sample: what it is, and the ways to a plan of one's own."""
        path = self.document.path
        sample = path is not None and is_sample(path)
        self.sample_line.setVisible(sample)
        self.sample_line.look()

    def _start_new(self) -> None:
        from desktop.first.empty import empty_plan

        self.filing.start_new(empty_plan())

    def _list_samples(self) -> None:
        """Read when first asked for, so that the start stays quick."""
        if self.menus.samples.isEmpty():
            for title, path in samples():
                self.menus.samples.addAction(title.replace("&", "&&")).setData(str(path))

    def _open_listed(self, action: QAction) -> None:
        self.filing.open(Path(action.data()))

    def _all_assumptions(self) -> None:
        self.show_assumptions()

    def _lead_to(self, topic: str) -> None:
        """To where the person says what the first routes need."""
        if topic == "find":
            self.find_routes()
        elif topic == "routes":
            self._new_route()
        else:
            self.show_assumptions(section_for(topic, self.document.plan))

    def _paste_topic(self, topic: str) -> None:
        self._paste("mine" if topic == "mine" else "for sale")

    def _new_route(self) -> None:
        from desktop.new_route.page import NewRoute
        from desktop.new_route.trial import Trial

        self._trial = self._trial or Trial(self.document, self._evaluator, self)
        page = NewRoute(self._trial, self._route_search(), self._numbers)
        page.paste_asked.connect(self._paste)
        page.edit_asked.connect(self.edit_route)
        page.find_asked.connect(self.find_routes)
        self.views.open(page)

    def _paste_for_sale(self) -> None:
        self._paste("for sale")

    def _paste_mine(self) -> None:
        self._paste("mine")

    def _paste_file(self, path: Path) -> None:
        self._paste("for sale").text.insert_file(path)

    def _paste(self, target: Target) -> PasteWindow:
        from desktop.paste.window import PasteWindow

        dialog = PasteWindow(self.document, target, self._numbers, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()
        return dialog

    def _tell_keys(self) -> None:
        from desktop.keys_dialog import KeysDialog

        KeysDialog(self).open()

    def _tell_about(self) -> None:
        from desktop.app import version

        self._tell(labels.about(version(), str(log_file())))

    def _tell(self, text: str) -> None:
        box = QMessageBox(self)
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setWindowTitle(labels.PROGRAM)
        box.setText(text)
        box.open()


def _below(*widgets: QWidget) -> QWidget:
    """One below the other, the last one taking the room."""
    whole = QWidget()
    layout = QVBoxLayout(whole)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(0)
    for widget in widgets:
        layout.addWidget(widget)
    layout.setStretchFactor(widgets[-1], 1)
    return whole

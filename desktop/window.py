"""The main window: panels in reading order, and the few things that concern the whole of it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QCloseEvent, QResizeEvent
from PySide6.QtWidgets import QFileDialog, QFrame, QMainWindow, QMessageBox, QScrollArea

from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.menus import Menus
from desktop.page import Page
from desktop.plan_files import SAMPLE, SAMPLES, Faults, open_plan, other_samples
from desktop.saving import save_plan, with_suffix
from desktop.words import labels
from desktop.words.numbers import Numbers

if TYPE_CHECKING:
    from core.paste.parts import Target


class MainWindow(QMainWindow):
    """Joins the document, the evaluator and the page."""

    def __init__(self, document: Document, evaluator: Evaluator, appearance: Appearance, numbers: Numbers) -> None:
        super().__init__()
        self.document, self._evaluator = document, evaluator
        self.menus = Menus(self, appearance)
        # The bar's first word stands over the page's left edge, without the style's line below it.
        self.menuBar().setStyleSheet("QMenuBar { border: none; padding: 0px 14px; }")
        self.page = Page(document, numbers)
        scroll = QScrollArea()
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.page)
        self.setCentralWidget(scroll)
        self.resize(1280, 800)
        evaluator.arrived.connect(document.take)
        document.plan_changed.connect(self._title)
        document.asked.connect(self.work_out)
        document.history.changed.connect(self._show_history)
        self._connect_menus()
        self._title()

    def show_faults(self, faults: Faults) -> None:
        """Tells what is wrong with a file; the plan stays."""
        from desktop.faults_dialog import FaultsDialog

        FaultsDialog(faults, self).open()

    def open_file(self, path: Path) -> None:
        """Replaces the plan by that of a file, or tells what is wrong with it."""
        if not self._may_go():
            return
        opened = open_plan(path)
        if isinstance(opened, Faults):
            self.show_faults(opened)
            return
        self.document.replace(opened, path)

    def save(self) -> bool:
        """Saves to the plan's own file; asks for one where there is none, or where it is the program's own sample."""
        path = self.document.path
        return self.save_as() if path is None or path.is_relative_to(SAMPLES) else self._save_to(path)

    def save_as(self) -> bool:
        """Asks where to, and saves; whether it was saved."""
        path = self.document.path
        start = "" if path is None or path.is_relative_to(SAMPLES) else str(path)
        name, _ = QFileDialog.getSaveFileName(self, labels.SAVE_TITLE, start, labels.OPEN_FILTER)
        return bool(name) and self._save_to(with_suffix(Path(name)))

    def _save_to(self, path: Path) -> bool:
        reason = save_plan(self.document.plan, path)
        if reason is not None:
            self._tell(labels.not_saved(path.name, reason))
            return False
        self.document.saved(path)
        return True

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: D102
        if not self._may_go():
            event.ignore()
            return
        self._evaluator.stop()
        super().closeEvent(event)

    def _may_go(self) -> bool:
        """Asks about unsaved changes; False where the plan is to stay."""
        if not self.document.has_unsaved_changes:
            return True
        box = QMessageBox(self)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setWindowTitle(labels.PROGRAM)
        box.setText(labels.UNSAVED)
        box.setInformativeText(labels.UNSAVED_ASK)
        buttons = QMessageBox.StandardButton
        box.setStandardButtons(buttons.Save | buttons.Discard | buttons.Cancel)
        box.setDefaultButton(buttons.Save)
        chosen = box.exec()
        return self.save() if chosen == buttons.Save else chosen == buttons.Discard

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self.page.set_roomy(self.height() >= 1000)

    def _connect_menus(self) -> None:
        self.menus.open.triggered.connect(self._ask_for_file)
        self.menus.open_sample.triggered.connect(self._open_sample)
        self.menus.samples.aboutToShow.connect(self._list_samples)
        self.menus.samples.triggered.connect(self._open_listed)
        self.menus.save.triggered.connect(self.save)
        self.menus.save_as.triggered.connect(self.save_as)
        self.menus.paste_for_sale.triggered.connect(self._paste_for_sale)
        self.menus.paste_mine.triggered.connect(self._paste_mine)
        self.menus.undo.triggered.connect(self.document.undo)
        self.menus.redo.triggered.connect(self.document.redo)
        self.menus.quit.triggered.connect(self.close)
        self.menus.keyboard.triggered.connect(self._tell_keys)
        self.menus.about.triggered.connect(self._tell_about)

    def _title(self) -> None:
        self.setWindowTitle(labels.window_title(self.document.plan.title))

    def work_out(self) -> None:
        """Has the routes worked out that wait for it, and nothing else."""
        if self.document.pending:
            self._evaluator.start(self.document.plan, self.document.pending)
        else:
            self._evaluator.cancel()

    def _show_history(self) -> None:
        history = self.document.history
        self.setWindowModified(not history.is_clean)
        self.menus.show_steps(history.undo_what, history.redo_what)

    def _ask_for_file(self) -> None:
        start = str(self.document.path.parent) if self.document.path else ""
        name, _ = QFileDialog.getOpenFileName(self, labels.OPEN_TITLE, start, labels.OPEN_FILTER)
        if name:
            self.open_file(Path(name))

    def _open_sample(self) -> None:
        self.open_file(SAMPLE)

    def _list_samples(self) -> None:
        """Read when first asked for, so that the start stays quick."""
        if self.menus.samples.isEmpty():
            for title, path in other_samples():
                self.menus.samples.addAction(title.replace("&", "&&")).setData(str(path))

    def _open_listed(self, action: QAction) -> None:
        self.open_file(Path(action.data()))

    def _paste_for_sale(self) -> None:
        self._paste("for sale")

    def _paste_mine(self) -> None:
        self._paste("mine")

    def _paste(self, target: Target) -> None:
        from desktop.paste.window import PasteWindow

        dialog = PasteWindow(self.document, target, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def _tell_keys(self) -> None:
        self._tell(labels.KEYBOARD_TEXT)

    def _tell_about(self) -> None:
        self._tell(labels.ABOUT_TEXT)

    def _tell(self, text: str) -> None:
        box = QMessageBox(self)
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setWindowTitle(labels.PROGRAM)
        box.setText(text)
        box.open()

"""The main window: panels in reading order, and the few things that concern the whole of it."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QResizeEvent
from PySide6.QtWidgets import QFileDialog, QFrame, QMainWindow, QMessageBox, QScrollArea

from desktop.appearance import Appearance
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.faults_dialog import FaultsDialog
from desktop.menus import Menus
from desktop.page import Page
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.words import labels
from desktop.words.numbers import Numbers


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
        self._connect_menus()
        self._title()

    def show_faults(self, faults: Faults) -> None:
        """Tells what is wrong with a file; the plan stays."""
        FaultsDialog(faults, self).open()

    def open_file(self, path: Path) -> None:
        """Replaces the plan by that of a file, or tells what is wrong with it."""
        opened = open_plan(path)
        if isinstance(opened, Faults):
            self.show_faults(opened)
            return
        self.document.replace(opened, path)
        self._evaluator.start(opened)

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: D102
        self._evaluator.stop()
        super().closeEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        self.page.set_roomy(self.height() >= 1000)

    def _connect_menus(self) -> None:
        self.menus.open.triggered.connect(self._ask_for_file)
        self.menus.open_sample.triggered.connect(self._open_sample)
        self.menus.quit.triggered.connect(self.close)
        self.menus.keyboard.triggered.connect(self._tell_keys)
        self.menus.about.triggered.connect(self._tell_about)

    def _title(self) -> None:
        self.setWindowTitle(labels.window_title(self.document.plan.title))

    def _ask_for_file(self) -> None:
        start = str(self.document.path.parent) if self.document.path else ""
        name, _ = QFileDialog.getOpenFileName(self, labels.OPEN_TITLE, start, labels.OPEN_FILTER)
        if name:
            self.open_file(Path(name))

    def _open_sample(self) -> None:
        self.open_file(SAMPLE)

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

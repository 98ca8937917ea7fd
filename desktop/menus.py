"""The menu bar."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from desktop.appearance import Appearance
from desktop.files import look
from desktop.files.recent_menu import RecentMenu
from desktop.words import assumptions, files, labels, paste, route_actions


class Menus:
    """Builds the menus of a window; what an item does is connected by the window."""

    def __init__(self, window: QMainWindow, appearance: Appearance) -> None:
        bar = window.menuBar()
        plan = bar.addMenu(labels.MENU_PLAN)
        self.new = _item(plan, files.NEW, QKeySequence.StandardKey.New)
        self.new_window = _item(plan, files.NEW_WINDOW, QKeySequence("Ctrl+Shift+N"))
        plan.addSeparator()
        self.open = _item(plan, labels.OPEN, QKeySequence.StandardKey.Open)
        self.recent = RecentMenu(plan)
        plan.addMenu(self.recent)
        self.samples = plan.addMenu(labels.SAMPLES)
        plan.addSeparator()
        self.save = _item(plan, labels.SAVE, QKeySequence.StandardKey.Save)
        self.save_as = _item(plan, labels.SAVE_AS, QKeySequence.StandardKey.SaveAs)
        plan.addSeparator()
        self.paste_for_sale = _item(plan, paste.MENU_FOR_SALE)
        self.paste_mine = _item(plan, paste.MENU_MINE)
        plan.addSeparator()
        self.export_pdf = _item(plan, labels.EXPORT_PDF)
        self.export_png = _item(plan, labels.EXPORT_PNG)
        self.export_routes = _item(plan, labels.EXPORT_ROUTES)
        self.print_page = _item(plan, labels.PRINT, QKeySequence.StandardKey.Print)
        plan.addSeparator()
        self.close = _item(plan, files.CLOSE, QKeySequence("Ctrl+W"))
        self.quit = _item(plan, labels.QUIT, QKeySequence("Ctrl+Q"))
        self._edit = bar.addMenu(labels.MENU_EDIT)
        self.undo = _item(self._edit, labels.undo(None), QKeySequence.StandardKey.Undo)
        self.redo = _item(self._edit, labels.redo(None), QKeySequence.StandardKey.Redo)
        self._edit.addSeparator()
        self.assumptions = _item(self._edit, assumptions.MENU, QKeySequence("Ctrl+,"))
        self.show_steps(None, None)
        self.route = bar.addMenu(route_actions.MENU)
        self._appearance = appearance
        self.schemes = QActionGroup(window)
        view = bar.addMenu(labels.MENU_VIEW)
        self.why_chance = _item(view, labels.MENU_WHY_CHANCE, QKeySequence("Ctrl+I"))
        self.why_beats = _item(view, labels.MENU_WHY_BEATS, QKeySequence("Ctrl+Shift+I"))
        self.season = _item(view, labels.MENU_SEASON, QKeySequence("Ctrl+T"))
        self.find = _item(view, labels.MENU_FIND, QKeySequence("Ctrl+F"))
        self.worth = _item(view, labels.MENU_WORTH, QKeySequence("Ctrl+M"))
        self.matters = _item(view, labels.MENU_MATTERS, QKeySequence("Ctrl+Shift+M"))
        self.counter = _item(view, labels.MENU_COUNTER, QKeySequence("F9"))
        view.addSeparator()
        for text, scheme in (
            (labels.AS_SYSTEM, Qt.ColorScheme.Unknown),
            (labels.LIGHT, Qt.ColorScheme.Light),
            (labels.DARK, Qt.ColorScheme.Dark),
        ):
            action = _item(view, text)
            action.setCheckable(True)
            action.setChecked(scheme == appearance.chosen)
            action.setData(scheme)
            self.schemes.addAction(action)
        self.schemes.triggered.connect(self._choose)
        view.addSeparator()
        self.text_sizes = self._text_sizes(view)
        about = bar.addMenu(labels.MENU_HELP)
        self.keyboard = _item(about, labels.KEYBOARD, QKeySequence.StandardKey.HelpContents)
        self.about = _item(about, labels.ABOUT)

    def show_steps(self, undo: str | None, redo: str | None) -> None:
        """Undo and redo name the step they are about."""
        self.undo.setText(labels.undo(undo))
        self.undo.setEnabled(undo is not None)
        self.redo.setText(labels.redo(redo))
        self.redo.setEnabled(redo is not None)

    def _text_sizes(self, view: QMenu) -> QActionGroup:
        menu, sizes = view.addMenu(labels.MENU_TEXT_SIZE), QActionGroup(view)
        for percent in look.TEXT_SIZES:
            action = menu.addAction(labels.text_size(percent))
            action.setCheckable(True)
            action.setChecked(percent == look.kept_text_size())
            action.setData(percent)
            sizes.addAction(action)
        menu.addSeparator()
        # Every part of a window is laid out for the size that it was made at.
        menu.addAction(labels.TEXT_SIZE_LATER).setEnabled(False)
        sizes.triggered.connect(_choose_text_size)
        return sizes

    def _choose(self, action: QAction) -> None:
        self._appearance.choose(action.data())
        look.keep_scheme(action.data())


def _choose_text_size(action: QAction) -> None:
    look.keep_text_size(action.data())


def _item(menu: QMenu, text: str, key: QKeySequence | QKeySequence.StandardKey | None = None) -> QAction:
    action = menu.addAction(text)
    if isinstance(key, QKeySequence.StandardKey):
        # Every way in which the system writes it.
        action.setShortcuts(key)
    elif key is not None:
        action.setShortcut(key)
    return action

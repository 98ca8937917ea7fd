"""What can be done with the routes, once for the menu bar, the menu of a row and the keys."""

from __future__ import annotations

from PySide6.QtCore import QObject, QPoint, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from core.plan.model import Plan
from desktop.document import Document
from desktop.panels.routes import edits
from desktop.panels.routes.view import RouteList
from desktop.words import labels
from desktop.words import route_actions as words


class RouteActions(QObject):
    """Each of them is one step that can be undone."""

    def __init__(self, document: Document, view: RouteList) -> None:
        super().__init__(view)
        self._document, self._view = document, view
        self.new = QAction(words.NEW, self)
        self.new.setShortcut(QKeySequence("Ctrl+R"))
        self.duplicate = self._of_row(words.DUPLICATE, "Ctrl+D")
        self.rename = self._of_row(words.RENAME, "F2")
        self.up, self.down = self._of_row(words.UP, "Alt+Up"), self._of_row(words.DOWN, "Alt+Down")
        self.hide, self.delete = self._of_row(words.HIDE, "Ctrl+H"), self._of_row(words.DELETE, "Del")
        self.edit = QAction(labels.EDIT_ROUTE, self)
        self.edit.setShortcut(QKeySequence("Ctrl+E"))
        self.copy, self.save = QAction(labels.COPY_ROUTES, self), QAction(labels.EXPORT_ROUTES, self)
        self.show_hidden, self.own_order = QAction(words.SHOW_HIDDEN, self), QAction(words.OWN_ORDER, self)
        self._connect()
        self._show()

    def fill(self, menu: QMenu) -> None:
        """Puts everything into a menu."""
        menu.addActions([self.new, self.edit])
        menu.addSeparator()
        menu.addActions([self.duplicate, self.rename, self.delete])
        menu.addSeparator()
        menu.addActions([self.up, self.down, self.own_order])
        menu.addSeparator()
        menu.addActions([self.hide, self.show_hidden])
        menu.addSeparator()
        menu.addActions([self.copy, self.save])

    def _of_row(self, text: str, key: str) -> QAction:
        action = QAction(text, self)
        action.setShortcut(QKeySequence(key))
        # Keys of a row must not reach for a text that is being typed elsewhere.
        action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self._view.addAction(action)
        return action

    def _connect(self) -> None:
        for action, done in (
            (self.duplicate, self._duplicate), (self.rename, self._view.rename_chosen),
            (self.up, self._up), (self.down, self._down), (self.hide, self._hide), (self.delete, self._delete),
            (self.show_hidden, self.show_all), (self.own_order, self._view.use_own_order),
        ):  # fmt: skip
            action.triggered.connect(done)
        self._view.menu_asked.connect(self._open_menu)
        self._view.rows.renamed.connect(self._rename)
        self._view.rows.dropped.connect(self._drop)
        self._view.horizontalHeader().sortIndicatorChanged.connect(self._show)
        for changed in (self._document.answers_changed, self._document.selection_changed):
            changed.connect(self._show)

    def _show(self) -> None:
        """What there is to do now."""
        chosen, rows = self._view.chosen, self._view.rows
        row = rows.row_of(chosen.id if chosen else None)
        room = edits.has_room(self._document.plan)
        self.new.setEnabled(room)
        self.duplicate.setEnabled(room and chosen is not None)
        for action in (self.edit, self.rename, self.hide, self.delete):
            action.setEnabled(chosen is not None)
        self.up.setEnabled(row > 0)
        self.down.setEnabled(0 <= row < rows.rowCount() - 1)
        self.show_hidden.setEnabled(bool(self._document.hidden))
        self.own_order.setEnabled(not self._view.is_in_own_order)

    def menu(self) -> QMenu:
        """A menu for the selected row."""
        menu = QMenu(self._view)
        self.fill(menu)
        return menu

    def _open_menu(self, at: QPoint) -> None:
        menu = self.menu()
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)

    def _duplicate(self) -> None:
        if (chosen := self._view.chosen) is not None:
            plan, copy = edits.duplicated(self._document.plan, chosen.id)
            self._edit(plan, words.duplicate_step(chosen.name))
            self._select(copy)

    def _rename(self, id_: str, name: str) -> None:
        self._edit(edits.renamed(self._document.plan, id_, name), words.rename_step(name))

    def _up(self) -> None:
        self._move(-1)

    def _down(self) -> None:
        self._move(1)

    def _move(self, by: int) -> None:
        chosen = self._view.chosen
        row = self._view.rows.row_of(chosen.id if chosen else None)
        if chosen is not None and 0 <= row + by < self._view.rows.rowCount():
            self._put(chosen.id, row + by)

    def _drop(self, id_: str, before: int) -> None:
        row = self._view.rows.row_of(id_)
        if row >= 0:
            self._put(id_, before - (row < before))

    def _put(self, id_: str, row: int) -> None:
        """The route in another row; what was sorted by a column becomes the plan's own order, as it is seen."""
        shown = self._view.rows.rows
        name = shown[self._view.rows.row_of(id_)].name
        order = [one.id for one in shown if one.id != id_]
        order.insert(row, id_)
        if order != [one.id for one in shown]:
            self._edit(edits.arranged(self._document.plan, order), words.move_step(name), f"order of {id_}")
            self._view.use_own_order()

    def _hide(self) -> None:
        if (chosen := self._view.chosen) is not None:
            after = self._neighbour(chosen.id)
            self._document.hide(self._document.hidden | {chosen.id}, words.hide_step(chosen.name))
            self._select(after)

    def show_all(self) -> None:
        """Brings the hidden routes back."""
        self._document.hide((), words.STEP_SHOW)

    def _delete(self) -> None:
        if (chosen := self._view.chosen) is not None:
            after = self._neighbour(chosen.id)
            self._edit(edits.deleted(self._document.plan, chosen.id), words.delete_step(chosen.name))
            self._select(after)

    def _neighbour(self, id_: str) -> str | None:
        """The row below, or the one above where it is the last."""
        ids = [one.id for one in self._view.rows.rows]
        others = [*ids[ids.index(id_) + 1 :], *reversed(ids[: ids.index(id_)])]
        return next(iter(others), None)

    def _edit(self, plan: Plan, what: str, merge: str | None = None) -> None:
        faults = self._document.edit(plan, what, merge=merge)
        if faults:
            raise ValueError(f"the list of routes cannot be changed so: {faults[0].message}")

    def _select(self, id_: str | None) -> None:
        found = next((one for one in self._document.shown if one.id == id_), None)
        if found is not None:
            self._document.select(found)

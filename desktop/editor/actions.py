"""What is done to a route as a whole: animals and pairings more, fewer, and in another order."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from core.plan.model import Animal, Bought, ForSale, Group, Held, Owned, Route, Sex
from desktop import fonts
from desktop.document import Document
from desktop.editor import groups, pairings
from desktop.editor.change import Refused, route_of, with_route
from desktop.editor.line import Key
from desktop.theme import SECOND
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel, ShortLabel
from desktop.words import editor as words
from desktop.words.names import id_of
from desktop.words.numbers import Numbers

_STEMS: dict[Sex, str] = {"male": "sire", "female": "dams"}


class Actions(QObject):
    """Each is one undoable step; `notice` says what could not be done, or what went along."""

    added = Signal(object)

    def __init__(self, document: Document, route_id: str, numbers: Numbers, parent: QWidget) -> None:
        super().__init__(parent)
        self._document, self._id, self._numbers = document, route_id, numbers
        self.head = ShortLabel(words.HEAD, font=fonts.sans(fonts.HEAD), ink=SECOND, parent=parent)
        self.notice = PlainLabel(font=fonts.sans(fonts.FORM), parent=parent)
        self.notice.setWordWrap(True)
        self.notice.hide()
        self.add = button(words.ADD_ANIMALS, "link", parent)
        self.pair = button(words.ADD_PAIRING, "link", parent)
        self.menu = QMenu(self.add)
        self.offers, self.mine = QMenu(words.FROM_SALE, self.menu), QMenu(words.MINE, self.menu)
        self.menu.aboutToShow.connect(self._fill)
        self.menu.triggered.connect(self._add)
        self.add.clicked.connect(self._show_menu)
        self.pair.clicked.connect(self.add_pairing)

    def widgets(self, parent: QWidget) -> tuple[QWidget, ...]:
        """The head over the lines and its two buttons."""
        for widget in (self.head, self.add, self.pair):
            widget.setParent(parent)
        return self.head, self.add, self.pair

    def edit(self, route: object, what: str, *, merge: str | None = None) -> str:
        """Puts the route into the plan as one step; gives why not, as a sentence, or nothing."""
        assert isinstance(route, Route)
        plan = with_route(self._document.plan, route)
        if plan != self._document.plan:
            self.say("")
        faults = self._document.edit(plan, what, merge=f"{self._id} {merge}" if merge else None)
        return words.not_changed(faults[0].place, faults[0].message) if faults else ""

    def say(self, sentence: str) -> None:
        """Tells something about the route as a whole."""
        self.notice.setText(sentence)
        self.notice.setVisible(bool(sentence))

    def add_pairing(self) -> None:
        """Pairs the animals that breed with nobody yet, else the last ones."""
        route = self._route()
        made = pairings.added(route)
        if isinstance(made, Refused):
            self.say(made.sentence)
            return
        changed, name = made
        if refusal := self.edit(changed, words.added(name)):
            self.say(refusal)
        else:
            self.added.emit(Key("pairing", name))

    def add_group(self, group: Group) -> None:
        """Adds animals under a name of their own."""
        changed = groups.added(self._route(), group)
        name = changed.groups[-1].id
        if refusal := self.edit(changed, words.added(name)):
            self.say(refusal)
        else:
            self.added.emit(Key("group", name))

    def move(self, key: Key, by: int) -> None:
        """Moves a line up or down among its kind."""
        change = groups.earlier if key.kind == "group" else pairings.earlier
        self.edit(change(self._route(), key.id, by), words.moved(key.id))

    def remove(self, key: Key) -> None:
        """Removes a line and what cannot be without it, as one step, and says so."""
        route = self._route()
        after = (groups if key.kind == "group" else pairings).without(route, key.id)
        along = tuple(name for name in pairings.taken_along(route, after) if name != key.id)
        refusal = self.edit(after, words.removed(key.id))
        self.say(refusal or words.took_along(key.id, along))

    def _route(self) -> Route:
        route = route_of(self._document.plan, self._id)
        assert route is not None
        return route

    def _show_menu(self) -> None:
        self.menu.popup(self.add.mapToGlobal(self.add.rect().bottomLeft()))

    def _fill(self) -> None:
        """What can be added to the route as it is now."""
        self.menu.clear()
        plan, route = self._document.plan, self._route()
        for sex in _STEMS:
            _item(self.menu, words.BUY_NEW[sex], Bought(id=_STEMS[sex], sex=sex, count=1, carries={}, price=0))
        for sex in _STEMS:
            held = groups.held_group(route, sex)
            _item(self.menu, words.HOLD_NEW[sex], held).setEnabled(held is not None)
        self.menu.addSeparator()
        for menu, entries in (
            (self.offers, [(words.offer(plan, one, self._numbers), _bought(one)) for one in plan.for_sale]),
            (self.mine, [(words.mine(plan, one), _mine(one)) for one in plan.my_animals]),
        ):
            menu.clear()
            for text, group in entries:
                _item(menu, text, group)
            menu.setEnabled(bool(entries))
            self.menu.addMenu(menu)

    def _add(self, action: QAction) -> None:
        group = action.data()
        if isinstance(group, Bought | Owned | Held):
            self.add_group(group)


def _item(menu: QMenu, text: str, group: Group | None) -> QAction:
    action = menu.addAction(text.replace("&", "&&"))
    action.setData(group)
    return action


def _bought(offer: ForSale) -> Bought:
    return Bought(
        id=_STEMS[offer.sex], sex=offer.sex, count=1, carries=offer.carries, price=offer.price, ready_in=offer.ready_in
    )


def _mine(one: Animal) -> Owned:
    return Owned(id=id_of(one.name or one.id), sex=one.sex, animals=(one.id,))

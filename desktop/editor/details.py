"""What there is to say and choose about the chosen line, with room for it: below the lines."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.plan.model import Bought, Held, Owned, Plan, Route
from desktop import fonts
from desktop.carrying.panel import CarriesPanel
from desktop.editor import groups, pairings, table
from desktop.editor.change import with_group
from desktop.editor.line import Key
from desktop.editor.looks import LooksPanel
from desktop.editor.mine import MinePanel
from desktop.editor.parts import Where
from desktop.editor.sentence import Sentence
from desktop.findings import Finding
from desktop.theme import ERROR, NOTES
from desktop.widgets.inked import button
from desktop.widgets.labels import PlainLabel
from desktop.words import editor as words
from desktop.words import editor_details as said
from desktop.words.numbers import Numbers

_GAP, _LEAST_TITLE = 16, 90


class Details(QWidget):
    """Follows the chosen line; what is done here comes back like what is done in the line."""

    asked = Signal(object, str, str, object)
    # By how many places the chosen line is to move; that it is to go.
    moved = Signal(int)
    removed = Signal()

    def __init__(self, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self._at: Where | None = None
        self._key: Key | None = None
        self.title = PlainLabel(font=fonts.serif(fonts.SENTENCE), parent=self)
        self.title.setWordWrap(True)
        self.up, self.down = button(words.MOVE_UP, "link", self), button(words.MOVE_DOWN, "link", self)
        self.remove = button(words.REMOVE, "link", self)
        self.more = Sentence(self)
        self.refusal = PlainLabel(font=fonts.sans(fonts.HEAD), ink=ERROR, parent=self)
        self.note = PlainLabel(font=fonts.sans(fonts.HEAD), ink=NOTES, parent=self)
        self.carries = CarriesPanel(numbers, self)
        self.carries.title.hide()
        self.looks = LooksPanel(self)
        self.mine = MinePanel(self)
        self.facts = PlainLabel(font=fonts.sans(fonts.FORM), parent=self)
        for label in (self.refusal, self.note, self.facts):
            label.setWordWrap(True)
        self._head = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._lay_out()
        self._connect()

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(self._actions_wide(), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        super().resizeEvent(event)
        is_narrow = self.width() < self._actions_wide() + fonts.grown(_LEAST_TITLE)
        way = QBoxLayout.Direction.TopToBottom if is_narrow else QBoxLayout.Direction.LeftToRight
        self._head.setSpacing(4 if is_narrow else _GAP)
        self._head.setDirection(way)

    def _actions_wide(self) -> int:
        return sum(action.sizeHint().width() + _GAP for action in self._actions())

    def show_line(self, plan: Plan, route: Route, key: Key | None, finding: Finding | None) -> None:
        """Shows what belongs to a line; None: nothing is chosen."""
        is_same = key is not None and self._key is not None and key.kind == self._key.kind and key.id == self._key.id
        self._key = key
        self._at = Where(plan, route, key.id if key else "", self._numbers)
        is_about = key is not None and key.kind in ("group", "pairing")
        for widget in (*self._actions(), self.more):
            widget.setVisible(is_about)
        self.refusal.hide()
        if not is_same:
            self.looks.look_at(0)
        if key is not None and key.kind == "group":
            self._show_group(self._at)
        elif key is not None and key.kind == "pairing":
            self._show_pairing(self._at, finding)
        else:
            self._show_body(None)
            self.title.setText(words.NO_LINE if key is None else "")
            self.note.setText("")
        self.note.setVisible(bool(self.note.text()))
        last: QWidget = self.remove
        for field in self.more.fields.values():
            # Made anew for each line, but they stand where they stood.
            QWidget.setTabOrder(last, field)
            last = field

    def look_at(self, field: str) -> None:
        """Looks at what a field of the chosen line is about: one look in the order of preference."""
        head, _, place = field.partition(".")
        if head == "pick":
            self.looks.look_at(int(place))

    def refuse(self, field: str, sentence: str) -> None:
        """Says why something was not taken here."""
        if field == "carries":
            self.carries.refuse(sentence)
            return
        self.more.refuse(field)
        self.mine.show_again()
        self.looks.show_again()
        self.refusal.setText(sentence)
        self.refusal.show()

    def first_focus(self) -> QWidget | None:
        """Where the keyboard goes when a value is opened here."""
        for panel in (self.carries, self.looks):
            if panel.isVisibleTo(self) and panel.rows:
                buttons = panel.rows[0].choice_buttons()
                return next((one for one in buttons if one.isChecked()), buttons[0]) if buttons else None
        return self.mine.boxes[0] if self.mine.isVisibleTo(self) and self.mine.boxes else None

    def _show_group(self, at: Where) -> None:
        group, route = at.group, at.route
        place = [one.id for one in route.groups].index(at.id)
        self.more.show_parts(table.group_more(at))
        along = pairings.taken_along(route, groups.without(route, at.id))
        held = [one.id for one in route.groups if isinstance(one, Held)]
        order = words.order_note(held.index(at.id), len(held), held=True) if at.id in held else ""
        self._show_actions(place, len(route.groups), tuple(name for name in along if name != at.id), order)
        if isinstance(group, Held):
            self.title.setText(said.held_title(at.plan, group))
            self.looks.show_looks(at.plan, group)
            self._show_body(self.looks)
        elif isinstance(group, Owned) and group.animals is not None:
            self.title.setText(said.mine_title(at.plan, group))
            self.mine.show_animals(at.plan, at.route, group)
            self._show_body(self.mine)
        else:
            count = groups.size(group)
            self.carries.show_carries(at.plan, words.short_title(at.id), group.carries or {}, group.sex, count)
            self.title.setText(self.carries.title.text())
            self._show_body(self.carries)

    def _show_pairing(self, at: Where, finding: Finding | None) -> None:
        route = at.route
        place = [one.id for one in route.pairings].index(at.id)
        self.more.hide()
        along = pairings.taken_along(route, pairings.without(route, at.id))
        order = words.order_note(place, len(route.pairings), held=False)
        self._show_actions(place, len(route.pairings), tuple(name for name in along if name != at.id), order)
        self.title.setText(said.pairing_title(at.pairing))
        self.facts.setText(said.pairing_facts(at, finding, self._numbers))
        self._show_body(self.facts)

    def _show_actions(self, place: int, of: int, along: tuple[str, ...], order: str) -> None:
        self.up.setEnabled(place > 0)
        self.down.setEnabled(place < of - 1)
        notes = (words.takes_along(along), order)
        self.note.setText(" ".join(note for note in notes if note))

    def _show_body(self, wanted: QWidget | None) -> None:
        for body in (self.carries, self.looks, self.mine, self.facts):
            body.setVisible(body is wanted)

    def _actions(self) -> tuple[QPushButton, ...]:
        return self.up, self.down, self.remove

    def _ask_more(self, field: str, what: str, change: object) -> None:
        self.asked.emit(self._key, field, what, change)

    def _ask_carries(self, carries: object) -> None:
        at = self._at
        if at is not None and isinstance(group := at.group, Bought | Owned):
            changed = with_group(at.route, replace(group, carries=carries))
            self.asked.emit(self._key, "carries", words.step(words.CARRIES, at.id), changed)

    def _ask_look(self, place: int, forms: object) -> None:
        at = self._at
        if at is not None and isinstance(forms, dict):
            changed = groups.with_pick(at.route, at.id, place, forms)
            self.asked.emit(self._key, f"pick.{place}", words.step(words.pick_name(place), at.id), changed)

    def _ask_animals(self, animals: object) -> None:
        at = self._at
        if at is not None and isinstance(animals, tuple):
            changed = groups.with_animals(at.route, at.id, animals)
            self.asked.emit(self._key, "animals", words.step(words.ANIMALS, at.id), changed)

    def _up(self) -> None:
        self.moved.emit(-1)

    def _down(self) -> None:
        self.moved.emit(1)

    def _connect(self) -> None:
        self.more.asked.connect(self._ask_more)
        self.carries.edited.connect(self._ask_carries)
        self.looks.edited.connect(self._ask_look)
        self.mine.edited.connect(self._ask_animals)
        self.up.clicked.connect(self._up)
        self.down.clicked.connect(self._down)
        self.remove.clicked.connect(self.removed)

    def _lay_out(self) -> None:
        actions = QHBoxLayout()
        actions.setSpacing(_GAP)
        for action in self._actions():
            actions.addWidget(action, 0, Qt.AlignmentFlag.AlignTop)
        # Under the title they begin at its left.
        actions.insertStretch(-1)
        self._head.setSpacing(_GAP)
        self._head.addWidget(self.title, 1)
        self._head.addLayout(actions)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 8, 0)
        layout.setSpacing(4)
        layout.addLayout(self._head)
        for widget in (self.more, self.refusal, self.note, self.carries, self.looks, self.mine, self.facts):
            layout.addWidget(widget)
        layout.addStretch(1)

"""Which of my animals a group is: a box each."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from core.plan.model import Owned, Plan, Route
from desktop import fonts
from desktop.theme import SECOND
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel, give_tip
from desktop.words import editor_details as said

# The widest that one of them is; what is cut is whole in its tip.
_WIDEST = 380


class MinePanel(QWidget):
    """`edited` tells which animals are wanted, in the order of my animals."""

    edited = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._names: tuple[str, ...] = ()
        self._chosen: tuple[str, ...] = ()
        self.boxes: list[QCheckBox] = []
        self._note = PlainLabel(said.FROM_MY_ANIMALS, font=fonts.sans(fonts.HEAD), ink=SECOND, parent=self)
        self._note.setWordWrap(True)
        here = QWidget(self)
        self._here = here
        self._flow = Flow(here, gap=16, line_gap=6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(here)
        layout.addWidget(self._note)

    def show_animals(self, plan: Plan, route: Route, group: Owned) -> None:
        """Shows the animals of the group's sex, those of the group checked."""
        names = tuple(one.id for one in plan.my_animals if one.sex == group.sex)
        labels = [said.animal_label(plan, route, group, one) for one in plan.my_animals if one.sex == group.sex]
        self._fit(len(names))
        self._names, self._chosen = names, group.animals or ()
        for box, label in zip(self.boxes, labels, strict=False):
            shown = box.fontMetrics().elidedText(label, Qt.TextElideMode.ElideRight, _WIDEST)
            box.setText(shown.replace("&", "&&"))
            give_tip(box, label if shown != label else "")
            box.setAccessibleName(label)
        self.show_again()

    def show_again(self) -> None:
        """Checks what the plan says, after something was not taken."""
        for box, name in zip(self.boxes, self._names, strict=False):
            with QSignalBlocker(box):
                box.setChecked(name in self._chosen)

    def _fit(self, wanted: int) -> None:
        while len(self.boxes) < wanted:
            box = QCheckBox(self._here)
            box.setFont(fonts.sans(fonts.FORM))
            box.setProperty("look", "check")
            box.toggled.connect(self._changed)
            self._flow.addWidget(box)
            self.boxes.append(box)
        for place, box in enumerate(self.boxes):
            box.setVisible(place < wanted)

    def _changed(self) -> None:
        checked = (name for name, box in zip(self._names, self.boxes, strict=False) if box.isChecked())
        self.edited.emit(tuple(checked))

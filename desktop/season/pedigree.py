"""A small picture of whose young an animal is, and whose parent."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.plan.model import Animal, Plan
from desktop import fonts
from desktop.panels.charts.size import text_scale
from desktop.theme import colour, colours_of
from desktop.words import my_animals as words

# At the usual text size: a name's box, and the room between boxes.
_WIDE, _TALL, _ASIDE, _BETWEEN = 118.0, 26.0, 14.0, 34.0
_MOST_YOUNG = 5
_MALE_CORNER, _FEMALE_CORNER = 3.0, 13.0


class Pedigree(QWidget):
    """Grandparents, parents, the animal, its young; females round, males square, as pedigrees are drawn."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._boxes: list[tuple[QRectF, Animal, bool]] = []
        self._lines: list[tuple[QPointF, QPointF]] = []
        self._size = QSize(0, 0)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(words.PEDIGREE)

    def show_animal(self, plan: Plan, animal: Animal) -> None:
        """Draws another animal's."""
        known = {one.id: one for one in plan.my_animals}
        self.setAccessibleDescription(words.pedigree_told(plan, animal))
        self._boxes, self._lines = [], []
        scale = text_scale()
        rows = _rows(known, animal, [one for one in plan.my_animals if animal.id in (one.sire, one.dam)][:_MOST_YOUNG])
        widest = max(len(row) for row in rows)
        wide = widest * _WIDE + (widest - 1) * _ASIDE
        places: dict[tuple[int, str], QRectF] = {}
        for level, row in enumerate(rows):
            used = len(row) * _WIDE + (len(row) - 1) * _ASIDE
            x = (wide - used) / 2
            for one in row:
                box = QRectF(x * scale, level * (_TALL + _BETWEEN) * scale, _WIDE * scale, _TALL * scale)
                places[level, one.id] = box
                self._boxes.append((box, one, one.id == animal.id))
                x += _WIDE + _ASIDE
        self._join(rows, places)
        tall = len(rows) * _TALL + (len(rows) - 1) * _BETWEEN
        self._size = QSize(int(wide * scale) + 2, int(tall * scale) + 2)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:  # noqa: D102
        return self._size

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return self._size

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: D102
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(1, 1)
        colours = colours_of(self.palette())
        painter.setPen(QPen(colour(colours.rule), 1.2))
        for above, below in self._lines:
            middle = (above.y() + below.y()) / 2
            path = QPainterPath(above)
            for point in (QPointF(above.x(), middle), QPointF(below.x(), middle), below):
                path.lineTo(point)
            painter.drawPath(path)
        for box, one, is_it in self._boxes:
            corner = (_MALE_CORNER if one.sex == "male" else _FEMALE_CORNER) * text_scale()
            painter.setPen(QPen(colour(colours.accent if is_it else colours.rule), 2.0 if is_it else 1.2))
            painter.setBrush(colour(colours.selected if is_it else colours.page))
            painter.drawRoundedRect(box, corner, corner)
            font = fonts.sans(fonts.HEAD, bold=is_it)
            painter.setFont(font)
            painter.setPen(colour(colours.text))
            room = box.width() - 16 * text_scale()
            name = QFontMetricsF(font).elidedText(words.name_of(one), Qt.TextElideMode.ElideRight, room)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, name)

    def _join(self, rows: list[list[Animal]], places: dict[tuple[int, str], QRectF]) -> None:
        for level, row in enumerate(rows[1:], 1):
            for one in row:
                for parent in (one.sire, one.dam):
                    above = places.get((level - 1, parent or ""))
                    if above is not None:
                        box = places[level, one.id]
                        self._lines.append(
                            (QPointF(above.center().x(), above.bottom()), QPointF(box.center().x(), box.top()))
                        )


def _rows(known: dict[str, Animal], animal: Animal, young: list[Animal]) -> list[list[Animal]]:
    """From the oldest to the youngest; mates of its young stand beside it."""
    parents = _parents(known, [animal])
    older = _parents(known, parents)
    mates = [known[other] for one in young for other in (one.sire, one.dam) if other in known and other != animal.id]
    level = [animal, *_once(mates)]
    return [row for row in (older, parents, level, young) if row]


def _parents(known: dict[str, Animal], animals: list[Animal]) -> list[Animal]:
    return _once([known[one] for animal in animals for one in (animal.sire, animal.dam) if one in known])


def _once(animals: list[Animal]) -> list[Animal]:
    return list({one.id: one for one in animals}.values())

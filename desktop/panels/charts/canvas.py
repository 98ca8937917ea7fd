"""One chart: kept curves of the plotting library between painted layers."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QHelpEvent, QHideEvent, QResizeEvent
from PySide6.QtWidgets import QGraphicsLinearLayout, QToolTip, QVBoxLayout, QWidget

from desktop import fonts
from desktop.panels.charts import end_labels, labels
from desktop.panels.charts.curves import Curves
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.goal_chance import GoalChance
from desktop.panels.charts.grip import Grip
from desktop.panels.charts.layer import Layer, Scene
from desktop.panels.charts.library import pg
from desktop.panels.charts.paintings import OVER, room_left, room_over, under
from desktop.panels.charts.reading import Reading
from desktop.panels.charts.readout import snapped
from desktop.panels.charts.ringed_view import RingedView
from desktop.panels.charts.series import Picture, next_stop
from desktop.panels.charts.size import text_scale
from desktop.panels.charts.viewport import Sight, whole_of
from desktop.theme import colour, colours_of
from desktop.widgets.labels import tip
from desktop.words.numbers import Numbers

_LEAST_PLOT = 104.0
_NEARER, _FARTHER = 0.6, 1 / 0.6
# The library keeps its curves at -100.
_UNDER_CURVES, _OVER_CURVES = -150.0, 50.0


class Canvas(QWidget):
    """Shows a picture or a part of it; reads out values at an x."""

    sight_changed = Signal()

    def __init__(self, name: str, numbers: Numbers, chance: GoalChance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._numbers = numbers
        self.picture: Picture | None = None
        self._sight: Sight | None = None
        # A view box by itself: axes and menus of the library's plot would only be hidden again.
        self.view = RingedView(self)
        self._item = pg.GraphicsWidget()
        self._box = pg.ViewBox(enableMenu=False, enableMouse=False, defaultPadding=0)
        self._set_up_view(name)
        self.curves = Curves(self._box)
        self._layers = self._layered()
        self._reading = Reading(self.view, self._item, numbers)
        self._ends: tuple[end_labels.EndLabel, ...] = ()
        self.grip = Grip(chance, numbers, self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.view)
        self._box.sigResized.connect(self.repaint_scene)

    def show_picture(self, picture: Picture) -> None:
        """Another picture on the same kept curves; a part in sight stays in sight."""
        self.picture = picture
        if self._sight is not None:
            self._sight = self._sight.within(whole_of(picture))
        self.view.setAccessibleDescription(picture.description)
        self.repaint_scene()
        if self.reading is not None:
            self.read_at(self.reading)

    def frame(self) -> Frame | None:
        """Where the data lie now."""
        area = self._box.geometry()
        if self.picture is None or area.width() < 10 or area.height() < 10:
            return None
        return Frame(QRectF(area), self._sight or whole_of(self.picture), self._item.size().width())

    @property
    def is_zoomed(self) -> bool:
        """Whether only a part is in sight."""
        return self._sight is not None

    @property
    def reading(self) -> float | None:
        """The x that is read out, if any."""
        return self._reading.x

    def read_at(self, x: float | None) -> None:
        """Reads out at another x, or ends it."""
        frame, picture = self.frame(), self.picture
        if picture is None or frame is None:
            return
        if x is None or not picture.series:
            self._reading.end(picture)
            return
        at = x if x in picture.stops else snapped(picture, x, frame.sight.low, frame.sight.high)
        self._reading.show(picture, frame, at)

    def read_on(self, turns: int) -> None:
        """Reads out that many stops further on, and says it."""
        frame = self.frame()
        if self.picture is not None and frame is not None:
            self._read_stop(next_stop(self.picture, self.reading, turns, start=frame.sight.low))

    def read_end(self, *, first: bool) -> None:
        """Reads out at the first or the last stop, and says it."""
        if self.picture is not None and self.picture.stops.size:
            self._read_stop(float(self.picture.stops[0 if first else -1]))

    def zoom_in(self) -> None:
        """A nearer look around what is read out, or around the middle."""
        self._zoom_by(_NEARER)

    def zoom_out(self) -> None:
        """A wider look."""
        self._zoom_by(_FARTHER)

    def show_whole(self) -> None:
        """The whole chart again."""
        self._see(None)

    def zoom(self, by: tuple[float, float], at: QPointF) -> None:
        """Makes the part in sight `by` times as wide and high; the point `at` stays where it is."""
        frame = self.frame()
        if frame is not None and self.picture is not None:
            point = (frame.x_of(at.x()), frame.y_of(at.y()))
            self._see(frame.sight.zoomed(whole_of(self.picture), point, by))

    def zoom_into(self, box: QRectF) -> None:
        """Shows what lies in a box on the canvas."""
        frame = self.frame()
        if frame is not None and self.picture is not None:
            area = box.intersected(frame.area)
            by = (area.width() / frame.area.width(), area.height() / frame.area.height())
            low, bottom = frame.x_of(area.left()), frame.y_of(area.bottom())
            start = frame.sight.zoomed(whole_of(self.picture), (low, bottom), by)
            self._see(start.moved(whole_of(self.picture), low - start.low, bottom - start.bottom))

    def move_by(self, way: QPointF) -> None:
        """Moves the part in sight with the hand."""
        frame = self.frame()
        if self._sight is not None and frame is not None and self.picture is not None:
            x = -way.x() / frame.area.width() * (frame.sight.high - frame.sight.low)
            y = way.y() / frame.area.height() * (frame.sight.top - frame.sight.bottom)
            self._see(self._sight.moved(whole_of(self.picture), x, y))

    def repaint_scene(self) -> None:
        """Lays everything out again."""
        frame, picture = self.frame(), self.picture
        if frame is None or picture is None:
            return
        colours = colours_of(self.palette())
        self.curves.show(picture, frame, colours)
        self._ends = end_labels.lay_out(frame, picture)
        scene = Scene(frame, picture, colours, labels.lay_out(frame, picture), self._ends)
        rect = QRectF(QPointF(0, 0), self._item.size())
        for layer in self._layers:
            layer.show_scene(rect, scene)
        # Else the library sets the curves in place while it paints, and Qt paints once more.
        self.view.scene().prepareForPaint()
        self.grip.place(frame)
        self._reading.ink(colour(colours.notes))

    def sizeHint(self) -> QSize:  # noqa: D102
        return QSize(560, self.minimumSizeHint().height())

    def minimumSizeHint(self) -> QSize:  # noqa: D102
        return QSize(400, int(_LEAST_PLOT * text_scale() + self._over() + self._under()))

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: D102
        self._set_margins()
        super().resizeEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: D102
        self.read_at(None)
        super().hideEvent(event)

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        # Plots do not follow the palette by themselves.
        if event.type() == QEvent.Type.PaletteChange:
            self.view.setBackground(colour(colours_of(self.palette()).page))
            self.repaint_scene()

    def event(self, event: QEvent) -> bool:  # noqa: D102
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            self._tell_name(event)
            return True
        return super().event(event)

    def _tell_name(self, event: QHelpEvent) -> None:
        """The whole name of a route whose label is pointed at."""
        at = QPointF(event.pos())
        name = next((one.series.name for one in self._ends if one.box.adjusted(-20, 0, 0, 0).contains(at)), "")
        QToolTip.showText(event.globalPos(), tip(name), self)

    def _set_up_view(self, name: str) -> None:
        self.view.setBackground(colour(colours_of(self.palette()).page))
        self.view.setFrameShape(pg.QtWidgets.QFrame.Shape.NoFrame)
        # A scene has the whole window painted for its own changes at once, so two charts would be painted thrice.
        self.view.setViewportUpdateMode(pg.GraphicsView.ViewportUpdateMode.NoViewportUpdate)
        self.view.scene().changed.connect(self._paint_soon)
        self.view.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.view.setAccessibleName(name)
        self.view.setCentralItem(self._item)
        inside = QGraphicsLinearLayout(self._item)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.addItem(self._box)
        self._set_margins()

    def _paint_soon(self) -> None:
        self.view.viewport().update()

    def _layered(self) -> tuple[Layer, ...]:
        return (
            Layer(self._item, _UNDER_CURVES, under(self._numbers)),
            Layer(self._item, _OVER_CURVES, OVER),
        )

    def _set_margins(self) -> None:
        left = room_left(self._numbers)
        self._item.setContentsMargins(left, self._over(), end_labels.room(self.width()), self._under())

    def _over(self) -> float:
        return room_over()

    def _under(self) -> float:
        return fonts.sans(fonts.NOTE).pixelSize() * 1.7

    def _zoom_by(self, by: float) -> None:
        frame = self.frame()
        if frame is not None:
            x = frame.area.center().x() if self.reading is None else frame.px(self.reading)
            self.zoom((by, 1.0), QPointF(x, frame.area.center().y()))

    def _see(self, sight: Sight | None) -> None:
        if self.picture is None:
            return
        self._sight = None if sight == whole_of(self.picture) else sight
        self.repaint_scene()
        if self.reading is not None:
            self.read_at(self.reading)
        self.sight_changed.emit()

    def _read_stop(self, x: float | None) -> None:
        if x is None or self.picture is None or not self.picture.series:
            return
        if self._sight is not None:
            self._see(self._sight.showing(whole_of(self.picture), x))
        frame = self.frame()
        if frame is not None:
            self._reading.show(self.picture, frame, x)
            self._reading.announce()

"""What pointer, wheel and keys do to a chart."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QRubberBand

from desktop.panels.charts.canvas import Canvas

_NEARER = 0.8
_NOTCH = 120.0
# A press this near to the goal line takes hold of it.
_GRASP = 5.0
_MANY = 10
_TURNS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageDown: -_MANY, Qt.Key.Key_PageUp: _MANY}
# A box narrower than this was a slip of the hand.
_LEAST_BOX = 8


class Hands(QObject):
    """Watches the plot: reading under the pointer and by keys, zooming, moving, dragging the goal line."""

    def __init__(self, canvas: Canvas) -> None:
        super().__init__(canvas)
        self._canvas = canvas
        self._doing: str | None = None
        self._from = QPointF()
        self._band = QRubberBand(QRubberBand.Shape.Rectangle, canvas)
        self._band.hide()
        canvas.view.installEventFilter(self)
        canvas.view.viewport().installEventFilter(self)
        canvas.view.viewport().setMouseTracking(True)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: D102
        kind = event.type()
        if isinstance(event, QKeyEvent):
            return watched is self._canvas.view and kind == QEvent.Type.KeyPress and self._key(event)
        if watched is self._canvas.view:
            return False
        if isinstance(event, QWheelEvent):
            return self._wheel(event)
        if isinstance(event, QMouseEvent):
            return self._mouse(event)
        if kind == QEvent.Type.Leave and self._doing is None:
            self._canvas.read_at(None)
        return False

    def _mouse(self, event: QMouseEvent) -> bool:
        kind, left = event.type(), event.button() == Qt.MouseButton.LeftButton
        if kind == QEvent.Type.MouseButtonDblClick and left:
            self._canvas.show_whole()
        elif kind == QEvent.Type.MouseButtonPress and left:
            self._press(event)
        elif kind == QEvent.Type.MouseButtonRelease and left:
            self._release(event.position())
        elif kind == QEvent.Type.MouseMove:
            self._move(event.position())
        else:
            return False
        return True

    def _press(self, event: QMouseEvent) -> None:
        self._from = event.position()
        self._canvas.view.setFocus(Qt.FocusReason.MouseFocusReason)
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._doing = "box"
            self._band.setGeometry(QRect(self._from.toPoint(), QSize()))
            self._band.show()
        elif self._near_goal(self._from):
            self._doing = "goal"
        else:
            self._doing = "move"

    def _move(self, at: QPointF) -> None:
        if self._doing == "goal":
            self._canvas.grip.drag_to(at.y())
        elif self._doing == "box":
            self._band.setGeometry(QRect(self._from.toPoint(), at.toPoint()).normalized())
        elif self._doing == "move":
            self._canvas.move_by(at - self._from)
            self._from = at
        else:
            self._hover(at)

    def _hover(self, at: QPointF) -> None:
        near = self._near_goal(at)
        self._canvas.view.viewport().setCursor(Qt.CursorShape.SizeVerCursor if near else Qt.CursorShape.ArrowCursor)
        frame = self._canvas.frame()
        inside = frame is not None and frame.area.contains(at)
        self._canvas.read_at(frame.x_of(at.x()) if frame and inside else None)

    def _release(self, at: QPointF) -> None:
        doing, self._doing = self._doing, None
        if doing == "goal":
            self._canvas.grip.let_go()
        elif doing == "box":
            self._band.hide()
            box = QRectF(self._from, at).normalized()
            if box.width() >= _LEAST_BOX and box.height() >= _LEAST_BOX:
                self._canvas.zoom_into(box)

    def _near_goal(self, at: QPointF) -> bool:
        frame, picture = self._canvas.frame(), self._canvas.picture
        if frame is None or picture is None or not frame.shows_chance(picture.goal):
            return False
        on_plot = frame.area.left() <= at.x() <= frame.area.right()
        return on_plot and abs(at.y() - frame.py(picture.goal)) <= _GRASP

    def _wheel(self, event: QWheelEvent) -> bool:
        """The wheel alone scrolls the page, unless it is over the numbers or the chart is in use."""
        frame = self._canvas.frame()
        notches = event.angleDelta().y() / _NOTCH
        if frame is None or not notches:
            return False
        at = event.position()
        by = _NEARER**notches
        if at.x() < frame.area.left() and at.y() <= frame.area.bottom():
            self._canvas.zoom((1.0, by), at)
        elif at.y() > frame.area.bottom():
            self._canvas.zoom((by, 1.0), at)
        elif event.modifiers() & Qt.KeyboardModifier.ControlModifier or self._canvas.view.hasFocus():
            self._canvas.zoom((by, by), at)
        else:
            return False
        event.accept()
        return True

    def _key(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        if key in _TURNS:
            self._canvas.read_on(_TURNS[key])
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self._canvas.read_end(first=key == Qt.Key.Key_Home)
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._canvas.zoom_in()
        elif key == Qt.Key.Key_Minus:
            self._canvas.zoom_out()
        elif key == Qt.Key.Key_0:
            self._canvas.show_whole()
        elif key == Qt.Key.Key_Escape and self._canvas.reading is not None:
            self._canvas.read_at(None)
        else:
            return False
        return True

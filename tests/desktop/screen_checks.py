"""What holds on every screen, found out from its widgets and its pixels; each check gives what is wrong, in words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations, pairwise

import numpy as np
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QColor, QImage
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QMainWindow,
    QMenuBar,
    QRadioButton,
    QScrollBar,
    QTabBar,
    QWidget,
)

from desktop.widgets.labels import ShortLabel
from desktop.widgets.runs_text import RunsText

_MARKUP = re.compile(r"<[a-zA-Z!/]")
LEAST_CONTRAST = 4.5
# A few pixels of rounding and of letters that lean out of their box.
SLACK = 3
NARROWEST = 1280
TEXTS = (QLabel, QAbstractButton, QLineEdit, QComboBox, RunsText, QTabBar)


def tops() -> list[QWidget]:
    """Every window that is shown."""
    return [
        one for one in QApplication.topLevelWidgets() if one.isVisible() and isinstance(one, (QMainWindow, QDialog))
    ]


def shown(top: QWidget) -> Iterator[QWidget]:
    """Every visible widget inside a window that has any room."""
    for widget in top.findChildren(QWidget):
        if widget.window() is top and widget.isVisibleTo(top) and widget.width() > 0 and widget.height() > 0:
            yield widget


def texts(top: QWidget) -> list[QWidget]:
    """The widgets that show words by themselves; parts of a larger one are left to that one."""
    return [one for one in shown(top) if isinstance(one, TEXTS) and said_by(one) and not _part_of_control(one)]


def said_by(widget: QWidget) -> str:
    """The words of a widget."""
    if isinstance(widget, QComboBox):
        return widget.currentText()
    if isinstance(widget, QTabBar):
        return " ".join(widget.tabText(place) for place in range(widget.count()))
    if isinstance(widget, (QLabel, QAbstractButton, QLineEdit, RunsText)):
        return widget.text()
    return ""


def named(widget: QWidget) -> str:
    """A widget as a person can find it."""
    words = said_by(widget) or widget.accessibleName()
    return f"{type(widget).__name__} “{words[:48]}”"


def clipped(top: QWidget) -> list[str]:
    """Texts with less room than they need, or that reach out of what they stand in."""
    found = []
    for widget in texts(top):
        short = _too_small(widget)
        if short:
            found.append(f"{named(widget)} is cut: {short}")
        elif (outside := _outside(widget, top)) is not None:
            found.append(f"{named(widget)} reaches out of {type(outside).__name__}")
    return found


def _too_small(widget: QWidget) -> str:
    width, height = widget.width(), widget.height()
    wraps = isinstance(widget, QAbstractButton) and widget.hasHeightForWidth()
    if wraps or isinstance(widget, RunsText) or (isinstance(widget, QLabel) and widget.wordWrap()):
        needed = widget.heightForWidth(width)
        return f"{height} high, {needed} needed" if needed > height + SLACK else ""
    if isinstance(widget, QLineEdit):
        needed = widget.fontMetrics().horizontalAdvance(widget.text())
        # What is too long for a field is elided on purpose, and whole in its tip.
        return f"{width} wide, {needed} needed" if needed > width and not widget.toolTip() else ""
    hint = widget.minimumSizeHint() if isinstance(widget, QTabBar) else widget.sizeHint()
    if isinstance(widget, ShortLabel) or (isinstance(widget, QLabel) and not widget.text().strip()):
        return ""
    if hint.width() > width + SLACK and not widget.toolTip():
        return f"{width} wide, {hint.width()} needed"
    return f"{height} high, {hint.height()} needed" if hint.height() > height + SLACK else ""


def _outside(widget: QWidget, top: QWidget) -> QWidget | None:
    box, parent = QRect(widget.rect()), widget.parentWidget()
    child = widget
    while parent is not None and child is not top:
        box = QRect(child.mapToParent(box.topLeft()), box.size())
        if isinstance(parent.parentWidget(), QAbstractScrollArea) or isinstance(parent, QAbstractScrollArea):
            return None
        if not parent.rect().adjusted(-SLACK, -SLACK, SLACK, SLACK).contains(box):
            return parent
        child, parent = parent, parent.parentWidget()
    return None


def grown(top: QWidget) -> list[str]:
    """A window that is wider than the smallest screen it is made for."""
    return [f"{top.width()} wide"] if top.width() > NARROWEST else []


def overlapping(top: QWidget) -> list[str]:
    """Texts that stand on each other."""
    boxes = [(one, _ink_box(one, top)) for one in texts(top)]
    return [
        f"{named(one)} and {named(other)}"
        for (one, here), (other, there) in combinations(boxes, 2)
        if not (one.isAncestorOf(other) or other.isAncestorOf(one))
        and (cut := here.intersected(there)).width() > SLACK
        and cut.height() > SLACK
    ]


def _ink_box(widget: QWidget, top: QWidget) -> QRect:
    """Where a widget can be seen."""
    box = QRect(widget.mapTo(top, QPoint(0, 0)), widget.size())
    parent = widget.parentWidget()
    while parent is not None and parent is not top:
        box = box.intersected(QRect(parent.mapTo(top, QPoint(0, 0)), parent.size()))
        parent = parent.parentWidget()
    return box


def pale(top: QWidget) -> list[str]:
    """Texts in use whose ink does not stand out from what is behind them."""
    picture = top.grab().toImage()
    ratio = picture.devicePixelRatio()
    found = []
    for widget in texts(top):
        box = _ink_box(widget, top).intersected(top.rect())
        # Of what is scrolled half out of sight nothing can be said.
        hidden = box.height() < widget.height() * 0.8 or box.width() < 8
        if not widget.isEnabled() or hidden or not said_by(widget).strip():
            continue
        at = QRect(box.topLeft() * ratio, box.size() * ratio)
        best = _strongest(picture.copy(at))
        # By itself too: a read-out may stand over it for the moment.
        if best < LEAST_CONTRAST and _strongest(widget.grab().toImage()) < LEAST_CONTRAST:
            found.append(f"{named(widget)}: {best:.1f} to 1")
    return found


def _strongest(picture: QImage) -> float:
    """The contrast of the pixel that stands out most from the commonest one."""
    picture = picture.convertToFormat(QImage.Format.Format_RGB32)
    pixels = np.frombuffer(picture.constBits(), dtype=np.uint32).reshape(picture.height(), -1)[:, : picture.width()]
    # Where a part of the rows stands out, so do all of them.
    few = _of_pixels(pixels[::4])
    return few if few >= LEAST_CONTRAST else _of_pixels(pixels)


def _of_pixels(pixels: np.ndarray) -> float:
    colours, counts = np.unique(pixels, return_counts=True)
    ground = QColor.fromRgb(int(colours[counts.argmax()]))
    return max(contrast(QColor.fromRgb(int(one)), ground) for one in colours)


def contrast(one: QColor, other: QColor) -> float:
    """WCAG 2's contrast ratio, 1 to 21."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: QColor) -> float:
    parts = (colour.redF(), colour.greenF(), colour.blueF())
    linear = [part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def nameless(top: QWidget) -> list[str]:
    """Controls that a screen reader could not name."""
    return [type(one).__name__ for one in controls(top) if not _is_named(one)]


def _is_named(one: QWidget) -> bool:
    told = QAccessible.queryAccessibleInterface(one)
    name, more = (told.text(kind) for kind in (QAccessible.Text.Name, QAccessible.Text.Description))
    # Most systems tell a choice's words in place of its name.
    return one.accessibleName() in name + more if isinstance(one, QComboBox) else bool(name.strip())


def controls(top: QWidget) -> list[QWidget]:
    """What the Tab key stops at, in its order."""
    found, one = [], top.nextInFocusChain()
    while one is not None and one is not top:
        stops = one.focusPolicy() & Qt.FocusPolicy.TabFocus
        if stops and one.isVisibleTo(top) and one.isEnabled() and not one.focusProxy() and one.window() is top:
            found.append(one)
        one = one.nextInFocusChain()
    return [
        one
        for one in found
        if not isinstance(one, (QMenuBar, QScrollBar)) and not _part_of_control(one) and not _passed_over(one)
    ]


def _passed_over(widget: QWidget) -> bool:
    """Tab stops only at the picked one of several choices; arrows lead to the others."""
    parent = widget.parentWidget()
    if not isinstance(widget, QRadioButton) or widget.isChecked() or parent is None:
        return False
    return any(one.isChecked() for one in parent.findChildren(QRadioButton))


def jumping(top: QWidget) -> list[str]:
    """Where Tab goes back up or to the left, other than to the top of the next column."""
    # What is scrolled out of sight comes into sight with the focus.
    boxes = [(one, box) for one in controls(top) if (box := _ink_box(one, top)).size() == one.size()]
    found = []
    for (one, here), (other, there) in pairwise(boxes):
        above = there.bottom() <= here.top() and there.left() < here.right()
        shared = min(here.bottom(), there.bottom()) - max(here.top(), there.top())
        beside = shared > min(here.height(), there.height()) / 2 and there.right() <= here.left()
        if above or beside:
            found.append(f"from {named(one)} to {named(other)}")
    return found


def marked_up(top: QWidget) -> list[str]:
    """Texts that would be read as markup instead of shown as typed."""
    found = []
    for one in shown(top):
        if isinstance(one, QLabel) and _MARKUP.search(one.text()) and one.textFormat() != Qt.TextFormat.PlainText:
            found.append(named(one))
        if _MARKUP.search(one.toolTip()) and not one.toolTip().startswith("<qt>"):
            found.append(f"the tip of {named(one)}")
        if _MARKUP.search(one.toolTip()) and not one.accessibleDescription() and one.focusPolicy():
            found.append(f"what is told of {named(one)}")
    return found


def _part_of_control(widget: QWidget) -> bool:
    parent = widget.parentWidget()
    while parent is not None:
        if isinstance(parent, (QComboBox, QTabBar, QMenuBar)) and not isinstance(widget, QMenuBar):
            # What stands in the menu bar's corner is a text of its own.
            return not (isinstance(parent, QMenuBar) and widget.parentWidget() is not parent)
        parent = parent.parentWidget()
    return False

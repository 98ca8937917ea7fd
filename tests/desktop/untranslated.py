"""Finds what a screen of the pseudo-language still says in English."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from html import unescape
from pathlib import Path

import msgspec
from PySide6.QtCore import QAbstractItemModel, QAbstractListModel, QDate, QLocale, QModelIndex, QRectF, Qt
from PySide6.QtGui import QAction, QFontMetricsF, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QTabBar,
    QWidget,
)
from screen_checks import SLACK, named, said_by, shown

from core.plan.model import Plan
from desktop.window import MainWindow
from desktop.words.paste import EXAMPLE

ASSETS = Path(__file__).resolve().parents[2] / "assets"
_ENGLISH = re.compile(r"[a-z]{2,}")
# A number as English writes it: another locale has a comma there, and group marks after three digits only.
_POINT = re.compile(r"(?<![\d.])(?!10\.)(?:\d+\.\d{4,}|0\.\d\d)(?![\d.])")
# What comes before the dots of a text that was too long; works that are cited; names of files.
_CUT = re.compile("([^«»…]+)…")
_CITED = re.compile(r"šó+ú+ŕçé+: .*", re.DOTALL)
_FILE = re.compile(r"\S*\.(?:plan\.json|csv|txt)\b")
# Keys of a plan whose values are chosen among words of the program, and those whose own keys are typed.
_CHOSEN = ("sex", "placement", "sex_system", "young", "format", "status")
_NAMED = ("carries", "forms")
# The program's own name, the samples' currency, and what the gallery types into fields and lists.
_WRITTEN = {"Pairwright", "USD", "cheap", "few", "losses", EXAMPLE, "ph", "0.1 amel hett lav 190", "1.2 double het 500"}
_MAY_GROW = (Qt.TextFlag.TextDontClip | Qt.TextFlag.TextWordWrap).value
_ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)


class Names:
    """Names and notes of plans and of what comes with the program, which stay as they were written."""

    def __init__(self) -> None:
        self._known: set[str] = set()
        self._plans: list[Plan] = []
        self._told: dict[tuple[str, bool], str] = {}
        self._add(_WRITTEN)
        self._add(_typed([json.loads(file.read_text("utf-8")) for file in sorted(ASSETS.rglob("*.json"))]))
        # Days are written by Qt, in its own words of the locale.
        self._add([QLocale().toString(QDate.currentDate(), QLocale.FormatType.LongFormat)])

    def learn(self, plan: Plan) -> None:
        """Takes in another plan."""
        if any(plan is one for one in self._plans):
            return
        self._plans.append(plan)
        self._add(_typed(msgspec.to_builtins(plan)))

    def english(self, text: str, *, is_part: bool = False) -> str:
        """What a text says in English beside names; a part of one may be a line of a name that was too long for one."""
        if not _ENGLISH.search(text.casefold()) and not _POINT.search(text):
            return ""
        if (text, is_part) not in self._told:
            self._told[text, is_part] = self._english(text, is_part=is_part)
        return self._told[text, is_part]

    def _english(self, text: str, *, is_part: bool) -> str:
        said = _FILE.sub("", _CITED.sub("", _one_line(text)))
        if is_part and any(one.startswith(said) or one.endswith(said) for one in self._known):
            return ""
        said = self._whole.sub("", _CUT.sub(lambda cut: "" if self._begins(cut[1]) else cut[0], said))
        return " ".join((*_ENGLISH.findall(said), *_POINT.findall(said)))

    def _add(self, texts: Iterable[str]) -> None:
        new = {_one_line(form) for one in texts for form in (one, one.replace("-", " "))} - self._known
        if new:
            self._told.clear()
            self._known |= {one for one in new if _ENGLISH.search(one)}
            longest = sorted(self._known, key=len, reverse=True)
            self._whole = re.compile("|".join(rf"(?<![a-z]){re.escape(one)}(?![a-z])" for one in longest))

    def _begins(self, cut: str) -> bool:
        words = cut.strip().split(" ")
        ends = [" ".join(words[first:]) for first in range(len(words))]
        return any(one.startswith(end) for one in self._known for end in ends)


def _one_line(text: str) -> str:
    return " ".join(text.split()).casefold()


def _typed(part: object) -> Iterator[str]:
    if isinstance(part, dict):
        for key, value in part.items():
            if key in _NAMED:
                yield from value
            yield from () if key in _CHOSEN else _typed(value)
    elif isinstance(part, (tuple, list)):
        for one in part:
            yield from _typed(one)
    elif isinstance(part, str):
        yield from (part, *part.splitlines())


class English:
    """A check of screens: what they show, say or paint in English."""

    __name__ = "english"

    def __init__(self, painted: Painted) -> None:
        self._names, self._painted = Names(), painted

    def __call__(self, top: QWidget) -> list[str]:
        for window in QApplication.topLevelWidgets():
            if isinstance(window, MainWindow):
                self._names.learn(window.document.plan)
        found = [f"{left!r} in {where}" for where, text in texts_of(top) if (left := self._names.english(text))]
        painted = [one for one in self._painted.of(top) if self._names.english(one, is_part=True)]
        return [*found, *(f"painted: “{one}”" for one in painted)]


class Painted:
    """Notes every text that the program itself paints, and what had no room in its box."""

    def __init__(self) -> None:
        self.texts: dict[str, None] = {}
        self.cut: dict[str, None] = {}
        real = QPainter.drawText

        def noting(painter: QPainter, *arguments: object) -> object:
            self._note(painter, arguments)
            return real(painter, *arguments)  # type: ignore[call-overload]

        QPainter.drawText = noting  # type: ignore[method-assign, assignment]

    def _note(self, painter: QPainter, arguments: tuple[object, ...]) -> None:
        text = next((one for one in arguments if isinstance(one, str)), "")
        self.texts[text] = None
        box, flags = arguments[0], arguments[1]
        if not isinstance(box, QRectF) or int(flags) & _MAY_GROW:  # type: ignore[call-overload]
            return
        needed = QFontMetricsF(painter.font()).horizontalAdvance(text)
        if text and needed > box.width() + SLACK:
            self.cut[f"“{text}” is cut: {box.width():.0f} wide, {needed:.0f} needed"] = None

    def of(self, top: QWidget) -> list[str]:
        """The texts of a window; what was painted before may have been on its way to where it stands now."""
        self.texts.clear()
        self.cut.clear()
        top.grab()
        return [*self.texts]

    def cut_off(self, top: QWidget) -> list[str]:
        """A check of screens: the texts that have no room."""
        self.of(top)
        return [*self.cut]


def texts_of(top: QWidget) -> Iterator[tuple[str, str]]:
    """Everything that a window says, and where."""
    yield "the title", top.windowTitle()
    for widget in [top, *shown(top)]:
        where = named(widget)
        yield where, said_by(widget)
        yield f"the tip of {where}", _plain(widget.toolTip())
        yield f"the name of {where}", widget.accessibleName()
        yield f"the description of {where}", widget.accessibleDescription()
        yield from _more(widget, where)
    for action in top.findChildren(QAction):
        if type(action.parent()).__module__.startswith("pyqtgraph"):
            # The library's own menus are never opened.
            continue
        yield "an action", action.text().replace("&", "")
        yield f"the tip of {action.text()}", _plain(action.toolTip())
    for menu in top.findChildren(QMenu):
        yield "a menu", menu.title().replace("&", "")


def _more(widget: QWidget, where: str) -> Iterator[tuple[str, str]]:
    if isinstance(widget, (QLineEdit, QPlainTextEdit)):
        yield f"the placeholder of {where}", widget.placeholderText()
    if isinstance(widget, QTabBar):
        for place in range(widget.count()):
            yield f"a tab's tip in {where}", _plain(widget.tabToolTip(place))
    if isinstance(widget, QComboBox):
        for place in range(widget.count()):
            yield f"a choice of {where}", widget.itemText(place)
    if isinstance(widget, QAbstractItemView) and not isinstance(widget, QHeaderView) and widget.model() is not None:
        yield from _items(widget.model(), where)


def _items(model: QAbstractItemModel, where: str) -> Iterator[tuple[str, str]]:
    root = QModelIndex()
    for column in range(1 if isinstance(model, QAbstractListModel) else model.columnCount(root)):
        for role in _ROLES:
            yield f"a head of {where}", _plain(str(model.headerData(column, Qt.Orientation.Horizontal, role) or ""))
            for row in range(model.rowCount(root)):
                yield f"a cell of {where}", _plain(str(model.index(row, column, root).data(role) or ""))


def _plain(tip: str) -> str:
    return unescape(tip.removeprefix("<qt>").removesuffix("</qt>"))

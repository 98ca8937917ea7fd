"""Verbs for journeys in the route editor."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from core.plan.model import Group, Pairing, Route
from desktop.editor.line import Key, Line
from desktop.editor.page import Editor
from desktop.forms.fields import SentenceChoice, SentenceField
from desktop.window import MainWindow


def open_editor(window: MainWindow, route: str) -> Editor:
    window.document.select(next(one for one in window.document.found if one.id == route))
    window.page.route_actions.edit.trigger()
    return editor_of(window)


def editor_of(window: MainWindow) -> Editor:
    page = window.views.page()
    assert isinstance(page, Editor)
    # A long route comes a few lines at a time.
    while not page.is_settled:
        QApplication.processEvents()
    QApplication.processEvents()
    return page


def line_of(editor: Editor, kind: str, name: str = "") -> Line:
    line = editor.board.line(Key(kind, name))  # type: ignore[arg-type]
    assert line is not None, f"no line {kind} {name}"
    return line


def field(line: Line, key: str) -> SentenceField:
    found = line.name if key == "name" else line.sentence.fields[key]
    assert isinstance(found, SentenceField)
    return found


def choice(line: Line, key: str) -> SentenceChoice:
    found = line.sentence.fields[key]
    assert isinstance(found, SentenceChoice)
    return found


def opener(line: Line, key: str) -> QPushButton:
    found = line.sentence.fields[key]
    assert isinstance(found, QPushButton)
    return found


def type_into(into: SentenceField, text: str) -> None:
    into.setFocus()
    into.selectAll()
    if text:
        QTest.keyClicks(into, text)
    else:
        QTest.keyClick(into, Qt.Key.Key_Delete)
    QTest.keyClick(into, Qt.Key.Key_Return)


def choose(into: SentenceChoice, text: str) -> None:
    words = [into.itemText(place) for place in range(into.count())]
    assert text in words, f"{text} is none of {words}"
    into.setFocus()
    into.setCurrentIndex(words.index(text))
    into.activated.emit(words.index(text))


def route_of(window: MainWindow, name: str) -> Route:
    return next(route for route in window.document.plan.routes if route.id == name)


def group(window: MainWindow, route: str, name: str) -> Group:
    return next(one for one in route_of(window, route).groups if one.id == name)


def pairing(window: MainWindow, route: str, name: str) -> Pairing:
    return next(one for one in route_of(window, route).pairings if one.id == name)


def tab_to(name: str, most: int = 200) -> None:
    """Presses Tab until something of that accessible name has the keyboard."""
    for _ in range(most):
        focused = QApplication.focusWidget()
        assert focused is not None
        if focused.accessibleName() == name or (isinstance(focused, QPushButton) and focused.text() == name):
            return
        QTest.keyClick(focused, Qt.Key.Key_Tab)
    raise AssertionError(f"Tab never comes to {name}")


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClick(focused, key, modifier)


def write(text: str) -> None:
    focused = QApplication.focusWidget()
    assert isinstance(focused, SentenceField)
    QTest.keyClicks(focused, text)
    QTest.keyClick(focused, Qt.Key.Key_Return)

"""Light or dark and the size of text are remembered from one start to the next."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import pytest
from main_run import play
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QTabBar
from pytestqt.qtbot import QtBot
from windows import Open

from desktop import fonts
from desktop.appearance import Appearance
from desktop.files import look
from desktop.files.places import settings
from desktop.panels.charts.size import text_scale
from desktop.theme import DARK, LIGHT, colours_of
from desktop.widgets.inked import Inked
from desktop.window import MainWindow


@pytest.fixture(autouse=True)
def _usual_look(appearance: Appearance) -> Iterator[None]:
    yield
    fonts.set_scale(1.0)
    appearance.choose(Qt.ColorScheme.Unknown)


def test_the_look_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    def choose(window: MainWindow) -> None:
        assert text_scale() == 1
        assert [action.text() for action in window.menus.text_sizes.actions()] == ["100 %", "125 %", "150 %", "200 %"]
        window.menus.text_sizes.actions()[3].trigger()
        window.menus.schemes.actions()[2].trigger()

    def look_again(window: MainWindow) -> None:
        assert text_scale() == 2
        assert colours_of(window.page.palette()).dark
        assert window.menus.text_sizes.checkedAction().text() == "200 %"
        assert window.menus.schemes.checkedAction() is window.menus.schemes.actions()[2]

    play(monkeypatch, choose)
    play(monkeypatch, look_again)


@pytest.mark.parametrize("stored", ["", "-3", "1e9", "huge"])
def test_settings_that_make_no_sense_count_for_nothing(stored: str) -> None:
    settings().setValue("look/text", stored)
    settings().setValue("look/scheme", stored)
    assert look.kept_text_size() == 100
    assert look.kept_scheme() == Qt.ColorScheme.Unknown


def has_turned(window: MainWindow, dark: bool) -> bool:
    every = (window, window.menuBar(), *window.findChildren(QTabBar), *window.findChildren(Inked))
    return {colours_of(widget.palette()).dark for widget in every} == {dark}


def test_light_turns_dark_while_the_window_is_open(start: Open, appearance: Appearance, qtbot: QtBot) -> None:
    appearance.choose(Qt.ColorScheme.Light)
    window = start()
    window.show_assumptions()
    for scheme, dark in ((Qt.ColorScheme.Dark, True), (Qt.ColorScheme.Light, False)):
        appearance.choose(scheme)
        qtbot.waitUntil(partial(has_turned, window, dark))
        sheets = [one.styleSheet() for one in window.findChildren(Inked) if one.styleSheet()]
        assert sheets
        assert all((DARK if dark else LIGHT).accent in sheet for sheet in sheets)

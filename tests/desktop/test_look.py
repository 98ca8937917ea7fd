"""Light or dark and the size of text are remembered from one start to the next."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from main_run import play
from PySide6.QtCore import Qt

from desktop import fonts
from desktop.appearance import Appearance
from desktop.files import look
from desktop.files.places import settings
from desktop.panels.charts.size import text_scale
from desktop.theme import colours_of
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

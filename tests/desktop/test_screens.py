"""Every screen of the gallery, held by program to what the eye would check: at 100 % and 200 % text, light and dark."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest
import screen_checks as checks
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication
from screen_tour import TOPICS, Check, walk

from desktop import fonts
from desktop.appearance import Appearance
from desktop.files.filing import Filing
from desktop.theme import DARK, LIGHT, Colours

CHECKS: tuple[Check, ...] = (
    checks.clipped,
    checks.grown,
    checks.overlapping,
    checks.pale,
    checks.nameless,
    checks.jumping,
    checks.marked_up,
)


@pytest.fixture
def scale(request: pytest.FixtureRequest) -> Iterator[float]:
    fonts.set_scale(request.param)
    yield request.param
    fonts.set_scale(1.0)


@pytest.mark.parametrize("scale", [1.0, 2.0], indirect=True, ids=["100", "200"])
@pytest.mark.parametrize("topic", TOPICS)
def test_every_screen(
    qapp: QApplication, appearance: Appearance, topic: str, scale: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    # What is drawn was never meant to be saved.
    monkeypatch.setattr(Filing, "may_go", lambda _: True)
    appearance.choose(Qt.ColorScheme.Dark if scale > 1 else Qt.ColorScheme.Light)
    qapp.setFont(fonts.sans(fonts.FORM))
    wrong = walk(topic, qapp, appearance, CHECKS)
    if wrong:
        pytest.fail("\n".join(wrong))


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_ink_stands_out_from_every_ground(colours: Colours) -> None:
    grounds = (colours.page, colours.field, colours.hover, colours.selected)
    inks = (colours.text, colours.second, colours.notes, colours.accent, colours.caution, colours.error)
    pairs = [*product(inks, grounds), (colours.on_accent, colours.accent)]
    pale = [(ink, ground) for ink, ground in pairs if checks.contrast(QColor(ink), QColor(ground)) < 4.5]
    assert pale == []


@pytest.mark.parametrize("scheme", [Qt.ColorScheme.Dark, Qt.ColorScheme.Light])
def test_handles_of_scroll_bars_stand_out(appearance: Appearance, scheme: Qt.ColorScheme) -> None:
    appearance.choose(scheme)
    bars = QApplication.palette("QScrollBar")
    assert checks.contrast(bars.color(QPalette.ColorRole.Button), bars.color(QPalette.ColorRole.Window)) >= 3

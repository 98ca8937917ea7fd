"""Every screen of the gallery, held by program to what the eye would check: at 100 % and 200 % text, light and dark."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib import import_module
from itertools import product
from pathlib import Path

import pytest
import screen_checks as checks
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QSize, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QWidget

from desktop import fonts
from desktop.appearance import Appearance
from desktop.files.filing import Filing
from desktop.theme import DARK, LIGHT, Colours

TOPICS = ["gallery", *(file.stem for file in sorted(Path(__file__).parent.glob("gallery_*.py")))]
SIZE = QSize(1280, 800)
CHECKS: tuple[Callable[[QWidget], list[str]], ...] = (
    checks.clipped,
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
    wrong: list[str] = []
    seen: list[QWidget] = []
    for screen, _ in import_module(topic).screens(qapp, appearance, SIZE):
        seen += [top for top in checks.tops() if top.parent() is None and top not in seen]
        # What came in last is laid out before it is looked at.
        qapp.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest.value)
        for top, check in product(checks.tops(), CHECKS):
            wrong += [f"{screen}: {check.__name__}: {one}" for one in check(top)]
    for window in filter(shiboken6.isValid, seen):
        window.close()
        # At once, while the Python side of its parts still stands.
        shiboken6.delete(window)
    if wrong:
        pytest.fail("\n".join(dict.fromkeys(wrong)))


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_ink_stands_out_from_every_ground(colours: Colours) -> None:
    grounds = (colours.page, colours.field, colours.hover, colours.selected)
    inks = (colours.text, colours.second, colours.notes, colours.accent, colours.caution, colours.error)
    pairs = [*product(inks, grounds), (colours.on_accent, colours.accent)]
    pale = [(ink, ground) for ink, ground in pairs if checks.contrast(QColor(ink), QColor(ground)) < 4.5]
    assert pale == []

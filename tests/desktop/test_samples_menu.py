"""Every sample plan is two clicks away."""

from __future__ import annotations

from pytestqt.qtbot import QtBot
from windows import Open


def test_another_sample_is_opened_from_the_menu(start: Open, qtbot: QtBot) -> None:
    window = start()
    window.menus.samples.aboutToShow.emit()
    window.menus.samples.aboutToShow.emit()
    actions = window.menus.samples.actions()
    assert len(actions) == 7
    actions[1].trigger()
    assert window.document.plan.title == actions[1].text()
    assert window.document.plan.notes.count("invented") == 1
    assert not window.page.routes.currentIndex().isValid()
    # Fewer routes than before: the list lets go of the row that was selected, and nobody chose the one beside it.
    qtbot.waitUntil(lambda: window.document.complete)
    best = window.document.verdict.best
    assert best is not None
    assert window.document.selected is not None
    assert window.document.selected.id == best.id

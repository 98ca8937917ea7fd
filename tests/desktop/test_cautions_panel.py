"""Cautions beside the selected route: told in words, marked as read in the plan."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest
from main_run import play
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from windows import Open

from core.advice.caution import Caution
from core.advice.surplus import Surplus
from core.explain.numbers import PlainNumbers
from core.plan.model import Clutch, Gene, Goal, Matures, Plan, Species, Want
from desktop.cautions.minder import Minder
from desktop.cautions.panel import CautionsPanel
from desktop.document import Document
from desktop.evaluation import Finished, RouteFailure, core_engine, evaluation_steps
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.window import MainWindow
from desktop.words import cautions as words

BACK = "daughters-back"


@pytest.fixture
def panel(qtbot: QtBot) -> Iterator[tuple[Document, CautionsPanel]]:
    """The panel on the sample plan, worked out, with the route selected that breeds daughters back."""
    plan = open_plan(Path(SAMPLE))
    assert not isinstance(plan, Faults)
    document = Document(plan)
    evaluator = Evaluator()
    minder = Minder(document, evaluator, LocaleNumbers())
    shown = CautionsPanel(document, minder, LocaleNumbers())
    qtbot.addWidget(shown)
    shown.show()
    assert shown.sheet.rows() == []
    with qtbot.waitSignal(minder.changed):
        document.take(list(evaluation_steps(plan, core_engine())))
    document.select(next(one for one in document.found if one.id == BACK))
    yield document, shown
    evaluator.stop()


def sentences(panel: CautionsPanel) -> list[str]:
    return [row.sentence.text() for row in panel.sheet.rows()]


def test_cautions_of_the_selected_route(panel: tuple[Document, CautionsPanel]) -> None:
    document, shown = panel
    assert sentences(shown)[0].startswith("Young of sire × daughters are 25 % inbred")
    document.select(next(one for one in document.found if one.only_buys))
    assert sentences(shown) == []


def test_why_is_folded_away(panel: tuple[Document, CautionsPanel]) -> None:
    row = panel[1].sheet.rows()[0]
    assert not row.reason.isVisible()
    row.why.click()
    assert row.reason.isVisible()
    assert "Wright 1922" in row.source.text()
    assert row.why.text() == words.HIDE_WHY


def test_marked_as_read_and_undone(panel: tuple[Document, CautionsPanel]) -> None:
    document, shown = panel
    shown.sheet.rows()[1].mark.click()
    assert document.plan.cautions_read == (f"one-male/{BACK}",)
    assert sentences(shown)[1].startswith("Read: ")
    document.undo()
    assert document.plan.cautions_read == ()
    assert not sentences(shown)[1].startswith("Read: ")


def test_surplus_young_by_look(qtbot: QtBot, panel: tuple[Document, CautionsPanel]) -> None:
    row = next(row for row in panel[1].sheet.rows() if row.key.startswith("surplus"))
    row.why.click()
    qtbot.waitUntil(lambda: row.more.text().startswith("By look, about "))
    assert "normal" in row.more.text()
    assert row.more.isVisible()


def test_an_edit_has_them_looked_for_again(qtbot: QtBot, panel: tuple[Document, CautionsPanel]) -> None:
    document, shown = panel
    plan = document.plan
    full = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, housing=3))
    document.edit(full, "the room for animals")
    qtbot.waitUntil(lambda: any("has room for 3" in one for one in sentences(shown)))


def test_surplus_in_sight_is_counted_again_after_an_edit(qtbot: QtBot, panel: tuple[Document, CautionsPanel]) -> None:
    document, shown = panel
    row = next(row for row in shown.sheet.rows() if row.key.startswith("surplus"))
    row.why.click()
    qtbot.waitUntil(lambda: row.more.text().startswith("By look, about "))
    before = row.more.text()
    species = msgspec.structs.replace(document.plan.species, lays=0.5)
    document.edit(msgspec.structs.replace(document.plan, species=species), "the share that lays")
    document.take(list(evaluation_steps(document.plan, core_engine())))

    def counted_again() -> bool:
        now = next((row for row in shown.sheet.rows() if row.key.startswith("surplus")), None)
        return now is not None and now.is_unfolded and now.more.text().startswith("By look") and (
            now.more.text() != before
        )  # fmt: skip

    qtbot.waitUntil(counted_again)


def test_what_is_unfolded_stays_with_its_caution(panel: tuple[Document, CautionsPanel]) -> None:
    document, shown = panel
    first = shown.sheet.rows()[0]
    first.why.click()
    document.select(next(one for one in document.found if one.id == "double-hets"))
    assert not any(row.is_unfolded for row in shown.sheet.rows())
    document.select(next(one for one in document.found if one.id == BACK))
    assert [row.is_unfolded for row in shown.sheet.rows()].index(True) == 0


def test_in_the_list() -> None:
    one = Caution("one-male/r", "one male", "r", "Hangs on one male", "Everything hangs on one male.", "Why.")
    assert words.in_list((), ()) == "None found"
    assert words.in_list((one,), ()) == "All read"
    assert words.in_list((one,), (one,)) == "Hangs on one male"
    assert words.in_list((one, one), (one, one)) == "Hangs on one male +1"


def test_looks_in_words() -> None:
    normal, amel = {"amel": "normal", "lav": "normal"}, {"amel": "amel", "lav": "normal"}
    both = {"amel": "amel", "lav": "lavender"}
    found = (Surplus(normal, 20.6), Surplus(amel, 0.5), Surplus(both, 0.2))
    assert words.by_look(found, PlainNumbers()) == (
        "By look, about 21 normal, 1 amel and fewer than 1 amel + lavender."
    )
    assert words.by_look((), PlainNumbers()) == ""


def test_from_the_list_to_a_caution_that_stays_read(
    monkeypatch: pytest.MonkeyPatch, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "mine.plan.json"
    path.write_bytes(SAMPLE.read_bytes())

    def mark(window: MainWindow) -> None:
        qtbot.waitUntil(lambda: window.document.complete, timeout=20_000)
        document, steps = window.document, window.page.steps
        document.select(next(one for one in document.found if one.id == BACK))
        qtbot.waitUntil(lambda: steps.tabs.tabText(1) == "Cautions (5)")
        qtbot.mouseClick(steps.tabs, Qt.MouseButton.LeftButton, pos=steps.tabs.tabRect(1).center())
        assert steps.cautions is not None
        assert not steps.strip.isVisible()
        steps.cautions.sheet.rows()[0].mark.click()
        assert steps.tabs.tabText(1) == "Cautions (4)"
        window.menus.save.trigger()
        assert not document.has_unsaved_changes

    def look_again(window: MainWindow) -> None:
        assert window.document.plan.cautions_read == (f"inbreeding/{BACK}/back",)

    play(monkeypatch, mark, path)
    play(monkeypatch, look_again, path)


FROST = Gene(id="frost", name="Lemon frost", alleles=("F",), forms={"F/+": "frost", "F/F": "super frost"})


def of_geckos() -> Plan:
    """A plan without routes for animals with a gene that harms them."""
    clutch, matures = Clutch(fixed=2), Matures(male=1, female=1)
    species = Species(name="Leopard gecko", sex_system="temperature", clutch=clutch, matures=matures)
    goal = Goal(want=(Want(forms={"frost": "super frost"}),), chance=0.8, seasons=3)
    return Plan(
        format="pairwright-plan", version=1, title="", currency="USD", genes=(FROST,), species=species, goal=goal
    )  # fmt: skip


def test_what_harms_the_animals_wanted_is_said_before_there_is_a_route(start: Open, qtbot: QtBot) -> None:
    window = start()
    window.document.replace(of_geckos(), None)
    said = window.page.goal_cautions
    qtbot.waitUntil(said.isVisible)
    assert "two copies of Lemon frost" in said.text()
    window.document.replace(open_sample(), None)
    qtbot.waitUntil(lambda: not said.isVisible())


def open_sample() -> Plan:
    plan = open_plan(Path(SAMPLE))
    assert not isinstance(plan, Faults)
    return plan


def test_cautions_on_the_plan_beside_a_route_that_failed(start: Open, qtbot: QtBot) -> None:
    window = start()
    document = window.document
    failed = RouteFailure(document.found[0].id, "It cannot be worked out.")
    document.take([failed, Finished()])
    document.select(document.found[0])
    assert window.page.steps.tabs.isVisible()
    window.page.steps.show_cautions()
    qtbot.waitUntil(lambda: window.page.steps.cautions is not None and window.page.steps.cautions.isVisible())

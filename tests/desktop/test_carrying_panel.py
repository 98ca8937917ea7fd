"""What an animal carries, chosen by mouse and by keyboard."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.plan.model import Carries, Gene, Linkage, Plan, Sex
from desktop.appearance import Appearance
from desktop.carrying.panel import CarriesPanel
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.words.numbers import PlainNumbers

EMBER = Gene(id="em", name="Ember", alleles=("e",), forms={"e/e": "ember"}, placement="sex-chromosome")
SAFFRON = Gene(id="saf", name="Saffron", alleles=("S",), forms={"S/+": "saffron", "S/S": "super saffron"})
TIGER = Gene(id="tig", name="Tiger", alleles=("T",), forms={"T/+": "tiger", "T/T": "tiger"})


@pytest.fixture
def plan() -> Plan:
    opened = open_plan(SAMPLE)
    assert not isinstance(opened, Faults)
    return msgspec.structs.replace(opened, genes=(*opened.genes, SAFFRON, EMBER, TIGER))


Make = Callable[..., tuple[CarriesPanel, list[Carries]]]


@pytest.fixture
def make(qtbot: QtBot, appearance: Appearance) -> Make:
    def made(plan: Plan, carries: Carries, sex: Sex = "female", count: int = 3) -> tuple[CarriesPanel, list[Carries]]:
        panel = CarriesPanel(PlainNumbers())
        qtbot.addWidget(panel)
        panel.resize(640, 480)
        values: list[Carries] = []

        def follow(value: Carries) -> None:
            values.append(value)
            panel.show_carries(plan, "Dams", value, sex, count)

        panel.edited.connect(follow)
        panel.show_carries(plan, "Dams", carries, sex, count)
        with qtbot.waitExposed(panel):
            panel.show()
        panel.activateWindow()
        return panel, values

    assert appearance
    return made


def labels(panel: CarriesPanel, row: int) -> list[str]:
    return [one.text() for one in panel.rows[row].choice_buttons()]


def test_choices_are_the_trades_words(make: Make, plan: Plan) -> None:
    panel, _ = make(plan, {})
    assert labels(panel, 0) == ["normal", "het", "visual", "possible het"]
    assert labels(panel, 2) == ["normal", "single", "super"]
    assert labels(panel, 3) == ["normal", "visual"]
    assert labels(panel, 4) == ["normal", "one copy", "two copies", "possible two copies"]
    assert panel.title.text() == "Dams: normal"


def test_a_possible_het_with_its_percentage(make: Make, plan: Plan) -> None:
    panel, values = make(plan, {"amel": "a/a"})
    panel.rows[1].choice_buttons()[3].click()
    assert values[-1] == {"amel": "a/a", "lav": {"l/+": "2/3", "+/+": "1/3"}}
    assert panel.title.text() == "Dams: amel, 66 % het lavender"
    assert panel.meaning.text() == (
        "66 % is about the animal, not the clutch. Each of the 3 females either carries lavender or does not. "
        "About 2 of 3 do; in 1 of 27 such groups none does."
    )
    field = panel.rows[1].percent
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "50")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert values[-1]["lav"] == {"l/+": "1/2", "+/+": "1/2"}
    field.selectAll()
    QTest.keyClicks(field, "100")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert len(values) == 2
    assert "above 0 and below 100" in panel.rows[1]._refusal.text()


def test_arrows_within_a_row_and_tab_to_the_next(make: Make, plan: Plan, qtbot: QtBot) -> None:
    panel, values = make(plan, {})
    panel.rows[0].choice_buttons()[0].setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is panel.rows[0].choice_buttons()[0])
    QTest.keyClick(panel.rows[0].choice_buttons()[0], Qt.Key.Key_Right)
    assert values[-1] == {"amel": "a/+"}
    assert QApplication.focusWidget() is panel.rows[0].choice_buttons()[1]
    QTest.keyClick(panel.rows[0].choice_buttons()[1], Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is panel.rows[1].choice_buttons()[0]


def test_what_no_choice_covers_is_shown_as_written_and_kept(make: Make, plan: Plan) -> None:
    entry = {"l/l": 0.25, "l/+": 0.5, "+/+": 0.25}
    panel, values = make(plan, {"lav": entry})
    assert not any(one.isChecked() for one in panel.rows[1].choice_buttons())
    assert panel.rows[1]._kept.text().startswith("as in the file: {")
    panel.rows[0].choice_buttons()[2].click()
    assert values[-1] == {"amel": "a/a", "lav": entry}


def test_the_sides_of_a_linked_set(make: Make, plan: Plan) -> None:
    linked = msgspec.structs.replace(plan, linkage=(Linkage(genes=("amel", "lav"), recombination=(0.1,)),))
    panel, values = make(linked, {"amel": "a/+", "lav": "l/+"})
    sides = panel.rows[5]
    assert labels(panel, 5) == ["together, from one parent", "apart, one from each parent", "not known"]
    assert sides.choice_buttons()[2].isChecked()
    sides.choice_buttons()[1].click()
    assert values[-1] == {"amel lav": "a +/+ l"}
    panel.rows[0].choice_buttons()[0].click()
    assert values[-1] == {"lav": "l/+"}
    assert not sides.isVisible()

"""Plan assumptions, every part, refusals included; and the goal line with its choices."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
from gallery import show
from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Clutch, Plan, SurplusPrice, Want
from core.plan.read import load_plan
from desktop.appearance import Appearance
from desktop.assumptions.items import Items
from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.sections import SECTIONS
from desktop.forms.sheet import Sheet
from desktop.forms.slots import TextSlot
from desktop.panels.wanted_picker import WantedPicker
from desktop.plan_files import SAMPLE, SAMPLES
from desktop.window import MainWindow


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Every part of the page, then what is refused, then the goal line."""
    window = show(app, appearance, size, _plan())
    for section in SECTIONS:
        _open(window, section.key)
        app.processEvents()
        yield f"assumptions-{section.key}", window.grab()
    yield from _refusals(app, window)
    window.close()
    for name, key in (("boa-my-animals", "mine"), ("hognose-series", "genes"), ("corn-linked", "linked")):
        other = show(app, appearance, size, load_plan(SAMPLES / f"{name}.plan.json"), 0)
        _open(other, key)
        app.processEvents()
        yield f"assumptions-{name}", other.grab()
        other.close()
    yield from _goal(app, appearance, size)


def _plan() -> Plan:
    plan = load_plan(SAMPLE)
    prices = (SurplusPrice(price=120, forms={"amel": "amel"}, sex="female"), SurplusPrice(price=20))
    clutch = Clutch(counts={"8": 0.25, "12": 0.5, "16": 0.25})
    species = msgspec.structs.replace(plan.species, clutch=clutch, clutch_lost=0)
    costs = msgspec.structs.replace(plan.costs, surplus=prices)
    return msgspec.structs.replace(plan, species=species, costs=costs)


def _open(window: MainWindow, key: str) -> AssumptionsPage:
    window.show_assumptions()
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    page.show_section(key)
    return page


def _refusals(app: QApplication, window: MainWindow) -> Iterator[tuple[str, QPixmap]]:
    genes = _open(window, "genes").section
    assert isinstance(genes, Items)
    genes.remove.click()
    app.processEvents()
    yield "assumptions-gene-in-use", window.grab()
    species = _open(window, "species").section
    assert isinstance(species, Sheet)
    for place, typed in (("species.matures.male", "0"), ("species.females_per_male", "few")):
        slot = species.slot_of(place)
        assert isinstance(slot, TextSlot)
        slot.edit.setText(typed)
        slot.edit.setModified(True)
        slot.edit.editingFinished.emit()
    app.processEvents()
    yield "assumptions-refused", window.grab()


def _goal(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    plan = load_plan(SAMPLE)
    want = (*plan.goal.want, Want(forms={"amel": "amel"}, sex="male"))
    window = show(
        app, appearance, size, msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=want))
    )
    yield "goal-two-rows", window.grab()
    window.page.goal.rows[0].open_choices()
    app.processEvents()
    picker = window.findChild(WantedPicker)
    assert picker is not None
    yield "goal-choices", picker.grab()
    picker.close()
    window.close()

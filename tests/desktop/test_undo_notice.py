"""A notice of the last step: it takes back that step, and no other."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from pytestqt.qtbot import QtBot

from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.document import Document
from desktop.plan_files import SAMPLE
from desktop.undo_notice import UndoNotice
from desktop.widgets.notices import Notices


def retitled(plan: Plan, title: str) -> Plan:
    return msgspec.structs.replace(plan, title=title)


@pytest.fixture
def told(qtbot: QtBot) -> tuple[Document, Notices]:
    notices = Notices()
    qtbot.addWidget(notices)
    document = Document(load_plan(SAMPLE), parent=notices)
    document.edit(retitled(document.plan, "Later"), "a step")
    UndoNotice(document, notices, "It is done.")
    assert notices.text("step") == "It is done."
    return document, notices


def test_it_leads_back(told: tuple[Document, Notices]) -> None:
    document, notices = told
    notices.press("step", "Undo")
    assert document.plan.title != "Later"
    assert notices.text("step") == ""


def test_it_is_read_and_gone(told: tuple[Document, Notices]) -> None:
    document, notices = told
    document.history.set_clean()
    assert notices.text("step") == "It is done."
    notices.press("step", "All right")
    assert document.plan.title == "Later"
    assert notices.text("step") == ""


@pytest.mark.parametrize(
    "act",
    [
        lambda document: document.edit(retitled(document.plan, "Last"), "another step"),
        lambda document: document.hide([document.plan.routes[0].id], "hide a route"),
        lambda document: document.undo(),
        lambda document: document.replace(load_plan(SAMPLE), SAMPLE),
    ],
    ids=["another step", "hidden", "undone", "another plan"],
)
def test_it_goes_with_what_undo_would_take_back(
    told: tuple[Document, Notices], act: Callable[[Document], object]
) -> None:
    document, notices = told
    act(document)
    assert notices.text("step") == ""
    UndoNotice(document, notices, "The next one.")
    assert notices.text("step") == "The next one."

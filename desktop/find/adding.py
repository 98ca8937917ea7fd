"""From what was found to routes of the plan."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan.faults import Fault
from core.plan.model import Route
from desktop.document import Document
from desktop.panels.routes import edits
from desktop.words import find as words
from desktop.words import route_actions as list_words


def add(document: Document, routes: Sequence[Route]) -> tuple[Fault, ...]:
    """Makes them routes of the plan in one step that undo takes back, and selects the first of them."""
    plan, ids = document.plan, []
    for route in routes:
        if edits.has_room(plan):
            plan, id_ = edits.added(plan, route, route.name)
            ids.append(id_)
    if not ids:
        return ()
    step = list_words.add_step(plan.routes[-1].name) if len(ids) == 1 else words.add_all_step(len(ids))
    faults = document.edit(plan, step)
    found = next((shown for shown in document.shown if shown.id == ids[0]), None)
    if not faults and found is not None:
        document.select(found)
    return faults

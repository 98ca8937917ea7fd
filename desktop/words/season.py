"""The words of “This season” as a page, and what its sheets share."""

from __future__ import annotations

from core.text import tr
from desktop.words.numbers import Numbers

TITLE = tr("This season")
BACK = tr("‹ All routes")
MY_ANIMALS, NEXT, CARRY_ON = tr("My animals"), tr("What next"), tr("Carry on from here")
TABS_NAME = tr("This season: what to look at")
NO_ANIMALS = tr(
    "None of your animals is in this plan yet. Add them first: what they carry then follows from all their young."
)
ADD_ANIMALS = tr("Add my animals")
WORKING = tr("Working it out…")
ROUTE_NAME = tr("The route to go on from")
NO_ROUTES = tr("There is no route with animals of yours to go on from. Add one with New route.")


def working(share: float, numbers: Numbers) -> str:
    """How far it is."""
    return f"{WORKING} {numbers.whole(round(share * 100))} %" if share >= 0.01 else WORKING

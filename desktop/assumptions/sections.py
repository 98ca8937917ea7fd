"""The parts of the page, in the order of the list at its left."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from PySide6.QtWidgets import QWidget

from core.plan.model import Plan
from core.text import tr
from desktop.assumptions.editors import EDITORS
from desktop.assumptions.items import Items
from desktop.assumptions.listing import Listing
from desktop.assumptions.lists.animals import MINE
from desktop.assumptions.lists.genes import GENES
from desktop.assumptions.lists.linked import LINKED
from desktop.assumptions.lists.looks import COMBINATIONS, SURPLUS, WANTED
from desktop.assumptions.lists.sale import SALE
from desktop.assumptions.tables.about import ABOUT
from desktop.assumptions.tables.costs import COSTS
from desktop.assumptions.tables.goal import GOAL
from desktop.assumptions.tables.species import SPECIES
from desktop.document import Document
from desktop.forms.kinds import Amount, Share, Whole
from desktop.forms.sheet import Sheet
from desktop.forms.table import Form, Line
from desktop.words.numbers import Numbers
from desktop.words.origins import origin

# What a person wants is no number that came from anywhere.
_WISHES = ("goal.want", "goal.chance", "goal.seasons", "goal.budget", "goal.housing", "simulation", "already_spent")


class Section(msgspec.Struct, frozen=True):
    """One part: its name, and how its widgets are made when it is first opened."""

    key: str
    title: str
    make: Callable[[Document, Numbers], QWidget]
    # Whether it scrolls by itself.
    fills: bool = False


def origin_of(plan: Plan, line: Line, subject: int, numbers: Numbers) -> str:
    """Where the values of a line came from."""
    counted = (Whole, Amount, Share)
    asked = (one for one in line.fields if not one.place.startswith(_WISHES))
    places = tuple(one.at(subject) for one in asked if line.sourced or isinstance(one.kind, counted))
    return origin(plan, places, numbers, line.sourced)


def _sheet(forms: tuple[Form, ...]) -> Callable[[Document, Numbers], QWidget]:
    def make(document: Document, numbers: Numbers) -> QWidget:
        return Sheet(forms, document, numbers, origin=origin_of, editors=EDITORS)

    return make


def _list(listing: Listing) -> Callable[[Document, Numbers], QWidget]:
    def make(document: Document, numbers: Numbers) -> QWidget:
        return Items(listing, document, numbers, origin_of)

    return make


SECTIONS = (
    Section("wanted", tr("Animals wanted"), _list(WANTED), fills=True),
    Section("goal", tr("Goal and limits"), _sheet(GOAL)),
    Section("genes", tr("Genes"), _list(GENES), fills=True),
    Section("linked", tr("Linked genes"), _list(LINKED), fills=True),
    Section("combinations", tr("Combinations"), _list(COMBINATIONS), fills=True),
    Section("species", tr("Species and clutches"), _sheet(SPECIES)),
    Section("costs", tr("Costs"), _sheet(COSTS)),
    Section("surplus", tr("Surplus prices"), _list(SURPLUS), fills=True),
    Section("sale", tr("What is for sale"), _list(SALE), fills=True),
    Section("mine", tr("My animals"), _list(MINE), fills=True),
    Section("about", tr("Notes and title"), _sheet(ABOUT)),
)

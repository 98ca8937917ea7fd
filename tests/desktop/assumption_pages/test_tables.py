"""Every field of the plan file has a row in a form, with explicit exceptions."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import inspect

from core.plan.model import Plan
from desktop.assumptions.lists.animals import MINE
from desktop.assumptions.lists.genes import GENES
from desktop.assumptions.lists.linked import LINKED
from desktop.assumptions.lists.looks import COMBINATIONS, SURPLUS, WANTED
from desktop.assumptions.lists.sale import SALE
from desktop.assumptions.tables.about import ABOUT
from desktop.assumptions.tables.costs import COSTS
from desktop.assumptions.tables.goal import GOAL
from desktop.assumptions.tables.species import SPECIES
from desktop.forms.kinds import Choice, Panel, Prose
from desktop.forms.table import fields_of

LISTS = (GENES, LINKED, COMBINATIONS, SURPLUS, SALE, MINE, WANTED)
FORMS = (*ABOUT, *COSTS, *GOAL, *SPECIES, *(form for listing in LISTS for form in listing.forms))
FIELDS = list(fields_of(FORMS))

# What no form of the page is about, and why.
ELSEWHERE = {
    "format": "what the file is",
    "version": "what the file is",
    "routes": "the route list and the route editor",
    "clutch_records": "what hatched, season by season",
}


def places(info: inspect.Type, at: str) -> Iterator[str]:
    """Every value of the file that is no part with values of its own."""
    if isinstance(info, inspect.Metadata):
        yield from places(info.type, at)
    elif isinstance(info, inspect.StructType):
        for field in info.fields:
            yield from places(field.type, f"{at}.{field.name}" if at else field.name)
    elif isinstance(info, inspect.VarTupleType) and struct_of(info.item_type):
        yield from places(info.item_type, f"{at}[]")
    else:
        yield at


def struct_of(info: inspect.Type) -> bool:
    if isinstance(info, inspect.Metadata):
        return struct_of(info.type)
    if isinstance(info, inspect.UnionType):
        return any(struct_of(one) for one in info.types)
    return isinstance(info, inspect.StructType)


def test_every_field_of_the_file_has_a_row() -> None:
    found = [
        place for place in places(inspect.type_info(Plan), "") if place.split(".")[0].split("[")[0] not in ELSEWHERE
    ]
    rows = {place for field in FIELDS for place in (field.place, *field.covers)}
    assert len(found) > 60
    assert [place for place in found if place not in rows] == []


def test_rows_have_names_of_their_own_and_no_two_are_of_one_place() -> None:
    assert all(field.name for field in FIELDS)
    own = [field.place for field in FIELDS]
    assert len(own) == len(set(own))


def test_numbers_and_texts_know_their_bounds() -> None:
    for field in FIELDS:
        if not isinstance(field.kind, Choice | Panel | Prose):
            limits = field.limits
            assert limits.most is not None or limits.longest is not None, field.place

"""What a part of the page that is a list knows of its entries."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from core.paste.parts import Target
from core.plan.model import Plan
from desktop.forms.table import Form
from desktop.words.numbers import Numbers


class Adding(msgspec.Struct, frozen=True):
    """One way to add an entry."""

    label: str
    step: str
    add: Callable[[Plan], Plan]


class Removal(msgspec.Struct, frozen=True):
    """A plan without an entry; `also` says who is concerned, for a person to agree to, `never` why it cannot be."""

    plan: Plan
    also: str = ""
    never: str = ""


class Listing(msgspec.Struct, frozen=True):
    """A list of the plan: how its entries read, are added, removed and edited."""

    place: str
    name: str
    one: str
    empty: str
    entries: Callable[[Plan], int]
    title: Callable[[Plan, int, Numbers], str]
    note: Callable[[Plan, int, Numbers], str]
    adding: Callable[[Plan], tuple[Adding, ...]]
    remove: Callable[[Plan, int], Removal]
    forms: tuple[Form, ...]
    # Whether the order of the entries means something.
    ordered: bool = False
    # What a pasted list of such entries is a list of.
    pasted: Target | None = None
    # Whether each entry is worth a price.
    weighed: bool = False

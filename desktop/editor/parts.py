"""The parts of a sentence with fields: words, typed values, choices, and what opens below; no Qt.

Parts are values. A widget shows them; what is done in it comes back as another route or as a refusal.
"""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from core.explain.numbers import Numbers
from core.plan.model import Group, Pairing, Plan, Route
from desktop.editor.change import Change, Make, group_of, pairing_of


class Where(msgspec.Struct, frozen=True):
    """What a sentence is about: a group or a pairing of a route, by id; empty for the route itself."""

    plan: Plan
    route: Route
    id: str
    numbers: Numbers

    @property
    def group(self) -> Group:
        """The group it is about."""
        return group_of(self.route, self.id)

    @property
    def pairing(self) -> Pairing:
        """The pairing it is about."""
        return pairing_of(self.route, self.id)


class Word(msgspec.Struct, frozen=True):
    """Plain words between fields."""

    text: str


class Typed(msgspec.Struct, frozen=True):
    """A value that is typed; `hint` is what an empty field means."""

    key: str
    name: str
    what: str
    text: str
    put: Callable[[str], Change]
    hint: str = ""
    help: str = ""


class Option(msgspec.Struct, frozen=True):
    """One entry of a choice, and the route it makes."""

    label: str
    make: Make


class Chosen(msgspec.Struct, frozen=True):
    """A choice between a few entries; `at` is the current one."""

    key: str
    name: str
    what: str
    options: tuple[Option, ...]
    at: int
    help: str = ""


class Opens(msgspec.Struct, frozen=True):
    """A value that is changed below, where there is more room."""

    key: str
    name: str
    text: str
    help: str = ""


Part = Word | Typed | Chosen | Opens
Row = Callable[[Where], tuple[Part, ...]]

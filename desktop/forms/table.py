"""Forms as tables: one row a field, from which its widget, its name, its check and its refusal come."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

import msgspec
from msgspec.structs import replace

from core.explain.numbers import Numbers
from core.plan.model import Plan
from core.plan.places import value_at, with_value
from desktop.forms.kinds import Kind, Refused, Share
from desktop.forms.limits import Limits, limits_of
from desktop.words import forms as words

# Puts a value into the plan where it concerns more than its own place; the number is that of the list's entry.
Put = Callable[[Plan, int, Any], "Plan | Refused"]
When = Callable[[Plan, int], bool]


def always(_plan: Plan, _subject: int) -> bool:
    """For lines that every plan has."""
    return True


class Field(msgspec.Struct, frozen=True):
    """One value of the plan: the words around it, its name, its kind, and how it is put in.

    `place` is as in the file, with `[]` for the entry of a list that the form is about. In a `unit`,
    `{currency}` is the plan's own, and of `season|seasons` the first stands after a one.
    """

    place: str
    name: str
    kind: Kind
    before: str = ""
    unit: str = ""
    put: Put | None = None
    # For what the plan holds in another form than the field shows.
    get: Callable[[Plan, int], Any] | None = None
    # What an empty field shows.
    hint: str = ""
    # Other places of the file that its editor sees to.
    covers: tuple[str, ...] = ()
    # What undo calls it, where a value does more than change one thing.
    told: Callable[[Any], str] | None = None

    def step(self, value: Any) -> str:
        """What undo calls a change of it to a value."""
        return words.change(self.name) if self.told is None else self.told(value)

    def at(self, subject: int) -> str:
        """Its place in one entry of the list."""
        return self.place.replace("[]", f"[{subject}]", 1)

    def value(self, plan: Plan, subject: int) -> Any:
        """What the plan says."""
        if self.get is not None:
            return self.get(plan, subject)
        return value_at(plan, self.at(subject))

    def edited(self, plan: Plan, subject: int, value: Any) -> Plan | Refused:
        """The plan with another value, unless it cannot be."""
        if self.put is not None:
            return self.put(plan, subject, value)
        return with_value(plan, self.at(subject), value)

    @property
    def limits(self) -> Limits:
        """Its bounds, from the plan's own types; none for what the file does not hold."""
        try:
            return limits_of(self.place)
        except KeyError:
            return Limits()

    def refusal(self, value: Any, numbers: Numbers) -> str:
        """Why a value is out of bounds, in words; empty where it is not."""
        limits = self.limits
        if isinstance(self.kind, Share) and isinstance(value, str):
            value = Fraction(value)
        if isinstance(value, str):
            longest = limits.longest
            return words.too_long(self.name, len(value), longest, numbers) if longest and len(value) > longest else ""
        if not isinstance(value, int | float | Fraction):
            return ""
        if limits.least is not None and value < limits.least:
            return words.too_small(self.name, self._bound(limits.least, numbers))
        if limits.most is not None and value > limits.most:
            return words.too_large(self.name, self._bound(limits.most, numbers))
        return ""

    def _bound(self, value: float, numbers: Numbers) -> str:
        shown = self.kind.show(value, numbers) if hasattr(self.kind, "show") else numbers.whole(round(value))
        return f"{shown} %" if isinstance(self.kind, Share) else shown


class Line(msgspec.Struct, frozen=True):
    """Fields of one sentence, what the sentence means, and when it has a place in the form.

    `sourced`: which value of a species preset it is about. `ideal`: what to say where every field stands at a value
    that no animal lives up to.
    """

    fields: tuple[Field, ...]
    help: str = ""
    when: When = always
    sourced: str = ""
    ideal: str = ""
    ideal_value: Any = None

    def is_ideal(self, plan: Plan, subject: int) -> bool:
        """Whether a risk stands at its ideal value."""
        if not self.ideal:
            return False
        return any(_number(one.value(plan, subject)) == self.ideal_value for one in self.fields)


class Form(msgspec.Struct, frozen=True):
    """Lines under a heading."""

    title: str
    lines: tuple[Line, ...]
    when: When = always


def worded(field: Field, before: str, unit: str) -> Field:
    """The same field with other words around it."""
    return replace(field, before=before, unit=unit)


def fields_of(forms: tuple[Form, ...]) -> Iterator[Field]:
    """Every field of some forms."""
    for form in forms:
        for line in form.lines:
            yield from line.fields


def _number(value: Any) -> Any:
    return Fraction(value) if isinstance(value, str) else value

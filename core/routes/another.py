"""Copies of values that differ in little."""

from __future__ import annotations

from typing import TypeVar

_Thing = TypeVar("_Thing")


def another(thing: _Thing, **changed: object) -> _Thing:
    """A shallow copy with some fields changed; nothing that it keeps may depend on those.

    `copy.copy` first finds out how, and `dataclasses.replace` makes every field anew: ten times as long.
    """
    other = object.__new__(type(thing))
    other.__dict__.update(thing.__dict__)
    other.__dict__.update(changed)
    return other

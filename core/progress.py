"""Long work as a generator of progress: run to its end, or as a part of a longer work."""

from __future__ import annotations

from collections.abc import Callable, Generator
from typing import Any, TypeVar

T = TypeVar("T")


class Long(float):
    """A share of work that turns out to take many seconds: time to tell something else meanwhile."""


def finished(steps: Generator[Any, None, T], is_long: Callable[[], None] = lambda: None) -> T:
    """What the work comes to, whatever it tells on its way; `is_long` hears once if it takes many seconds."""
    told = False
    while True:
        try:
            if isinstance(next(steps), Long) and not told:
                told = True
                is_long()
        except StopIteration as end:
            result: T = end.value
            return result


def part_of(steps: Generator[float, None, T], done: float, many: float) -> Generator[float, None, T]:
    """The work as one of `many` parts of a whole, `done` of which are over; yields the share of the whole."""
    while True:
        try:
            share = next(steps)
        except StopIteration as end:
            result: T = end.value
            return result
        yield (done + share) / many

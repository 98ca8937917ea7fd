"""Faults: what is wrong with a plan, where, in words a breeder can act on."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Iterable
from functools import lru_cache
from itertools import accumulate

import msgspec

from core.plan.limits import MOST_FAULTS
from core.text import tr

# The place of faults of the file as a whole, and of the outermost object.
FILE = "file"
_PLAIN_KEY = re.compile(r"[^\W\d][\w-]*")
_STEPS = re.compile(r"(?=[.\[])")
_LONGEST_QUOTE = 60


class Fault(msgspec.Struct, frozen=True):
    """One thing that is wrong, and its place in the file (`routes[1].groups[0].price`)."""

    place: str
    message: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}"


class PlanError(ValueError):
    """A plan that cannot be used; `faults` says everything that is wrong with it."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(map(str, self.faults)))


def quote(text: str) -> str:
    """Show text from a file on one line: in double quotes, escaped, and cut where it is long."""
    shown = text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 1] + "…"
    quoted = json.dumps(shown, ensure_ascii=False)
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in quoted)


def one_of(words: Iterable[str]) -> str:
    """Join words as a choice: `a, b or c`."""
    *first, last = words
    return tr("{first} or {last}", first=", ".join(first), last=last) if first else last


def at_key(place: str, key: str) -> str:
    """Name the place of a key: `goal.chance`, or `forms["a/a"]` where the key is no plain word."""
    step = _step(key)
    return place + step if place else step.removeprefix(".")


@lru_cache(maxsize=4096)
def _step(key: str) -> str:
    plain = len(key) <= _LONGEST_QUOTE and _PLAIN_KEY.fullmatch(key)
    return f".{key}" if plain else f"[{quote(key)}]"


def at(place: str, index: int) -> str:
    """Name the place of a list's entry, counted from 0: `routes[1]`."""
    return f"{place}[{index}]"


class Enough(Exception):
    """So many faults that looking for more would only take time."""


class Faults:
    """Collects faults, and leaves out those that only follow from others.

    A fault of meaning may depend on other places (`needs`): a form that no genotype shows depends on the gene's
    table. Where one of those is itself at fault, the dependent fault may be a mere consequence and is left out.
    Adding raises Enough once there are far more faults than anybody is told.
    """

    def __init__(self) -> None:
        self._shape: list[Fault] = []
        self._meaning: list[tuple[Fault, tuple[str, ...]]] = []
        self._suggestions_left = 20

    def shape(self, place: str, message: str) -> None:
        """Add a fault of a value by itself: a wrong type, a missing key, a number out of range."""
        self._shape.append(Fault(place or FILE, message))
        self._stop_at_most()

    def meaning(self, place: str, message: str, *needs: str) -> None:
        """Add a fault that follows from several values together; `needs` are the other places it depends on."""
        self._meaning.append((Fault(place, message), needs))
        self._stop_at_most()

    def suggest(self, word: str, known: Iterable[str]) -> str:
        """Offer a known word close to a misspelt one, as the end of a sentence; empty where there is none."""
        if not self._suggestions_left:
            return ""
        self._suggestions_left -= 1
        short = sorted(one for one in known if len(one) <= _LONGEST_QUOTE)
        near = difflib.get_close_matches(word[:_LONGEST_QUOTE], short[:MOST_FAULTS], n=1, cutoff=0.6)
        return tr("; is {near} meant?", near=quote(near[0])) if near else ""

    def settle(self) -> tuple[Fault, ...]:
        """Give the faults to report, the most basic first; of more than `MOST_FAULTS` a last line says so."""
        of_shape = _Places(fault.place for fault in self._shape)
        kept = dict.fromkeys(self._shape)
        places = _Places(fault.place for fault in self._shape)
        for fault, needs in self._meaning:
            if not of_shape.touch(fault.place) and not any(map(places.touch, needs)):
                places.add(fault.place)
                kept[fault] = None
        shown = tuple(kept)[:MOST_FAULTS]
        return (
            shown if len(shown) == len(kept) else (*shown, Fault(FILE, tr("there are more faults; mend these first")))
        )

    def _stop_at_most(self) -> None:
        if len(self._shape) + len(self._meaning) >= 10 * MOST_FAULTS:
            raise Enough


class _Places:
    """A set of places that can tell whether one of them holds, or lies within, another."""

    def __init__(self, places: Iterable[str]) -> None:
        self._exact: set[str] = set()
        self._above: set[str] = set()
        for place in places:
            self.add(place)

    def add(self, place: str) -> None:
        self._exact.add(place)
        self._above.update(_outward(place))

    def touch(self, place: str) -> bool:
        return place in self._above or not self._exact.isdisjoint(_outward(place))


@lru_cache(maxsize=4096)
def _outward(place: str) -> tuple[str, ...]:
    """Give a place and every place that holds it, outermost first."""
    return tuple(accumulate(_STEPS.split(place)))

"""Faults: what is wrong with a plan, where, in words a breeder can act on."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from core.plan.limits import MOST_FAULTS

# The place of faults of the file as a whole, and of the outermost object.
FILE = "file"
_PLAIN_KEY = re.compile(r"[^\W\d][\w-]*")
_STEPS = re.compile(r"(?=[.\[])")
_LONGEST_QUOTE = 60


@dataclass(frozen=True)
class Fault:
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
    return f"{', '.join(first)} or {last}" if first else last


def at_key(place: str, key: str) -> str:
    """Name the place of a key: `goal.chance`, or `forms["a/a"]` where the key is no plain word."""
    if _PLAIN_KEY.fullmatch(key) and len(key) <= _LONGEST_QUOTE:
        return f"{place}.{key}" if place else key
    return f"{place}[{quote(key)}]"


def at(place: str, index: int) -> str:
    """Name the place of a list's entry, counted from 0: `routes[1]`."""
    return f"{place}[{index}]"


@dataclass(frozen=True)
class _Finding:
    fault: Fault
    needs: tuple[str, ...]


class Faults:
    """Collects faults, and leaves out those that only follow from others.

    A fault of meaning may depend on other places (`needs`): a form that no genotype shows depends on the gene's
    table. Where one of those is itself at fault, the dependent fault may be a mere consequence and is left out.
    """

    def __init__(self) -> None:
        self._shape: list[_Finding] = []
        self._meaning: list[_Finding] = []
        self._uncounted = 0

    def shape(self, place: str, message: str) -> None:
        """Add a fault of a value by itself: a wrong type, a missing key, a number out of range."""
        self._add(self._shape, place, message, ())

    def meaning(self, place: str, message: str, *needs: str) -> None:
        """Add a fault that follows from several values together; `needs` are the other places it depends on."""
        self._add(self._meaning, place, message, needs)

    def _add(self, findings: list[_Finding], place: str, message: str, needs: tuple[str, ...]) -> None:
        if len(findings) < 10 * MOST_FAULTS:
            findings.append(_Finding(Fault(place or FILE, message), needs))
        else:
            self._uncounted += 1

    def settle(self) -> tuple[Fault, ...]:
        """Give the faults to report, the most basic first, at most `MOST_FAULTS` and a line that counts the rest."""
        places = _Places()
        kept: list[Fault] = []
        for finding in self._shape:
            places.add(finding.fault.place)
            kept.append(finding.fault)
        shape_places = _Places()
        for fault in kept:
            shape_places.add(fault.place)
        for finding in self._meaning:
            if shape_places.touch(finding.fault.place) or any(map(places.touch, finding.needs)):
                continue
            places.add(finding.fault.place)
            kept.append(finding.fault)
        rest = len(kept) - MOST_FAULTS + self._uncounted
        if rest > 0 and len(kept) > MOST_FAULTS:
            kept[MOST_FAULTS:] = [Fault(FILE, f"and {rest:,} more faults")]
        return tuple(dict.fromkeys(kept))


class _Places:
    """A set of places that can tell whether one of them holds, or lies within, another."""

    def __init__(self) -> None:
        self._exact: set[str] = set()
        self._above: set[str] = set()

    def add(self, place: str) -> None:
        self._exact.add(place)
        self._above.update(_outward(place))

    def touch(self, place: str) -> bool:
        return place in self._above or any(outer in self._exact for outer in _outward(place))


def _outward(place: str) -> Iterator[str]:
    """Give a place and every place that holds it, outermost first; all lie within the file as a whole."""
    grown = ""
    for step in _STEPS.split(place):
        grown += step
        yield grown

"""How a season's young are shared out among the held herds: which of them fill up, and with which young."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from core.routes.exact.chain.sorts import Sort
from core.routes.exact.limits import OutOfReach

_MOST_PLANS = 5_000


class Brim(NamedTuple):
    """A herd fills up with young of this preference, run and section; of those, later ones are left over."""

    level: int
    run: int
    section: int


# A herd has no vacancy; it takes all that fit and has vacancies left; or it fills up.
FULL, OPEN = "full", "open"
Status = Brim | str


class Fate(NamedTuple):
    """A young is held for a herd, as one of those that fill it up where `last`."""

    herd: int
    last: bool


# Young held for a herd that are alike in rank: its preference, the run, the section.
HoldClass = tuple[int, int, int]


def order(kind: HoldClass) -> tuple[int, int, int, int]:
    """Better preferences first, then the order of laying."""
    level, run, section = kind
    return level, run, section.bit_count(), section


@dataclass(frozen=True)
class Plan:
    """One way to share out the young of some runs.

    A section of a run says which contested herds (bits) have been filled up in it; a herd is contested where what it
    leaves over may go to a later one.
    """

    statuses: tuple[Status, ...]
    contested: int
    _fates: dict[tuple[int, int, Sort], Fate | None] = field(default_factory=dict, compare=False)

    def fate(self, run: int, done: int, sort: Sort) -> Fate | None:
        """What becomes of a young, once the herds in `done` (bits) have been filled up in this run."""
        key = run, done, sort
        if key not in self._fates:
            self._fates[key] = self._fate(run, done, sort)
        return self._fates[key]

    def _fate(self, run: int, done: int, sort: Sort) -> Fate | None:
        for herd, (level, status) in enumerate(zip(sort.levels, self.statuses, strict=False)):
            if level is None or status == FULL:
                continue
            if isinstance(status, Brim):
                section = done & self.contested & ((1 << herd) - 1)
                own, brim = order((level, run, section)), order(status)
                if own > brim or (own == brim and done >> herd & 1):
                    continue
                return Fate(herd, own == brim)
            return Fate(herd, last=False)
        return None

    def brims(self, run: int | None = None) -> list[int]:
        """The herds that fill up, in this run or in any."""
        return [
            herd
            for herd, status in enumerate(self.statuses)
            if isinstance(status, Brim) and (run is None or status.run == run)
        ]

    def endings(self, run: int) -> Iterator[int]:
        """Every set of herds (bits) that may have been filled up within a run."""
        sets = [0]
        for herd in self.brims(run):
            sets += [done | 1 << herd for done in sets]
        yield from sets


def plans(runs: Sequence[Sequence[Sort]], full: Sequence[bool]) -> list[Plan]:
    """Every way to share out the young of the runs, given which herds are full. Raises OutOfReach for too many."""
    begun = [Plan((), 0)]
    for herd, closed in enumerate(full):
        begun = [grown for plan in begun for grown in _grown(plan, herd, closed, runs, full)]
        if len(begun) > _MOST_PLANS:
            raise OutOfReach("a season's young can be shared out in too many ways")
    return begun


def _grown(plan: Plan, herd: int, closed: bool, runs: Sequence[Sequence[Sort]], full: Sequence[bool]) -> Iterator[Plan]:
    if closed:
        yield Plan((*plan.statuses, FULL), plan.contested)
        return
    yield Plan((*plan.statuses, OPEN), plan.contested)
    found: dict[Brim, bool] = {}
    for run, sorts in enumerate(runs):
        for done in plan.endings(run):
            for sort in sorts:
                level = sort.levels[herd]
                if level is not None and plan.fate(run, done, sort) is None:
                    brim = Brim(level, run, done & plan.contested)
                    later = zip(sort.levels[herd + 1 :], full[herd + 1 :], strict=True)
                    wanted = any(other is not None and not shut for other, shut in later)
                    found[brim] = found.get(brim, False) or wanted
    for brim, wanted in found.items():
        yield Plan((*plan.statuses, brim), plan.contested | (1 << herd if wanted else 0))

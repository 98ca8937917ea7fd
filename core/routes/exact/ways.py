"""Every way of holding young: from counts of young to chances of holding, and on to how many of those held are fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator, Sequence
from functools import lru_cache
from itertools import product
from typing import Any, NamedTuple, TypeVar

import numpy as np

from core.routes.exact.algebra import Complex

_Kept = TypeVar("_Kept")

# Counts of young in the first few lots of a herd; per held herd.
Counts = tuple[int, ...]
HerdCounts = tuple[Counts, ...]


class Weights(NamedTuple):
    """How many of each lot there may be, and the weight of each such way: [ways, goal, points]."""

    counts: tuple[HerdCounts, ...]
    weights: Complex

    def at(self, points: slice) -> Weights:
        """The same at some of the points."""
        return Weights(self.counts, self.weights[..., points])


class _Herd:
    """The ways of one herd, of so many lots and places; where an element has the counts that each is told by."""

    def __init__(self, base: Sequence[Counts], lots: int, free: int) -> None:
        place = {counts: i for i, counts in enumerate(base)}
        self.size = len(base)
        self.ways = tuple(at_most(lots, free))
        each = [[place[counts] for counts in _parts(held, free)] for held in self.ways]
        # The counts that are put for each way, and which ways those are put for that are taken off them: they have more
        # lots than its own, so that what is taken off is as it was put where ways of few lots come first.
        self.first = [parts[0] for parts in each]
        way_of = {counts: way for way, counts in enumerate(self.first)}
        less = [(way, [way_of[counts] for counts in parts[1:]]) for way, parts in enumerate(each) if len(parts) > 1]
        self.less = sorted(less, key=lambda own: len(base[self.first[own[0]]]))
        # Per lot, the ways that are alike but for how many of it there are, fewest first.
        self.runs = [_runs(self.ways, lot) for lot in range(lots)]


class Ways:
    """Every way of holding young of the first so many lots per herd."""

    def __init__(self, bases: Sequence[Sequence[Counts]], lots: Sequence[int], free: Sequence[int]) -> None:
        self._herds = [_Herd(*own) for own in zip(bases, lots, free, strict=True)]
        self.counts: tuple[HerdCounts, ...] = tuple(product(*(herd.ways for herd in self._herds)))
        self._shape = tuple(len(herd.ways) for herd in self._herds)
        # Where an element has the counts that are put for each way.
        places = [0]
        for herd in self._herds:
            places = [place * herd.size + own for place in places for own in herd.first]
        self._places = np.array(places, dtype=np.intp)

    def held(self, element: Complex) -> Complex:
        """The weight of each way, from the numbers of counts of young: [ways, goal, points]."""
        found = element.take(self._places, axis=0)
        for place, herd in enumerate(self._herds):
            view = self._by_herd(found, place)
            for way, others in herd.less:
                own = view[:, way]
                for other in others:
                    own -= view[:, other]
        return found

    def _by_herd(self, held: Complex, herd: int) -> Complex:
        """By the ways of herds before it, its own, and those of the herds after it."""
        before = math.prod(self._shape[:herd])
        return held.reshape(before, self._shape[herd], -1, *held.shape[-2:])

    def thin(self, held: Complex, herd: int, lot: int, reaches: float, unfit: Complex | float) -> None:
        """In place: how many of a lot are fit in place of how many are held; each that is not has this weight.

        With the weights as coefficients of a polynomial in who is held, its variable is shifted.
        """
        view = self._by_herd(held, herd)
        for run in self._herds[herd].runs[lot]:
            each = [view[:, way] for way in run]
            last = each[-1] * unfit if len(run) > 1 else 0
            for begin in range(len(run) - 1):
                each[-2] += last
                for n in range(len(run) - 3, begin - 1, -1):
                    each[n] += each[n + 1] * unfit
            for n, own in enumerate(each[1:], start=1):
                own *= reaches**n


def _runs(ways: Sequence[Counts], lot: int) -> list[list[int]]:
    found: dict[Counts, list[int]] = {}
    for way, counts in enumerate(ways):
        found.setdefault(counts[:lot] + counts[lot + 1 :], []).append(way)
    return list(found.values())


class Numbering:
    """Counts of young that an element of these many lots and places has numbers for, and how they add up."""

    def __init__(self, lots: Sequence[int], free: Sequence[int]) -> None:
        self._free = free
        self._bases = [list(_fewer(many, most)) for many, most in zip(lots, free, strict=True)]
        self.counts: list[HerdCounts] = list(product(*self._bases))
        self.index = {counts: i for i, counts in enumerate(self.counts)}
        self.empty = [i for i, counts in enumerate(self.counts) if not any(map(any, counts))]
        self.by_lengths: dict[tuple[int, ...], list[HerdCounts]] = {}
        for counts in self.counts:
            self.by_lengths.setdefault(tuple(map(len, counts)), []).append(counts)
        self.pairs = list(self._sums())
        self._ways: dict[tuple[int, ...], Ways] = {}
        self._kept: dict[Hashable, Any] = {}

    def kept(self, key: Hashable, work_out: Callable[[], _Kept]) -> _Kept:
        """Something that follows from the numbering, worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
        found: _Kept = self._kept[key]
        return found

    def ways(self, lots: tuple[int, ...]) -> Ways:
        """Every way of holding young of the first so many lots per herd."""
        if lots not in self._ways:
            self._ways[lots] = Ways(self._bases, lots, self._free)
        return self._ways[lots]

    def _sums(self) -> Iterator[tuple[int, int, int]]:
        for alike in self.by_lengths.values():
            for a, b in product(alike, repeat=2):
                joined = tuple(tuple(map(sum, zip(x, y, strict=True))) for x, y in zip(a, b, strict=True))
                if joined in self.index:
                    yield self.index[a], self.index[b], self.index[joined]


@lru_cache(maxsize=32)
def numbering(lots: tuple[int, ...], free: tuple[int, ...]) -> Numbering:
    """The numbering of so many lots and places per herd, which most counts and routes of a plan share."""
    return Numbering(lots, free)


def _fewer(lots: int, free: int) -> Iterator[Counts]:
    """Counts of young in the first 0, 1, .. lots, always fewer than there are places."""
    yield ()
    for length in range(1, lots + 1):
        yield from at_most(length, free - 1)


def at_most(lots: int, most: int) -> Iterator[Counts]:
    """Counts of so many lots that sum to no more than this."""
    if not lots:
        yield ()
        return
    for n in range(most + 1):
        yield from ((n, *rest) for rest in at_most(lots - 1, most - n))


def _parts(held: Counts, free: int) -> Iterator[Counts]:
    """The counts of young whose weights, all but the first taken off it, give the chance that just these are held."""
    if sum(held) < free or not held:
        yield held
        return
    # The last lot held fills the places: all that leave it no fewer than so many.
    last = max(lot for lot, n in enumerate(held) if n)
    yield held[:last]
    yield from ((*held[:last], n) for n in range(held[last]))


def fit_chances(held: HerdCounts, reaches: Sequence[float]) -> Iterator[tuple[HerdCounts, float]]:
    """How many of those held may be fit, with chances; `reaches`: per herd, the chance of one."""
    each = [list(product(*(range(n + 1) for n in own))) for own in held]
    for fit in product(*each):
        pairs = (
            (n, able, chance)
            for own, some, chance in zip(held, fit, reaches, strict=True)
            for n, able in zip(own, some, strict=True)
        )
        chance = math.prod(math.comb(n, able) * p**able * (1 - p) ** (n - able) for n, able, p in pairs)
        if chance > 0:
            yield fit, chance

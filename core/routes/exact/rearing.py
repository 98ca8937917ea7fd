"""What held animals breed and cost, whichever of them live to breed."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from itertools import accumulate
from typing import Literal

import numpy as np

from core.routes.exact.algebra import Complex
from core.routes.exact.brood import Entry, Nursery, Pen
from core.routes.exact.clusters import Seasons
from core.routes.exact.founding import FounderWorld
from core.routes.exact.held_route import HeldRoute
from core.routes.exact.nursing import Members, Nursing, Raising
from core.routes.exact.places import Layout
from core.routes.exact.plain import told_in_full
from core.routes.exact.ways import HerdCounts, Ways, Weights

# Up to so many points what animals may be held as is taken side by side.
FEW = 400
Which = Literal["alive", "open", "met"]
# The first season, the one after the last, and the same of points.
_Where = tuple[int, int, int, int]


def _where(seasons: slice, points: slice) -> _Where:
    return seasons.start, seasons.stop, points.start, points.stop


class Rearing:
    """Held animals in one world, for one way of looking at the goal at one set of points; keeps what repeats."""

    def __init__(self, route: HeldRoute, nursing: Nursing, world: FounderWorld, layout: Layout) -> None:
        self._route, self._nursing, self._world, self._layout = route, nursing, world, layout
        reaches = route.problem.biology.reaches
        # Per herd, the chance of one to be fit, as far as it is told by how many are.
        self.reaches = [1.0 if alone else reaches for alone in route.held.alone]
        self._told = told_in_full(route.problem, nursing.probe)
        self._reared: dict[tuple[Which, HerdCounts, _Where], Complex | None] = {}
        self._keeps: dict[tuple[HerdCounts, _Where], Complex | None] = {}
        self._kept: dict[Hashable, Complex] = {}
        self._nurseries: dict[HerdCounts, Nursery] = {}
        self._breeders: dict[HerdCounts, list[tuple[int, ...]]] = {}
        self._bred_through: dict[HerdCounts, tuple[int, ...]] = {}
        self._raisings: dict[HerdCounts, Raising] = {}
        self._alone: dict[HerdCounts, Members | None] = {}

    def kept(self, key: Hashable, work_out: Callable[[], Complex]) -> Complex:
        """An element worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
            self._nursing.breeding.room.keep(self._kept[key].size)
        return self._kept[key]

    def of(self, fit: HerdCounts, which: Which, seasons: slice, points: slice) -> Complex | None:
        """What so many of each lot breed and cost, all of them fit to breed; None where that is nothing.

        [seasons, goal, points], as in `clusters.Seasons`, but for `met`: that a row is filled in the season. Of herds
        whose members are followed alone, it is told of each whether she is fit.
        """
        key = which, fit, _where(seasons, points)
        if key not in self._reared:
            self._reared[key] = self._rear(fit, which, seasons, points)
        return self._reared[key]

    def together(self, fits: tuple[HerdCounts, ...], which: Which, points: slice) -> Complex:
        """The same side by side, in all seasons: [fits, seasons + 1, goal, points]. For the first few points."""
        # What is asked for at a single point is asked for at all that are told in full, too.
        most = slice(0, self._told if points.stop < self._told <= FEW else points.stop)
        found = self.kept(("together", fits, which, most.stop), lambda: self._together(fits, which, most))
        return found[..., points]

    def _together(self, fits: tuple[HerdCounts, ...], which: Which, points: slice) -> Complex:
        nothing, every = self._nursing.algebra.one(points.stop), self._nursing.breeding.seasons + 1
        found = np.empty((len(fits), every, *nothing.shape), dtype=complex)
        for own, fit in zip(found, fits, strict=True):
            reared = self.of(fit, which, slice(0, every), points)
            own[...] = nothing if reared is None else reared
        return found

    def _rear(self, fit: HerdCounts, which: Which, seasons: slice, points: slice) -> Complex | None:
        bred = self._bred(fit)
        alike = bred is None or bred.open is bred.alive
        if alike and which == "met":
            return None
        if alike and which == "open":
            return self.of(fit, "alive", seasons, points)
        keep = self._keep(fit, _where(seasons, points))
        if bred is None:
            # What is only kept lays nothing: whatever the goal lacked, it still does.
            return None if keep is None else self._nursing.algebra.one(1) * keep
        own = (bred.alive if which == "alive" else bred.open)[seasons, :, points]
        if which == "met":
            own = own - bred.alive[seasons, :, points]
        if keep is None:
            return own
        room = self._nursing.breeding.room
        room.take(own.size)
        room.keep(own.size)
        return own * keep

    def _bred(self, fit: HerdCounts) -> Seasons | None:
        if not any(map(any, fit)):
            return None
        members = self.members_alone(fit)
        return self._nursing.raised(self.raising(fit)) if members is None else self._nursing.raised_alone(members)

    def members_alone(self, fit: HerdCounts) -> Members | None:
        """These animals one by one, where each is followed alone; None where some are not."""
        if fit not in self._alone:
            shared = any(any(own) and not alone for own, alone in zip(fit, self._route.held.alone, strict=True))
            self._alone[fit] = None if shared else tuple(self._members(fit))
        return self._alone[fit]

    def _members(self, fit: HerdCounts) -> Iterator[tuple[Raising, int]]:
        for herd, own in enumerate(fit):
            for lot, n in enumerate(own):
                if n:
                    one = tuple((0,) * lot + (1,) if place == herd else () for place in range(len(fit)))
                    yield self.raising(one), n

    def raising(self, fit: HerdCounts) -> Raising:
        """What decides what these animals breed."""
        if fit not in self._raisings:
            nursery = self._route.held.grown(self.nursery(fit), self._nursing.breeding.seasons)
            self._raisings[fit] = self._route.raising_of(self._world, nursery)
        return self._raisings[fit]

    def nursery(self, fit: HerdCounts) -> Nursery:
        """A nursery of these animals."""
        if fit not in self._nurseries:
            self._nurseries[fit] = self._nursery(fit)
        return self._nurseries[fit]

    def breeders(self, fit: HerdCounts) -> list[tuple[int, ...]]:
        """How many of them are breeder-size in each season, per held herd."""
        if fit not in self._breeders:
            self._breeders[fit] = self._route.held.breeders_by_season(self.nursery(fit))
        return self._breeders[fit]

    def bred_by(self, fit: HerdCounts) -> tuple[int, ...]:
        """How many matings they have had a part in by the end of each season: [seasons + 1]."""
        if fit not in self._bred_through:
            breeders = enumerate(self.breeders(fit), start=1)
            each = [len(self._route.matings_with_held(counts, season)) for season, counts in breeders]
            self._bred_through[fit] = tuple(accumulate(each, initial=0))
        return self._bred_through[fit]

    def _nursery(self, fit: HerdCounts) -> Nursery:
        pens = zip(self._layout.lots, fit, strict=True)
        each = [[Entry(*lot, n, 0) for lot, n in zip(lots, own, strict=False) if n] for lots, own in pens]
        return tuple([Pen(0, tuple(entries)) for entries in each])

    def thinned(self, ways: Ways, held: Complex, season: int, points: slice) -> Weights:
        """Weights by how many are held into weights by how many of them are fit, in place; the others' keep is paid.

        Those that are followed alone are left as they are; points: those of the weights.
        """
        for herd, reaches in enumerate(self.reaches):
            for lot in range(len(ways.counts[0][herd]) if reaches < 1 else 0):
                keep = self._unfit(herd, lot)[season, :, points] if self._nursing.probe.tells_keep else 1
                ways.thin(held, herd, lot, reaches, (1 - reaches) * keep)
        return Weights(ways.counts, held)

    def unfit_paid(self, season: int) -> tuple[int, ...]:
        """By lot, the season through which one that is not fit to breed has been paid for."""
        matures = self._route.problem.biology.matures
        herds = zip(self._route.held.herds, self._layout.lots, strict=True)
        return tuple(min(season, lot.season + matures[herd.sex] - 1) for herd, lots in herds for lot in lots)

    def _keep(self, fit: HerdCounts, where: _Where) -> Complex | None:
        """The keep of fit animals, those left out that are followed alone; None where there is none."""
        if not self._nursing.probe.tells_keep:
            return None
        if (fit, where) not in self._keeps:
            places = [(h, lot) for h, alone in enumerate(self._route.held.alone) if not alone for lot in _held(fit[h])]
            self._keeps[fit, where] = self._one_more(fit, *places[0], where) if places else None
        return self._keeps[fit, where]

    def _one_more(self, fit: HerdCounts, herd: int, lot: int, where: _Where) -> Complex:
        raised = self._route.held.raised(herd, self._layout.lots[herd][lot].season)
        every = self.kept(("keep", raised.fit), lambda: self._nursing.breeding.keep(raised.fit))
        own = every[slice(*where[:2]), :, slice(*where[2:])]
        less = self._keep(_replaced(fit, herd, lot, fit[herd][lot] - 1), where)
        return own if less is None else less * own

    def _unfit(self, herd: int, lot: int) -> Complex:
        raised = self._route.held.raised(herd, self._layout.lots[herd][lot].season)
        return self.kept(("keep", raised.unfit), lambda: self._nursing.breeding.keep(raised.unfit))


def _held(counts: tuple[int, ...]) -> list[int]:
    """The lots of which some are held."""
    return [lot for lot, n in enumerate(counts) if n]


def _replaced(counts: HerdCounts, herd: int, lot: int, n: int) -> HerdCounts:
    own = counts[herd]
    return *counts[:herd], (*own[:lot], n, *own[lot + 1 :]), *counts[herd + 1 :]

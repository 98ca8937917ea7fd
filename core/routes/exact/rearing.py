"""What held animals breed and cost, whichever of them live to breed."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable

from core.routes.exact.algebra import Complex
from core.routes.exact.brood import Entry, Nursery, Pen
from core.routes.exact.clusters import Seasons
from core.routes.exact.founding import FounderWorld
from core.routes.exact.held_route import HeldRoute
from core.routes.exact.nursing import Nursing, Raising
from core.routes.exact.places import HerdCounts, Layout

Weights = dict[HerdCounts, Complex]


class Rearing:
    """Held animals in one world, for one way of looking at the goal at one set of points; keeps what repeats."""

    def __init__(self, route: HeldRoute, nursing: Nursing, world: FounderWorld, layout: Layout) -> None:
        self._route, self._nursing, self._world, self._layout = route, nursing, world, layout
        self._reaches = route.problem.biology.reaches
        self._reared: dict[HerdCounts, Seasons | None] = {}
        self._keeps: dict[HerdCounts, Complex | None] = {}
        self._kept: dict[Hashable, Complex] = {}
        self._nurseries: dict[HerdCounts, Nursery] = {}

    def kept(self, key: Hashable, work_out: Callable[[], Complex]) -> Complex:
        """An element worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
            self._nursing.breeding.room.keep(self._kept[key].size)
        return self._kept[key]

    def of(self, fit: HerdCounts) -> Seasons | None:
        """What so many of each lot breed and cost, all of them fit to breed; None where that is nothing.

        [seasons + 1, goal, points]. Of herds whose members are followed alone, it is told of each whether she is fit.
        """
        if fit not in self._reared:
            self._reared[fit] = self._rear(fit)
        return self._reared[fit]

    def met(self, fit: HerdCounts, points: slice) -> Complex | None:
        """The same where a row is filled in each season: what anything in it adds to nothing in it."""
        reared = self.of(fit)
        if reared is None or reared.open is reared.alive:
            return None
        alive, unfilled = reared.alive, reared.open
        return self.kept(("met", fit, points.start), lambda: unfilled[..., points] - alive[..., points])

    def raising(self, fit: HerdCounts) -> Raising:
        """What decides what these animals breed."""
        nursery = self._route.held.grown(self.nursery(fit), self._nursing.breeding.seasons)
        return self._route.raising_of(self._world, nursery)

    def nursery(self, fit: HerdCounts) -> Nursery:
        """A nursery of these animals."""
        if fit not in self._nurseries:
            self._nurseries[fit] = self._nursery(fit)
        return self._nurseries[fit]

    def _nursery(self, fit: HerdCounts) -> Nursery:
        pens = zip(self._layout.lots, fit, strict=True)
        each = ([Entry(*lot, n, 0) for lot, n in zip(lots, own, strict=False) if n] for lots, own in pens)
        return tuple(Pen(0, tuple(entries)) for entries in each)

    def thinned(self, held: Iterable[tuple[HerdCounts, Complex]], season: int, points: slice) -> Weights:
        """Weights by how many are held into weights by how many of them are fit; the others' keep is paid.

        Those that are followed alone are left as they are; points: those of the weights.
        """
        weights = dict(held)
        lengths = [len(own) for own in next(iter(weights), ())]
        for herd, (alone, lots) in enumerate(zip(self._route.held.alone, lengths, strict=False)):
            for lot in range(0 if alone or self._reaches == 1 else lots):
                keep = self._unfit(herd, lot)[season, :, points] if self._nursing.probe.tells_keep else None
                weights = self._thinned(weights, herd, lot, keep)
        return weights

    def _thinned(self, weights: Weights, herd: int, lot: int, keep: Complex | None) -> Weights:
        """For one lot. With weights as coefficients of a polynomial in who is held, its variable is shifted."""
        unfit = (1 - self._reaches) * (1 if keep is None else keep)
        found: Weights = {}
        for rest, run in _runs(weights, herd, lot).items():
            shifted = _shifted(run, unfit)
            for fit, weight in enumerate(shifted):
                if weight is not None:
                    found[_replaced(rest, herd, lot, fit)] = weight * self._reaches**fit if fit else weight
        return found

    def unfit_paid(self, season: int) -> tuple[int, ...]:
        """By lot, the season through which one that is not fit to breed has been paid for."""
        matures = self._route.problem.biology.matures
        herds = zip(self._route.held.herds, self._layout.lots, strict=True)
        return tuple(min(season, lot.season + matures[herd.sex] - 1) for herd, lots in herds for lot in lots)

    def _rear(self, fit: HerdCounts) -> Seasons | None:
        breeding = self._nursing.breeding
        bred = self._nursing.raised(self.raising(fit)) if any(map(any, fit)) else None
        keep = self._keep(fit) if self._nursing.probe.tells_keep else None
        if keep is None:
            return bred
        bred = bred or breeding.nothing()
        breeding.room.take(2 * bred.alive.size)
        breeding.room.keep(2 * bred.alive.size)
        alive = bred.alive * keep
        return Seasons(alive, alive if bred.open is bred.alive else bred.open * keep)

    def _keep(self, fit: HerdCounts) -> Complex | None:
        """The keep of fit animals, those left out that are followed alone; None where there is none."""
        if fit not in self._keeps:
            one = next(
                (
                    (h, lot)
                    for h, own in enumerate(fit)
                    for lot, n in enumerate(own)
                    if n and not self._route.held.alone[h]
                ),
                None,
            )
            self._keeps[fit] = None if one is None else self._one_more(fit, *one)
        return self._keeps[fit]

    def _one_more(self, fit: HerdCounts, herd: int, lot: int) -> Complex:
        raised = self._route.held.raised(herd, self._layout.lots[herd][lot].season)
        own = self.kept(("keep", raised.fit), lambda: self._nursing.breeding.keep(raised.fit))
        less = self._keep(_replaced(fit, herd, lot, fit[herd][lot] - 1))
        return own if less is None else less * own

    def _unfit(self, herd: int, lot: int) -> Complex:
        raised = self._route.held.raised(herd, self._layout.lots[herd][lot].season)
        return self.kept(("keep", raised.unfit), lambda: self._nursing.breeding.keep(raised.unfit))


# Weights by how many of a lot there are; None for none.
_Run = list[Complex | None]


def _runs(weights: Weights, herd: int, lot: int) -> dict[HerdCounts, _Run]:
    """Weights by all that is held but one lot."""
    found: dict[HerdCounts, _Run] = {}
    for counts, weight in weights.items():
        run, n = found.setdefault(_replaced(counts, herd, lot, 0), []), counts[herd][lot]
        run += [None] * (n + 1 - len(run))
        run[n] = weight
    return found


def _shifted(run: _Run, by: Complex | float) -> _Run:
    """The coefficients of a polynomial in x + `by` from those in x."""
    for begin in range(len(run) - 1):
        for place in range(len(run) - 2, begin - 1, -1):
            above, own = run[place + 1], run[place]
            if above is not None:
                moved = above * by
                if own is not None:
                    moved += own
                run[place] = moved
    return run


def _replaced(counts: HerdCounts, herd: int, lot: int, n: int) -> HerdCounts:
    own = counts[herd]
    return *counts[:herd], (*own[:lot], n, *own[lot + 1 :]), *counts[herd + 1 :]

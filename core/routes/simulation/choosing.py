"""The end of a season young by young: which count for which goal row, and which are held back for which group.

Only young that show what matters are listed, and only as many of them as could be taken.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.routes.problem import Herd
from core.routes.simulation.clutches import nth_hit
from core.routes.simulation.flock import Flock, Tally
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Scene
from core.routes.simulation.pairs import BARREN

Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Listed:
    """Young in order of run and laying: their column, clutch and pattern. starts: [columns], the first of each."""

    column: Indices
    clutch: Indices
    pattern: Indices
    starts: Indices

    def first_of(self, eligible: Flags, limit: Tally) -> Flags:
        """The first eligible young of each column, up to its limit."""
        sums = np.cumsum(eligible)
        before = np.concatenate(([0], sums)).take(self.starts)
        return np.asarray(eligible & (sums <= (before + limit).take(self.column)))

    def count(self, chosen: Flags | Indices) -> Indices:
        """How many of the chosen young are in each column."""
        return np.bincount(self.column[chosen], minlength=len(self.starts))


def choose(scene: Scene, flock: Flock, open_herds: Sequence[Herd], season: int, rng: np.random.Generator) -> None:
    """Count young for the goal rows, then hold young back for the open herds, in the order of both."""
    if not scene.shown.patterns:
        return
    listed = _list(scene, _limits(scene, flock, open_herds), rng)
    if not listed.column.size:
        return
    bits = np.array(scene.look.patterns, dtype=object)
    counted = _count(scene, flock, listed, bits, rng)
    held = np.zeros_like(counted)
    for herd in open_herds:
        for bit in herd.picks:
            able = _fits(bits, bit).take(listed.pattern) & ~held
            vacancies = (herd.count - flock.ever[herd.index]).take(scene.runs)
            taken = listed.first_of(able, vacancies)
            held |= taken
            _hold(scene, flock, listed, np.flatnonzero(taken), herd, season, rng)
    _not_surplus(scene, listed, np.flatnonzero(counted | held))


def _fits(bits: NDArray[np.object_], bit: int) -> Flags:
    """Which patterns have this condition bit."""
    return np.array([bool(own >> bit & 1) for own in bits], dtype=np.bool_)


def _limits(scene: Scene, flock: Flock, open_herds: Sequence[Herd]) -> list[Tally]:
    """Per pattern shown, the most of its young that could count or be held: [columns] each."""
    need = flock.need.take(scene.runs, axis=1)
    limits = []
    for pattern, _ in scene.shown.patterns:
        bits = scene.look.patterns[pattern]
        wanted = np.zeros(len(scene.runs), dtype=np.int32)
        vacant = wanted.copy()
        for row, own in enumerate(need):
            if bits >> row & 1:
                wanted += own
        for herd in open_herds:
            if any(bits >> bit & 1 for bit in herd.picks):
                vacant += (herd.count - flock.ever[herd.index]).take(scene.runs)
        # Within a pattern the earliest young are taken first, by the goal and by the herds alike.
        limits.append(np.maximum(wanted, vacant))
    return limits


def _list(scene: Scene, limits: Sequence[Tally], rng: np.random.Generator) -> Listed:
    """List the young; a clutch's young of a pattern are listed all or none, so that their order stays open."""
    clutches = len(scene.clutches.pairs)
    places: list[Indices] = []
    patterns: list[Indices] = []
    for (pattern, counts), limit in zip(scene.shown.patterns, limits, strict=True):
        before = np.cumsum(counts, axis=0) - counts
        asked = np.where(before < limit, counts, 0).T.ravel()
        some = np.flatnonzero(asked)
        places.append(np.repeat(some, asked[some]))
        patterns.append(np.full(len(places[-1]), pattern, dtype=np.intp))
    place: Indices = np.concatenate(places)
    pattern: Indices = np.concatenate(patterns)
    if len(places) > 1:
        order = np.argsort(place + rng.random(len(place)))
        place, pattern = place[order], pattern[order]
    column, clutch = place // clutches, place % clutches
    starts = np.searchsorted(column, np.arange(len(scene.runs)))
    return Listed(column, clutch, pattern, starts)


def _count(scene: Scene, flock: Flock, listed: Listed, bits: NDArray[np.object_], rng: np.random.Generator) -> Flags:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    need = flock.need.take(scene.runs, axis=1)
    left = need.sum(axis=0)
    counted = np.zeros(len(listed.column), dtype=np.bool_)
    for row, own in enumerate(need):
        able = _fits(bits, row).take(listed.pattern) & ~counted
        if able.any():
            filling = listed.first_of(able, own)
            counted |= filling
            filled = listed.count(filling)
            scene.outcome.filled[row, scene.runs] = filled
            left = left - filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(scene, listed, np.flatnonzero(counted), met, rng)
    return counted


def _meet(scene: Scene, listed: Listed, counted: Indices, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    last = np.zeros(len(scene.runs), dtype=np.intp)
    last[listed.column[counted]] = counted
    young = last[met]
    keys = listed.column * len(scene.clutches.pairs) + listed.clutch
    first, end = np.searchsorted(keys, keys[young]), np.searchsorted(keys, keys[young], side="right")
    clutch = listed.clutch[young]
    position = nth_hit(scene.clutches.eggs[clutch, met], end - first, young - first + 1, rng)
    scene.meet(met, clutch, position)


def _hold(
    scene: Scene, flock: Flock, listed: Listed, taken: Indices, herd: Herd, season: int, rng: np.random.Generator
) -> None:
    """Hold these young back: count them all, and draw what the fit ones carry and whether they work."""
    if not taken.size:
        return
    biology = flock.problem.biology
    fit = taken if biology.reaches == 1 else taken[rng.random(len(taken)) < biology.reaches]
    column, clutch, pattern = listed.column[fit], listed.clutch[fit], listed.pattern[fit]
    kinds = scene.look.draw_young(rng, scene.clutches.pairs[clutch, column], pattern, herd.sex)
    if biology.works[herd.sex] < 1:
        kinds[rng.random(len(kinds)) >= biology.works[herd.sex]] = BARREN
    per_column = listed.count(fit)
    rank = np.arange(len(fit)) - (np.cumsum(per_column) - per_column).take(column)
    runs = scene.runs[column]
    flock.kinds[flock.places.first[herd.index] + flock.fit[herd.index, runs] + rank, runs] = kinds
    held_all, fit_all = np.zeros((2, len(flock)), dtype=np.int32)
    held_all[scene.runs], fit_all[scene.runs] = listed.count(taken), per_column
    flock.hold(herd, season, held_all, fit_all)


def _not_surplus(scene: Scene, listed: Listed, taken: Indices) -> None:
    """Take the young that counted or are held out of the surplus and its sales."""
    column, clutch = listed.column[taken], listed.clutch[taken]
    scene.outcome.surplus[scene.runs] -= listed.count(taken)
    values = scene.look.worth[listed.pattern[taken], scene.clutches.pairs[clutch, column]]
    if values.any():
        scene.outcome.sales[scene.runs] -= np.bincount(column, weights=values, minlength=len(scene.runs))

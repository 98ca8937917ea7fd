"""The end of a season young by young: which count for which goal row, and which are held back for which herd."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.routes.problem import Herd
from core.routes.simulation.clutches import nth_hit
from core.routes.simulation.flock import Flock, Tally
from core.routes.simulation.listing import Flags, Listed, Young, first_young, list_young
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Scene
from core.routes.simulation.pairs import BARREN


def choose(scene: Scene, flock: Flock, herds: Sequence[Herd], season: int, rng: np.random.Generator) -> None:
    """Count young for the goal rows, then hold young back for the open herds, in the order of both."""
    if not scene.shown.patterns:
        return
    plain = _plain(scene, herds)
    tangled = [pattern for pattern in scene.shown.patterns if pattern not in plain.values()]
    limits = [_limit(scene, flock, herds, pattern) for pattern in tangled]
    listed = list_young([(pattern, scene.shown.of(pattern)) for pattern in tangled], limits, len(scene.runs), rng)
    counted = _count(scene, flock, listed, rng)
    held = np.zeros_like(counted)
    for herd in herds:
        for bit in herd.picks:
            vacancies = (herd.count - flock.ever[herd.index]).take(scene.runs)
            if bit in plain:
                young = first_young(plain[bit], scene.shown.of(plain[bit]), vacancies)
                _not_surplus(scene, young)
            else:
                taken = listed.first(listed.fitting(_fits(scene, bit)) & ~held, vacancies)
                held |= taken
                young = listed.young.chosen(taken)
            _hold(scene, flock, young, herd, season, rng)
    _not_surplus(scene, listed.young.chosen(counted | held))


def _plain(scene: Scene, herds: Sequence[Herd]) -> dict[int, int]:
    """The picks that only one pattern fits, which fits nothing else: their bits, and that pattern's number."""
    bits = {pattern: scene.look.patterns[pattern] for pattern in scene.shown.patterns}
    found = {}
    for bit in (bit for herd in herds for bit in herd.picks):
        fitting = [pattern for pattern, own in bits.items() if own >> bit & 1]
        if len(fitting) == 1 and bits[fitting[0]] == 1 << bit:
            found[bit] = fitting[0]
    return found


def _fits(scene: Scene, bit: int) -> list[bool]:
    """Which patterns have this condition bit."""
    return [bool(own >> bit & 1) for own in scene.look.patterns]


def _limit(scene: Scene, flock: Flock, herds: Sequence[Herd], pattern: int) -> Tally:
    """The most young of a pattern that could count or be held: [columns].

    The goal and the herds both take the earliest first, so that the larger of the two will do.
    """
    bits = scene.look.patterns[pattern]
    wanted = np.zeros(len(scene.runs), dtype=np.int32)
    vacant = wanted.copy()
    for row, need in enumerate(flock.need):
        if bits >> row & 1:
            wanted += need.take(scene.runs)
    for herd in herds:
        if any(bits >> bit & 1 for bit in herd.picks):
            vacant += (herd.count - flock.ever[herd.index]).take(scene.runs)
    return np.maximum(wanted, vacant)


def _count(scene: Scene, flock: Flock, listed: Listed, rng: np.random.Generator) -> Flags:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    counted = np.zeros(len(listed.young.column), dtype=np.bool_)
    if not counted.size:
        return counted
    need = flock.need.take(scene.runs, axis=1)
    left = need.sum(axis=0)
    for row, own in enumerate(need):
        able = listed.fitting(_fits(scene, row)) & ~counted
        if able.any():
            filling = listed.first(able, own)
            counted |= filling
            filled = listed.young.chosen(filling).count(len(scene.runs))
            scene.outcome.filled[row, scene.runs] = filled
            left = left - filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(scene, listed.young, np.flatnonzero(counted), met, rng)
    return counted


def _meet(scene: Scene, young: Young, counted: Indices, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    last = np.zeros(len(scene.runs), dtype=np.intp)
    last[young.column[counted]] = counted
    where = last[met]
    keys = young.column * len(scene.clutches.pairs) + young.clutch
    first, end = np.searchsorted(keys, keys[where]), np.searchsorted(keys, keys[where], side="right")
    clutch = young.clutch[where]
    position = nth_hit(scene.clutches.eggs[clutch, met], end - first, where - first + 1, rng)
    scene.meet(met, clutch, position)


def _hold(scene: Scene, flock: Flock, young: Young, herd: Herd, season: int, rng: np.random.Generator) -> None:
    """Hold these young back: count them all, and draw what the fit ones carry and whether they work."""
    if not young.column.size:
        return
    biology, columns = flock.problem.biology, len(scene.runs)
    fit = young
    if biology.reaches < 1:
        fit = young.chosen(np.flatnonzero(rng.random(len(young.column)) < biology.reaches))
    kinds = scene.look.draw_young(rng, scene.clutches.pairs[fit.clutch, fit.column], fit.pattern, herd.sex)
    if biology.works[herd.sex] < 1:
        kinds[rng.random(len(kinds)) >= biology.works[herd.sex]] = BARREN
    runs = scene.runs[fit.column]
    places = flock.places.first[herd.index] + flock.fit[herd.index, runs] + fit.rank(columns)
    flock.kinds[places, runs] = kinds
    held_all, fit_all = np.zeros((2, len(flock)), dtype=np.int32)
    held_all[scene.runs], fit_all[scene.runs] = young.count(columns), fit.count(columns)
    flock.hold(herd, season, held_all, fit_all)


def _not_surplus(scene: Scene, young: Young) -> None:
    """Take young that counted or are held out of the surplus and its sales."""
    if not young.column.size:
        return
    columns = len(scene.runs)
    scene.outcome.surplus[scene.runs] -= young.count(columns)
    values = scene.look.worth[young.pattern, scene.clutches.pairs[young.clutch, young.column]]
    if values.any():
        scene.outcome.sales[scene.runs] -= np.bincount(young.column, weights=values, minlength=columns)

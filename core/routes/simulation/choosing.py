"""The end of a season young by young: which count for which goal row, and which are held back for which herd."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.routes.problem import Herd
from core.routes.simulation.flock import Flock, Tally
from core.routes.simulation.listing import Flags, Listed, Young, first_young, list_young
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import BARREN
from core.routes.simulation.shown import Shown


def choose(
    outcome: Outcome, shown: Shown, flock: Flock, herds: Sequence[Herd], season: int, rng: np.random.Generator
) -> None:
    """Count young for the goal rows, then hold young back for the open herds, in the order of both."""
    plain = _plain(shown, herds)
    tangled = [pattern for pattern in shown.counts if pattern not in plain.values()]
    listed = list_young(shown, {pattern: _limit(shown, flock, herds, pattern) for pattern in tangled}, rng)
    taken = _count(outcome, listed, flock, rng)
    held = np.zeros_like(taken)
    for herd in herds:
        vacancies = (herd.count - flock.ever[herd.index]).take(shown.runs)
        for bit in herd.picks:
            if bit in plain:
                young = first_young(shown, plain[bit], vacancies)
                _not_surplus(outcome, young)
            else:
                chosen = listed.first(listed.fitting(bit) & ~held, vacancies)
                held |= chosen
                young = listed.young.chosen(chosen)
            if young.clutch.size:
                vacancies = vacancies - _hold(flock, young, herd, season, rng)
    _not_surplus(outcome, listed.young.chosen(taken | held))


def _plain(shown: Shown, herds: Sequence[Herd]) -> dict[int, int]:
    """The picks that only one pattern fits, which fits nothing else: their bits, and that pattern's number."""
    bits = {pattern: shown.look.patterns[pattern] for pattern in shown.counts}
    found = {}
    for bit in (bit for herd in herds for bit in herd.picks):
        fitting = [pattern for pattern, own in bits.items() if own >> bit & 1]
        if len(fitting) == 1 and bits[fitting[0]] == 1 << bit:
            found[bit] = fitting[0]
    return found


def _limit(shown: Shown, flock: Flock, herds: Sequence[Herd], pattern: int) -> Tally:
    """The most young of a pattern that could count or be held: [columns].

    The goal and the herds both take the earliest first, so that the larger of the two will do.
    """
    bits = shown.look.patterns[pattern]
    wanted = np.zeros(len(shown.runs), dtype=np.int32)
    vacant = wanted.copy()
    for row, need in enumerate(flock.need):
        if bits >> row & 1:
            wanted += need.take(shown.runs)
    for herd in herds:
        if any(bits >> bit & 1 for bit in herd.picks):
            vacant += (herd.count - flock.ever[herd.index]).take(shown.runs)
    return np.maximum(wanted, vacant)


def _count(outcome: Outcome, listed: Listed, flock: Flock, rng: np.random.Generator) -> Flags:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    counted = np.zeros(len(listed.column), dtype=np.bool_)
    runs = listed.young.shown.runs
    need = flock.need.take(runs, axis=1)
    left = need.sum(axis=0)
    for row, own in enumerate(need):
        able = listed.fitting(row) & ~counted
        if able.any():
            filling = listed.first(able, own)
            counted |= filling
            filled = np.bincount(listed.column[filling], minlength=len(runs))
            outcome.filled[row, runs] = filled
            left = left - filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(outcome, listed, np.flatnonzero(counted), met, rng)
    return counted


def _meet(outcome: Outcome, listed: Listed, counted: Indices, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    young, shown = listed.young, listed.young.shown
    last = np.zeros(len(shown.runs), dtype=np.intp)
    last[listed.column[counted]] = counted
    where = last[met]
    clutch = young.clutch[where]
    first, end = np.searchsorted(young.clutch, clutch), np.searchsorted(young.clutch, clutch, side="right")
    outcome.meet(shown.runs[met], shown.clutch[clutch], end - first, where - first + 1, rng)


def _hold(flock: Flock, young: Young, herd: Herd, season: int, rng: np.random.Generator) -> Indices:
    """Hold these young back; gives how many in each column.

    All are counted; what they carry, and whether they work, is drawn for those that are fit to breed.
    """
    biology, shown = flock.problem.biology, young.shown
    fit = young
    if biology.reaches < 1:
        fit = young.chosen(np.flatnonzero(rng.random(len(young.clutch)) < biology.reaches))
    kinds = shown.look.draw_young(rng, shown.pair.take(fit.clutch), fit.pattern, herd.sex)
    if biology.works[herd.sex] < 1:
        kinds[rng.random(len(kinds)) >= biology.works[herd.sex]] = BARREN
    counts = np.bincount(young.column, minlength=len(shown.runs))
    column = fit.column
    fit_counts = np.bincount(column, minlength=len(shown.runs))
    rank = np.arange(len(column)) - (np.cumsum(fit_counts) - fit_counts).take(column)
    runs = shown.runs.take(column)
    flock.kinds[flock.places.first[herd.index] + flock.fit[herd.index].take(runs) + rank, runs] = kinds
    flock.hold(herd, season, shown.runs, counts, fit_counts)
    return counts


def _not_surplus(outcome: Outcome, young: Young) -> None:
    """Take young that counted or are held out of the surplus and its sales."""
    shown = young.shown
    runs = shown.runs.take(young.column)
    outcome.not_surplus(runs, np.ones_like(runs))
    outcome.add_sales(runs, -shown.look.worth[young.pattern, shown.pair.take(young.clutch)])

"""The end of a season young by young: which count for which goal row, and which are held back for which herd."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.routes.problem import Herd
from core.routes.simulation.flock import Flock, Tally
from core.routes.simulation.listing import Listed, Young, first_young, list_young, together
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.pairs import BARREN
from core.routes.simulation.shown import Shown


def choose(
    outcome: Outcome,
    shown: Shown,
    flock: Flock,
    herds: Sequence[Herd],
    season: int,
    rng: np.random.Generator,
    *,
    sells: bool,
) -> None:
    """Count young for the goal rows, then hold young back for the open herds, in the order of both."""
    plain = _plain(shown, herds)
    tangled = [pattern for pattern in shown.counts if pattern not in plain.values()]
    listed = list_young(shown, {pattern: _limit(shown, flock, herds, pattern) for pattern in tangled}, rng)
    _count(outcome, listed, flock, rng)
    gone: list[Young] = []
    for herd in herds:
        vacancies = (herd.count - flock.ever[herd.index]).take(shown.runs)
        found = _find(listed, plain, herd, vacancies)
        gone += [young for bit, young in found if bit in plain]
        if found:
            young = found[0][1] if len(found) == 1 else together([young for _, young in found]).by_run()
            _hold(flock, young, herd, season, rng)
    _not_surplus(
        outcome, together([*gone, listed.young.chosen(np.flatnonzero(listed.counted | listed.held))]), sells=sells
    )


def _find(listed: Listed, plain: dict[int, int], herd: Herd, vacancies: Tally) -> list[tuple[int, Young]]:
    """The young a herd holds back, by the bit of the pick that each fits; vacancies: [columns]."""
    found = []
    for bit in herd.picks:
        shown = listed.young.shown
        young = first_young(shown, plain[bit], vacancies) if bit in plain else listed.hold(bit, vacancies)
        if young.clutch.size:
            found.append((bit, young))
            vacancies = vacancies - np.bincount(young.column, minlength=len(vacancies))
    return found


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


def _count(outcome: Outcome, listed: Listed, flock: Flock, rng: np.random.Generator) -> None:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    runs = listed.young.shown.runs
    need = flock.need.take(runs, axis=1)
    left = need.sum(axis=0)
    for row, own in enumerate(need):
        young = listed.count(row, own)
        if young.clutch.size:
            filled = np.bincount(young.column, minlength=len(runs))
            outcome.filled[row, runs] = filled
            left = left - filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(outcome, listed, met, rng)


def _meet(outcome: Outcome, listed: Listed, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    young, shown = listed.young, listed.young.shown
    last = np.zeros(len(shown.runs), dtype=np.intp)
    counted = np.flatnonzero(listed.counted)
    last[young.column[counted]] = counted
    where = last[met]
    clutch = young.clutch[where]
    first, end = np.searchsorted(young.clutch, clutch), np.searchsorted(young.clutch, clutch, side="right")
    outcome.meet(shown.clutches, shown.columns[met], shown.clutch[clutch], end - first, where - first + 1, rng)


def _hold(flock: Flock, young: Young, herd: Herd, season: int, rng: np.random.Generator) -> None:
    """Hold these young back, listed by run, and pick by pick within one.

    All are counted; what they carry, and whether they work, is drawn for those that are fit to breed.
    """
    biology, shown = flock.problem.biology, young.shown
    fit = young
    if biology.reaches < 1:
        fit = young.chosen(np.flatnonzero(rng.random(len(young.clutch)) < biology.reaches))
    kinds = shown.look.draw_young(rng, shown.pair.take(fit.clutch), fit.pattern, herd.sex)
    if biology.works[herd.sex] < 1:
        kinds[rng.random(len(kinds)) >= biology.works[herd.sex]] = BARREN
    counts = np.bincount(fit.column, minlength=len(shown.runs))
    first = flock.places.first[herd.index] + flock.fit[herd.index].take(shown.runs) - (np.cumsum(counts) - counts)
    places = np.arange(len(kinds)) + first.take(fit.column)
    flock.kinds.reshape(-1)[places * len(flock) + shown.runs.take(fit.column)] = kinds
    flock.hold(herd, season, shown.runs, np.bincount(young.column, minlength=len(shown.runs)), counts)


def _not_surplus(outcome: Outcome, young: Young, *, sells: bool) -> None:
    """Take young that counted or are held out of the surplus and its sales."""
    shown = young.shown
    runs = shown.runs.take(young.column)
    outcome.not_surplus(runs)
    if sells:
        worth = shown.look.worth
        codes = young.pattern * worth.shape[1] + shown.pair.take(young.clutch)
        outcome.add_sales(runs, -worth.reshape(-1).take(codes))

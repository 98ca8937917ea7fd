"""The end of a season young by young: which count for which goal row, and which are held back for which herd."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from core.routes.problem import Herd
from core.routes.simulation.flock import Flock
from core.routes.simulation.listing import Listed, Young, first_young, list_young, together
from core.routes.simulation.looks import LOST
from core.routes.simulation.lots import Indices
from core.routes.simulation.outcome import Outcome
from core.routes.simulation.shown import Shown


def choose(
    outcome: Outcome,
    shown: Shown,
    flock: Flock,
    vacancies: dict[Herd, Indices],
    season: int,
    rng: np.random.Generator,
    *,
    sells: bool,
) -> None:
    """Count young for the goal rows, then hold young back for the open herds, in the order of both.

    vacancies: by open herd, how many more each run may hold back: [runs].
    """
    plain = _plain(shown, vacancies)
    tangled = [pattern for pattern in shown.counts if pattern not in plain.values()]
    limits = {pattern: _limit(shown.look.patterns[pattern], flock, vacancies) for pattern in tangled}
    listed = list_young(shown, limits, len(flock), rng)
    _count(outcome, listed, flock, rng)
    gone: list[Young] = []
    for herd, vacant in vacancies.items():
        found = _find(listed, plain, herd, vacant)
        gone += [young for bit, young in found if bit in plain]
        if found:
            _hold(flock, [young for _, young in found], herd, season, rng)
    _not_surplus(
        outcome, together([*gone, listed.young.chosen(np.flatnonzero(listed.counted | listed.held))]), sells=sells
    )


def _find(listed: Listed, plain: dict[int, int], herd: Herd, vacancies: Indices) -> list[tuple[int, Young]]:
    """The young a herd holds back, by the bit of the pick that each fits; vacancies: [runs]."""
    found = []
    for bit in herd.picks:
        shown = listed.young.shown
        young = first_young(shown, plain[bit], vacancies) if bit in plain else listed.hold(bit, vacancies)
        if young.clutch.size:
            found.append((bit, young))
            vacancies = vacancies - np.bincount(young.run, minlength=len(vacancies))
    return found


def _plain(shown: Shown, herds: Iterable[Herd]) -> dict[int, int]:
    """The picks that only one pattern fits, which fits nothing else: their bits, and that pattern's number."""
    bits = {pattern: shown.look.patterns[pattern] for pattern in shown.counts}
    found = {}
    for bit in (bit for herd in herds for bit in herd.picks):
        fitting = [pattern for pattern, own in bits.items() if own >> bit & 1]
        if len(fitting) == 1 and bits[fitting[0]] == 1 << bit:
            found[bit] = fitting[0]
    return found


def _limit(pattern: int, flock: Flock, vacancies: dict[Herd, Indices]) -> Indices:
    """The most young of a pattern that could count or be held: [runs].

    The goal and the herds both take the earliest first, so that the larger of the two will do.
    """
    wanted, vacant = (np.zeros(len(flock), dtype=np.intp) for _ in range(2))
    for row, need in enumerate(flock.need):
        if pattern >> row & 1:
            wanted += need
    for herd, own in vacancies.items():
        if any(pattern >> bit & 1 for bit in herd.picks):
            vacant += own
    return np.maximum(wanted, vacant)


def _count(outcome: Outcome, listed: Listed, flock: Flock, rng: np.random.Generator) -> None:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    left = flock.need.sum(axis=0)
    for row, own in enumerate(flock.need):
        young = listed.count(row, own)
        if young.clutch.size:
            filled = np.bincount(young.run, minlength=len(flock))
            outcome.filled[row] += filled
            left -= filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(outcome, listed, met, rng)


def _meet(outcome: Outcome, listed: Listed, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    young, shown = listed.young, listed.young.shown
    last = np.zeros(len(outcome.met), dtype=np.intp)
    counted = np.flatnonzero(listed.counted)
    last[young.run.take(counted)] = counted
    where = last.take(met)
    clutch = young.clutch.take(where)
    first, end = np.searchsorted(young.clutch, clutch), np.searchsorted(young.clutch, clutch, side="right")
    outcome.meet(shown.clutches, met, shown.clutch.take(clutch), end - first, where - first + 1, rng)


def _hold(flock: Flock, picked: Sequence[Young], herd: Herd, season: int, rng: np.random.Generator) -> None:
    """Hold young back, pick by pick; each list is in order of run.

    All are counted; those that are fit to breed get a place.
    """
    each = together(picked)
    every = each.shown.look.draw_young(rng, each.code, herd.sex)
    before = flock.fit(herd)
    fit = before
    ends = np.cumsum([len(young.run) for young in picked])[:-1]
    for young, kinds in zip(picked, np.split(every, ends), strict=True):
        grown = np.flatnonzero(kinds != LOST)
        runs = young.run.take(grown)
        more = np.bincount(runs, minlength=len(flock))
        fit = fit + more
        flock.place(herd, np.arange(len(runs)) + (fit - np.cumsum(more)).take(runs), runs, kinds.take(grown))
    flock.hold(herd, season, np.bincount(each.run, minlength=len(flock)), fit - before)


def _not_surplus(outcome: Outcome, young: Young, *, sells: bool) -> None:
    """Take young that counted or are held out of the surplus and its sales."""
    outcome.not_surplus(young.run)
    if sells:
        outcome.add_sales(young.run, -young.shown.look.worth.reshape(-1).take(young.code))

"""The end of a season young by young: which count for which goal row, and which are held back for which herd."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from core.routes.problem import Herd
from core.routes.simulation.flock import Flock, Tally
from core.routes.simulation.listing import Listed, Taken, first_young, list_young
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
    need, rooms = flock.need.take(shown.runs, axis=1), {herd: own.take(shown.runs) for herd, own in vacancies.items()}
    plain = _plain(shown, rooms)
    tangled = [pattern for pattern in shown.counts if pattern not in plain.values()]
    limits = {pattern: _limit(shown.look.patterns[pattern], need, rooms) for pattern in tangled}
    listed = list_young(shown, limits, rng)
    _count(outcome, listed, need, rng)
    gone: list[Taken] = []
    for herd, room in rooms.items():
        found, left = _find(listed, plain, herd, room)
        gone += [taken for bit, taken in found if bit in plain]
        if found:
            outcome.surplus[shown.runs] -= room - left
            _hold(flock, shown, [taken for _, taken in found], herd, room - left, season, rng)
    outcome.surplus[shown.runs] -= np.bincount(listed.only_counted().run, minlength=len(shown.runs))
    if sells:
        _not_sold(outcome, shown, [*gone, listed.gone()])


def _find(listed: Listed, plain: dict[int, int], herd: Herd, room: Indices) -> tuple[list[tuple[int, Taken]], Indices]:
    """The young a herd holds back, by the bit of the pick that each fits; and what room is left: [runs]."""
    found, shown = [], listed.young.shown
    for bit in herd.picks:
        taken = first_young(shown, plain[bit], room) if bit in plain else listed.hold(bit, room)
        if taken.run.size:
            found.append((bit, taken))
            room = room - np.bincount(taken.run, minlength=len(room))
    return found, room


def _plain(shown: Shown, herds: Iterable[Herd]) -> dict[int, int]:
    """The picks that only one pattern fits, which fits nothing else: their bits, and that pattern's number."""
    bits = {pattern: shown.look.patterns[pattern] for pattern in shown.counts}
    found = {}
    for bit in (bit for herd in herds for bit in herd.picks):
        fitting = [pattern for pattern, own in bits.items() if own >> bit & 1]
        if len(fitting) == 1 and bits[fitting[0]] == 1 << bit:
            found[bit] = fitting[0]
    return found


def _limit(pattern: int, need: Tally, rooms: dict[Herd, Indices]) -> Indices:
    """The most young of a pattern that could count or be held: [runs].

    The goal and the herds both take the earliest first, so that the larger of the two will do.
    """
    wanted, vacant = (np.zeros(need.shape[1], dtype=np.intp) for _ in range(2))
    for row, own in enumerate(need):
        if pattern >> row & 1:
            wanted += own
    for herd, room in rooms.items():
        if any(pattern >> bit & 1 for bit in herd.picks):
            vacant += room
    return np.maximum(wanted, vacant)


def _count(outcome: Outcome, listed: Listed, need: Tally, rng: np.random.Generator) -> None:
    """Which young count; a young fills the first row that it fits and that is not full yet."""
    left, runs = need.sum(axis=0), listed.young.shown.runs
    for row, own in enumerate(need):
        taken = listed.count(row, own)
        if taken.run.size:
            filled = np.bincount(taken.run, minlength=len(runs))
            outcome.filled[row, runs] += filled.astype(np.int32)
            left -= filled
    met = np.flatnonzero(left == 0)
    if met.size:
        _meet(outcome, listed, met, rng)


def _meet(outcome: Outcome, listed: Listed, met: Indices, rng: np.random.Generator) -> None:
    """The last young that counted meets the goal; find the egg that it came from."""
    young, shown = listed.young, listed.young.shown
    last = np.zeros(len(shown.runs), dtype=np.intp)
    counted = np.flatnonzero(listed.counted)
    last[young.run.take(counted)] = counted
    where = last.take(met)
    clutch = young.clutch.take(where)
    first, end = np.searchsorted(young.clutch, clutch), np.searchsorted(young.clutch, clutch, side="right")
    runs = shown.runs.take(met)
    outcome.meet(shown.clutches, runs, shown.clutch.take(clutch), end - first, where - first + 1, rng)


def _hold(
    flock: Flock,
    shown: Shown,
    picked: Sequence[Taken],
    herd: Herd,
    held: Indices,
    season: int,
    rng: np.random.Generator,
) -> None:
    """Hold young back, pick by pick; each list is in order of run.

    held: how many they are, by run. All are counted; those that are fit to breed get a place.
    """
    every = shown.look.draw_young(rng, _joined([taken.code for taken in picked]), herd.sex)
    before = flock.fit(herd).take(shown.runs)
    fit = before
    ends = np.cumsum([len(taken.run) for taken in picked])[:-1]
    for taken, kinds in zip(picked, np.split(every, ends), strict=True):
        grown = np.flatnonzero(kinds != LOST)
        run = taken.run.take(grown)
        more = np.bincount(run, minlength=len(before))
        fit = fit + more
        flock.place(herd, fit - np.cumsum(more), shown.runs, run, kinds.take(grown))
    flock.hold(herd, season, shown.runs, held, fit - before)


def _not_sold(outcome: Outcome, shown: Shown, gone: Sequence[Taken]) -> None:
    """Take young that counted or are held out of the sales."""
    run, code = (_joined(arrays) for arrays in zip(*gone, strict=True))
    worth = shown.look.worth.reshape(-1).take(code)
    outcome.sales[shown.runs] -= np.bincount(run, weights=worth, minlength=len(shown.runs))


def _joined(parts: Sequence[Indices]) -> Indices:
    return parts[0] if len(parts) == 1 else np.concatenate(parts)

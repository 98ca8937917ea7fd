"""Playing a route many times."""

from __future__ import annotations

from collections.abc import Generator

import numpy as np

from core.routes.problem import Problem
from core.routes.simulation.played import Played, Season
from core.routes.simulation.player import Odds, Player

# Runs played at once; fewer where there are so many animals that memory would not stay bounded.
CHUNK = 80_000
MOST_AT_ONCE = 1_200_000
# Memory that was given back to the system is handed out anew page by page, which can take longer than the work in it.
# Once a block of this size was freed, the C library of Linux keeps smaller ones at hand; elsewhere it changes nothing.
_BLOCK = 31 << 20


def stream(seed: int) -> np.random.Generator:
    """The random numbers of a seed: from the generator of numpy that takes the least time."""
    return np.random.Generator(np.random.SFC64(seed))


def play_route(
    problem: Problem, runs: int, rng: np.random.Generator, odds: Odds | None = None, *, apart: bool = True
) -> Generator[int, None, Played]:
    """Play a route; yields about how many runs are done, and returns them all (`StopIteration.value`).

    Every chunk of runs draws from a stream of its own, a child of `rng`: routes played from generators of one seed
    share their streams, and runs of a longer play begin like those of a shorter one.
    odds: kept from the same route at other counts, saves working them out again; the answer is the same.
    apart: whether each run is told season by season, or only how it ended.
    """
    player = Player(problem, Odds(problem) if odds is None else odds)
    np.empty(_BLOCK, dtype=np.uint8)
    record = _nothing_yet(problem.horizon, runs, apart=apart)
    chunk = _chunk(problem)
    begins = range(0, runs, chunk)
    for begin, stream in zip(begins, rng.spawn(len(begins)), strict=True):
        end = min(begin + chunk, runs)
        for season in player.play(record, begin, end, stream):
            yield begin + (end - begin) * season // problem.horizon
        yield end
    for array in (record.met_season, record.met_egg, record.spent, record.laid):
        array.setflags(write=False)
    return record


def _nothing_yet(seasons: int, runs: int, *, apart: bool) -> Played:
    return Played(
        met_season=np.zeros(runs, dtype=np.int16),
        met_egg=np.zeros(runs, dtype=np.int32),
        spent=np.zeros(runs),
        laid=np.zeros(runs, dtype=np.int32),
        sums=np.zeros((seasons, len(Season._fields))),
        seasons=tuple([] for _ in range(seasons)),
        outright=np.zeros(seasons),
        apart=apart,
    )


def _chunk(problem: Problem) -> int:
    clutches = sum(herd.count for herd in problem.herds) * problem.biology.clutches
    return max(100, min(CHUNK, MOST_AT_ONCE // max(clutches, 1)))

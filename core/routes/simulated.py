"""Answers from playing a route many times."""

from __future__ import annotations

from collections.abc import Generator, Sequence

import numpy as np

from core.routes.answer import Answer, Expectations, Expected, money_grid
from core.routes.calendar import fixed_costs
from core.routes.problem import Problem
from core.routes.result import PLAYS_A_RUN, Floats
from core.routes.simulation.play import play_route, stream
from core.routes.simulation.played import Played
from core.routes.simulation.player import Odds


def simulated_counts(
    problems: Sequence[Problem], drawn: int
) -> Generator[float, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts, and expectations for the one at a place; yields the share done."""
    simulation = problems[drawn].plan.simulation
    plays = simulation.runs * PLAYS_A_RUN
    odds = Odds(problems[drawn])
    answers: list[Answer] = []
    expectations: list[Expected] = []
    for place, problem in enumerate(problems):
        # The same seed for every count and route: their differences are then less noisy than they are themselves.
        steps = play_route(problem, plays, stream(simulation.seed), odds, apart=False)
        played = yield from _shared(steps, place, len(problems), plays)
        answers.append(_answer(problem, played))
        expectations.append(_expected(problem, played))
    return answers, expectations.__getitem__


def _shared(steps: Generator[int, None, Played], place: int, places: int, plays: int) -> Generator[float, None, Played]:
    while True:
        try:
            done = next(steps)
        except StopIteration as end:
            played: Played = end.value
            return played
        yield (place + done / plays) / places


def standard_errors(chances: Floats, plays: int) -> Floats:
    """Standard errors of chances that were counted in so many plays.

    Two successes and two failures are added first (Agresti A, Coull BA 1998, The American Statistician 52:119-126;
    from memory), so that a chance seen as 0 or 1 does not pretend to be certain.
    """
    rate = (chances * plays + 2) / (plays + 4)
    return np.sqrt(rate * (1 - rate) / (plays + 4))


def _answer(problem: Problem, played: Played) -> Answer:
    seasons, plays = problem.horizon, len(played.met_season)
    met = played.met_season
    chance = np.cumsum(np.bincount(met, minlength=seasons + 1)[1:]) / plays
    spent = played.spent
    reached = spent[met > 0] if (met > 0).any() else spent
    grid = money_grid(float(reached.min()), float(reached.max()))
    points = grid.points() + grid.step * 1e-6
    by_season = (np.sort(spent[met == season]) for season in range(1, seasons + 1))
    paid = np.array([np.searchsorted(sums, points, side="right") for sums in by_season])
    # Numpy copies keep the egg curve alive without the whole record of the plays.
    most = int(played.laid.max(initial=0))
    season, egg = met[played.met_egg > 0].copy(), played.met_egg[played.met_egg > 0].copy()

    def eggs() -> Floats:
        found = np.zeros((seasons, most + 1))
        np.add.at(found, (season - 1, egg), 1 / plays)
        return found

    by_money = np.cumsum(paid, axis=0) / plays
    return Answer(chance, grid, lambda: by_money, eggs, standard_errors(chance, plays))


def _expected(problem: Problem, played: Played) -> Expected:
    reached = played.share_reached()
    present = played.means("present") / np.maximum(reached, 1e-300)
    up_front = problem.outright_price if problem.outright == 1 else float(fixed_costs(problem)[0])
    return Expected(
        paid=played.means_paid(),
        sales=np.cumsum(played.means("sales")),
        present=present,
        reached=reached,
        young=played.means("young"),
        surplus=float(played.means("surplus").sum()),
        up_front=up_front,
    )

"""Playing a route egg by egg, by lot."""

from __future__ import annotations

import math
import random
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from .chances import Chance, Lot
from .genetics import Plan
from .results import Meeting, Result
from .season import Game, Route

PER_SEASON = ("paid", "sales", "young", "surplus", "eggs")


@dataclass
class Play:
    """One run: when and by which egg the goal was met (none: it was not), and what was counted in each season.

    Money here is in whole grains of the game.
    """

    season: int | None = None
    egg: int | None = None
    up_front: int = 0
    counted: dict[tuple[str, int], int] = field(default_factory=lambda: defaultdict(int))

    def total(self, kind: str) -> int:
        return sum(amount for (counted, _), amount in self.counted.items() if counted == kind)


def play(game: Game, chance: Chance) -> Play:
    """Play the route once."""
    run = Play()

    def note(kind: str, season: int, amount: int) -> None:
        run.counted[kind, season] += amount

    state = game.start()
    while state.phase != "over":
        state = game.advance(state, chance, note)
        if state.eggs == 0 and state.season == 1:
            run.up_front = run.counted["paid", 1]
    run.season, run.egg = state.met_season, state.met_egg
    return run


def play_many(plan: Plan, route: Route, runs: int, seed: int, counts: Mapping[str, int] | None = None) -> Result:
    """Play the route many times; `counts` sets the counts of groups by id."""
    game = Game(plan, with_counts(route, counts or {}))
    lot = Lot(random.Random(seed))
    met: dict[Meeting, int] = defaultdict(int)
    sums: dict[tuple[str, int], int] = defaultdict(int)
    running_squares: dict[tuple[str, int], int] = defaultdict(int)
    most_eggs, up_front = 0, 0
    for _ in range(runs):
        run = play(game, lot)
        if run.season is not None:
            met[Meeting(run.season, run.egg, Fraction(run.total("paid"), game.grain))] += 1
        most_eggs, up_front = max(most_eggs, run.total("eggs")), run.up_front
        for key, amount in run.counted.items():
            sums[key] += amount
        for kind in PER_SEASON:
            running = 0
            for season in range(1, game.seasons + 1):
                running += run.counted.get((kind, season), 0)
                running_squares[kind, season] += running**2
    expected = {key: _money(game, key[0], amount) / runs for key, amount in sums.items()}
    chances = {meeting: Fraction(n, runs) for meeting, n in met.items()}
    result = Result(game.seasons, chances, expected, Fraction(up_front, game.grain), most_eggs, runs)
    result.spread = {kind: _spread(game, result, kind, running_squares) for kind in PER_SEASON}
    return result


def with_counts(route: Route, counts: Mapping[str, int]) -> Route:
    """The route with other counts in some of its groups."""
    groups = [
        group | {"count": counts[group["id"]]} if group["id"] in counts else group for group in route.get("groups", [])
    ]
    return route | {"groups": groups}


def _money(game: Game, kind: str, amount: int) -> float:
    return amount / game.grain if kind in ("paid", "sales") else float(amount)


def _spread(game: Game, result: Result, kind: str, squares: Mapping[tuple[str, int], int]) -> list[float]:
    """Standard error of the mean of each running total."""
    grain = game.grain if kind in ("paid", "sales") else 1
    runs = result.runs or 1
    errors = []
    for season, mean in enumerate(result.running(kind), start=1):
        variance = squares[kind, season] / grain**2 / runs - float(mean) ** 2
        errors.append(math.sqrt(max(variance, 0.0) / runs))
    return errors

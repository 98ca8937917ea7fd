"""Every way a route can go, with exact chances: for tiny plans only."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction

from .chances import every_way
from .genetics import Plan
from .player import with_counts
from .results import Meeting, Result
from .season import Game, Route, State


class TooMany(Exception):
    """The plan has more ways to go than were allowed for."""


def enumerate_route(
    plan: Plan, route: Route, counts: Mapping[str, int] | None = None, most_steps: int | None = None
) -> Result:
    """Take every way, step by step; ways that lead to the same state go on together.

    Raises TooMany after `most_steps` steps of single states.
    """
    tracker = _Tracker(Game(plan, with_counts(route, counts or {})), most_steps)
    while tracker.live:
        tracker.step()
    return tracker.result()


class _Tracker:
    """The chance of every state the play may be in, and what has been counted on the way."""

    def __init__(self, game: Game, most_steps: int | None) -> None:
        self.game = game
        self.live: dict[State, Fraction] = {game.start(): Fraction(1)}
        self.met: dict[Meeting, Fraction] = defaultdict(Fraction)
        self.expected: dict[tuple[str, int], Fraction] = defaultdict(Fraction)
        self.up_front = Fraction(0)
        self.most_eggs = 0
        self.steps_left = most_steps

    def step(self) -> None:
        """Move every live state one step on."""
        onward: dict[State, Fraction] = defaultdict(Fraction)
        for state, reached in self.live.items():
            if self.steps_left is not None:
                self.steps_left -= 1
                if self.steps_left < 0:
                    raise TooMany
            for after, p in self._branches(state, reached):
                if after.phase == "over":
                    self._finish(after, p)
                else:
                    onward[after] += p
        self.live = onward

    def _branches(self, state: State, reached: Fraction) -> list[tuple[State, Fraction]]:
        branches = []
        notes: list[tuple[str, int, int]] = []
        for after, p in every_way(lambda chance: self.game.advance(state, chance, lambda *note: notes.append(note))):
            for kind, season, amount in notes:
                self.expected[kind, season] += reached * p * amount
            notes.clear()
            if after.eggs == 0 and after.season == 1:
                self.up_front = max(self.up_front, Fraction(after.paid, self.game.grain))
            branches.append((after, reached * p))
        return branches

    def _finish(self, state: State, p: Fraction) -> None:
        self.most_eggs = max(self.most_eggs, state.eggs)
        if state.met_season is not None:
            self.met[Meeting(state.met_season, state.met_egg, Fraction(state.paid, self.game.grain))] += p

    def result(self) -> Result:
        grain = {"paid": self.game.grain, "sales": self.game.grain}
        expected = {key: amount / grain.get(key[0], 1) for key, amount in self.expected.items()}
        return Result(self.game.seasons, dict(self.met), dict(expected), self.up_front, self.most_eggs)

"""What a route comes to, over plays by lot or over every way it can go."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

Number = Fraction | float


class Meeting(NamedTuple):
    """The season and the egg (none: bought outright) that met the goal, and what was paid in all."""

    season: int
    egg: int | None
    paid: Fraction


@dataclass
class Result:
    """Chances and expectations of one route: exact fractions from enumeration, averages from play (then `runs` is set).

    `met` holds the chance of every way of meeting the goal, `expected` the expectation of (kind, season), where a kind
    is paid, sales, eggs, young, surplus, animals (those in step 2) or reached. `spread` holds standard errors of the
    running means, season by season.
    """

    seasons: int
    met: Mapping[Meeting, Number]
    expected: Mapping[tuple[str, int], Number]
    up_front: Fraction
    most_eggs: int
    runs: int | None = None
    spread: dict[str, list[float]] = field(default_factory=dict)

    def chance_by_season(self) -> list[Number]:
        return [
            sum((p for meeting, p in self.met.items() if meeting.season <= s), Fraction(0)) for s in self._seasons()
        ]

    def chance_by_season_se(self) -> list[float]:
        return [self.standard_error(chance) for chance in self.chance_by_season()]

    def chance_by_eggs(self) -> list[Number]:
        at: list[Number] = [Fraction(0)] * (self.most_eggs + 1)
        for meeting, p in self.met.items():
            if meeting.egg is not None:
                at[meeting.egg] += p
        return list(itertools.accumulate(at))

    def money(self) -> list[tuple[Fraction, Number]]:
        """Each total with which the goal can be met, ascending, and the chance of meeting it with exactly that."""
        by_total: dict[Fraction, Number] = {}
        for meeting, p in self.met.items():
            by_total[meeting.paid] = by_total.get(meeting.paid, 0) + p
        return sorted(by_total.items())

    def chance_with(self, x: Fraction | float) -> Number:
        """The chance that the goal is met with no more than x paid in all."""
        return sum((p for meeting, p in self.met.items() if meeting.paid <= x), Fraction(0))

    def within(self, seasons: int) -> Result:
        """The same with the horizon cut; what is met later is not met."""
        met = {meeting: p for meeting, p in self.met.items() if meeting.season <= seasons}
        return Result(seasons, met, {}, self.up_front, self.most_eggs, self.runs)

    def paid_by_season(self) -> list[Number]:
        return self.running("paid")

    def sales_by_season(self) -> list[Number]:
        return self.running("sales")

    def young(self) -> Number:
        return self.running("young")[-1]

    def surplus(self) -> Number:
        return self.running("surplus")[-1]

    def eggs(self) -> Number:
        return self.running("eggs")[-1]

    def peak_animals(self) -> Number:
        return self._peak("animals")

    def peak_young(self) -> Number:
        return self._peak("young")

    def standard_error(self, chance: Number) -> float:
        p = float(chance)
        return math.sqrt(max(p * (1 - p), 0.0) / self.runs) if self.runs else 0.0

    def _seasons(self) -> range:
        return range(1, self.seasons + 1)

    def running(self, kind: str) -> list[Number]:
        """Expected total through each season."""
        each = (self.expected.get((kind, season), Fraction(0)) for season in self._seasons())
        return list(itertools.accumulate(each))

    def _peak(self, kind: str) -> Number:
        """The largest mean, given that the season is reached, over the seasons that at least 1 run in 20 reaches."""
        reached = {season: self.expected.get(("reached", season), 0) for season in self._seasons()}
        often = [season for season, p in reached.items() if p >= Fraction(1, 20)]
        return max((self.expected.get((kind, season), 0) / reached[season] for season in often), default=Fraction(0))

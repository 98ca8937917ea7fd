"""A quick guess at what a pair costs until the goal is likely, for choosing animals to begin a drawing with."""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.plan.chances import chance
from core.plan.model import Plan
from core.routes.clutch import clutch_sizes

_MOST_FEMALES = 6
# Where keeping costs nothing, a season more is still worse than a season less.
_LEAST_KEEP = 1.0


@dataclass(frozen=True)
class Guess:
    """What it takes with the best number of females; infinite where the goal stays out of reach."""

    money: float
    females: int


class Worth:
    """The numbers of a plan that a guess needs."""

    def __init__(self, plan: Plan) -> None:
        species, costs = plan.species, plan.costs
        sizes = clutch_sizes(species.clutch)
        laid = (
            sum(n * float(share) for n, share in enumerate(sizes)) * species.clutches_per_season * chance(species.lays)
        )
        kept = (1 - chance(species.clutch_lost)) * chance(species.fertile) * chance(species.hatches)
        works = chance(species.breeds.male) * chance(species.breeds.female)
        self._young = laid * kept * works
        self._laid = laid
        self._per_egg = costs.per_egg + costs.per_young * kept
        self._keep = max(costs.keep_adult, _LEAST_KEEP)
        self._seasons = plan.goal.seasons
        self._miss = 1 - chance(plan.goal.chance)

    def guess(self, per_egg: float, male: float, female: float, most: int, *, wanted: int, starts_in: int = 0) -> Guess:
        """What a male and females at these prices take to give so many that are wanted.

        starts_in: seasons gone before the first of these eggs.
        """
        if per_egg <= 0 or self._young <= 0:
            return Guess(math.inf, 1)
        tries = 1.0 if per_egg >= 1 else math.log(self._miss) / math.log1p(-per_egg)
        needed = max(tries, wanted / per_egg, 1.0)
        return min((self._with(count, needed, male, female, starts_in) for count in range(1, most + 1)), key=_money)

    def most_females(self, quantity: int) -> int:
        """How many females are thought of at most."""
        return max(1, min(quantity, _MOST_FEMALES))

    def _with(self, count: int, needed: float, male: float, female: float, starts_in: int) -> Guess:
        seasons = needed / (count * self._young)
        late = seasons + starts_in > self._seasons
        whole = math.ceil(seasons)
        running = whole * (self._keep * (count + 1) + self._laid * count * self._per_egg)
        # Too late is worse than any price, and the later the worse.
        return Guess(male + count * female + running + (1e9 * (seasons + starts_in) if late else 0.0), count)


def _money(guess: Guess) -> float:
    return guess.money

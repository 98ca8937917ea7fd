"""Who breeds with whom in every season, by when held animals came that change it."""

from __future__ import annotations

from collections.abc import Mapping

from core.routes.calendar import Animal, Mating, founders, matings
from core.routes.exact.chain.herds import first_hold
from core.routes.problem import Herd, Problem

# By herd, the seasons in which its members came.
Whens = Mapping[int, tuple[int, ...]]


class Orders:
    """The matings of a route; asked: by herd, the seasons in which others ask how many there are of it."""

    def __init__(self, problem: Problem, asked: Mapping[int, range]) -> None:
        self._problem, self._asked = problem, asked
        self._known: dict[tuple[tuple[int, tuple[int, ...]], ...], list[tuple[Mating, ...]]] = {}

    def of(self, whens: Whens) -> list[tuple[Mating, ...]]:
        """Per season, its matings in laying order; of herds that nobody asks for, all that there may be."""
        key = tuple(whens.items())
        if key not in self._known:
            self._known[key] = [self._matings(whens, s + 1) for s in range(self._problem.breeding_seasons)]
        return self._known[key]

    def _matings(self, whens: Whens, season: int) -> tuple[Mating, ...]:
        breeders = [self._breeders(herd, whens, season) for herd in self._problem.herds]
        return tuple(matings(self._problem, breeders, season))

    def _breeders(self, herd: Herd, whens: Whens, season: int) -> list[Animal]:
        if not herd.held:
            return founders(herd, season)
        matures = self._problem.biology.matures[herd.sex]
        if herd.index in whens and (herd.sex == "male" or season in self._asked[herd.index]):
            number = sum(when + matures <= season for when in whens[herd.index])
        else:
            number = herd.count if season >= first_hold(self._problem, herd) + matures else 0
        return [Animal(herd.index, place) for place in range(number)] if herd.there(season) else []

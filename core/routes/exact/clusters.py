"""Animals that breed together, season by season, and the chance that none of their eggs fills the goal.

Given the true states of the males a female ever meets, she is independent of all others; females that share males
form a cluster, clusters are independent. A female has one true state in all her seasons, so her seasons are
multiplied first and averaged over her states after.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.eggs import Laying, Pair, SeasonWeights

# What an animal may be: (genotype number, chance); the rest to 1 does not work at all.
States = tuple[tuple[int, float], ...]
# A male's true state: his genotype number, or None where he does not work.
MaleState = int | None
NOT_BRED = -1


@dataclass(frozen=True)
class Female:
    """A female: what she may be, and per breeding season the number of her male in the cluster, or NOT_BRED."""

    states: States
    males: tuple[int, ...]


@dataclass(frozen=True)
class Cluster:
    """Males and the females that share them; `places` say where a female stands in the laying order."""

    males: tuple[States, ...]
    females: tuple[Female, ...]
    places: tuple[Hashable, ...] = field(compare=False)


@dataclass(frozen=True, eq=False)
class Seasons:
    """Products over seasons, [seasons + 1, states, points].

    `alive[s]`: no row filled through season s. `open[s]`: none filled through s - 1, season s with anything allowed.
    """

    alive: Complex
    open: Complex


class Breeding:
    """Works out clusters for one way of looking at the goal at one set of points; keeps what repeats."""

    def __init__(self, laying: Laying, pairs: Mapping[tuple[int, int], Pair], seasons: int) -> None:
        self.laying, self.pairs, self.seasons = laying, pairs, seasons
        self._season: dict[tuple[int, MaleState], SeasonWeights] = {}
        self._paths: dict[tuple[States, tuple[MaleState | str, ...]], Seasons] = {}
        self._clusters: dict[Cluster, Seasons] = {}
        self._kept: dict[Hashable, Complex] = {}

    def kept(self, key: Hashable, work_out: Callable[[], Complex]) -> Complex:
        """An element worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
        return self._kept[key]

    @property
    def algebra(self) -> CountAlgebra:
        """The states of the goal rows looked at."""
        return self.laying.algebra

    def nothing(self) -> Seasons:
        """Of no animals at all."""
        one = np.repeat(self.algebra.one(self.laying.probe.points)[None], self.seasons + 1, axis=0)
        return Seasons(one, one)

    def together(self, clusters: Sequence[Cluster]) -> Seasons:
        """All clusters of a route together."""
        total: Seasons | None = None
        for cluster, times in Counter(clusters).items():
            seasons = self.cluster(cluster)
            if times > 1:
                seasons = Seasons(self.algebra.power(seasons.alive, times), self.algebra.power(seasons.open, times))
            total = seasons if total is None else self.both(total, seasons)
        return self.nothing() if total is None else total

    def both(self, a: Seasons, b: Seasons) -> Seasons:
        """Two independent parts together."""
        return Seasons(self.algebra.multiply(a.alive, b.alive), self.algebra.multiply(a.open, b.open))

    def cluster(self, cluster: Cluster) -> Seasons:
        """One cluster, averaged over the true states of its males."""
        found = self._clusters.get(cluster)
        if found is None:
            found = self._clusters[cluster] = self._averaged(cluster)
        return found

    def _averaged(self, cluster: Cluster) -> Seasons:
        alive, unfilled = 0, 0
        counted = Counter((female.states, female.males) for female in cluster.females)
        for states, weight in male_states(cluster.males):
            total: Seasons | None = None
            for (own, males), times in counted.items():
                seasons = self.path(own, mates(males, states))
                if times > 1:
                    seasons = Seasons(self.algebra.power(seasons.alive, times), self.algebra.power(seasons.open, times))
                total = seasons if total is None else self.both(total, seasons)
            assert total is not None
            alive, unfilled = alive + weight * total.alive, unfilled + weight * total.open
        return Seasons(np.asarray(alive), np.asarray(unfilled))

    def path(self, own: States, mates: tuple[MaleState | str, ...]) -> Seasons:
        """One female, averaged over her true states, given the true states of her males season by season."""
        found = self._paths.get((own, mates))
        if found is None:
            found = self._paths[own, mates] = self._path(own, mates)
        return found

    def _path(self, own: States, mates: tuple[MaleState | str, ...]) -> Seasons:
        idle = 1 - sum(weight for _, weight in own)
        nothing = self.nothing()
        alive, unfilled = idle * nothing.alive, idle * nothing.open
        for state, weight in own:
            so_far = weight * nothing.alive[0]
            alive[0] += so_far
            unfilled[0] += so_far
            for season, mate in enumerate(mates, start=1):
                if isinstance(mate, str):
                    unfilled[season] += so_far
                else:
                    weights = self.season(state, mate)
                    unfilled[season] += so_far * weights.allowed
                    so_far = self.algebra.multiply(so_far, weights.alive)
                alive[season] += so_far
        return Seasons(alive, unfilled)

    def season(self, female: int, male: MaleState) -> SeasonWeights:
        """The season of a working female of this genotype with this male."""
        found = self._season.get((female, male))
        if found is None:
            found = self.laying.season(None if male is None else self.pairs[male, female])
            self._season[female, male] = found
        return found


def male_states(males: Sequence[States]) -> list[tuple[tuple[MaleState, ...], float]]:
    """Every combination of the males' true states that can be, with its chance."""
    each: list[list[tuple[MaleState, float]]] = []
    for states in males:
        idle = 1 - sum(weight for _, weight in states)
        each.append([*states, *([(None, idle)] if idle > 1e-15 else [])])
    return [(tuple(s for s, _ in choice), math.prod(w for _, w in choice)) for choice in product(*each)]


def mates(males: tuple[int, ...], states: tuple[MaleState, ...]) -> tuple[MaleState | str, ...]:
    """The true state of a female's male, season by season; a word where she is not bred."""
    return tuple("not bred" if male == NOT_BRED else states[male] for male in males)

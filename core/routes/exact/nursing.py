"""What the counts of a route that holds young share: nurseries of a season, and what their animals breed."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.breeding import Breeding
from core.routes.exact.brood import HoldClass, Nursery
from core.routes.exact.clusters import NOT_BRED, Cluster, Female, Raised, Seasons, States
from core.routes.exact.eggs import Probe
from core.routes.exact.ending import AtEgg, Standings, standings
from core.routes.exact.filling import Founders, Founding
from core.routes.exact.looks import Rows
from core.routes.exact.plain import Workshop
from core.routes.exact.schedule import Schedule, clusters_of
from core.routes.problem import Problem

# For each of some things the place of what it becomes; None where all stay as they are.
Places = NDArray[np.intp] | None


@dataclass(frozen=True, eq=False)
class Raising:
    """What decides what held animals breed: their matings by season, their classes, and the founders they meet."""

    schedule: Schedule
    held: tuple[tuple[Animal, tuple[HoldClass, Raised | None]], ...]
    founders: tuple[tuple[Animal, States], ...]


# Held animals that are each followed alone, in laying order: how each is raised, and how many there are in a row.
Members = tuple[tuple[Raising, int], ...]


class Group(NamedTuple):
    """What nurseries of one season have in common that breed alike: what is raised, the founders, the laying order."""

    raising: Raising
    pairs: tuple[tuple[Animal, Founders], ...]
    order: tuple[Animal, ...]

    @property
    def founders(self) -> tuple[Founders, ...]:
        """The founders alone."""
        return tuple(pair for _, pair in self.pairs)


@dataclass(frozen=True, eq=False)
class Stage:
    """The nurseries of a season and what is known of each; for `begun_from` and `group_from` see `places_of`."""

    nurseries: tuple[Nursery, ...]
    begun_from: Places
    there: tuple[tuple[int, int], ...]
    vacancies: tuple[tuple[int, ...], ...]
    groups: tuple[Group, ...]
    group_from: Places


@dataclass(frozen=True, eq=False)
class Branch:
    """The nurseries that a season ends with in worlds that go on alike, one of which stands for all of them."""

    world: int
    nurseries: tuple[Nursery, ...]
    weights: Complex


@dataclass(frozen=True, eq=False)
class Begun:
    """A season's nurseries in such worlds, with their weights, no row filled so far: [nurseries, states, points].

    leads: the nurseries that each may end the season as, where young can be held.
    """

    world: int
    stage: Stage
    weights: Complex
    leads: dict[Nursery, list[Nursery]] = field(default_factory=dict)


class Nursing:
    """What the counts of a route that holds young share, for one way of looking at the goal at one set of points."""

    def __init__(self, problem: Problem, shop: Workshop, rows: Rows, probe: Probe) -> None:
        self.breeding: Breeding = shop.breeding(problem, rows, probe)
        self.algebra: CountAlgebra = self.breeding.algebra
        self.probe = probe
        self.founding = Founding(problem, self.breeding, rows, shop.classes(rows))
        self._prices = problem.prices
        self._keep: dict[tuple[tuple[int, int], ...], Complex] = {}
        self._raised_by: dict[tuple[int, tuple[Raising, ...]], Seasons | None] = {}
        self._raised: dict[Raising, Seasons | None] = {}
        self._clusters: dict[Raising, list[Cluster]] = {}
        self._standings: dict[tuple[Raising, AtEgg, int], list[Standings]] = {}
        self._raised_alone: dict[Members, Seasons] = {}
        self._ended_alone: dict[tuple[Members, int, AtEgg, int], Complex] = {}

    def kept(self, there: tuple[tuple[int, int], ...], weights: Complex) -> Complex:
        """Weights of nurseries once the keep of their (breeder-size, growing) animals is paid."""
        if not self.probe.tells_keep:
            return weights
        if there not in self._keep:
            adult, growing = self._prices.keep_adult, self._prices.keep_young
            each = [self.probe.keeping(a * adult + g * growing, a + g) for a, g in there]
            self._keep[there] = np.array(each)[:, None]
            self.breeding.room.keep(self._keep[there].size)
        return weights * self._keep[there]

    def bred(self, begun: Begun, season: int) -> tuple[Complex, Complex]:
        """A season's weights with what founders and held animals bred through it: no row filled, and anything in it."""
        starts = summed(begun.stage.group_from, begun.weights)
        self.breeding.room.take(4 * starts.size * self.algebra.effort)
        if any(group.pairs for group in begun.stage.groups):
            laid = [self.founding.season(group.founders) for group in begun.stage.groups]
            through = self.algebra.multiply(starts, np.stack([weights.alive for weights in laid]))
            anything = starts * np.stack([weights.allowed[None] for weights in laid])
        else:
            through = anything = starts
        raised = self._raised_in(begun.stage, season)
        if raised is not None:
            through = self.algebra.multiply(through, raised.alive)
            anything = self.algebra.multiply(anything, raised.open)
        return through.sum(axis=0), anything.sum(axis=0)

    def _raised_in(self, stage: Stage, season: int) -> Seasons | None:
        """What the groups' held animals bred through a season, [groups, states, points]; None where nothing."""
        key = season, tuple(group.raising for group in stage.groups)
        if key not in self._raised_by:
            each = [self.raised(group.raising) for group in stage.groups]
            nothing = self.algebra.one(self.probe.points)
            self._raised_by[key] = None
            if any(seasons is not None for seasons in each):
                self.breeding.room.keep(2 * len(each) * nothing.size)
                alive = [nothing if seasons is None else seasons.alive[season] for seasons in each]
                unfilled = [nothing if seasons is None else seasons.open[season] for seasons in each]
                self._raised_by[key] = Seasons(np.stack(alive), np.stack(unfilled))
        return self._raised_by[key]

    def raised(self, raising: Raising) -> Seasons | None:
        """Everything bred with held animals, season by season; None where nothing is."""
        if raising not in self._raised:
            clusters = self.clusters(raising)
            self._raised[raising] = found = self.breeding.together(clusters) if clusters else None
            self.breeding.room.keep(2 * found.alive.size if found is not None else 0)
        return self._raised[raising]

    def raised_alone(self, members: Members) -> Seasons:
        """Everything bred with held animals that are each followed alone: one more is a factor more."""
        if members not in self._raised_alone:
            fewer, last = _but_one(members)
            own = self.raised(last)
            assert own is not None
            if fewer:
                own = self.breeding.both(self.raised_alone(fewer), own)
                self.breeding.room.keep(2 * own.alive.size)
            self._raised_alone[members] = own
        return self._raised_alone[members]

    def ended_alone(self, members: Members, first: int, at_egg: AtEgg, points: slice) -> Complex:
        """What happens at their eggs in each season from `first` on, at some of the points: [seasons, states, points].

        It is either an egg of the others, before the last of them lays, or one of hers, with them through the season.
        """
        key = members, first, at_egg, points.start
        if key not in self._ended_alone:
            self._ended_alone[key] = ended = self._end_alone(members, first, at_egg, points)
            self.breeding.room.keep(ended.size)
        return self._ended_alone[key]

    def _end_alone(self, members: Members, first: int, at_egg: AtEgg, points: slice) -> Complex:
        fewer, last = _but_one(members)
        [[(_, [own])]] = self.standings(last, at_egg, points)
        alive = self.raised_alone(((last, 1),)).alive[..., points]
        at = np.zeros_like(alive[first:]) if own.at is None else np.asarray(own.at)[first:]
        if not fewer:
            return at
        through = self.raised_alone(fewer).alive[first:, :, points]
        ended = self.algebra.multiply(self.ended_alone(fewer, first, at_egg, points), alive[first - 1 : -1])
        return ended + self.algebra.multiply(through, at)

    def standings(self, raising: Raising, at_egg: AtEgg, points: slice) -> list[Standings]:
        """The same, female by female, at some of the points."""
        key = raising, at_egg, points.start
        if key not in self._standings:
            self._standings[key] = [
                standings(self.breeding, cluster, at_egg, points) for cluster in self.clusters(raising)
            ]
        return self._standings[key]

    def clusters(self, raising: Raising) -> list[Cluster]:
        """The clusters of all matings with held animals."""
        if raising not in self._clusters:
            self._clusters[raising] = self._found_clusters(raising)
        return self._clusters[raising]

    def _found_clusters(self, raising: Raising) -> list[Cluster]:
        held, met = dict(raising.held), dict(raising.founders)

        def known(animal: Animal) -> tuple[States, Raised | None]:
            if animal not in held:
                return met[animal], None
            kind, raised = held[animal]
            return self.founding.classes.kept(kind).states, raised

        bred = {animal for pairs in raising.schedule for mating in pairs for animal in (mating.male, mating.female)}
        idle = (animal for animal in held if animal not in bred)
        return [*clusters_of(raising.schedule, known), *(self._unbred(animal, *known(animal)) for animal in idle)]

    def _unbred(self, animal: Animal, states: States, raised: Raised | None) -> Cluster:
        """A held female that is followed alone and bred in no season: she is kept all the same."""
        return Cluster((), (Female(states, (NOT_BRED,) * self.breeding.seasons, raised),), (animal,))


def _but_one(members: Members) -> tuple[Members, Raising]:
    """All but the last, and her."""
    *others, (last, many) = members
    return (*others, (last, many - 1)) if many > 1 else tuple(others), last


def places_of(things: Sequence[Hashable], distinct: Sequence[Hashable]) -> Places:
    """Where each thing stands among the distinct ones."""
    if len(things) == len(distinct):
        return None
    place = {thing: i for i, thing in enumerate(distinct)}
    return np.array([place[thing] for thing in things], dtype=np.intp)


def summed(places: Places, weights: Complex) -> Complex:
    """Weights added up at the places given."""
    if places is None:
        return weights
    if places[-1] == 0 and not places.any():
        joined: Complex = np.sum(weights, axis=0, keepdims=True)
        return joined
    total: Complex = np.zeros((int(places.max()) + 1, *weights.shape[1:]), dtype=complex)
    for place, weight in zip(places, weights, strict=True):
        total[place] += weight
    return total


def add_to(weights: dict[Nursery, Complex], nursery: Nursery, weight: Complex) -> None:
    """One more way to a nursery."""
    weights[nursery] = weights[nursery] + weight if nursery in weights else weight

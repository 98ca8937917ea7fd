"""Exact answers for routes that hold nothing back: who breeds with whom is fixed, season by season."""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Hashable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from core.routes.another import another
from core.routes.calendar import fixed_costs, founders_present
from core.routes.exact.algebra import Complex, goal_algebra
from core.routes.exact.alike_endings import alike_endings, are_alike
from core.routes.exact.bounds import Breeders, may_breed
from core.routes.exact.breeding import Breeding
from core.routes.exact.brood import Classes
from core.routes.exact.clusters import Cluster
from core.routes.exact.eggs import EXPECTATIONS, Joined, Probe, first_row
from core.routes.exact.ending import AtEgg, endings, selling
from core.routes.exact.laying import Laying
from core.routes.exact.limits import MOST_KEPT, MOST_MALE_STATES, MOST_NUMBERS, MOST_WORLDS, OutOfReach, Room
from core.routes.exact.looks import Rows, goal_looks
from core.routes.exact.schedule import Schedule, clusters_of, founder_schedule, season_sorts
from core.routes.exact.states import Kinds, worlds
from core.routes.problem import Problem
from core.routes.result import Floats

_Kept = TypeVar("_Kept")

# Glibc hands freed memory back and asks for it again page by page, at up to a third of the time that an answer takes,
# unless a piece as large as this one was freed before; nothing is ever written to it.
np.empty(24 << 20, dtype=np.uint8)

# A chance below this is none: it is what rounding leaves.
NEGLIGIBLE = 1e-16
# And one below this may be all rounding, where chances are taken off each other.
ROUNDING = 1e-14
# A chance above this is certain.
SURE = 1 - 1e-12


@dataclass(frozen=True, eq=False)
class Totals:
    """Sums over all states, [breeding seasons + 1, points]; see `clusters.Seasons` for the two.

    `alive` may only be there for the points told in full (see below): then `open` is the difference at all others.
    """

    alive: Complex
    open: Complex

    def met(self, points: slice) -> Complex:
        """That the goal is met in each season, at some points that are all told in the same way."""
        if points.start >= self.alive.shape[-1]:
            return self.open[1:, points]
        return self.open[1:, points] - self.alive[1:, points]


@dataclass(frozen=True, eq=False)
class Extras:
    """What held animals add to expectations, by season they are reached in: [breeding seasons] each.

    held: young held; worth: what those would have brought. Young that were both held and counted for the goal are in
    `both` and `both_worth`.
    """

    held: Floats
    worth: Floats
    both: Floats
    both_worth: Floats


def told_in_full(problem: Problem, probe: Probe) -> int:
    """At how many of the first points all is asked for that is bred by the end of a season.

    Of money that is only what is paid on meeting the goal, unless the route buys outright where it is not met; of eggs
    nothing, unless some egg may surely meet it (`solve.lays_to_the_goal`).
    """
    if problem.outright is not None:
        return probe.points
    may_be_sure = problem.biology.fertile * problem.biology.hatches > SURE
    return probe.before_money if may_be_sure else probe.before_eggs


class Workshop:
    """What the counts of one route share: numbered genotypes, and seasons already worked out."""

    def __init__(self, problem: Problem, *, alike: bool = True) -> None:
        self.kinds = Kinds(problem, alike=alike)
        self.sorts = season_sorts(problem)
        self.room = Room(MOST_NUMBERS, MOST_KEPT)
        self._kept: dict[Hashable, Any] = {}
        self._classes: dict[Rows, Classes] = {}

    def afresh(self) -> Workshop:
        """The same with nothing worked out but the genotypes."""
        other = another(self)
        other.room, other._kept = Room(MOST_NUMBERS, MOST_KEPT), {}
        return other

    def forget(self) -> None:
        """Lets go of what was worked out: it may hold routes that hold this, and nobody comes to sweep that up."""
        self._kept.clear()

    @cached_property
    def breeders(self) -> Breeders:
        """The herds that may breed in each season."""
        return may_breed(self.kinds.problem)

    def kept(self, key: Hashable, work_out: Callable[[], _Kept]) -> _Kept:
        """Something worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
        found: _Kept = self._kept[key]
        return found

    def knows(self, key: Hashable) -> bool:
        """Whether something is kept under a key."""
        return key in self._kept

    def keep(self, key: Hashable, worked_out: object) -> None:
        """Keeps something under a key."""
        self._kept[key] = worked_out

    def kept_in_steps(
        self, key: Hashable, work_out: Callable[[], Generator[None, None, _Kept]]
    ) -> Generator[None, None, _Kept]:
        """The same, worked out step by step."""
        if key not in self._kept:
            self._kept[key] = yield from work_out()
        found: _Kept = self._kept[key]
        return found

    def price_of(self, row: int) -> float | None:
        """What every young that fits a goal row would bring, over all pairs met so far; None where it varies."""
        young = (one for pair in self.kinds.pairs.values() for one in pair.young)
        prices = {price for mask, _, price in young if mask >> row & 1}
        return prices.pop() if len(prices) == 1 else None if prices else 0.0

    def both_wanted_and_picked(self, row: int) -> bool:
        """Whether some pair met so far has young that count for a goal row and may be held back too."""
        picks = sum(1 << pick for herd in self.kinds.problem.herds for pick in herd.picks)
        pairs = self.kinds.pairs.values()
        return any(mask >> row & 1 and mask & picks for pair in pairs for mask, _, _ in pair.young)

    def sure(self, row: int) -> bool:
        """Whether some pair met so far has eggs that surely count for a goal row."""
        pairs = self.kinds.pairs.values()
        return any(sum(chance for mask, chance, _ in pair.young if mask >> row & 1) > SURE for pair in pairs)

    def classes(self, rows: Rows) -> Classes:
        """What young that are held back may be, given that they do not fit these goal rows."""
        if rows not in self._classes:
            self._classes[rows] = Classes(self.kinds.problem, self.kinds, rows)
        return self._classes[rows]

    def breeding(self, problem: Problem, rows: Rows, probe: Probe) -> Breeding:
        """The cluster engine for these goal rows at these points."""

        def begin() -> Breeding:
            algebra = goal_algebra(tuple(problem.wanted[row] for row in rows))
            laying = Laying(problem.biology, algebra, first_row(rows), probe)
            return Breeding(laying, self.kinds.pairs, problem.breeding_seasons, self.room)

        return self.kept(("breeding", self._look(problem, rows), probe), begin)

    def looks(self, problem: Problem) -> list[tuple[Rows, int]]:
        """Every set of goal rows with its sign; alike ones once, with their signs added up."""

        def find() -> list[tuple[Rows, int]]:
            found: dict[Hashable, tuple[Rows, int]] = {}
            for rows, sign in goal_looks(problem):
                first, so_far = found.setdefault(self._look(problem, rows), (rows, 0))
                found[self._look(problem, rows)] = first, so_far + sign
            return [look for look in found.values() if look[1]]

        return self.kept("looks", find)

    def _look(self, problem: Problem, rows: Rows) -> Hashable:
        """What tells these rows from others: where all pairs are known, how often their eggs fit, and at which price.

        So a male and a female alike are worked out once.
        """
        if problem.holds or len(problem.wanted) == 1:
            return rows
        return self.kept(("look", rows), lambda: self._told(problem, rows))

    def _told(self, problem: Problem, rows: Rows) -> Hashable:
        step_of, found = first_row(rows), []
        for pair in self.kinds.pairs.every():
            told = [0.0] * (2 * len(rows) + 2)
            for mask, chance, price in pair.young:
                step = step_of(mask)
                place = len(rows) if step is None else step
                told[2 * place] += chance
                told[2 * place + 1] += chance * price
            found.append(tuple(round(number, 13) for number in told))
        return tuple(problem.wanted[row] for row in rows), tuple(found)


class PlainRoute:
    """One route without hold-backs at one set of counts."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        self.signature: Schedule = founder_schedule(problem, workshop.sorts)
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.looks = workshop.looks(problem)
        self.eggs_bound, self.keep_bound = most_laid(problem, self.signature), 0.0

    def most_eggs(self, probe: Joined) -> int:
        """The most eggs that can be laid: those of all seasons that are not surely left out, the goal being met."""
        rows = range(len(self.problem.wanted))
        left = np.array([self.totals((row,), probe).alive[:, 0].real for row in rows])
        return most_laid(self.problem, self.signature[: int((left[:, :-1] > NEGLIGIBLE).any(axis=0).sum())])

    def afresh(self, shop: Workshop) -> PlainRoute:
        """The same route at other points."""
        other = another(self)
        other.shop = shop
        return other

    @cached_property
    def _worlds(self) -> list[tuple[float, list[Cluster]]]:
        """What the named animals may be, with the clusters of each."""
        every = worlds(self.problem, self.shop.kinds)
        if len(every) > MOST_WORLDS:
            raise OutOfReach("named animals can be in too many states together")
        found = [(world.chance, clusters_of(self.signature, world.known)) for world in every]
        if any(math.prod(len(own) + 1 for own in c.males) > MOST_MALE_STATES for _, some in found for c in some):
            raise OutOfReach("males that share females can be in too many states together")
        return found

    def totals(self, rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with none of `rows` full.

        Beyond the points told in full, the two are only good for the difference.
        """
        breeding, told = self.shop.breeding(self.problem, rows, probe), told_in_full(self.problem, probe)
        if len(self._worlds) == 1:
            return _totals(breeding, self._worlds[0][1], told)
        alive: Complex | float = 0.0
        unfilled: Complex | float = 0.0
        for chance, clusters in self._worlds:
            totals = _totals(breeding, clusters, told)
            alive, unfilled = alive + chance * totals.alive, unfilled + chance * totals.open
        return Totals(np.asarray(alive), np.asarray(unfilled))

    def lacking(self, row: int, probe: Joined) -> Floats:
        """Expected number of young that this row still lacks at the end of each season: [breeding seasons + 1]."""
        breeding = self.shop.breeding(self.problem, (row,), probe)
        lacks = np.arange(self.problem.wanted[row], 0, -1)
        left = np.zeros(self.problem.breeding_seasons + 1)
        for chance, clusters in self._worlds:
            seasons = breeding.together(clusters, told_in_full(self.problem, probe))
            left += chance * (lacks @ seasons.alive[:, :, 0].real.T)
        return left

    def extras(self, _probe: Joined) -> Extras:
        """Nothing is held."""
        return Extras(*np.zeros((4, self.problem.breeding_seasons)))

    def counted_worth(self, row: int, probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""
        return self.endings((row,), probe, EXPECTATIONS, selling(row))[:, 0].real

    def endings(self, rows: Rows, probe: Joined, part: Probe, at_egg: AtEgg) -> Complex:
        """What happens at the egg that fills one of `rows`, by season: [breeding seasons, points]."""
        breeding = self.shop.breeding(self.problem, rows, probe)
        orders = [[mating.female for mating in pairs] for pairs in self.signature]
        found = np.zeros((len(orders), part.points), dtype=complex)
        for chance, clusters in self._worlds:
            if are_alike(clusters):
                found += chance * alike_endings(breeding, clusters[0], at_egg, probe.where(part))
            else:
                found += chance * endings(breeding, clusters, orders, at_egg, probe.where(part))
        return found


def _totals(breeding: Breeding, clusters: list[Cluster], told: int) -> Totals:
    seasons, total = breeding.together(clusters, told), breeding.algebra.total
    return Totals(total(seasons.alive), total(seasons.open))


def most_laid(problem: Problem, schedule: Schedule) -> int:
    """The most eggs that the matings of some seasons can give."""
    biology = problem.biology
    if biology.lays == 0 or biology.works["female"] == 0:
        return 0
    return sum(map(len, schedule)) * biology.clutches * (len(biology.sizes) - 1)

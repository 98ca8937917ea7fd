"""The egg that fills a goal row: which season, how many eggs before it, and what it is worth."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import accumulate, groupby
from typing import Protocol

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.breeding import Breeding
from core.routes.exact.clusters import Cluster, Female, Mates, male_states, mates
from core.routes.exact.eggs import EggWeights, Pair
from core.routes.exact.together import Together

# What happens at one egg: from all that came before it in the season (an element), and the egg's own weights.
AtEgg = Callable[[CountAlgebra, Complex, EggWeights, Pair], Complex]


def filling(algebra: CountAlgebra, before: Complex, egg: EggWeights, _pair: Pair) -> Complex:
    """The egg fills a row: laid with none full, less laid and still none full."""
    return before * egg.any - algebra.lay(before, egg.miss, egg.steps)


def selling(row: int) -> AtEgg:
    """What a young that counts for this row would have brought."""

    def worth(_algebra: CountAlgebra, before: Complex, _egg: EggWeights, pair: Pair) -> Complex:
        return before * sum(chance * price for mask, chance, price in pair.young if mask >> row & 1)

    return worth


# Who lays in a season, in turn.
Order = Sequence[Hashable]
# Elements by season number.
BySeason = Complex | Mapping[int, Complex]


@dataclass(frozen=True, eq=False)
class Standing:
    """A female within one state of her males: products before, through and at the ending in each season.

    at: None where nothing happens at any of her eggs.
    """

    female: Hashable
    alive: BySeason
    at: BySeason | None


def endings(
    breeding: Breeding, clusters: Sequence[Cluster], orders: Sequence[Order], at_egg: AtEgg, points: slice
) -> Complex:
    """Sum over all eggs of a season, none filled before, of what happens at that egg: [seasons, points].

    orders: per season, the females in laying order, as named in the clusters' `places`; points: those looked at.
    """
    # Of a single cluster, males that do not give what counts end nothing.
    bare = len(clusters) == 1
    each = [standings(breeding, cluster, at_egg, points, bare=bare) for cluster in clusters]
    found = np.zeros((len(orders), points.stop - points.start), dtype=complex)
    for order, first, last in alike(orders):
        found[first - 1 : last] = season_sum(breeding.algebra, each, order, first, last)
    return found


def alike(orders: Sequence[Order]) -> Iterator[tuple[Order, int, int]]:
    """Seasons in a row with the same order of laying: the order, and the first and last of them."""
    season = 1
    for order, same in groupby(orders):
        first, season = season, season + len(list(same))
        yield order, first, season - 1


Standings = list[tuple[float, list[Standing]]]


def started(start: Complex, season: int) -> Standings:
    """What came before a season, as one that lays nothing in it."""
    return [(1.0, [Standing(None, {season - 1: start, season: start}, {})])]


def standings(breeding: Breeding, cluster: Cluster, at_egg: AtEgg, points: slice, *, bare: bool = False) -> Standings:
    """A cluster's females in every state of its males, with the chance of each state, at some of the points.

    bare: only the states in which some egg may count.
    """
    found: Standings = []
    # Many females are alike.
    every = dict.fromkeys(cluster.females)
    for states, weight in male_states(cluster.males):
        males = {one: mates(one.males, states) for one in every}
        if bare and all(breeding.fruitless(one.states, own) for one, own in males.items()):
            continue
        paths = {one: path(breeding, one, own, at_egg, points) for one, own in males.items()}
        females = zip(cluster.places, cluster.females, strict=True)
        found.append((weight, [Standing(place, *paths[female]) for place, female in females]))
    return found


def path(
    breeding: Breeding, female: Female, males: Mates, at_egg: AtEgg, points: slice
) -> tuple[Complex, Complex | None]:
    """A female's products through each season, and what happens at her eggs in each; None where none counts."""
    if breeding.fruitless(female.states, males):
        return breeding.path(female.states, males, female.raised, points.stop).alive[..., points], None
    key = female.states, males, female.raised, at_egg, points.start
    at = breeding.kept(key, lambda: _at(breeding, female, males, at_egg, points))
    return breeding.path(female.states, males, female.raised).alive[..., points], at


def _at(breeding: Breeding, female: Female, males: Mates, at_egg: AtEgg, points: slice) -> Complex:
    algebra, many = breeding.algebra, points.stop - points.start
    at = np.zeros((breeding.seasons + 1, algebra.size, many), dtype=complex)
    for state, weight in female.states:
        so_far = weight * algebra.one(many)
        for season, male in enumerate(males, start=1):
            if isinstance(male, str):
                continue
            if male is not None:
                at[season] += algebra.multiply(so_far, ending(breeding, state, male, at_egg, points))
            so_far = algebra.multiply(so_far, breeding.season(state, male).alive[..., points])
    return at if female.raised is None else at * breeding.kept_alive(female.raised)[..., points]


def ending(breeding: Breeding, female: int, male: int, at_egg: AtEgg, points: slice | None = None) -> Complex:
    """What happens at the eggs of a working pair within one season, at some of the points: [states, points]."""
    where = points or slice(0, breeding.laying.probe.points)

    def work_out() -> Complex:
        pair = breeding.pairs[male, female]
        within, egg = breeding.laying.at(where).ending(pair)
        return at_egg(breeding.algebra, within, egg, pair)

    return breeding.kept((female, male, at_egg, where.start, where.stop), work_out)


class Multiplying(Protocol):
    """Elements that multiply."""

    def one(self, points: int) -> Complex:
        """The element of a beginning."""
        ...

    def multiply(self, a: Complex, b: Complex) -> Complex:
        """The product of two elements, alike in their last axes."""
        ...


def season_sum(algebra: CountAlgebra, each: Sequence[Standings], order: Order, first: int, last: int) -> Complex:
    """Sum over the eggs of each season, first to last, of what happens there: [seasons, points]."""
    total = ended_sum(algebra, each, order, first, last)
    return np.zeros((1, 1), dtype=complex) if total is None else algebra.total(total)


def ended_sum(algebra: Multiplying, each: Sequence[Standings], order: Order, first: int, last: int) -> Complex | None:
    """The same as an element, [seasons, ..]; None where nobody lays."""
    of = {one.female: i for i, states in enumerate(each) for _, females in states for one in females}
    bred = [female for female in order if female in of]
    runs = [own for own, _ in groupby(of[female] for female in bred)]
    if len(runs) > len(set(runs)):
        # Clusters lay in turns. Added up one by one: hundreds of females would not fit side by side.
        turns = (ended for ended, _ in _turns(algebra, each, order, first, last) if ended is not None)
        return reduce(np.add, turns)
    others = [i for i in range(len(each)) if i not in set(runs)] if runs else []
    through: Complex | None = None
    total: Complex | None = None
    for i in (*runs, *others):
        own = _Line(algebra, each[i], [female for female in bred if of[female] == i], first, last, alone=len(each) == 1)
        ended = own.ended if through is None or own.ended is None else algebra.multiply(through, own.ended)
        if total is not None:
            total = algebra.multiply(total, own.before)
        total = total if ended is None else ended if total is None else total + ended
        if len(each) > 1:
            through = own.through if through is None else algebra.multiply(through, own.through)
    return total


class _Line:
    """One cluster within some seasons, averaged over the states of its males: [seasons, ..] each.

    ended: the sum over its eggs of what happens there, None where nobody lays; before and through: products once none
    and once all of its females have laid, worked out unless it is alone.
    """

    def __init__(
        self, algebra: Multiplying, states: Standings, order: Order, first: int, last: int, *, alone: bool
    ) -> None:
        self.ended: Complex | None = None
        sides: list[tuple[Complex, Complex]] = []
        for weight, females in states:
            if alone and all(one.at is None for one in females):
                continue
            by_name = {one.female: one for one in females}
            bred = [by_name.pop(female) for female in order]
            before = [_over(one.alive, first - 1, last - 1) for one in (*bred, *by_name.values())]
            through = [*(_over(one.alive, first, last) for one in bred), *before[len(bred) :]]
            ended = _ended(algebra, before, through, [_at_of(one, first, last) for one in bred])
            if ended is not None:
                self.ended = weight * ended if self.ended is None else self.ended + weight * ended
            if not alone:
                sides.append((weight * _product(algebra, before), weight * _product(algebra, through)))
        if sides:
            self.before, self.through = (reduce(np.add, same) for same in zip(*sides, strict=True))


def _ended(
    algebra: Multiplying, before: Sequence[Complex], through: Sequence[Complex], at: Sequence[Complex | None]
) -> Complex | None:
    """Sum over females in turn, those before each through the season, the others not yet; None where all are idle."""
    total: Complex | None = None
    laid: Complex | None = None
    for n, own in enumerate(before):
        if total is not None:
            total = algebra.multiply(total, own)
        here = at[n] if n < len(at) else None
        if here is not None:
            here = here if laid is None else algebra.multiply(laid, here)
            total = here if total is None else total + here
        if n + 1 < len(at):
            laid = through[n] if laid is None else algebra.multiply(laid, through[n])
    return total


def in_turn(
    algebra: Multiplying, each: Sequence[Standings], order: Order, first: int, last: int
) -> tuple[list[Complex], list[Complex]]:
    """Seasons, first to last, female by female in the order of laying, those who never lay left out.

    The first list has, per female, the sum over her eggs of what happens there, those before her through the season,
    the others not yet; the second the product once none, one, two .. of them have laid: [seasons, ..] each.
    """
    ended, through = zip(*_turns(algebra, each, order, first, last), strict=True)
    return [one for one in ended if one is not None], list(through)


def _turns(
    algebra: Multiplying, each: Sequence[Standings], order: Order, first: int, last: int
) -> Iterator[tuple[Complex | None, Complex]]:
    """Both of `in_turn`, female by female: before the first there is nothing that has ended."""
    # A female that is known to lay nothing stands nowhere.
    of = {one.female: i for i, states in enumerate(each) for _, females in states for one in females}
    bred = [female for female in order if female in of]
    lines = [_line(algebra, states, [f for f in bred if of[f] == i], first, last) for i, states in enumerate(each)]
    laid = [0] * len(lines)
    all_lines = Together(algebra.multiply, [passed[0] for _, passed in lines])
    yield None, all_lines.product
    for female in bred:
        own = of[female]
        own_ended, passed = lines[own]
        ended = all_lines.with_instead(own, own_ended[laid[own]])
        laid[own] += 1
        all_lines.exchange(own, passed[laid[own]])
        yield ended, all_lines.product


def _line(
    algebra: Multiplying, states: Standings, order: Order, first: int, last: int
) -> tuple[list[Complex], list[Complex]]:
    """The same for one cluster, averaged over the states of its males."""
    ended: list[list[Complex]] = []
    passed: list[list[Complex]] = []
    for weight, females in states:
        by_name = {one.female: one for one in females}
        bred = [by_name.pop(female) for female in order]
        before = [_over(one.alive, first - 1, last - 1) for one in (*bred, *by_name.values())]
        to_come = [*accumulate(reversed(before), algebra.multiply)][::-1]
        gone = [*accumulate((_over(one.alive, first, last) for one in bred), algebra.multiply)]
        each = ((own, _at_of(one, first, last)) for own, one in zip(before, bred, strict=False))
        turns = enumerate(0 * own if at is None else at for own, at in each)
        ended.append([weight * _product(algebra, [*gone[:n][-1:], at, *to_come[n + 1 :][:1]]) for n, at in turns])
        turns_passed = range(len(bred) + 1)
        passed.append([weight * _product(algebra, [*gone[:n][-1:], *to_come[n:][:1]]) for n in turns_passed])
    return [reduce(np.add, same) for same in zip(*ended, strict=True)], [
        reduce(np.add, same) for same in zip(*passed, strict=True)
    ]


def _over(by_season: BySeason, first: int, last: int) -> Complex:
    return by_season[first][None] if isinstance(by_season, Mapping) else by_season[first : last + 1]


def _at_of(one: Standing, first: int, last: int) -> Complex | None:
    return None if one.at is None else _over(one.at, first, last)


def _product(algebra: Multiplying, parts: Sequence[Complex]) -> Complex:
    return reduce(algebra.multiply, parts)

"""The egg that fills a goal row, where founders and held animals breed side by side but apart."""

from __future__ import annotations

from collections.abc import Generator, Mapping, Sequence
from functools import reduce
from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING

import numpy as np

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex
from core.routes.exact.ending import AtEgg, Order, Standing, Standings, alike, ended_sum, in_turn
from core.routes.exact.lifetimes import Dam, Lifetimes
from core.routes.exact.places import Layout
from core.routes.exact.ways import HerdCounts

if TYPE_CHECKING:
    from core.routes.exact.steady_part import Part


def part_endings(part: Part, at_egg: AtEgg, points: slice) -> Generator[None, None, Complex]:
    """What happens at the egg that fills one of the rows, by season: [breeding seasons, points]."""
    found = np.zeros((part.route.seasons, points.stop - points.start), dtype=complex)
    first = min(part.route.held.first_breeding, part.route.seasons + 1)
    alone = min(first - 1, part.last)
    orders = [tuple(female for female, _ in mated) for mated in part.pairs]
    for order, begin, end in alike(orders[:alone]) if fruitful(part) else ():
        if order:
            found[begin - 1 : end] = _founders_alone(part, order, at_egg, points, begin, end)
    for season in range(first, part.last + 1):
        found[season - 1] = yield from _side_by_side(part, season, at_egg, points)
    begin = max(first, part.last + 1)
    if begin <= part.route.seasons:
        for fit, weight in zip(*part.ways(part.founders.end[..., points], begin, points), strict=True):
            yield
            own = _held_alone(part, fit, begin, at_egg, points)
            found[begin - 1 :] += part.nursing.algebra.total(part.nursing.algebra.multiply(weight, own))
    return found


def fruitful(part: Part) -> bool:
    """Whether any egg that founders have among themselves may count."""
    breeding = part.nursing.breeding
    each = {(dam.female, bred.male) for dam in part.dams.values() for bred in dam.seasons if bred is not None}
    return any(not breeding.laying.fruitless(breeding.pairs[male, female]) for female, male in each if male is not None)


def _founders_alone(part: Part, order: Order, at_egg: AtEgg, points: slice, first: int, last: int) -> Complex:
    """Seasons before any held animal breeds: whatever is held, it is a founder's egg."""
    lives = part.lives_for(part.nursing.breeding, Layout((), ()))
    dams = {female: dam.without_lots() for female, dam in part.dams.items()}
    ended = ended_sum(lives.places, [_line(lives, dams, at_egg, points)], order, first, last)
    assert ended is not None
    return part.nursing.algebra.total(lives.places.open(ended))


def _held_alone(part: Part, fit: HerdCounts, first: int, at_egg: AtEgg, points: slice) -> Complex:
    """Seasons from `first` on in which only held animals breed: [seasons, goal, points]."""
    members = part.rearing.members_alone(fit)
    if members and sum(map(any, fit)) == 1:
        # Of one herd, so that they lay in the order in which they stand.
        return part.nursing.ended_alone(members, first, at_egg, points)

    def work_out() -> Complex:
        algebra, every = part.nursing.algebra, part.route.seasons
        found = np.zeros((every + 1 - first, algebra.size, points.stop - points.start), dtype=complex)
        each = part.nursing.standings(part.rearing.raising(fit), at_egg, points) if any(map(any, fit)) else []
        orders = [[female for _, female in _held_matings(part, fit, season)] for season in range(first, every + 1)]
        for order, begin, end in alike(orders) if each else ():
            ended = ended_sum(algebra, each, order, begin + first - 1, end + first - 1)
            if ended is not None:
                found[begin - 1 : end] = ended
        return found

    return part.rearing.kept(("alone", fit, first, at_egg, points.start), work_out)


def _side_by_side(part: Part, season: int, at_egg: AtEgg, points: slice) -> Generator[None, None, Complex]:
    """One season in which founders and held animals both may breed: [points]."""
    algebra, lives = part.nursing.algebra, part.lives

    def by_fit(element: Complex) -> dict[HerdCounts, Complex]:
        return dict(zip(*part.ways(element, season, points), strict=True))

    mated = part.pairs[season - 1]
    order = [female for female, _ in mated]
    ended, through = in_turn(lives.places, [_line(lives, part.dams, at_egg, points)], order, season, season)
    # Founders between which no held animal lays go together.
    ranks = [part.route.held_before(pair.pairing) for _, pair in mated]
    groups = [[place for place, _ in same] for _, same in groupby(enumerate(ranks), key=itemgetter(1))]
    at_founders = [(ranks[own[0]], by_fit(_sum_of(ended, own)[0])) for own in groups]
    bounds = [0, *(own[-1] + 1 for own in groups)]
    between = [by_fit(through[place][0]) for place in bounds]
    found = np.zeros(points.stop - points.start, dtype=complex)
    for fit in between[0]:
        yield
        held = _held_matings(part, fit, season)
        each = part.nursing.standings(part.rearing.raising(fit), at_egg, points) if any(map(any, fit)) else []
        standing = {one.female for states in each for _, females in states for one in females}
        laid_before = [part.route.held_before(pairing) for pairing, female in held if female in standing]
        own_ended, own_through = (
            in_turn(algebra, each, [female for _, female in held], season, season) if each else ([], [])
        )
        begun = 0
        for place, weights in enumerate(between):
            rank = at_founders[place][0] if place < len(at_founders) else len(held) + len(part.route.problem.pairings)
            until = sum(own < rank for own in laid_before)
            for turn in range(begun, until) if fit in weights else ():
                found += algebra.total(algebra.multiply(weights[fit], own_ended[turn][0]))
            if place < len(at_founders) and fit in at_founders[place][1]:
                at = at_founders[place][1][fit]
                found += algebra.total(algebra.multiply(at, own_through[until][0]) if each else at)
            begun = until
    return found


def _line(lives: Lifetimes, dams: Mapping[Animal, Dam], at_egg: AtEgg, points: slice) -> Standings:
    """The founders, each apart from the others."""
    return [
        (
            1.0,
            [
                Standing(female, lives.alive(dam, points), lives.at_eggs(dam, at_egg, points))
                for female, dam in dams.items()
            ],
        )
    ]


def _held_matings(part: Part, fit: HerdCounts, season: int) -> list[tuple[int, Animal]]:
    """The matings with held animals, by pairing and female."""
    matings = part.route.matings_with_held(part.rearing.breeders(fit)[season - 1], season)
    return [(mating.pairing, mating.female) for mating in matings]


def _sum_of(ended: Sequence[Complex], places: Sequence[int]) -> Complex:
    return reduce(np.add, [ended[place] for place in places])

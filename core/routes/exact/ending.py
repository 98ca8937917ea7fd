"""The egg that fills a goal row: which season, how many eggs before it, and what it is worth."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.clusters import Breeding, Cluster, Female, Mates, male_states, mates
from core.routes.exact.eggs import EggWeights, Pair

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


# Elements by season number.
BySeason = Complex | Mapping[int, Complex]


@dataclass(frozen=True, eq=False)
class Standing:
    """A female within one state of her males: products before, through and at the ending in each season."""

    female: Hashable
    alive: BySeason
    at: BySeason


def endings(
    breeding: Breeding, clusters: Sequence[Cluster], orders: Sequence[Sequence[Hashable]], at_egg: AtEgg
) -> Complex:
    """Sum over all eggs of a season, none filled before, of what happens at that egg: [seasons, points].

    orders: per season, the females in laying order, as named in the clusters' `places`.
    """
    each = [standings(breeding, cluster, at_egg) for cluster in clusters]
    found = np.zeros((len(orders), breeding.laying.probe.points), dtype=complex)
    for season, order in enumerate(orders):
        found[season] = season_sum(breeding.algebra, each, order, season + 1)
    return found


Standings = list[tuple[float, list[Standing]]]


def started(start: Complex, season: int) -> Standings:
    """What came before a season, as one that lays nothing in it."""
    return [(1.0, [Standing(None, {season - 1: start, season: start}, {})])]


def standings(breeding: Breeding, cluster: Cluster, at_egg: AtEgg) -> Standings:
    """A cluster's females in every state of its males, with the chance of each state."""
    return [
        (
            weight,
            [
                Standing(place, *_path(breeding, female, mates(female.males, states), at_egg))
                for place, female in zip(cluster.places, cluster.females, strict=True)
            ],
        )
        for states, weight in male_states(cluster.males)
    ]


def _path(breeding: Breeding, female: Female, males: Mates, at_egg: AtEgg) -> tuple[Complex, Complex]:
    """A female's products through each season, and what happens at her eggs in each."""
    key = female.states, males, female.raised, at_egg
    at = breeding.kept(key, lambda: _at(breeding, female, males, at_egg))
    return breeding.path(female.states, males, female.raised).alive, at


def _at(breeding: Breeding, female: Female, males: Mates, at_egg: AtEgg) -> Complex:
    algebra, points = breeding.algebra, breeding.laying.probe.points
    at = np.zeros((breeding.seasons + 1, algebra.size, points), dtype=complex)
    for state, weight in female.states:
        so_far = weight * algebra.one(points)
        for season, male in enumerate(males, start=1):
            if isinstance(male, str):
                continue
            if male is not None:
                at[season] += algebra.multiply(so_far, ending(breeding, state, male, at_egg))
            so_far = algebra.multiply(so_far, breeding.season(state, male).alive)
    return at if female.raised is None else at * breeding.kept_alive(female.raised)


def ending(breeding: Breeding, female: int, male: int, at_egg: AtEgg) -> Complex:
    """What happens at the eggs of a working pair within one season: [states, points]."""

    def work_out() -> Complex:
        pair = breeding.pairs[male, female]
        within, egg = breeding.laying.ending(pair)
        return at_egg(breeding.algebra, within, egg, pair)

    return breeding.kept((female, male, at_egg), work_out)


def season_sum(algebra: CountAlgebra, each: Sequence[Standings], order: Sequence[Hashable], season: int) -> Complex:
    """One season's sum: the ending at each bred female in turn, those before her through it, the others not yet."""
    total: Complex = np.zeros(1, dtype=complex)
    laid: set[Hashable] = set()
    # A female that is known to lay nothing stands nowhere.
    standing = {one.female for states in each for _, females in states for one in females}
    for female in order:
        if female not in standing:
            continue
        product: Complex | None = None
        for states in each:
            factor = sum(weight * mixed(algebra, females, laid, female, season) for weight, females in states)
            product = np.asarray(factor) if product is None else algebra.multiply(product, np.asarray(factor))
        assert product is not None
        total = total + algebra.total(product)
        laid.add(female)
    return total


def mixed(
    algebra: CountAlgebra, females: Sequence[Standing], laid: set[Hashable], now: Hashable, season: int
) -> Complex:
    """All females of one state: through the season where they have laid, at the ending for the one laying now."""
    product: Complex | None = None
    for one in females:
        by_season, through = (one.at, season) if one.female == now else (one.alive, season - (one.female not in laid))
        product = by_season[through] if product is None else algebra.multiply(product, by_season[through])
    assert product is not None
    return product

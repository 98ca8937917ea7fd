"""The egg that fills a goal row: which season, how many eggs before it, and what it is worth."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.clusters import Breeding, Cluster, Female, MaleState, male_states, mates
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


@dataclass(frozen=True, eq=False)
class Standing:
    """A female within one state of her males: products before, through and at the ending in each season."""

    female: Hashable
    alive: Complex
    at: Complex


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


def standings(breeding: Breeding, cluster: Cluster, at_egg: AtEgg) -> Standings:
    found: Standings = []
    for states, weight in male_states(cluster.males):
        females = [
            _standing(breeding, place, female, mates(female.males, states), at_egg)
            for place, female in zip(cluster.places, cluster.females, strict=True)
        ]
        found.append((weight, females))
    return found


def _standing(
    breeding: Breeding, place: Hashable, female: Female, males: tuple[MaleState | str, ...], at_egg: AtEgg
) -> Standing:
    alive = breeding.path(female.states, males).alive
    at = np.zeros_like(alive)
    algebra = breeding.algebra
    for state, weight in female.states:
        so_far = weight * algebra.one(breeding.laying.probe.points)
        for season, male in enumerate(males, start=1):
            if isinstance(male, str):
                continue
            if male is not None:
                pair = breeding.pairs[male, state]
                within, egg = breeding.laying.ending(pair)
                at[season] += at_egg(algebra, algebra.multiply(so_far, within), egg, pair)
            so_far = algebra.multiply(so_far, breeding.season(state, male).alive)
    return Standing(place, alive, at)


def season_sum(algebra: CountAlgebra, each: Sequence[Standings], order: Sequence[Hashable], season: int) -> Complex:
    """One season's sum: the ending at each bred female in turn, those before her through it, the others not yet."""
    total: Complex = np.zeros(1, dtype=complex)
    laid: set[Hashable] = set()
    for female in order:
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
    product: Complex | None = None
    for one in females:
        if one.female == now:
            factor = one.at[season]
        else:
            factor = one.alive[season if one.female in laid else season - 1]
        product = factor if product is None else algebra.multiply(product, factor)
    assert product is not None
    return product

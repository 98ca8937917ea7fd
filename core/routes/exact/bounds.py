"""Quick upper bounds on what a route that holds young back can lay and pay, to size the money grid by."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan.model import Sex
from core.routes.problem import Problem

# The herds, males and females, that may breed in each season.
Breeders = Sequence[tuple[Sequence[int], Sequence[int]]]


def eggs_bound(problem: Problem, breeders: Breeders) -> int:
    """No more eggs than this can be laid: all females that may be there, as far as males could serve them."""
    biology, bred = problem.biology, 0
    counts = [herd.count for herd in problem.herds]
    for males, females in breeders:
        bred += min(sum([counts[herd] for herd in females]), sum([counts[herd] for herd in males]) * biology.load)
    return bred * biology.clutches * (len(biology.sizes) - 1)


def may_breed(problem: Problem) -> Breeders:
    """The same for all counts."""
    seasons = range(1, problem.breeding_seasons + 1)
    return [(_may_breed(problem, "male", season), _may_breed(problem, "female", season)) for season in seasons]


def keep_bound(problem: Problem) -> float:
    """No more than this can be paid for the keep of held animals."""
    prices, total = problem.prices, 0.0
    for herd in problem.herds:
        if not herd.held:
            continue
        first = max(1, min(problem.pairings[source].first for source in herd.sources))
        last = problem.breeding_seasons if herd.until is None else min(herd.until, problem.breeding_seasons)
        seasons = max(0, last - first)
        growing = min(seasons, problem.biology.matures[herd.sex] - 1)
        # Held later they grow for as long and are kept for less; the dearer keep may be either.
        total += herd.count * (growing * prices.keep_young + (seasons - growing) * prices.keep_adult)
    return total


def _may_breed(problem: Problem, sex: Sex, season: int) -> list[int]:
    """The herds of a sex that may be breeder-size and in an open pairing in a season."""
    open_pairings = [pairing for pairing in problem.pairings if pairing.first <= season <= pairing.last]
    paired = {herd for pairing in open_pairings for herd in (*pairing.males, *pairing.females)}
    grown = 1 + problem.biology.matures[sex]
    return [
        herd.index
        for herd in problem.herds
        if herd.index in paired and herd.sex == sex and herd.there(season)
        if season >= (grown if herd.ready is None else herd.ready)
    ]

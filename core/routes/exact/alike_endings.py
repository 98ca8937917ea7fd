"""The egg that fills a goal row where all females of a route are alike, which the counts of most routes are."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.routes.exact.algebra import Complex
from core.routes.exact.breeding import MANY, Breeding
from core.routes.exact.clusters import Cluster, Female, Mates
from core.routes.exact.ending import AtEgg, path


def are_alike(clusters: Sequence[Cluster]) -> bool:
    """Whether these are one cluster of few females that are all alike."""
    return len(clusters) == 1 and len(clusters[0].females) <= MANY and len(set(clusters[0].females)) == 1


def alike_endings(breeding: Breeding, cluster: Cluster, at_egg: AtEgg, points: slice) -> Complex:
    """The same as `ending.endings` for one such cluster: [seasons, points]."""
    female, times = cluster.females[0], len(cluster.females)
    found = np.zeros((breeding.seasons, points.stop - points.start), dtype=complex)
    # Where males do not give what counts, nothing ends.
    fruitful, _ = breeding.ways(cluster.males, (female,))
    for weight, [(_, males)] in fruitful:
        found += weight * breeding.algebra.total(_ended(breeding, female, males, times, at_egg, points))
    return found


def _ended(breeding: Breeding, female: Female, males: Mates, times: int, at_egg: AtEgg, points: slice) -> Complex:
    """What happens at the eggs of so many, season by season: [seasons, states, points].

    It is either an egg of the others, before the last of them lays, or one of hers, with them through the season.
    """

    def work_out() -> Complex:
        alive, at = path(breeding, female, males, at_egg, points)
        assert at is not None
        if times == 1:
            return at[1:]
        multiply, every = breeding.algebra.multiply, breeding.laying.probe.points
        others = breeding.alike(female.states, males, female.raised, times - 1, every)
        ended = multiply(_ended(breeding, female, males, times - 1, at_egg, points), alive[:-1])
        ended += multiply(others.alive[1:, :, points], at[1:])
        return ended

    return breeding.kept(("alike", female, males, times, at_egg, points.start), work_out)

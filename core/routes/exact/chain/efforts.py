"""How long chains take, told before anything large is worked out."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from typing import NamedTuple

from core.routes.exact.chain.chain import Chain
from core.routes.exact.chain.fates import ALIVE, ANYTHING, Variant
from core.routes.exact.chain.parts import CHUNK, parts_of
from core.routes.exact.chain.route import ChainRoute
from core.routes.exact.eggs import CHANCES, Joined
from core.routes.exact.limits import OutOfReach

# What a season takes in numbers besides those that are multiplied.
_A_SEASON = 900_000
# Points that are worked out at once at least, and numbers that may be kept of what is laid at all of them.
_LEAST_CHUNK, _MOST_LAID = 64, 5_000_000
# What an egg may become is multiplied one by one.
_FATES = 12


def check_work(routes: Sequence[ChainRoute], probe: Joined, most: float) -> Iterator[float]:
    """Raises OutOfReach where more numbers than this would be worked out, roughly; yields while it looks.

    What several counts share is worked out once. What happens at eggs is looked at for every female by herself. Sets
    how many points each route follows at once (`ChainRoute.chunk`), as it finds out how much is kept for each.
    """
    females = max(sum(herd.count for herd in route.problem.herds if herd.sex == "female") for route in routes)
    points, known, work = probe.points + females * probe.eggs.points, set[Hashable](), 0.0
    for route in reversed(routes):
        for efforts in _efforts(route):
            yield 0.0
            for own in (efforts[key] for key in efforts if key not in known):
                work += own.seasons * _A_SEASON * (points / route.chunk + 1) + own.numbers * points
            known |= efforts.keys()
            if work > most:
                raise OutOfReach("too many ways in which young can be held over the seasons")


class Effort(NamedTuple):
    """How many seasons are followed, and how many numbers are worked out at every point."""

    seasons: int
    numbers: int


def _efforts(route: ChainRoute) -> Iterator[dict[Hashable, Effort]]:
    """What every job takes, by its key, season by season, from what one of each takes at a single point.

    What is laid is counted to the jobs that see it first. So many points are followed at once as what is laid for
    all of them leaves room for.
    """
    chain, biology = Chain(route, route.rows, route.goal, parts_of(CHANCES)[0]), route.problem.biology
    eggs = biology.clutches * (len(biology.sizes) - 1) * _FATES
    for season in range(1, route.seasons + 1) if route.courses.differ else [route.seasons]:
        jobs = route.by_world(slice(0, 1), season)
        ways = max(jobs, key=lambda job: sum(len(job.ways[0][0].bred(s + 1)) for s in range(season))).ways
        before, kept = chain.products, chain.kept
        chain.through(ways[len(ways) // 2], [Variant(season, kind) for kind in (ALIVE, ANYTHING)])
        products, laid = (chain.products - before) * route.goal.effort, (chain.kept - kept) * eggs
        # Where all seasons are looked at together, less and less of them is to be followed.
        looks = 2 if route.courses.differ else season
        numbers = (laid // len(jobs) + products * looks * sum(map(len, job.ways)) for job in jobs)
        found = {job.key: Effort(season * len(job.ways), each) for job, each in zip(jobs, numbers, strict=True)}
        yield {(season, key): own for key, own in found.items()}
    route.chunk = max(_LEAST_CHUNK, min(CHUNK, _MOST_LAID // max(1, chain.kept)))

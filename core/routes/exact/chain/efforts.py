"""How long chains take, told before anything large is worked out."""

from __future__ import annotations

from collections.abc import Generator, Hashable, Iterator, Mapping, Sequence
from random import Random

from core.routes.exact.chain.chain import Chain, LaidBy
from core.routes.exact.chain.course import Course
from core.routes.exact.chain.fates import ALIVE, ANYTHING, Variant
from core.routes.exact.chain.jobs import Job
from core.routes.exact.chain.parts import LEAST, parts_of, points_at_once
from core.routes.exact.chain.route import ChainRoute
from core.routes.exact.eggs import CHANCES, Joined
from core.routes.exact.limits import OutOfReach

# What is told here is about the time that it takes in thousandths of a millionth of a second: of a season by itself, at
# each point of a product, of an element that is asked for, and of an egg of what is laid, by females that are alike and
# by others, whose order counts.
_A_SEASON, _A_PRODUCT, _ASKED, _LAID, _LAID_IN_ORDER = 300_000, 0.6, 6, 4, 9
# The same of a product of what dams breed that are summed up; courses that are looked at and stand for all.
_SUMMED_UP, _COUNTED = 3, 12
# Numbers that may be kept of what is laid at all points that are worked out at once.
_MOST_LAID = 5_000_000
# So many times as much may be kept where even the fewest points at once take more.
_LEAST_ROOM = 4


def check_work(routes: Sequence[ChainRoute], probe: Joined, most: float) -> Generator[float, None, float]:
    """What would be worked out, roughly; raises OutOfReach where that is more than `most`; yields while it looks.

    What several counts share is worked out once. What happens at eggs is looked at for every held female by herself,
    and for founders together that lay before and after as many of them: in every pairing, at the most. Sets how many
    points each route may follow at once (`ChainRoute.most_points`), as it finds out how much is kept for each.
    """
    females = max(sum(herd.count for herd in route.herds if herd.sex == "female") for route in routes)
    females += len(routes[0].problem.pairings)
    points, known, work = probe.points + females * probe.eggs.points, set[Hashable](), 0.0
    for route in reversed(routes):
        for efforts in _efforts(route, points, probe):
            yield 0.0
            work += sum(own for key, own in efforts.items() if key not in known)
            known |= efforts.keys()
            if work > most:
                raise OutOfReach("too many ways in which young can be held over the seasons")
    return work


def _efforts(route: ChainRoute, points: int, probe: Joined) -> Iterator[dict[Hashable, float]]:
    """What every job takes, by its key, season by season, from what one of each takes at a single point.

    What is laid is counted to the jobs that see it first: what hidden founders are differs from job to job, and every
    order of theirs lays by itself. So many points are followed at once as what is laid for all of them leaves room for.
    """
    chain, biology = Chain(route, route.rows, route.goal, parts_of(CHANCES)[0]), route.problem.biology
    eggs = biology.clutches * (len(biology.sizes) - 1)
    # Several counts of the goal take longer to fetch than to multiply.
    states = 1 if route.goal.size == 1 else max(1 + 1.5 * route.goal.size, route.goal.effort * route.goal.size / 2)
    seen: dict[Hashable, int] = {}
    numbers = 0
    for season in range(1, route.seasons + 1) if route.courses.differ else [route.seasons]:
        jobs = route.jobs.by_world(slice(0, 1), season)
        # Before all else, which would find it out as well.
        summed_up = yield from _summed_up(chain, jobs, season)
        each = states * (yield from _of_one(chain, jobs, season))
        # Where all seasons are looked at together, less and less of them is to be followed.
        looks = 2 if route.courses.differ else season
        found: dict[Hashable, float] = {}
        for job in jobs:
            # Where so many of the dams work, each number of them lays by itself.
            firsts = [courses[0] for courses in job.ways] if job.ways[0][0].dams else [job.ways[0][0]]
            new = [own for one in firsts for own in _first_laid(chain.laid(one, season), seen)]
            numbers += sum(own.females * own.numbers for own in new)
            if numbers * LEAST > _LEAST_ROOM * _MOST_LAID:
                raise OutOfReach("what founders lay takes too much room")
            route.most_points = _MOST_LAID // max(1, numbers)
            laid = eggs * sum(own.females * own.numbers * (_LAID if own.alike else _LAID_IN_ORDER) for own in new)
            many = [looks * len(courses) for courses in job.ways]
            parts = sum(points / points_at_once(wide, route.most_points) + 1 for wide in many)
            found[season, job.key] = (laid + each * sum(many)) * points + season * _A_SEASON * parts
        dams = max(sum(len(group.animals) for group in job.ways[0][0].dams) for job in jobs)
        followed = 2 * probe.points + dams * probe.eggs.points
        found["dams", season, route.signature] = summed_up * states * followed * _SUMMED_UP
        yield found


def _of_one(chain: Chain, jobs: Sequence[Job], season: int) -> Generator[dict[Hashable, float], None, float]:
    """What one course takes at a point for one thing that is looked at; yields nothing new while it looks."""
    # On its last way the most young come, of the most dams.
    job = max(jobs, key=lambda job: (len(job.ways), sum(len(job.ways[-1][0].bred(s + 1)) for s in range(season))))
    total = number = 0.0
    for courses in _some(job.ways):
        products, told = chain.products, chain.told
        chain.through(courses, [Variant(season, kind) for kind in (ALIVE, ANYTHING)])
        total += len(courses) * ((chain.products - products) * _A_PRODUCT + (chain.told - told) * _ASKED)
        number += len(courses)
        yield {}
    return total / number


def _some(ways: Sequence[list[Course]]) -> Sequence[list[Course]]:
    """Some that stand for all; not at a distance, as how many dams work comes round again and again."""
    return Random(1).sample(ways, min(len(ways), _COUNTED))


def _summed_up(chain: Chain, jobs: Sequence[Job], season: int) -> Generator[dict[Hashable, float], None, float]:
    """Products of what dams breed that are summed up, for one thing looked at; all numbers that may work together."""
    worlds: dict[int, list[list[Course]]] = {}
    for job in jobs:
        world = job.ways[0][0].world
        if job.ways[0][0].dams and len(job.ways) > len(worlds.get(world, ())):
            worlds[world] = job.ways
    total = 0.0
    for ways in worlds.values():
        some, before = _some(ways), chain.summed_up
        for courses in some:
            chain.sum_up(courses[0], season)
            yield {}
        total += (chain.summed_up - before) / len(some) * sum(map(len, ways))
    return total


def _first_laid(laid: Mapping[Hashable, LaidBy], seen: dict[Hashable, int]) -> list[LaidBy]:
    """What was not laid before; `seen` tells by how many females it was."""
    new = []
    for key, own in laid.items():
        more = own.females - seen.get(key, 0)
        if more > 0:
            new.append(own._replace(females=more))
            seen[key] = own.females
    return new

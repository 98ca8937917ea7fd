"""Which routes an exact answer is in reach for, and the engine for them."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import combinations
from typing import TYPE_CHECKING, TypeAlias, TypeVar

from core.genetics.young import Condition
from core.routes.another import another
from core.routes.calendar import fixed_costs, founders_present
from core.routes.exact.founding import Telling, count_worlds
from core.routes.exact.held_route import is_steady
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.lattice import Lattice
from core.routes.exact.limits import (
    MOST_AT_ONCE,
    MOST_GOAL_STATES,
    MOST_HELD,
    MOST_IN_TURN,
    MOST_LEFT,
    MOST_PIECES,
    MOST_ROWS,
    MOST_WORLDS,
    OutOfReach,
    OutOfRoom,
)
from core.routes.exact.ordered import OrderedRoute
from core.routes.exact.plain import PlainRoute, Workshop
from core.routes.exact.schedule import founder_schedule
from core.routes.exact.steady import SteadyRoute, followed_herds
from core.routes.problem import Herd, Problem

if TYPE_CHECKING:
    from core.routes.exact.chain.route import ChainRoute

_Route = TypeVar("_Route", "ExactRoute", "ChainRoute")
ExactRoute: TypeAlias = "PlainRoute | HoldingRoute | SteadyRoute | OrderedRoute | ChainRoute"


# Those that may take long between two numbers: they work out step by step what an answer asks for.
STEPWISE = (HoldingRoute, SteadyRoute, OrderedRoute)


def workshop(problem: Problem) -> Workshop:
    """What the counts of a route share. Raises OutOfReach for a route the exact engine cannot answer at any count."""
    if problem.crowded:
        raise OutOfReach("named animals can be in too many states together")
    if problem.may_fail_twice:
        raise OutOfReach("a named animal of several groups may not work")
    _check_goal(problem)
    if problem.holds:
        if max(herd.count for herd in problem.herds if herd.held) > MOST_HELD:
            raise OutOfReach("more young are held back than can be told apart")
        check_one_generation(problem)
        _check_competition(problem)
    # Founders that give the same young for the goal may still give different young to hold back.
    return Workshop(problem, alike=not problem.holds)


def exact_route(problem: Problem, shop: Workshop) -> ExactRoute:
    """The exact engine of one set of counts. Raises OutOfReach where its state is too large."""
    if not problem.holds:
        return OrderedRoute(problem, shop) if rows_overlap(problem) else PlainRoute(problem, shop)
    schedule = founder_schedule(problem, shop.sorts)
    steady = shop.kept("steady", lambda: is_steady(problem))
    if steady:
        followed = shop.kept("followed", lambda: followed_herds(problem))
        worlds = count_worlds(problem, shop.kinds, schedule, Telling(True, followed))
        if worlds <= MOST_WORLDS:
            quick = SteadyRoute(problem, shop, schedule)
            if quick.is_small():
                return quick
    if count_worlds(problem, shop.kinds, schedule, Telling(steady)) > MOST_WORLDS:
        raise OutOfReach("the founders can be in too many states together")
    _check_counted_and_held(problem, shop)
    return HoldingRoute(problem, shop)


def exact_routes(problems: Sequence[Problem], shop: Workshop) -> list[ExactRoute]:
    """The same for every set of counts of a route; where they differ in nothing that breeds, made ready once."""
    routes: list[ExactRoute] = []
    for place, first in enumerate(bred_alike(problems)):
        problem = problems[place]
        routes.append(exact_route(problem, shop) if first == place else paid_as(routes[first], problem))
    return routes


def bred_alike(problems: Sequence[Problem]) -> list[int]:
    """For every set of counts of a route, the place of the first one that differs from it in nothing that breeds."""
    males, first = _males_met(problems[0]), dict[tuple[int, ...], int]()
    # Of herds whose number tells whatever males there are.
    all_tell = [herd.sex == "male" or herd.held for herd in problems[0].herds]
    found = []
    for place, problem in enumerate(problems):
        counts = [herd.count for herd in problem.herds]
        served = tuple(_served(problem.biology.load, counts, males, all_tell))
        found.append(first.setdefault(served, place))
    return found


def paid_as(route: _Route, problem: Problem) -> _Route:
    """The route as it was made ready, for a problem that breeds alike: it costs and keeps what that one does."""
    other = another(route)
    other.problem, other.fixed, other.present = problem, fixed_costs(problem), founders_present(problem)
    return other


def _served(
    load: int, counts: Sequence[int], males: Sequence[Collection[int]], all_tell: Sequence[bool]
) -> Iterator[int]:
    """How many animals there are in each herd, without the females that no male can ever serve.

    Females of a herd are given to males in the order in which they stand, so those beyond what all the males that they
    are ever put to can serve in a season are left over in every one. males: per herd, the herds of these males.
    """
    for own, met, tells in zip(counts, males, all_tell, strict=True):
        yield own if tells else min(own, load * sum([counts[male] for male in met]))


def _males_met(problem: Problem) -> list[set[int]]:
    """Per herd, the herds of males that it may ever be put to."""
    return [
        {male for pairing in problem.pairings if herd.index in pairing.females for male in pairing.males}
        for herd in problem.herds
    ]


def rows_overlap(problem: Problem) -> bool:
    """Whether a young may fit two goal rows; it counts for the first that is not full, so the order of eggs matters."""
    return any(may_share(one, other) for one, other in combinations(problem.conditions[: len(problem.wanted)], 2))


def may_share(one: Condition, other: Condition) -> bool:
    """Whether one young could fit both conditions, judged by sex and by the forms they name."""
    sexes = {one.sex, other.sex} - {"any"}
    return len(sexes) < 2 and all(other.forms.get(gene, form) == form for gene, form in one.forms.items())


def _check_goal(problem: Problem) -> None:
    rows = problem.conditions[: len(problem.wanted)]
    if len(rows) > MOST_ROWS or math.prod(problem.wanted) > MOST_GOAL_STATES:
        raise OutOfReach("the goal has too many states")
    if problem.holds and rows_overlap(problem):
        raise OutOfReach("goal rows overlap")


def pieces_needed(problem: Problem, most_eggs: int, lattice: Lattice) -> int:
    """How many pieces of the points that tell eggs and money keep arrays small. Raises OutOfReach for too many."""
    each = (problem.breeding_seasons + 1) * math.prod(problem.wanted)
    females = sum(herd.count for herd in problem.herds if herd.sex == "female")
    eggs, money = most_eggs // 2 + 1, lattice.length // 2 + 1
    many = max((eggs + money) * each / MOST_AT_ONCE, females * eggs * each / MOST_IN_TURN)
    if many > MOST_PIECES or (eggs + money) * problem.breeding_seasons > MOST_LEFT:
        raise OutOfReach("too many eggs, or sums of money, to be told apart over so many seasons")
    return math.ceil(many)


def check_at_once(problem: Problem, most_eggs: int, lattice: Lattice) -> None:
    """Raises OutOfRoom where arrays over seasons, states of the goal and probe points are too large, or all of them."""
    if pieces_needed(problem, most_eggs, lattice) > 1:
        raise OutOfRoom("too many eggs, or sums of money, to be told apart at once")


def check_one_generation(problem: Problem) -> None:
    """Raises OutOfReach where held animals have young that are held in turn."""
    held = {herd.index for herd in problem.herds if herd.held}
    sources = {source for herd in problem.herds for source in herd.sources}
    for pairing in (problem.pairings[source] for source in sources):
        if held & {*pairing.males, *pairing.females}:
            raise OutOfReach("held animals have young that are held in turn")


def _check_competition(problem: Problem) -> None:
    for one, other in combinations([herd for herd in problem.herds if herd.held], 2):
        if compete(problem, one, other):
            raise OutOfReach("two groups are held from the same young")


def compete(problem: Problem, one: Herd, other: Herd) -> bool:
    """Whether two groups may want to hold the same young."""
    return not set(one.sources).isdisjoint(other.sources) and any(
        may_share(problem.conditions[a], problem.conditions[b]) for a in one.picks for b in other.picks
    )


def _check_counted_and_held(problem: Problem, shop: Workshop) -> None:
    """Young that count for a row of several and may be held too would have to be told apart in the nursery."""
    several = sum(1 << row for row, count in enumerate(problem.wanted) if count > 1)
    if not several:
        return
    picks = sum(1 << pick for herd in problem.herds for pick in herd.picks)
    for male in range(len(shop.kinds.pairs.males)):
        for female in range(len(shop.kinds.pairs.females)):
            pair = shop.kinds.pairs[male, female]
            if any(mask & several and mask & picks for mask, _, _ in pair.young):
                raise OutOfReach("young that count for the goal may be held too")

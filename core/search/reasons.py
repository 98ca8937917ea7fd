"""Why a route is among those that were found: what speaks for it beside the cheapest."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from core.explain.numbers import in_words, of_100
from core.plan.chances import chance
from core.plan.model import ForSale, Plan, Sex
from core.routes.result import RouteResult
from core.search.candidate import Candidate
from core.search.drawing import Drawing
from core.search.found import Point
from core.search.telling import what
from core.text import tr

# Young that are no fewer than this share are as many.
_FEWER = 0.8
_CERTAIN = 1 - 1e-9


def why(
    plan: Plan, drawing: Drawing, one: Candidate, result: RouteResult, cheapest: tuple[Candidate, RouteResult]
) -> str:
    """One sentence: what is done, and the first thing that speaks for it beside the cheapest so far."""
    start, (other, best) = what(plan, drawing, one), cheapest
    if result.to_goal is None:
        people = of_100(float(result.chance_by_season[-1]))
        return tr(
            "{start}; it comes close, but not all the way: {people} of 100 get there.", start=start, people=people
        )
    if result is best or best.to_goal is None:
        return tr("{start}: the least money of all that was tried.", start=start)
    sooner = best.to_goal.season - result.to_goal.season
    if sooner > 0:
        return tr(
            "{start}; it gets there {many} seasons sooner than the cheapest.",
            "{start}; it gets there one season sooner than the cheapest.",
            sooner,
            start=start,
            many=in_words(sooner),
        )
    return (
        _in_the_end(start, result, best)
        or _less(start, result, best)
        or _other_animals(start, one, other, partial(_animals, drawing))
    )


def why_point(plan: Plan, drawing: Drawing, one: Candidate, point: Point) -> str:
    """One sentence for one that is dearer for the goal as it is: what else it is the cheapest for."""
    start = what(plan, drawing, one)
    if point.chance == chance(plan.goal.chance):
        return tr("{start}; of all that was tried it takes the least money by season {n}.", start=start, n=point.season)
    people = of_100(point.chance)
    return tr(
        "{start}; of all that was tried it takes the least money for {people} of 100.", start=start, people=people
    )


def _in_the_end(start: str, result: RouteResult, best: RouteResult) -> str:
    """What it gives in the end; empty where that is no more."""
    end, usual = float(result.chance_by_season[-1]), float(best.chance_by_season[-1])
    if end >= _CERTAIN > usual:
        return tr("{start}; it is certain in the end.", start=start)
    if of_100(end) > of_100(usual):
        return tr(
            "{start}; it is surer in the end: {people} of 100 get there, {of_best} with the cheapest.",
            start=start,
            people=of_100(end),
            of_best=of_100(usual),
        )
    return ""


def _less(start: str, result: RouteResult, best: RouteResult) -> str:
    """What it takes less of; empty where that is nothing."""
    if result.up_front < best.up_front:
        return tr("{start}; it takes less money up front than the cheapest.", start=start)
    if result.surplus < _FEWER * best.surplus:
        return tr("{start}; it leaves fewer young to find homes for than the cheapest.", start=start)
    if result.peak_animals <= best.peak_animals - 1:
        return tr("{start}; it keeps fewer animals at once than the cheapest.", start=start)
    return ""


def _other_animals(start: str, one: Candidate, other: Candidate, animals: Callable[[Candidate, Sex], set[str]]) -> str:
    """Which animals of the cheapest it does without."""
    if other.way == "outright":
        return tr("{start}; a way to breed before anything finished is paid for.", start=start)
    if animals(one, "male").isdisjoint(animals(other, "male")):
        return tr("{start}; a way without the male of the cheapest.", start=start)
    if animals(one, "female").isdisjoint(animals(other, "female")):
        return tr("{start}; a way without the females of the cheapest.", start=start)
    if all(animals(one, sex) == animals(other, sex) for sex in ("male", "female")):
        return tr("{start}; another way with the animals of the cheapest.", start=start)
    return tr("{start}; another way with some of the animals of the cheapest.", start=start)


def _animals(drawing: Drawing, one: Candidate, sex: Sex) -> set[str]:
    """The ids of those for sale, or of mine, that it begins with."""
    places = (one.sire, one.second) if sex == "male" else (one.dams, one.other)
    sources = [drawing.kind_of(place, sex).source for place in places if place is not None]
    return {animal.id for source in sources for animal in ((source,) if isinstance(source, ForSale) else source)}

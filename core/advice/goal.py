"""Cautions on buying what one wants to breed, and on the room there is."""

from __future__ import annotations

import math
from collections.abc import Iterator

from core.advice.caution import Caution, caution_key
from core.advice.wording import titled
from core.explain.numbers import Numbers
from core.genetics.young import Condition, Judge
from core.plan.model import Bought
from core.routes.problem import Herd, Problem
from core.routes.result import RouteResult
from core.text import tr


def goal_cautions(problem: Problem) -> Iterator[Caution]:
    """Bought animals that already are what the goal asks for."""
    rows = problem.plan.goal.want
    judge = Judge(problem.judge.genetics, [Condition(row.forms, row.sex) for row in rows])
    for group, herd in zip(problem.route.groups, problem.herds, strict=True):
        if isinstance(group, Bought) and _surely_wanted(judge, herd, [row.sex for row in rows]):
            yield _already(problem, group)


def _surely_wanted(judge: Judge, herd: Herd, sexes: list[str]) -> bool:
    """Whether each genotype the animal may have fits a row of its own sex."""
    fitting = sum(1 << row for row, sex in enumerate(sexes) if sex in ("any", herd.sex))
    return all(judge.mask(genotype) & fitting for genotype, _ in herd.prior)


def _already(problem: Problem, group: Bought) -> Caution:
    return Caution(
        key=caution_key("already the goal", problem.route.id, group.id),
        kind="already the goal",
        route=problem.route.id,
        short=tr("Buys the goal itself"),
        sentence=tr("{titled}: what you buy already is what you want.", titled=titled(group.id)),
        why=tr(
            "The chance here counts young that are bred, not animals bought. If one such animal is "
            "enough, buying it and no mates costs less; if you want to breed it, that is a reason of "
            "its own."
        ),
    )


def room_cautions(problem: Problem, result: RouteResult, numbers: Numbers) -> Iterator[Caution]:
    """More animals expected at once than the plan says can be housed."""
    housing = problem.plan.goal.housing
    if housing is None or result.peak_animals <= housing:
        return
    # Rounded up, so that it is never said to be what there is room for.
    many = numbers.whole(math.ceil(result.peak_animals))
    yield Caution(
        key=caution_key("housing", problem.route.id),
        kind="housing",
        route=problem.route.id,
        short=tr("About {many} to house", many=many),
        sentence=tr(
            "In its fullest season the route keeps about {many} animals; the plan has room for {housing}.",
            many=many,
            housing=numbers.whole(housing),
        ),
        why=tr("Young that wait to be sold or given away need room on top of that."),
    )

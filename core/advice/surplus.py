"""Cautions on young that nobody asked for, and how many of each look there would be."""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from itertools import product

import msgspec

from core.advice.caution import Caution, caution_key
from core.explain.numbers import Numbers
from core.plan.book import Book
from core.plan.genotypes import SEXES
from core.plan.model import Forms, Plan, Route, SurplusPrice
from core.progress import part_of
from core.routes.evaluate import evaluate_steps
from core.routes.result import RouteResult
from core.text import tr

# Looks are told apart by this many kinds at most; genes beyond are left out of the looks.
MOST_LOOKS = 16
# Young are whole animals: fewer than this round to none.
_HALF = 0.5


@dataclass(frozen=True)
class Surplus:
    """Expected number of surplus young that look like this."""

    forms: Forms
    expected: float


def surplus_cautions(plan: Plan, route: Route, result: RouteResult, numbers: Numbers) -> Iterator[Caution]:
    """Young that neither count for the goal nor are held back, from one animal on."""
    if result.surplus < _HALF:
        return
    many = tr("{surplus} young", surplus=numbers.whole(math.floor(result.surplus + _HALF)))
    fullest = math.floor(result.peak_young + _HALF)
    comes, come = (tr("hatches"), tr("hatch")) if plan.species.young == "eggs" else (tr("is born"), tr("are born"))
    hatch = (
        tr("about {fullest} {comes}", fullest=numbers.whole(fullest), comes=comes if fullest == 1 else come)
        if fullest
        else tr("fewer than 1 {comes}", comes=comes)
    )
    yield Caution(
        key=caution_key("surplus", route.id),
        kind="surplus",
        route=route.id,
        short=tr("{many} to place", many=many),
        sentence=tr("{many} you do not keep: where will they go?", many=many),
        why=tr(
            "That many are to be expected over the route; in its fullest season {hatch}. Each needs "
            "food, room and a good home, also where nobody buys it. Never release an animal.",
            hatch=hatch,
        ),
    )


def surplus_by_form(plan: Plan, route: Route) -> Generator[float, None, tuple[Surplus, ...]]:
    """How many surplus young of each look to expect, most first; yields the share of the work done.

    The looks are those of the goal's genes. Each is the model itself: its young are given a price of 1.
    """
    looks = _looks(plan)
    found = []
    for done, forms in enumerate(looks):
        yield done / len(looks)
        costs = msgspec.structs.replace(plan.costs, surplus=(SurplusPrice(price=1, forms=forms),), sold_share=1)
        priced = msgspec.structs.replace(plan, costs=costs)
        result = yield from part_of(evaluate_steps(priced, route), done, len(looks))
        found.append(Surplus(forms, float(result.sales_by_season[-1])))
    return tuple(sorted((one for one in found if one.expected > 0), key=lambda one: -one.expected))


def _looks(plan: Plan) -> tuple[Forms, ...]:
    """Every look of the goal's genes, as far as they can be told apart in few kinds."""
    tables = Book(plan).tables
    genes = list(dict.fromkeys(gene for row in plan.goal.want for gene in row.forms))
    shown = {gene: sorted(set().union(*(tables[gene].shown[sex] for sex in SEXES))) for gene in genes}
    while math.prod(len(shown[gene]) for gene in genes) > MOST_LOOKS:
        genes.pop()
    return tuple(dict(zip(genes, forms, strict=True)) for forms in product(*(shown[gene] for gene in genes)))

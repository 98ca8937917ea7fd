"""What the textbook leaves out, as truths that are switched on one after the other.

A truth that is off is, wherever a plan can say so, the same plan without that risk. Two cannot be said in a plan and
are variants of the route made ready: animals as averages (`averaged`), and held groups always full (`filled`).
"""

from __future__ import annotations

import math
from collections.abc import Collection
from typing import Literal

import msgspec
import numpy as np

from core.explain.averaged import averaged
from core.explain.filled import filled
from core.explain.siblings import parents_apart
from core.plan.chances import chance
from core.plan.model import Breeds, Clutch, Group, Held, Matures, Plan, Route, Species
from core.routes.clutch import clutch_sizes
from core.routes.prepare import prepare
from core.routes.problem import Problem

Truth = Literal["genotypes", "sizes", "laying", "losses", "breeders", "holding", "waiting"]
TRUTHS: tuple[Truth, ...] = ("genotypes", "sizes", "laying", "losses", "breeders", "holding", "waiting")


def with_truths(plan: Plan, route: Route, truths: Collection[Truth]) -> Problem:
    """The route with only these truths switched on, ready for the engines. Raises what `prepare` raises."""
    problem = _ready(plan, route, truths)
    if "holding" not in truths:
        problem = filled(problem)
    return problem if "genotypes" in truths else averaged(problem)


def cases_with_truths(plan: Plan, route: Route, truths: Collection[Truth]) -> tuple[tuple[float, Problem], ...]:
    """The same as cases with their chances: young that are all taken to be there still share their parents."""
    if "genotypes" not in truths or "holding" in truths:
        return ((1.0, with_truths(plan, route, truths)),)
    return tuple((chance, filled(one)) for chance, one in parents_apart(_ready(plan, route, truths)))


def _ready(plan: Plan, route: Route, truths: Collection[Truth]) -> Problem:
    return prepare(*simplified(plan, route, truths), crowded=True)


def simplified(plan: Plan, route: Route, truths: Collection[Truth]) -> tuple[Plan, Route]:
    """The plan and route without the risks of all other truths, as far as a plan can say it.

    Off are: clutch sizes (see `even_clutch`), females that do not lay, clutches and eggs lost, animals that never
    breed, held young lost, and growing up: held young breed in the season after they hatched, bought ones at once.
    """
    species = plan.species
    if "sizes" not in truths:
        species = msgspec.structs.replace(species, clutch=even_clutch(species.clutch))
    if "laying" not in truths:
        species = msgspec.structs.replace(species, lays=1)
    if "losses" not in truths:
        species = msgspec.structs.replace(species, clutch_lost=0, fertile=1, hatches=1)
    if "breeders" not in truths:
        species = msgspec.structs.replace(species, breeds=Breeds())
    if "holding" not in truths:
        species = msgspec.structs.replace(species, reaches_breeding=1)
    if "waiting" not in truths:
        species = msgspec.structs.replace(species, matures=Matures(male=1, female=1))
        route = msgspec.structs.replace(route, groups=tuple(_grown(group) for group in route.groups))
    return msgspec.structs.replace(plan, species=species), route


def applying(plan: Plan, route: Route) -> frozenset[Truth]:
    """The truths that can make a difference to this route; switching any other on changes nothing at all."""
    species, held = plan.species, [group for group in route.groups if isinstance(group, Held)]
    found: set[Truth] = set()
    if held or _hides(prepare(plan, route, crowded=True)):
        found.add("genotypes")
    if not np.array_equal(clutch_sizes(species.clutch), clutch_sizes(even_clutch(species.clutch))):
        found.add("sizes")
    if chance(species.lays) < 1:
        found.add("laying")
    if chance(species.clutch_lost) > 0 or chance(species.fertile) * chance(species.hatches) < 1:
        found.add("losses")
    if chance(species.breeds.male) < 1 or chance(species.breeds.female) < 1:
        found.add("breeders")
    if held:
        found.add("holding")
    if any(_waits(species, group) for group in route.groups):
        found.add("waiting")
    return frozenset(found)


def mean_eggs(clutch: Clutch) -> float:
    """Mean number of eggs of a clutch, to a tenth of an egg."""
    sizes = clutch_sizes(clutch)
    return round(float(np.arange(len(sizes)) @ sizes), 1)


def even_clutch(clutch: Clutch) -> Clutch:
    """Clutches that vary as little as can be around the same mean, taken to a tenth of an egg.

    A whole mean is a fixed clutch. Of 6.8 eggs on average, 8 clutches in 10 have 7 eggs and 2 in 10 have 6.
    """
    mean = mean_eggs(clutch)
    least, tenths = math.floor(mean), round(mean * 10) % 10
    if not tenths:
        return Clutch(fixed=round(mean))
    return Clutch(counts={str(least): f"{10 - tenths}/10", str(least + 1): f"{tenths}/10"})


def _hides(problem: Problem) -> bool:
    return problem.crowded or len(problem.together) > 1 or any(len(herd.prior) > 1 for herd in problem.herds)


def _grown(group: Group) -> Group:
    return group if isinstance(group, Held) or not group.ready_in else msgspec.structs.replace(group, ready_in=0)


def _waits(species: Species, group: Group) -> bool:
    if isinstance(group, Held):
        return (species.matures.male if group.sex == "male" else species.matures.female) > 1
    return group.ready_in > 0

"""What is wrong with a plan that was refused, said beside a field: who is concerned, and why."""

from __future__ import annotations

import re
from collections.abc import Callable

from core.plan.faults import Fault
from core.plan.model import Plan
from desktop.words.animals import animal_title
from desktop.words.forms import refused

_ENTRY = re.compile(r"(\w+(?:\.want|\.surplus)?)(?:\[(\d+)\])?")
_PLAINER: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), plain)
    for pattern, plain in (
        (r"must not be less than min, which is (\d+)",
         r"the most would be below the least, \1: change the other first"),
        (r"needs goal\.outright_price, which is not given", "buys the finished animal, so it needs this price"),
        (r"must be at most (\d+), the seasons of the goal", r"buys the finished animal after season \1"),
        (r'"(.*)" is already .*', r"“\1” is already taken"),
        (r'no genotype shows "(.*?)".*', r"asks for “\1”, which no animal would show any more"),
        (r'no genotype of a (\w+) shows "(.*?)".*', r"asks for “\2”, which no \1 can show"),
        (r'must be (\w+), yet "(.*)" is (\w+)', r"has “\2” as a \1"),
        (r'"(.*)" is lethal: .*', r"has \1, which never hatches"),
        (r'must name "(.*)": left out it is "(.*)", which is lethal', r"would have \2 for “\1”, which never hatches"),
        (r"must be autosome: a species sexed by temperature .*",
         "lies on the sex chromosomes, and a species sexed by temperature has none"),
        (r'must be autosome: "(.*)" already lies .*', r"“\1” lies on the sex chromosomes already, and one is the most"),
        (r'"(.*)" lies on the sex chromosomes; only autosomal .*',
         r"“\1” is linked with other genes, and those cannot lie on the sex chromosomes"),
        (r"no size from min to max has any chance: .*",
         "no size from the least to the most has any chance: they lie too far from the average"),
        (r'"(.*)" is no genotype of .*', r"carries \1"),
        (r"must lie between 0 and 1 and be neither", "must lie between 0 and 100 % and be neither"),
        (r'must hold no space and no "/", yet is "(.*)"', r"“\1” must hold no space and no “/”"),
        (r"the chances sum to (\S+), not 1", r"the chances sum to \1, not 1"),
    )
)  # fmt: skip


def told(plan: Plan, name: str, fault: Fault) -> str:
    """Why the value of the field called `name` was not taken; `plan` is the one that was refused."""
    message = plainer(fault.message)
    who = concerned(plan, fault.place)
    return refused(name, f"{who} {message}" if who else message)


def plainer(message: str) -> str:
    """A rule of the file in a breeder's words."""
    for pattern, plain in _PLAINER:
        if found := pattern.fullmatch(message):
            return found.expand(plain)
    return message


def concerned(plan: Plan, place: str) -> str:
    """Who or what a place of the plan belongs to; empty for the plan as a whole."""
    found = _ENTRY.match(place)
    if found is None or found[2] is None:
        return ""
    name = _NAMES.get(found[1])
    try:
        return name(plan, int(found[2])) if name else ""
    except IndexError:
        return ""


def _gene(plan: Plan, index: int) -> str:
    return f"the gene “{plan.genes[index].name}”"


def _route(plan: Plan, index: int) -> str:
    return f"the route “{plan.routes[index].name}”"


def _mine(plan: Plan, index: int) -> str:
    animal = plan.my_animals[index]
    return f"my animal “{animal.name or animal.id}”"


def _sale(plan: Plan, index: int) -> str:
    row = plan.for_sale[index]
    return f"“{row.label or animal_title(plan, row.carries)}” for sale"


def _combination(plan: Plan, index: int) -> str:
    return f"the combination “{plan.combinations[index].name}”"


def _record(_plan: Plan, index: int) -> str:
    return f"clutch record {index + 1}"


def _want(_plan: Plan, _index: int) -> str:
    return "the goal"


def _surplus(_plan: Plan, index: int) -> str:
    return f"surplus price {index + 1}"


_NAMES: dict[str, Callable[[Plan, int], str]] = {
    "genes": _gene,
    "routes": _route,
    "my_animals": _mine,
    "for_sale": _sale,
    "combinations": _combination,
    "clutch_records": _record,
    "goal.want": _want,
    "costs.surplus": _surplus,
}

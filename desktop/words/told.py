"""What is wrong with a plan that was refused, said beside a field: who is concerned, and why."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from itertools import zip_longest

from core.plan.faults import Fault
from core.plan.model import Plan
from core.text import fill, tr
from desktop.words.animals import animal_title
from desktop.words.forms import refused

_ENTRY = re.compile(r"(\w+(?:\.want|\.surplus)?)(?:\[(\d+)\])?")
# A rule of the file as core tells it, and the same in a breeder's words.
_PLAINER = (
    (tr("must not be less than min, which is {min}"),
     tr("the most would be below the least, {min}: change the other first")),
    (tr("needs goal.outright_price, which is not given"), tr("buys the finished animal, so it needs this price")),
    (tr("must be at most {seasons}, the seasons of the goal"), tr("buys the finished animal after season {seasons}")),
    (tr("{value} is already {place}"), tr("“{value}” is already taken")),
    (tr("{gene} is already {place}"), tr("“{gene}” is already taken")),
    (tr("no genotype shows {form}{suggest}"), tr("asks for “{form}”, which no animal would show any more")),
    (tr("no genotype of a {sex} shows {form}"), tr("asks for “{form}”, which no {sex} can show")),
    (tr("must be {sex}, yet {name} is {other}"), tr("has “{name}” as a {sex}")),
    (tr("{pair} is lethal: no living animal has it"), tr("has {pair}, which never hatches")),
    (tr("must name {gene}: left out it is {wild}, which is lethal"),
     tr("would have {wild} for “{gene}”, which never hatches")),
    (tr("must be autosome: a species sexed by temperature has no sex chromosomes"),
     tr("lies on the sex chromosomes, and a species sexed by temperature has none")),
    (tr("must be autosome: {gene} already lies on the sex chromosomes"),
     tr("“{gene}” lies on the sex chromosomes already, and one is the most")),
    (tr("{gene} lies on the sex chromosomes; only autosomal genes can be linked here"),
     tr("“{gene}” is linked with other genes, and those cannot lie on the sex chromosomes")),
    (tr("no size from min to max has any chance: they lie too many sd from the mean"),
     tr("no size from the least to the most has any chance: they lie too far from the average")),
    (tr('{text} is no genotype of {id}: two of {known} with "/" between'), tr("carries {text}")),
    (tr("must lie between 0 and 1 and be neither"), tr("must lie between 0 and 100 % and be neither")),
    (tr('must hold no space and no "/", yet is {text}'), tr("“{text}” must hold no space and no “/”")),
)  # fmt: skip
# How a value stands in a rule: names are quoted there, sexes are words.
_SHAPES = dict.fromkeys(("value", "gene", "form", "name", "pair", "wild", "text"), '"(?P<{}>.*?)"')
_SHAPES |= dict.fromkeys(("sex", "other"), r"(?P<{}>\S+)")


def told(plan: Plan, name: str, fault: Fault) -> str:
    """Why the value of the field called `name` was not taken; `plan` is the one that was refused."""
    message = plainer(fault.message)
    who = concerned(plan, fault.place)
    return refused(name, f"{who} {message}" if who else message)


def plainer(message: str) -> str:
    """A rule of the file in a breeder's words."""
    for rule, plain in _PLAINER:
        if found := _pattern(rule).fullmatch(message):
            return fill(plain, found.groupdict())
    return message


@cache
def _pattern(rule: str) -> re.Pattern[str]:
    """What finds the values of a rule again, in whatever language it is told."""
    parts = re.split(r"\{(\w+)\}", rule)
    shapes = [_SHAPES.get(name, "(?P<{}>.*?)").format(name) for name in parts[1::2]]
    return re.compile("".join(map("".join, zip_longest(map(re.escape, parts[::2]), shapes, fillvalue=""))))


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
    return tr("the gene “{name}”", name=plan.genes[index].name)


def _route(plan: Plan, index: int) -> str:
    return tr("the route “{name}”", name=plan.routes[index].name)


def _mine(plan: Plan, index: int) -> str:
    animal = plan.my_animals[index]
    return tr("my animal “{name}”", name=animal.name or animal.id)


def _sale(plan: Plan, index: int) -> str:
    row = plan.for_sale[index]
    return tr("“{name}” for sale", name=row.label or animal_title(plan, row.carries))


def _combination(plan: Plan, index: int) -> str:
    return tr("the combination “{name}”", name=plan.combinations[index].name)


def _record(_plan: Plan, index: int) -> str:
    return tr("clutch record {number}", number=index + 1)


def _want(_plan: Plan, _index: int) -> str:
    return tr("the goal")


def _surplus(_plan: Plan, index: int) -> str:
    return tr("surplus price {number}", number=index + 1)


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

"""The words of the route list."""

from __future__ import annotations

import math

from core.plan.model import Plan
from core.text import tr
from desktop.findings import Finding
from desktop.words.numbers import Numbers, percent, plus_minus, price, short_group, sum_of_money

NONE = "–"
LIST_NAME = tr("Routes")
LIST_DESCRIPTION = tr("A row per route, cheapest first; choose one to see its steps.")
HEADS_NAME = tr("Heads of the route list: Left and Right go from one to the next, Space sorts by it")
CHEAPEST, CHEAPEST_SHOWN = tr("cheapest"), tr("cheapest shown")
SET_ASIDE_HEAD, TO_HOUSE_HEAD = tr("Set aside"), tr("To house")
OVER_BUDGET = tr("over budget")
WAITING = tr("working…")
FAILED = tr("not worked out")
STOPPED = tr("stopped")
REDONE = tr("being redone")
EXACT_TO_COME = tr("exact answer to come")
OLD = tr("from before your change")
_STATES = {"failed": FAILED, "stopped": STOPPED}


def set_aside(plan: Plan, one: Finding, numbers: Numbers) -> str:
    """The money that is enough, or that the goal is out of reach."""
    if one.state != "answered":
        return waiting(WAITING, one, numbers) if one.state == "waiting" else _STATES[one.state]
    if one.to_goal is None:
        return tr("not in {n} seasons", "not in {n} season", plan.goal.seasons)
    return sum_of_money(one.to_goal.money, numbers)


def waiting(what: str, one: Finding, numbers: Numbers) -> str:
    """What is being done with a route, and how far it is."""
    return f"{what} {numbers.whole(round(one.share_done * 100))} %" if one.share_done >= 0.01 else what


def set_aside_note(plan: Plan, one: Finding, numbers: Numbers) -> str:
    """`over budget`, and the range of a simulated sum; of an outdated or early one how far the new one is."""
    if one.stale and one.share_done >= 0.01:
        return waiting(REDONE, one, numbers)
    notes = []
    if over_budget(plan, one):
        notes.append(OVER_BUDGET)
    if one.to_goal is not None and one.money_range is not None and one.money_range[0] < one.money_range[1]:
        low, high = one.money_range
        most = "?" if math.isinf(high) else sum_of_money(high, numbers)
        notes.append(f"{sum_of_money(low, numbers)}–{most}")
    if one.early and one.share_done >= 0.01:
        notes.append(waiting(EXACT_TO_COME, one, numbers))
    return ", ".join(notes)


def over_budget(plan: Plan, one: Finding) -> bool:
    """Whether the route needs more than the budget."""
    return plan.goal.budget is not None and one.to_goal is not None and one.to_goal.money > plan.goal.budget


def start_group(one: Finding) -> str:
    """The animals to begin with, as `1.2`."""
    return short_group(one.males, one.females) if one.males or one.females else NONE


def season(one: Finding) -> str:
    """The season by which the goal's chance is reached."""
    return str(one.to_goal.season) if one.to_goal else NONE


def eggs(one: Finding, numbers: Numbers) -> str:
    """The eggs by which the goal's chance is reached."""
    return numbers.whole(one.to_goal.eggs) if one.to_goal and one.to_goal.eggs is not None else NONE


def up_front(one: Finding, numbers: Numbers) -> str:
    """What is paid before the first egg."""
    return sum_of_money(one.result.up_front, numbers) if one.result else NONE


def surplus(one: Finding, numbers: Numbers) -> str:
    """Young that are neither wanted nor kept, as an average."""
    return numbers.whole(round(one.result.surplus)) if one.result and one.result.surplus >= 0.5 else NONE


def chance(one: Finding, numbers: Numbers) -> str:
    """The chance by the horizon."""
    return percent(one.chance, numbers) if one.state == "answered" else NONE


def chance_with_budget(one: Finding, numbers: Numbers) -> str:
    """The chance with the money there is."""
    return NONE if one.at_budget is None else percent(one.at_budget, numbers)


def with_budget(plan: Plan, numbers: Numbers) -> str:
    """The head over these chances."""
    return tr("Chance with {budget}", budget=price(plan.goal.budget or 0, numbers))


def to_house(one: Finding, numbers: Numbers) -> str:
    """The most animals to keep in one season."""
    return numbers.whole(round(one.result.peak_animals)) if one.result and one.result.peak_animals >= 0.5 else NONE


def is_over(plan: Plan, one: Finding, head: str) -> bool:
    """Whether a figure is more than there is money or room for."""
    if head == SET_ASIDE_HEAD:
        return over_budget(plan, one)
    return head == TO_HOUSE_HEAD and over_housing(plan, one)


def over_housing(plan: Plan, one: Finding) -> bool:
    """Whether there are more animals than can be housed."""
    housing = plan.goal.housing
    return housing is not None and one.result is not None and round(one.result.peak_animals) > housing


def one_line(name: str) -> str:
    """A name for a place with one line: breaks and tabs as spaces."""
    return " ".join(name.split())


def chance_note(one: Finding, numbers: Numbers) -> str:
    """The noise of a simulated chance."""
    return plus_minus(one.noise, numbers) if one.noise is not None else ""


def head_spoken(head: str, *, is_sorted: bool, up: bool) -> str:
    """The head that the keys are at."""
    if not is_sorted:
        return head
    return tr("{head}, sorted with the {what} first", head=head, what=tr("least") if up else tr("most"))

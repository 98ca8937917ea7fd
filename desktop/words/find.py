"""The words of finding routes: how far it is, what was found, and what was proven."""

from __future__ import annotations

import math

from core.plan.model import Plan
from core.search.found import Found, Point, Proposal
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, counted, percent, short_group, sum_of_money

TITLE, BACK = "Find routes", "‹ All routes"
STOP, GO_ON = "Stop here", "Look on"
PASTE = "Paste what is for sale…"
ADD, TAKEN = "Add to the plan", "In the plan"
LIST_NAME = "Routes that were found, the cheapest first"
SEASONS_NAME, CHANCE_NAME = "Money against seasons", "Money against chance"
SEASONS_HEAD, CHANCE_HEAD = "Sooner costs more", "Surer costs more"
NO_ROOM = "This plan has as many routes as it can hold."
BEGINNING = "Reading what is for sale and what you own…"
# A share of the money that is no share worth telling.
_NOTHING = 0.0005
SCALED = "The numbers at the points are those of the list."


def add_name(number: int, name: str) -> str:
    """What a button of the list is called."""
    return f"Add number {number}, {name}, to the plan"


def taken_name(number: int, name: str) -> str:
    """The same once it is there."""
    return f"Number {number}, {name}, is in the plan"


def headline(plan: Plan, found: Found | None, numbers: Numbers) -> str:
    """The finding, in one sentence."""
    if found is None or not found.proposals:
        return nothing(plan) if found is not None and found.ended else "Looking for the cheapest ways to your goal…"
    best = found.proposals[0]
    if best.result.to_goal is None:
        return f"Nothing reaches the goal: {best.route.name} comes closest, with {percent(best.chance, numbers)}."
    so_far = "Cheapest" if found.ended else "Cheapest so far"
    return f"{so_far}: {best.route.name}. Set aside {sum_of_money(best.money, numbers)}."


def nothing(plan: Plan) -> str:
    """Why nothing was found, and what to do."""
    if not plan.for_sale and not plan.my_animals and plan.goal.outright_price is None:
        return "Nothing is for sale and no animal is yours: paste a list to begin with."
    return "No male and female here can give what you want: other animals, or more seasons, would."


def progress(found: Found | None, numbers: Numbers, *, stopped: bool) -> str:
    """How far the search is, and what it has proven."""
    if found is None or (not found.of and not found.ended):
        return BEGINNING if not stopped else ""
    if not found.of:
        return ""
    tried = f"{numbers.whole(found.looked)} of {numbers.whole(found.of)} routes worked out"
    if found.ended:
        reaching = bool(found.proposals) and found.proposals[0].result.to_goal is not None
        if not reaching:
            return f"{tried}."
        if found.gap < _NOTHING:
            return f"{tried}; the others cannot be cheaper."
        # Rounded up: it is a promise.
        return f"{tried}; the others could save {numbers.whole(math.ceil(100 * found.gap - 1e-6))} % at most."
    return f"Stopped: {tried}." if stopped else f"{tried}…"


def proven(found: Found | None, numbers: Numbers) -> str:
    """What can be said of all that was not worked out."""
    if found is None or not found.proposals or found.proposals[0].result.to_goal is None:
        return ""
    parts = []
    if not found.affordable:
        parts.append("None of these is within your budget.")
    sort = "of one or two generations" if found.holds else "without young held back"
    if math.isfinite(found.floor):
        parts.append(f"No other route {sort} needs less than {numbers.whole(math.floor(found.floor))}.")
    elif found.ended:
        parts.append("Everything was worked out.")
    if not found.holds:
        parts.append("So many genes at once are too much for looking at young held back.")
    if found.left_out:
        parts.append(f"{counted(found.left_out, 'kind of animals was', 'kinds of animals were')} not looked at.")
    return " ".join(parts)


def figures(plan: Plan, one: Proposal, numbers: Numbers) -> str:
    """One plan's figures in a line."""
    group = short_group(*_bought_and_mine(one))
    parts = [f"with {group}"] if group else []
    best = one.result.to_goal
    if best is not None:
        parts.append(f"by season {best.season}")
        seasons = counted(plan.goal.seasons, "season", "seasons")
        parts.append(f"{percent(one.chance, numbers)} within {seasons}")
    if one.result.method == "simulated":
        parts.append("played")
    return " · ".join(parts)


def money(one: Proposal, numbers: Numbers) -> str:
    """What is to be set aside; of what does not get there the chance that it comes to."""
    return sum_of_money(one.money, numbers) if one.result.to_goal else percent(one.chance, numbers)


def refused(message: str) -> str:
    """Why a route is not taken into the plan."""
    return f"It cannot be added: {message}."


def seasons_told(plan: Plan, points: tuple[Point, ...], numbers: Numbers) -> str:
    """The chart of money against seasons in words."""
    goal = percent(float_chance(plan.goal.chance), numbers)
    told = [f"{sum_of_money(one.money, numbers)} by season {one.season}" for one in points]
    return f"For {goal}: {', '.join(told)}." if told else ""


def chances_told(points: tuple[Point, ...], numbers: Numbers) -> str:
    """The chart of money against chance in words."""
    told = [f"{sum_of_money(one.money, numbers)} for {percent(one.chance, numbers)}" for one in points]
    return f"{', '.join(told)}." if told else ""


def seasons_axis(plan: Plan, numbers: Numbers) -> str:
    """What the axis of seasons says."""
    return f"season by which you are {percent(float_chance(plan.goal.chance), numbers)} sure"


def chance_axis(plan: Plan) -> str:
    """What the axis of chances says."""
    return f"% sure within {counted(plan.goal.seasons, 'season', 'seasons')}"


def _bought_and_mine(one: Proposal) -> tuple[int, int]:
    """Males and females that are there without being bred for it."""
    both = {"male": 0, "female": 0}
    for group in one.route.groups:
        animals = getattr(group, "animals", None)
        if group.id in ("daughters", "granddaughters", "sons", "son"):
            continue
        both[group.sex] += len(animals) if animals else getattr(group, "count", 0) or 0
    return both["male"], both["female"]

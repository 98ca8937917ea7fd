"""The words of finding routes: how far it is, what was found, and what was proven."""

from __future__ import annotations

import math

from core.explain.lacking import lacking
from core.plan.model import Plan
from core.search.found import Found, Point, Proposal
from core.search.telling import founders
from core.text import tr
from desktop.words.goal import asked
from desktop.words.numbers import Numbers, in_words, listed, percent, price, short_group, sum_of_money, told_below

TITLE, BACK = tr("Find routes"), tr("‹ All routes")
STOP, GO_ON = tr("Stop here"), tr("Look on")
PASTE = tr("Paste what is for sale…")
ADD, TAKEN = tr("Add to the plan"), tr("In the plan")
LIST_NAME = tr("Routes that were found, the cheapest first")
SEASONS_NAME, CHANCE_NAME = tr("Money against seasons"), tr("Money against chance")
SEASONS_HEAD, CHANCE_HEAD = tr("Sooner costs more"), tr("Surer costs more")
NO_ROOM = tr("This plan has as many routes as it can hold.")
BEGINNING = tr("Reading what is for sale and what you own…")
ALL_FOUND, FOUND_HEAD = tr("All that was found…"), tr("Found for you")
# A share of the money that is no share worth telling.
_NOTHING = 0.0005
SCALED = tr("The numbers at the points are those of the list, each with as many animals as that takes.")


def add_name(number: int, name: str) -> str:
    """What a button of the list is called."""
    return tr("Add number {number}, {name}, to the plan", number=number, name=name)


def taken_name(number: int, name: str) -> str:
    """The same once it is there."""
    return tr("Number {number}, {name}, is in the plan", number=number, name=name)


def headline(plan: Plan, found: Found | None, numbers: Numbers) -> str:
    """The finding, in one sentence."""
    if found is None or not found.proposals:
        return nothing(plan) if found is not None and found.ended else tr("Looking for the cheapest ways to your goal…")
    best = found.proposals[0]
    if best.result.to_goal is None:
        name, chance = best.route.name, percent(best.chance, numbers)
        if not found.ended:
            return tr("Nothing so far reaches the goal: {name} comes closest, with {chance}.", name=name, chance=chance)
        return tr("Nothing reaches the goal: {name} comes closest, with {chance}.", name=name, chance=chance)
    so_far = tr("Cheapest") if found.ended else tr("Cheapest so far")
    return tr(
        "{so_far}: {name}. Set aside {money}.",
        so_far=so_far,
        name=best.route.name,
        money=sum_of_money(best.money, numbers),
    )


def greeting(plan: Plan, found: Found | None, numbers: Numbers, *, narrow: bool) -> str:
    """The finding over the cheapest few; `narrow`: a head only, as the rows say the rest."""
    return FOUND_HEAD if narrow and found is not None and found.proposals else headline(plan, found, numbers)


def compare_all(many: int) -> str:
    """The button that makes all of them routes of the plan."""
    return tr("Compare these {many}", many=in_words(many))


def add_all_step(many: int) -> str:
    """What undo would take back."""
    return tr("add {many} found routes", many=in_words(many))


def nothing(plan: Plan) -> str:
    """Why nothing was found, and what to do."""
    if not plan.for_sale and not plan.my_animals and plan.goal.outright_price is None:
        return tr("Nothing is for sale and no animal is yours: paste a list to begin with.")
    sexes = {one.sex for one in plan.for_sale} | {one.sex for one in plan.my_animals}
    if sexes == {"male"}:
        return tr("There are only males here: breeding takes females, too.")
    if sexes == {"female"}:
        return tr("There are only females here: breeding takes a male, too.")
    missing = lacking(plan, (one.carries for one in plan.for_sale), plan.my_animals)
    if missing:
        return tr(
            "No male and female here can give what you want: none carries the copies for {forms}.",
            forms=listed([*missing]),
        )
    return tr("No male and female here can give what you want: other animals, or more seasons, would.")


def progress(found: Found | None, numbers: Numbers, *, stopped: bool) -> str:
    """How far the search is, and what it has proven."""
    if found is None or (not found.of and not found.ended):
        return BEGINNING if not stopped else ""
    if not found.of:
        return ""
    tried = tr("{looked} of {of} routes worked out", looked=numbers.whole(found.looked), of=numbers.whole(found.of))
    if found.ended:
        reaching = bool(found.proposals) and found.proposals[0].result.to_goal is not None
        if not reaching:
            return f"{tried}."
        if found.gap < _NOTHING:
            return tr("{tried}; the others cannot be cheaper.", tried=tried)
        # Rounded up: it is a promise.
        return tr(
            "{tried}; the others could save {gap} % at most.",
            tried=tried,
            gap=numbers.whole(math.ceil(100 * found.gap - 1e-06)),
        )
    if stopped:
        return tr("Stopped: {tried}.", tried=tried)
    return tr("{tried}; now what sooner and surer cost…", tried=tried) if found.traded else f"{tried}…"


def proven(found: Found | None, numbers: Numbers) -> str:
    """What can be said of all that was not worked out."""
    if found is None or not found.proposals or found.proposals[0].result.to_goal is None:
        return ""
    parts = []
    if not found.affordable:
        parts.append(tr("None of these is within your budget."))
    sort = tr("of one or two generations") if found.holds else tr("without young held back")
    if math.isfinite(found.floor):
        parts.append(
            tr(
                "No other route {sort} that was considered needs less than {floor}.",
                sort=sort,
                floor=price(told_below(found.floor), numbers),
            )
        )
    elif found.ended and found.looked >= found.of:
        parts.append(tr("Everything was worked out."))
    if found.ended and found.frontier and not found.traded:
        parts.append(tr("What sooner and surer cost is told of the routes worked out."))
    if not found.holds:
        parts.append(tr("So many genes at once are too much for looking at young held back."))
    if found.left_out:
        parts.append(
            tr("{n} kinds of animals were not looked at.", "{n} kind of animals was not looked at.", found.left_out)
        )
    return " ".join(parts)


def figures(plan: Plan, one: Proposal, numbers: Numbers, *, short: bool = False) -> str:
    """One plan's figures in a line; `short`: without the horizon."""
    animals = founders(one.route, "male"), founders(one.route, "female")
    parts = [tr("with {group}", group=short_group(*animals))] if any(animals) else []
    best = one.result.to_goal
    if best is not None:
        parts.append(tr("by season {season}", season=best.season))
        seasons, chance = tr("{n} seasons", "{n} season", plan.goal.seasons), percent(one.chance, numbers)
        parts.append(chance if short else tr("{chance} within {seasons}", chance=chance, seasons=seasons))
    if one.result.method == "simulated":
        parts.append(tr("played"))
    return " · ".join(parts)


def money(one: Proposal, numbers: Numbers) -> str:
    """What is to be set aside; of what does not get there the chance that it comes to."""
    return sum_of_money(one.money, numbers) if one.result.to_goal else percent(one.chance, numbers)


def refused(message: str) -> str:
    """Why a route is not taken into the plan."""
    return tr("It cannot be added: {message}.", message=message)


def seasons_told(plan: Plan, points: tuple[Point, ...], numbers: Numbers) -> str:
    """The chart of money against seasons in words."""
    goal = asked(plan, numbers)
    told = [
        tr("{money} by season {season}", money=sum_of_money(one.money, numbers), season=one.season) for one in points
    ]
    return tr("For {goal}: {told}.", goal=goal, told=", ".join(told)) if told else ""


def chances_told(points: tuple[Point, ...], numbers: Numbers) -> str:
    """The chart of money against chance in words."""
    told = [
        tr("{money} for {chance}", money=sum_of_money(one.money, numbers), chance=percent(one.chance, numbers))
        for one in points
    ]
    return f"{', '.join(told)}." if told else ""


def seasons_axis(plan: Plan, numbers: Numbers) -> str:
    """What the axis of seasons says."""
    return tr("season by which you are {chance} sure", chance=asked(plan, numbers))


def chance_axis(plan: Plan) -> str:
    """What the axis of chances says."""
    return tr("% sure within {n} seasons", "% sure within {n} season", plan.goal.seasons)

"""The answer: one large sentence, a lead below it, and the share for the dots."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from core.plan.model import Plan
from desktop.findings import Finding, Verdict
from desktop.words.goal import float_chance
from desktop.words.numbers import (
    Numbers,
    in_words,
    listed,
    long_group,
    of_100,
    percent,
    price,
    short_group,
    sum_of_money,
)
from desktop.words.runs import Run, Runs, strong

# A chance that still grows by this much in the last season asks for more time rather than more animals.
_STILL_GROWING = 0.01
SHARE_NOTE = "who try it reach the goal"
CANCEL, CANCEL_NAME = "Cancel", "Cancel working out the routes"
GO_ON, GO_ON_NAME = "Go on", "Go on working out the routes"


@dataclass(frozen=True)
class Answer:
    """`share` people out of 100 are drawn as dots; None draws none."""

    head: Runs
    lead: str
    share: int | None = None
    share_note: str = ""


def answer(plan: Plan, found: tuple[Finding, ...], decided: Verdict, numbers: Numbers) -> Answer:
    """The sentences for a verdict."""
    if decided.kind == "waiting" or (decided.best is None and decided.kind not in ("empty", "hidden")):
        return Answer((Run("Working out the routes…"),), "The answer stands here as soon as it is known.")
    if decided.kind == "hidden":
        said = Answer((Run("All routes are hidden."),), "Show them again, or add a new one.")
    elif decided.best is None:
        return _stopped() if decided.stopped else _empty(found)
    elif decided.kind == "missed":
        said = _missed(plan, decided, numbers)
    elif decided.kind == "close":
        said = _close(decided, numbers)
    else:
        said = _won(plan, found, decided, numbers)
    more = [_left_out(decided.stopped)] if decided.stopped else []
    more += [_hidden(decided.beaten_by, numbers)] if decided.beaten_by else []
    return replace(said, lead=" ".join([said.lead, *more]))


def _hidden(one: Finding, numbers: Numbers) -> str:
    """A route that is not shown is never left out of the answer silently."""
    only = "only " if one.money_range is None else ""
    return f"{one.name} is hidden and needs {only}{_money(one, numbers)}."


def _left_out(count: int) -> str:
    return f"{in_words(count).capitalize()} {'route was' if count == 1 else 'routes were'} stopped and left out."


def _stopped() -> Answer:
    return Answer((Run("Stopped before any route was worked out."),), "Go on to see which route is cheapest.")


def _empty(found: tuple[Finding, ...]) -> Answer:
    if found:
        return Answer((Run("No route could be worked out."),), found[0].reason)
    lead = "Add one with New route: it is filled from what is for sale and what you own."
    return Answer((Run("This plan has no routes yet."),), lead)


def _won(plan: Plan, found: tuple[Finding, ...], decided: Verdict, numbers: Numbers) -> Answer:
    best, pending = decided.best, decided.pending
    if best is None or best.to_goal is None:
        raise ValueError("the cheapest route must reach the goal")
    to_goal = best.to_goal
    shown = " shown" if decided.beaten_by else ""
    cheapest = f"Cheapest{shown} so far" if pending or decided.stopped else f"Cheapest{shown}"
    head = (Run(f"{cheapest}: {best.name}. Set aside "), strong(f"{_money(best, numbers)}."))
    share = of_100(to_goal.chance)
    if pending:
        still = (
            f"{in_words(pending).capitalize()} {'route is' if pending == 1 else 'routes are'} still being worked out."
        )
        return Answer(head, f"{_reach(best, share, plan)} {still}", share, _share_note(share))
    sentences = [
        _reach(best, share, plan),
        *_over(plan, found, best, numbers),
        *_against_buying(plan, found, best, numbers),
    ]
    return Answer(head, " ".join(sentences), share, _share_note(share))


def _money(one: Finding, numbers: Numbers) -> str:
    if one.money_range is not None:
        low, high = one.money_range
        if math.isinf(high):
            return f"at least {sum_of_money(low, numbers)}"
        if low < high:
            return f"{sum_of_money(low, numbers)} to {sum_of_money(high, numbers)}"
    return sum_of_money(one.to_goal.money, numbers) if one.to_goal else ""


def _reach(best: Finding, share: int, plan: Plan) -> str:
    if best.only_buys:
        return "Nothing is left to chance."
    people = "everyone who tries it" if share == 100 else f"{share} of 100 people who try it"
    start = ""
    if best.males or best.females:
        start = f", with {short_group(best.males, best.females)} ({long_group(best.males, best.females)})"
    when = f", most often in season {likeliest_season(best)}" if plan.goal.seasons > 1 else ""
    return f"It reaches the goal for {people}{start}{when}."


def likeliest_season(one: Finding) -> int:
    """The season in which the goal is met most often."""
    if one.result is None:
        return 1
    return int(np.argmax(np.diff(one.result.chance_by_season, prepend=0.0))) + 1


def _against_buying(plan: Plan, found: tuple[Finding, ...], best: Finding, numbers: Numbers) -> list[str]:
    outright = plan.goal.outright_price
    if outright is None or best.to_goal is None:
        return []
    if best.only_buys:
        bred = [one.to_goal.money for one in found if one.to_goal is not None and not one.only_buys]
        if not bred:
            return ["No breeding route gets there."]
        return [f"Breeding needs at least {sum_of_money(min(bred), numbers)}."]
    # From the sums as shown, so that whoever checks it by hand finds the same.
    less = math.floor(outright - math.ceil(best.to_goal.money))
    if best.to_goal.money > outright:
        return [f"Buying it finished is cheaper: {price(outright, numbers)}."]
    return [f"It is {numbers.whole(less)} less than buying it finished."] if less >= 1 else []


def _over(plan: Plan, found: tuple[Finding, ...], best: Finding, numbers: Numbers) -> list[str]:
    budget = plan.goal.budget
    if budget is None or best.to_goal is None or best.to_goal.money <= budget:
        return []
    over = sum_of_money(best.to_goal.money - budget, numbers)
    chances = [one.result.chance_at_budget or 0.0 for one in found if one.result is not None]
    reachable = percent(max(chances, default=0.0), numbers)
    return [f"It is {over} over your {price(budget, numbers)}; with that the best chance is {reachable}."]


def _close(decided: Verdict, numbers: Numbers) -> Answer:
    both = [decided.best, *decided.rivals] if decided.best else []
    known = [one for one in both if one is not None and one.to_goal is not None]
    lows = [one.money_range[0] if one.money_range else one.to_goal.money for one in known if one.to_goal]
    highs = [one.money_range[1] if one.money_range else one.to_goal.money for one in known if one.to_goal]
    most = "or more" if math.isinf(max(highs)) else f"to {sum_of_money(max(highs), numbers)}"
    head = (Run("Too close to call. Set aside "), strong(f"{sum_of_money(min(lows), numbers)} {most}."))
    runs = max((one.result.runs or 0 for one in known if one.result), default=0)
    count = in_words(len(known)).capitalize()
    names = listed([one.name for one in known])
    lead = f"{count} routes differ by less than {numbers.whole(runs)} simulated runs can tell: {names}."
    share = min(of_100(one.to_goal.chance) for one in known if one.to_goal)
    return Answer(head, lead, share, _share_note(share))


def _missed(plan: Plan, decided: Verdict, numbers: Numbers) -> Answer:
    closest = decided.best
    if closest is None:
        raise ValueError("something must come closest")
    goal = float_chance(plan.goal.chance)
    seasons = plan.goal.seasons
    within = "one season" if seasons == 1 else f"{seasons} seasons"
    head = (
        Run("No route shown is " if decided.beaten_by else "No route is "),
        strong(percent(goal, numbers)),
        Run(f" sure within {within}."),
    )
    share = of_100(closest.chance)
    if share == 0:
        lead = f"None of them can give the wanted animal in {within}: more seasons or other animals are needed."
        return Answer(head, lead, 0, _share_note(0))
    lead = f"{closest.name} comes closest: {share} of 100 people by season {seasons}. {_change(closest, share, plan)}"
    return Answer(head, lead, share, _share_note(share))


def _change(closest: Finding, share: int, plan: Plan) -> str:
    growth = 0.0
    if closest.result is not None and plan.goal.seasons > 1:
        growth = float(closest.result.chance_by_season[-1] - closest.result.chance_by_season[-2])
    helps = "allow more seasons" if growth >= _STILL_GROWING or plan.goal.seasons == 1 else "take more or other animals"
    return f"Settle for {share} % sure, or {helps}."


def _share_note(share: int) -> str:
    return "who try it reaches the goal" if share == 1 else SHARE_NOTE

"""The answer: one large sentence, a lead below it, and the share for the dots."""

from __future__ import annotations

import math

import msgspec
import numpy as np
from msgspec.structs import replace

from core.plan.model import Plan
from core.text import tr
from desktop.findings import Finding, Verdict
from desktop.words.goal import how_many
from desktop.words.numbers import (
    Numbers,
    in_words,
    least_told,
    listed,
    long_group,
    more_by,
    of_100,
    percent,
    price,
    short_group,
    sum_of_money,
    told_sum,
)
from desktop.words.runs import Run, Runs, strong

SHARE_NOTE = tr("who try it reach the goal")
CANCEL, CANCEL_NAME = tr("Cancel"), tr("Cancel working out the routes")
GO_ON, GO_ON_NAME = tr("Go on"), tr("Go on working out the routes")


class Answer(msgspec.Struct, frozen=True):
    """`share` people out of 100 are drawn as dots; None draws none."""

    head: Runs
    lead: str
    share: int | None = None
    share_note: str = ""


def answer(plan: Plan, found: tuple[Finding, ...], decided: Verdict, numbers: Numbers) -> Answer:
    """The sentences for a verdict."""
    if decided.kind == "waiting" or (decided.best is None and decided.kind not in ("empty", "hidden")):
        return Answer((Run(tr("Working out the routes…")),), tr("The answer stands here as soon as it is known."))
    if decided.kind == "hidden":
        said = Answer((Run(tr("All routes are hidden.")),), tr("Show them again, or add a new one."))
    elif decided.best is None:
        return _stopped() if decided.stopped else _empty(found)
    elif decided.kind == "missed":
        # Loaded when first needed: most plans have a route that gets there, and a start waits for what is loaded.
        from desktop.words.missed import missed

        said = missed(plan, decided, numbers)
    elif decided.kind == "close":
        said = _close(plan, decided, numbers)
    else:
        said = _won(plan, found, decided, numbers)
    more = [_left_out(decided.stopped)] if decided.stopped else []
    more += [_hidden(decided.beaten_by, numbers)] if decided.beaten_by else []
    return replace(said, lead=" ".join([said.lead, *more]))


def _hidden(one: Finding, numbers: Numbers) -> str:
    """A route that is not shown is never left out of the answer silently."""
    only = tr("only ") if one.money_range is None else ""
    return tr("{name} is hidden and needs {only}{one}.", name=one.name, only=only, one=_money(one, numbers))


def _left_out(count: int) -> str:
    return tr(
        "{count} routes were stopped and left out.",
        "{count} route was stopped and left out.",
        count,
        count=in_words(count).capitalize(),
    )


def _stopped() -> Answer:
    return Answer((Run(tr("Stopped before any route was worked out.")),), tr("Go on to see which route is cheapest."))


def _empty(found: tuple[Finding, ...]) -> Answer:
    if found:
        return Answer((Run(tr("No route could be worked out.")),), found[0].reason)
    lead = tr("The first page leads to them in four steps; the answer stands here once there is one.")
    return Answer((Run(tr("This plan has no routes yet.")),), lead)


def _won(plan: Plan, found: tuple[Finding, ...], decided: Verdict, numbers: Numbers) -> Answer:
    best, pending = decided.best, decided.pending
    if best is None or best.to_goal is None:
        raise ValueError("the cheapest route must reach the goal")
    to_goal = best.to_goal
    shown = tr(" shown") if decided.beaten_by else ""
    cheapest = (
        tr("Cheapest{shown} so far", shown=shown) if pending or decided.stopped else tr("Cheapest{shown}", shown=shown)
    )
    head = (
        Run(tr("{cheapest}: {name}. Set aside ", cheapest=cheapest, name=best.name)),
        strong(f"{_money(best, numbers)}."),
    )
    share = of_100(to_goal.chance)
    if pending:
        still = _still(found, pending)
        return Answer(head, f"{_reach(best, share, plan)} {still}", share, share_note(share))
    sentences = [
        _reach(best, share, plan),
        *_over(plan, found, best, numbers),
        *_against_buying(plan, found, best, numbers),
    ]
    return Answer(head, " ".join(sentences), share, share_note(share))


def _still(found: tuple[Finding, ...], pending: int) -> str:
    number = in_words(pending).capitalize()
    if pending == sum(one.early for one in found):
        return tr(
            "{pending} simulated answers will be followed by exact ones.",
            "{pending} simulated answer will be followed by an exact one.",
            pending,
            pending=number,
        )
    return tr(
        "{pending} routes are still being worked out.",
        "{pending} route is still being worked out.",
        pending,
        pending=number,
    )


def _money(one: Finding, numbers: Numbers) -> str:
    if one.money_range is not None:
        low, high = one.money_range
        if math.isinf(high):
            return tr("at least {low}", low=sum_of_money(low, numbers))
        if low < high:
            return tr("{low} to {high}", low=sum_of_money(low, numbers), high=sum_of_money(high, numbers))
    return sum_of_money(one.to_goal.money, numbers) if one.to_goal else ""


def _reach(best: Finding, share: int, plan: Plan) -> str:
    if best.only_buys:
        return tr("Nothing is left to chance.")
    people = tr("everyone who tries it") if share == 100 else tr("{share} of 100 people who try it", share=share)
    when = (
        tr(", most often in season {likeliest_season}", likeliest_season=likeliest_season(best))
        if plan.goal.seasons > 1
        else ""
    )
    return tr("It reaches the goal for {people}{start}{when}.", people=people, start=with_animals(best), when=when)


def with_animals(one: Finding) -> str:
    """What a route begins with, where that is any animal."""
    if not one.males and not one.females:
        return ""
    return tr(
        ", with {short_group} ({long_group})",
        short_group=short_group(one.males, one.females),
        long_group=long_group(one.males, one.females),
    )


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
            return [tr("No breeding route gets there.")]
        return [tr("Breeding needs at least {bred}.", bred=sum_of_money(min(bred), numbers))]
    if best.to_goal.money > outright:
        return [_bought_for_less(plan, outright, numbers)]
    # From the sums as shown, so that whoever checks it by hand finds the same.
    less = outright - told_sum(best.to_goal.money)
    if less < least_told(outright):
        return []
    return [
        tr(
            "It is {less} less than buying them finished.",
            "It is {less} less than buying it finished.",
            how_many(plan),
            less=price(less, numbers),
        )
    ]


def _bought_for_less(plan: Plan, outright: float, numbers: Numbers) -> str:
    return tr(
        "Buying them finished is cheaper: {outright}.",
        "Buying it finished is cheaper: {outright}.",
        how_many(plan),
        outright=price(outright, numbers),
    )


def _over(plan: Plan, found: tuple[Finding, ...], best: Finding, numbers: Numbers) -> list[str]:
    budget = plan.goal.budget
    if budget is None or best.to_goal is None or best.to_goal.money <= budget:
        return []
    over = more_by(best.to_goal.money, budget, numbers)
    # Over all counts: with less money another number of animals than the cheapest may do best.
    chances = [one.drawn.chance_at_budget or 0.0 for one in found if one.drawn is not None]
    reachable = percent(max(chances, default=0.0), numbers)
    return [
        tr(
            "It is {over} over your {budget}; with that the best chance of these routes is {reachable}.",
            "It is {over} over your {budget}; with that its chance is {reachable} at best.",
            len(chances),
            over=over,
            budget=price(budget, numbers),
            reachable=reachable,
        )
    ]


def _close(plan: Plan, decided: Verdict, numbers: Numbers) -> Answer:
    both = [decided.best, *decided.rivals] if decided.best else []
    known = [one for one in both if one is not None and one.to_goal is not None]
    lows = [one.money_range[0] if one.money_range else one.to_goal.money for one in known if one.to_goal]
    highs = [one.money_range[1] if one.money_range else one.to_goal.money for one in known if one.to_goal]
    most = tr("or more") if math.isinf(max(highs)) else tr("to {highs}", highs=sum_of_money(max(highs), numbers))
    head = (Run(tr("Too close to call. Set aside ")), strong(f"{sum_of_money(min(lows), numbers)} {most}."))
    runs = max((one.result.runs or 0 for one in known if one.result), default=0)
    count = in_words(len(known)).capitalize()
    names = listed([one.name for one in known])
    lead = tr(
        "{count} routes differ by less than {runs} simulated runs can tell: {names}.",
        count=count,
        runs=numbers.whole(runs),
        names=names,
    )
    outright = plan.goal.outright_price
    if outright is not None and outright < min(lows):
        lead = f"{lead} {_bought_for_less(plan, outright, numbers)}"
    share = min(of_100(one.to_goal.chance) for one in known if one.to_goal)
    return Answer(head, lead, share, share_note(share))


def share_note(share: int) -> str:
    """What stands below the share."""
    return tr("who try it reaches the goal") if share == 1 else SHARE_NOTE

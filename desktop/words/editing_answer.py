"""What the route editor says of the route's answer: now, before this edit, and beside the cheapest."""

from __future__ import annotations

from core.plan.model import Plan
from core.text import tr
from desktop.evaluation import drawn_count
from desktop.findings import Finding, Verdict
from desktop.words.goal import asked
from desktop.words.numbers import Numbers, least_told, percent, plus_minus, short_group, sum_of_money
from desktop.words.runs import Run, Runs, strong

CHANCE = tr("Chance by season")
BEFORE, NOW, SO_FAR = tr("before this edit"), tr("now"), tr("from before your change")
STOPPED = tr("Stopped before it was done.")
WORKED_OUT = tr("This route is being worked out…")
GONE = tr("This route is gone.")


def head(plan: Plan, now: Finding | None, before: Finding | None, numbers: Numbers) -> Runs:
    """`This route now needs 1,148 for 80 %. Before this edit: 2,051.`; both with the counts as drawn."""
    if now is None:
        return (Run(GONE),)
    if now.state == "failed":
        return (Run(now.reason),)
    if now.state == "stopped" and now.result is None:
        return (Run(STOPPED),)
    if now.result is None:
        return (Run(WORKED_OUT), *_was(now, before, numbers))
    was = _was(now, before, numbers)
    sure = asked(plan, numbers)
    if now.to_goal is None:
        seasons = tr("{n} seasons", "{n} season", plan.goal.seasons)
        reach = tr("reaches") if now.result.method == "exact" else tr("reaches about")
        most = strong(percent(now.chance, numbers))
        return (
            Run(tr("This route {reach} ", reach=reach)),
            most,
            Run(tr(" in {seasons}, not {sure}.", seasons=seasons, sure=sure)),
            *was,
        )
    return (
        Run(tr("This route {what}needs ", what=tr("now ") if was else "")),
        strong(_money(now, numbers)),
        Run(tr(" for {sure}.", sure=sure)),
        *was,
    )


def lead(plan: Plan, drawn: Finding | None, best: Finding | None, verdict: Verdict, numbers: Numbers) -> str:
    """What it is with and until when, what another count would need, and how it stands to the cheapest route."""
    if drawn is None or best is None or drawn.result is None:
        return ""
    parts = []
    if drawn.males or drawn.females:
        when = tr(", by season {season}", season=drawn.to_goal.season) if drawn.to_goal else ""
        parts.append(
            tr("With {short_group} as drawn{when}.", short_group=short_group(drawn.males, drawn.females), when=when)
        )
    better = best.to_goal is not None and (
        drawn.to_goal is None or best.to_goal.money < drawn.to_goal.money - least_told(drawn.to_goal.money) / 2
    )
    route = next((one for one in plan.routes if one.id == best.id), None)
    if better and best.to_goal and route is not None and best.to_goal.count != drawn_count(route):
        group = short_group(best.males, best.females)
        parts.append(
            tr("With {group} it would need {money}.", group=group, money=sum_of_money(best.to_goal.money, numbers))
        )
    if best.to_goal is None and drawn.to_goal is None and (best.males, best.females) != (drawn.males, drawn.females):
        group = short_group(best.males, best.females)
        parts.append(tr("With {group} it would reach {chance}.", group=group, chance=percent(best.chance, numbers)))
    if verdict.best is not None and verdict.kind in ("won", "close"):
        parts.append(_beside_cheapest(best, verdict, numbers))
    if drawn.noise:
        parts.append(tr("Simulated: its chance is {noise} in 100.", noise=plus_minus(drawn.noise, numbers)))
    return " ".join(part for part in parts if part)


def working_out(one: Finding) -> str:
    """How far an answer is, or the exact one that follows it."""
    share = round(one.share_done * 100)
    if one.early:
        return tr("Simulated so far; exact answer: {share} %", share=share)
    return tr("Working it out: {share} %", share=share)


def described(now: Finding | None, before: Finding | None, numbers: Numbers) -> str:
    """The chart for those who do not see it."""
    parts = []
    for name, one in ((NOW, now), (BEFORE, before)):
        if one is not None and one.result is not None:
            chances = ", ".join(percent(float(chance), numbers) for chance in one.result.chance_by_season)
            parts.append(f"{name}: {chances}")
    return f"{CHANCE}, {'; '.join(parts)}." if parts else ""


def _beside_cheapest(best: Finding, verdict: Verdict, numbers: Numbers) -> str:
    cheapest = verdict.best
    if cheapest is None or cheapest.to_goal is None:
        return ""
    if verdict.kind == "close":
        return tr("It is too close to call which route is cheapest.") if best.to_goal else ""
    if cheapest.id == best.id:
        return tr("It is the cheapest route.")
    return tr(
        "The cheapest is {name} at {money}.", name=cheapest.name, money=sum_of_money(cheapest.to_goal.money, numbers)
    )


def _money(one: Finding, numbers: Numbers) -> str:
    if one.to_goal is None:
        return ""
    if one.money_range is not None and one.money_range[0] < one.money_range[1]:
        low, high = one.money_range
        if high != float("inf"):
            return f"{sum_of_money(low, numbers)}–{sum_of_money(high, numbers)}"
    return sum_of_money(one.to_goal.money, numbers)


def _was(now: Finding, before: Finding | None, numbers: Numbers) -> Runs:
    """What stood there before, where it was something else."""
    if before is None or before.result is None:
        return ()
    if before.to_goal is None:
        most = percent(before.chance, numbers)
        same = now.result is not None and now.to_goal is None and percent(now.chance, numbers) == most
        return () if same else (Run(tr(" Before this edit: {most} at most.", most=most), quiet=True),)
    money = _money(before, numbers)
    same = now.to_goal is not None and _money(now, numbers) == money
    return () if same else (Run(tr(" Before this edit: {money}.", money=money), quiet=True),)

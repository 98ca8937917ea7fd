"""The words of the charts."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.findings import Finding
from desktop.words.numbers import Numbers, percent, price, short_group, sum_of_money

CHEAPEST_HERE = "cheapest"
READ_MONEY, READ_EGGS, READ_SEASON = "with {} set aside", "after {} eggs", "by season {}"
SEASON_UNIT = "season"


def money(value: float, numbers: Numbers) -> str:
    """A sum on the axis."""
    return sum_of_money(value, numbers)


def money_unit(plan: Plan) -> str:
    """What the money axis counts."""
    return f"{plan.currency} set aside"


def eggs_unit(plan: Plan) -> str:
    """What the egg axis counts."""
    return "eggs laid" if plan.species.young == "eggs" else "young born"


def outright(plan: Plan, numbers: Numbers) -> str:
    """The label of the outright price."""
    return f"buy finished {price(plan.goal.outright_price or 0, numbers)}"


def beyond(plan: Plan, numbers: Numbers) -> str:
    """The label of the band beyond the budget."""
    return f"over {price(plan.goal.budget or 0, numbers)}"


def with_and_season(one: Finding) -> tuple[str, ...]:
    """What a crossing takes: `1.2,` over `season 3`."""
    if one.to_goal is None:
        return ()
    group = (f"{short_group(one.males, one.females)},",) if one.males or one.females else ()
    return (*group, f"season {one.to_goal.season}")


def describe_money(plan: Plan, found: tuple[Finding, ...], winner: str | None, numbers: Numbers) -> str:
    """The money chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None:
        return f"Chance by money of {len(found)} routes; no single route is cheapest."
    money_text = sum_of_money(best.to_goal.money, numbers)
    first = f"{best.name} reaches the goal first, with {money_text} {plan.currency}"
    return f"Chance by money of {len(found)} routes: {first}."


def describe_eggs(plan: Plan, found: tuple[Finding, ...], winner: str | None) -> str:
    """The egg chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None or best.to_goal.eggs is None:
        return f"Chance by {eggs_unit(plan)} of {len(found)} routes."
    return f"Chance by {eggs_unit(plan)} of {len(found)} routes: {best.name} needs {best.to_goal.eggs}."


def describe_season(plan: Plan, found: tuple[Finding, ...], winner: str | None) -> str:
    """The season chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None:
        return f"Chance by season of {len(found)} routes over {plan.goal.seasons} seasons."
    return f"Chance by season of {len(found)} routes: {best.name} reaches the goal by season {best.to_goal.season}."


def chance_read(chance: float | None, noise: float | None, numbers: Numbers) -> str:
    """A value in the read-out."""
    if chance is None:
        return "–"
    band = f" ± {numbers.decimal(noise * 100, 1)}" if noise else ""
    return f"{percent(chance, numbers)}{band}"


def _named(found: tuple[Finding, ...], name: str | None) -> Finding | None:
    return next((one for one in found if one.id == name), None)

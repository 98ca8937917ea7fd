"""The words of the charts."""

from __future__ import annotations

from core.plan.model import Plan
from core.text import tr
from desktop.findings import Finding
from desktop.words.numbers import (
    Numbers,
    in_currency,
    listed,
    percent,
    plus_minus,
    price,
    short_group,
    sum_of_money,
    trimmed,
)

CHEAPEST_HERE = tr("cheapest")
SEASON_UNIT = tr("season")
CHANGE_CHANCE = tr("change how sure to be")

AS_TABLE, AS_CHART = tr("As a table"), tr("As a chart")
ZOOM_IN, ZOOM_OUT, WHOLE_CHART = tr("Zoom in"), tr("Zoom out"), tr("Whole chart")
COPY_PICTURE, COPY_TABLE = tr("Copy picture"), tr("Copy table")
SAVE_CHART = {"png": tr("Save as picture…"), "svg": tr("Save as drawing…"), "csv": tr("Save the numbers…")}
HOW_SURE = tr("How sure: the goal's chance in percent")
HOW_SURE_TIP = tr("Drag up or down to change how sure you want to be.")
CHART_TIP = tr(
    "Left and Right read out values. Ctrl and the wheel zoom, and so does the wheel over the "
    "numbers; drag moves a zoomed chart; Shift and drag zoom into a part; a double click shows "
    "the whole chart."
)
OUTDATED = tr("being worked out anew")
# More names than this in a note are counted instead.
_MOST_NAMES = 4


def money(value: float, numbers: Numbers) -> str:
    """A sum on the axis."""
    return sum_of_money(value, numbers)


def money_unit(plan: Plan) -> str:
    """What the money axis counts."""
    return tr("{currency} set aside", currency=plan.currency).strip()


def eggs_unit(plan: Plan) -> str:
    """What the egg axis counts."""
    return tr("eggs laid") if plan.species.young == "eggs" else tr("young born")


def by_eggs(plan: Plan) -> str:
    """What the chart over that axis is called."""
    return tr("Chance by eggs") if plan.species.young == "eggs" else tr("Chance by young")


def outright(plan: Plan, numbers: Numbers) -> str:
    """The label of the outright price."""
    return tr("buy finished {outright_price}", outright_price=price(plan.goal.outright_price or 0, numbers))


def beyond(plan: Plan, numbers: Numbers) -> str:
    """The label of the band beyond the budget."""
    return tr("over {budget}", budget=price(plan.goal.budget or 0, numbers))


def with_and_season(one: Finding) -> tuple[str, ...]:
    """What a crossing takes: `1.2,` over `season 3`."""
    if one.to_goal is None:
        return ()
    group = (f"{short_group(one.males, one.females)},",) if one.males or one.females else ()
    return (*group, tr("season {season}", season=one.to_goal.season))


def describe_money(plan: Plan, found: tuple[Finding, ...], winner: str | None, numbers: Numbers) -> str:
    """The money chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None:
        return tr("Chance by money of {found} routes; no single route is cheapest.", found=len(found))
    money_text = in_currency(sum_of_money(best.to_goal.money, numbers), plan)
    first = tr("{name} reaches the goal first, with {money_text}", name=best.name, money_text=money_text)
    return tr("Chance by money of {found} routes: {first}.", found=len(found), first=first)


def describe_eggs(plan: Plan, found: tuple[Finding, ...], winner: str | None) -> str:
    """The egg chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None or best.to_goal.eggs is None:
        return tr("Chance by {eggs_unit} of {found} routes.", eggs_unit=eggs_unit(plan), found=len(found))
    return tr(
        "Chance by {eggs_unit} of {found} routes: {name} needs {eggs}.",
        eggs_unit=eggs_unit(plan),
        found=len(found),
        name=best.name,
        eggs=best.to_goal.eggs,
    )


def describe_season(plan: Plan, found: tuple[Finding, ...], winner: str | None) -> str:
    """The season chart in one sentence."""
    best = _named(found, winner)
    if best is None or best.to_goal is None:
        return tr(
            "Chance by season of {found} routes over {seasons} seasons.", found=len(found), seasons=plan.goal.seasons
        )
    return tr(
        "Chance by season of {found} routes: {name} reaches the goal by season {season}.",
        found=len(found),
        name=best.name,
        season=best.to_goal.season,
    )


def goal_chance(chance: float, numbers: Numbers) -> str:
    """The goal's chance in its grip."""
    return tr("{number} %", number=trimmed(chance * 100, 2, numbers))


def table_name(head: str) -> str:
    """What the table of a chart is called."""
    return tr("{head}, as a table", head=head)


def read_money(_: float, at: str) -> str:
    """The head of a read-out of money."""
    return tr("with {money} set aside", money=at)


def read_eggs(eggs: float, at: str) -> str:
    """The head of a read-out of eggs: `after 1 egg`, `after 39 eggs`."""
    return tr("after {n} eggs", "after {n} egg", round(eggs), n=at)


def read_young(_: float, at: str) -> str:
    """The same of young."""
    return tr("after {young} young", young=at)


def read_season(_: float, at: str) -> str:
    """The head of a read-out of seasons."""
    return tr("by season {season}", season=at)


def left_out(others: tuple[Finding, ...]) -> str:
    """Which routes there was no room for."""
    if not others:
        return ""
    which = tr("one", "it", len(others))
    return tr("Not drawn: {names}. Choose {which} in the list to draw it.", names=_names(others), which=which)


def simulated(ones: tuple[Finding, ...], most: float, numbers: Numbers) -> str:
    """How far simulated chances may be off."""
    return tr("Simulated, {most} at most: {names}.", most=plus_minus(most, numbers), names=_names(ones)) if ones else ""


def being_redone(ones: tuple[Finding, ...]) -> str:
    """Which curves are the ones from before the last change."""
    if not ones:
        return ""
    return tr("Grey until worked out anew: {names}.", names=_names(ones))


def _names(ones: tuple[Finding, ...]) -> str:
    names = [" ".join(one.name.split()) for one in ones]
    if len(names) > _MOST_NAMES:
        names = [*names[: _MOST_NAMES - 1], tr("{names} more", names=len(names) - _MOST_NAMES + 1)]
    return listed(names)


def chance_read(chance: float | None, noise: float | None, numbers: Numbers) -> str:
    """A value in the read-out."""
    if chance is None:
        return "–"
    band = f" {plus_minus(noise, numbers)}" if noise else ""
    return f"{percent(chance, numbers)}{band}"


def _named(found: tuple[Finding, ...], name: str | None) -> Finding | None:
    return next((one for one in found if one.id == name), None)

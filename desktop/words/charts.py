"""The words of the charts."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.findings import Finding
from desktop.words.numbers import Numbers, listed, percent, plus_minus, price, short_group, sum_of_money

CHEAPEST_HERE = "cheapest"
READ_MONEY, READ_EGGS, READ_SEASON = "with {} set aside", "after {} eggs", "by season {}"
SEASON_UNIT = "season"
CHANGE_CHANCE = "change how sure to be"

AS_TABLE, AS_CHART = "As a table", "As a chart"
ZOOM_IN, ZOOM_OUT, WHOLE_CHART = "Zoom in", "Zoom out", "Whole chart"
COPY_PICTURE, COPY_TABLE = "Copy picture", "Copy table"
SAVE_CHART = {"png": "Save as picture…", "svg": "Save as drawing…", "csv": "Save the numbers…"}
HOW_SURE = "How sure: the goal's chance in percent"
HOW_SURE_TIP = "Drag up or down to change how sure you want to be."
CHART_TIP = (
    "Left and Right read out values. Ctrl and the wheel zoom, and so does the wheel over the numbers; "
    "drag moves a zoomed chart; Shift and drag zoom into a part; a double click shows the whole chart."
)
OUTDATED = "being worked out anew"
# More names than this in a note are counted instead.
_MOST_NAMES = 4


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


def goal_chance(chance: float) -> str:
    """The goal's chance in its grip."""
    return f"{chance * 100:.4g} %"


def table_name(head: str) -> str:
    """What the table of a chart is called."""
    return f"{head}, as a table"


def read_at(picture_words: str, at: str) -> str:
    """The head of a read-out: `after 1 egg`, `after 39 eggs`."""
    said = picture_words.format(at)
    return said.removesuffix("s") if said == READ_EGGS.format("1") else said


def left_out(others: tuple[Finding, ...]) -> str:
    """Which routes there was no room for."""
    if not others:
        return ""
    which = "it" if len(others) == 1 else "one"
    return f"Not drawn: {_names(others)}. Choose {which} in the list to draw it."


def simulated(ones: tuple[Finding, ...], most: float, numbers: Numbers) -> str:
    """How far simulated chances may be off."""
    return f"Simulated, {plus_minus(most, numbers)} at most: {_names(ones)}." if ones else ""


def being_redone(ones: tuple[Finding, ...]) -> str:
    """Which curves are the ones from before the last change."""
    if not ones:
        return ""
    return f"Grey until worked out anew: {_names(ones)}."


def _names(ones: tuple[Finding, ...]) -> str:
    names = [" ".join(one.name.split()) for one in ones]
    if len(names) > _MOST_NAMES:
        names = [*names[: _MOST_NAMES - 1], f"{len(names) - _MOST_NAMES + 1} more"]
    return listed(names)


def chance_read(chance: float | None, noise: float | None, numbers: Numbers) -> str:
    """A value in the read-out."""
    if chance is None:
        return "–"
    band = f" {plus_minus(noise, numbers)}" if noise else ""
    return f"{percent(chance, numbers)}{band}"


def _named(found: tuple[Finding, ...], name: str | None) -> Finding | None:
    return next((one for one in found if one.id == name), None)

"""The columns of the route list, one row each: head, what it says, how it sorts."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from core.plan.model import Plan
from desktop.findings import Finding
from desktop.words import routes as words
from desktop.words.numbers import Numbers

Text = Callable[[Plan, Finding, Numbers], str]
SortKey = Callable[[Finding], float | str]


@dataclass(frozen=True)
class Column:
    """`width` 0 shares what is left; `note` stands small beside the figure; lists below `shown_from` leave it out."""

    head: str
    tip: str
    width: int
    text: Text
    sort: SortKey
    note: Text | None = None
    note_left: bool = False
    numeric: bool = True
    shown_from: int = 0


def _money(one: Finding) -> float:
    return one.to_goal.money if one.to_goal else math.inf


def _season(one: Finding) -> float:
    return one.to_goal.season if one.to_goal else math.inf


def _eggs(one: Finding) -> float:
    return one.to_goal.eggs if one.to_goal and one.to_goal.eggs is not None else math.inf


def _up_front(one: Finding) -> float:
    return one.result.up_front if one.result else math.inf


def _surplus(one: Finding) -> float:
    return one.result.surplus if one.result else math.inf


def _chance(one: Finding) -> float:
    return one.chance if one.state == "answered" else -math.inf


def _head_count(one: Finding) -> float:
    return one.males + one.females


def _name(one: Finding) -> str:
    return one.name.casefold()


def _buys(one: Finding) -> str:
    return one.buys.casefold()


# From this width the page has air for what each route buys.
WIDE = 1500
ROUTE, BUYS, SET_ASIDE, CHANCE = 0, 1, 2, 8
COLUMNS = (
    Column(
        "Route",
        "A way to the goal",
        0,
        lambda _p, f, _n: f.name,
        _name,
        numeric=False,
    ),
    Column(
        "You buy",
        "Animals to buy before the first egg or later",
        0,
        lambda _p, f, _n: f.buys or words.NONE,
        _buys,
        numeric=False,
        shown_from=WIDE,
    ),
    Column(
        "Set aside",
        "Enough for the chance you asked for",
        196,
        words.set_aside,
        _money,
        note=words.set_aside_note,
        note_left=True,
    ),
    Column(
        "Up front",
        "Paid before the first egg",
        96,
        lambda _p, f, n: words.up_front(f, n),
        _up_front,
        shown_from=1200,
    ),
    Column(
        "With",
        "Animals to begin with: 1.2 is one male, two females",
        72,
        lambda _p, f, _n: words.start_group(f),
        _head_count,
    ),
    Column(
        "By season",
        "The season by which the chance you asked for is reached",
        92,
        lambda _p, f, _n: words.season(f),
        _season,
    ),
    Column(
        "Eggs",
        "Eggs laid until the chance you asked for is reached",
        76,
        lambda _p, f, n: words.eggs(f, n),
        _eggs,
        shown_from=1000,
    ),
    Column(
        "Surplus young",
        "Young that are neither wanted nor kept, on average",
        128,
        lambda _p, f, n: words.surplus(f, n),
        _surplus,
        shown_from=1100,
    ),
    Column(
        "Chance by the end",
        "The chance by your last season",
        190,
        lambda _p, f, n: words.chance(f, n),
        _chance,
        note=lambda _p, f, n: words.chance_note(f, n),
    ),
)


def head(plan: Plan, column: int) -> str:
    """A column's head; the chance names the goal's last season."""
    return f"Chance by season {plan.goal.seasons}" if column == CHANCE else COLUMNS[column].head

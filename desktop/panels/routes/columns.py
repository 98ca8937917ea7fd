"""The columns of the route list, one row each: head, what it says, how it sorts, how soon it gives way."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import msgspec

from core.plan.model import Plan
from core.text import tr
from desktop.findings import Finding
from desktop.words import routes as words
from desktop.words.numbers import Numbers

Text = Callable[[Plan, Finding, Numbers], str]
SortKey = Callable[[Finding], float | str]


class Column(msgspec.Struct, frozen=True):
    """`usual`: a text as wide as most; `note` stands small beside the figure, left of it or in its own room.

    Where there is no room for all, those with the highest `gives_way` go first; 0 always stays.
    """

    head: str
    tip: str
    usual: str
    text: Text
    sort: SortKey
    gives_way: int = 0
    note: Text | None = None
    usual_note: str = ""
    note_left: bool = False
    numeric: bool = True


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


def _to_house(one: Finding) -> float:
    return one.result.peak_animals if one.result else math.inf


def _chance(one: Finding) -> float:
    return one.chance if one.state == "answered" else -math.inf


def _with_budget(one: Finding) -> float:
    # The budget is the same for all: the row's own curve is asked when the text is made, the rest is order enough.
    return one.at_budget if one.at_budget is not None else -math.inf


def _inbred(one: Finding) -> float:
    known = [share or 0.0 for share in one.result.inbreeding.values()] if one.result else []
    return max(known, default=0.0)


def _head_count(one: Finding) -> float:
    return one.males + one.females


def _name(one: Finding) -> str:
    return one.name.casefold()


def _buys(one: Finding) -> str:
    return one.buys.casefold()


def _left_empty(_plan: Plan, _one: Finding, _numbers: Numbers) -> str:
    return ""


ROUTE = Column(tr("Route"), tr("A way to the goal"), "", lambda _p, f, _n: words.one_line(f.name), _name, numeric=False)
BUYS = Column(
    tr("You buy"),
    tr("Animals to buy before the first egg or later"),
    tr("1 lavender het amel male, 2 double het females"),
    lambda _p, f, _n: f.buys or words.NONE,
    _buys,
    gives_way=10,
    numeric=False,
)
SET_ASIDE = Column(
    words.SET_ASIDE_HEAD,
    tr("Enough for the chance you asked for"),
    "10,000",
    words.set_aside,
    _money,
    note=words.set_aside_note,
    usual_note=words.OVER_BUDGET,
    note_left=True,
)
CHANCE = Column(
    tr("Chance by season 10"),
    tr("The chance by your last season"),
    "> 99 %",
    lambda _p, f, n: words.chance(f, n),
    _chance,
    gives_way=1,
    note=lambda _p, f, n: words.chance_note(f, n),
    usual_note="± 0.7",
)
WITH_BUDGET = Column(
    tr("Chance with 10,000"),
    tr("The chance with no more than the money you have"),
    "> 99 %",
    lambda _p, f, n: words.chance_with_budget(f, n),
    _with_budget,
    gives_way=8,
)
EGGS = Column(
    tr("Eggs"),
    tr("Eggs laid until the chance you asked for is reached"),
    "1,000",
    lambda _p, f, n: words.eggs(f, n),
    _eggs,
    gives_way=4,
)
# The words come from elsewhere: they take longer than a list may wait.
CAUTIONS = Column(
    tr("Cautions"),
    tr("Something to mind; none of it stops you"),
    tr("Father to daughter, 25 % inbred +3"),
    _left_empty,
    _inbred,
    gives_way=6,
    numeric=False,
)
COLUMNS = (
    ROUTE,
    BUYS,
    SET_ASIDE,
    Column(
        tr("Up front"),
        tr("Paid before the first egg"),
        "10,000",
        lambda _p, f, n: words.up_front(f, n),
        _up_front,
        gives_way=5,
    ),
    Column(
        tr("With"),
        tr("Animals to begin with: 1.2 is one male, two females"),
        "1.20",
        lambda _p, f, _n: words.start_group(f),
        _head_count,
        gives_way=2,
    ),
    Column(
        tr("By season"),
        tr("The season by which the chance you asked for is reached"),
        "10",
        lambda _p, f, _n: words.season(f),
        _season,
        gives_way=3,
    ),
    EGGS,
    CHANCE,
    WITH_BUDGET,
    Column(
        words.TO_HOUSE_HEAD,
        tr("The most animals to keep in one season, on average"),
        "100",
        lambda _p, f, n: words.to_house(f, n),
        _to_house,
        gives_way=9,
    ),
    Column(
        tr("Surplus young"),
        tr("Young that are neither wanted nor kept, on average"),
        "1,000",
        lambda _p, f, n: words.surplus(f, n),
        _surplus,
        gives_way=7,
    ),
    CAUTIONS,
)
ROUTE_AT, SET_ASIDE_AT = COLUMNS.index(ROUTE), COLUMNS.index(SET_ASIDE)


def head(plan: Plan, column: Column, numbers: Numbers) -> str:
    """A column's head; the chances name the goal's last season and the money there is, live-bearers have young."""
    if column is CHANCE:
        return tr("Chance by season {seasons}", seasons=plan.goal.seasons)
    if column is EGGS and plan.species.young == "live":
        return tr("Young")
    return words.with_budget(plan, numbers) if column is WITH_BUDGET else column.head


def tip_of(plan: Plan, column: Column) -> str:
    """What a column says, in a sentence for its tip."""
    if column is EGGS and plan.species.young == "live":
        return tr("Young born until the chance you asked for is reached")
    return column.tip


def fitting(widths: Sequence[float], room: float, *, leave_out: Sequence[Column] = ()) -> tuple[int, ...]:
    """The places of the columns that fit into `room` px, the least important left out first."""
    kept = []
    for place in sorted(range(len(COLUMNS)), key=lambda at: COLUMNS[at].gives_way):
        column = COLUMNS[place]
        if column not in leave_out and (not column.gives_way or widths[place] <= room):
            kept.append(place)
            room -= widths[place]
    return tuple(sorted(kept))

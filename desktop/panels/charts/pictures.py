"""The three charts of a comparison, as pictures: chance by money, by eggs and by season; no Qt."""

from __future__ import annotations

import math

import numpy as np

from core.plan.model import Plan
from core.routes.result import Floats
from desktop.findings import Finding
from desktop.panels.charts.series import Crossing, Emphasis, Picture, Segment, Series, thinned
from desktop.words import charts as words
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers

# Routes that need far more than the cheapest may run out of the picture rather than squeeze it.
_WIDEST = 6.0
_NEARLY_ALL = 0.97


def money_picture(
    plan: Plan, found: tuple[Finding, ...], winner: str | None, selected: str | None, numbers: Numbers
) -> Picture:
    """Chance by money: the best count at each sum, as staircases."""
    series = _money_series(found, winner, selected, numbers)
    goal = plan.goal
    low, high = _money_span(plan, series)
    return Picture(
        tuple(series),
        low,
        high,
        float_chance(goal.chance),
        words.money_unit(plan),
        words.READ_MONEY,
        words.describe_money(plan, found, winner, numbers),
        segments=_segments(series, low, high),
        segments_head=words.CHEAPEST_HERE,
        outright=None if goal.outright_price is None else (float(goal.outright_price), words.outright(plan, numbers)),
        limit=None if goal.budget is None else (float(goal.budget), words.beyond(plan, numbers)),
    )


def _money_series(
    found: tuple[Finding, ...], winner: str | None, selected: str | None, numbers: Numbers
) -> list[Series]:
    series = []
    for one in _answered(found):
        curve = one.result.budget_curve if one.result else None
        if curve is None or not curve.money.size:
            continue
        x, y = thinned(curve.money, curve.chance)
        crossing = None
        if one.to_goal is not None:
            text = words.money(one.to_goal.money, numbers)
            crossing = Crossing(one.to_goal.money, text, words.with_and_season(one))
        series.append(Series(one.id, one.name, one.place, x, y, _emphasis(one, winner, selected), True, None, crossing))
    return series


def eggs_picture(
    plan: Plan, found: tuple[Finding, ...], winner: str | None, selected: str | None, numbers: Numbers
) -> Picture:
    """Chance by eggs, at the count that reaches the goal for least."""
    series = []
    for one in _answered(found):
        if one.result is None or one.result.chance_by_eggs.size < 2:
            continue
        full = one.result.chance_by_eggs
        x, y = thinned(np.arange(full.size, dtype=np.float64), full)
        eggs = one.to_goal.eggs if one.to_goal else None
        crossing = None if eggs is None else Crossing(eggs, numbers.whole(eggs))
        series.append(
            Series(one.id, one.name, one.place, x, y, _emphasis(one, winner, selected), False, _noise(one, y), crossing)
        )
    return Picture(
        tuple(series),
        0.0,
        _eggs_high(series),
        float_chance(plan.goal.chance),
        words.eggs_unit(plan),
        words.READ_EGGS,
        words.describe_eggs(plan, found, winner),
        step=1.0,
    )


def season_picture(
    plan: Plan, found: tuple[Finding, ...], winner: str | None, selected: str | None, numbers: Numbers
) -> Picture:
    """Chance by season, at the count that reaches the goal for least."""
    series = _season_series(plan, found, winner, selected, numbers)
    return Picture(
        tuple(series),
        0.7,
        plan.goal.seasons + 0.3,
        float_chance(plan.goal.chance),
        words.SEASON_UNIT,
        words.READ_SEASON,
        words.describe_season(plan, found, winner),
        step=1.0,
        marked=tuple(float(season) for season in range(1, plan.goal.seasons + 1)),
    )


def _season_series(
    plan: Plan, found: tuple[Finding, ...], winner: str | None, selected: str | None, numbers: Numbers
) -> list[Series]:
    seasons = np.arange(1, plan.goal.seasons + 1, dtype=np.float64)
    series = []
    for one in _answered(found):
        if one.result is None:
            continue
        y = one.result.chance_by_season
        crossing = (
            Crossing(one.to_goal.season, numbers.whole(one.to_goal.season), numbered=False) if one.to_goal else None
        )
        errors = one.result.chance_by_season_se
        noise = None if errors is None else 2 * errors
        series.append(
            Series(one.id, one.name, one.place, seasons, y, _emphasis(one, winner, selected), False, noise, crossing)
        )
    return series


def _answered(found: tuple[Finding, ...]) -> list[Finding]:
    return [one for one in found if one.state == "answered"]


def _emphasis(one: Finding, winner: str | None, selected: str | None) -> Emphasis:
    if one.id == winner:
        return "cheapest"
    return "selected" if one.id == selected else "other"


def _noise(one: Finding, y: Floats) -> Floats | None:
    if one.result is None or one.result.method == "exact" or not one.result.runs:
        return None
    return 2 * np.sqrt(y * (1 - y) / one.result.runs)


def _money_span(plan: Plan, series: list[Series]) -> tuple[float, float]:
    ends = [_end(one) for one in series]
    limits = [float(limit) for limit in (plan.goal.outright_price, plan.goal.budget) if limit is not None]
    if not ends:
        return 0.0, max([*limits, 1.0]) * 1.15
    starts = [float(one.x[int(np.argmax(one.y >= min(0.02, one.y[-1])))]) for one in series]
    high = max([min(max(ends), min(ends) * _WIDEST), *limits])
    low = min(starts)
    room = max(high - low, 1.0)
    return max(0.0, low - room * 0.06), high + room * 0.12


def _eggs_high(series: list[Series]) -> float:
    ends = [_end(one) for one in series]
    return max(min(max(ends), min(ends) * _WIDEST) * 1.12, 10.0) if ends else 100.0


def _end(one: Series) -> float:
    """Where the interesting part of a curve ends: at the goal, else where it has nearly all it will have."""
    if one.crossing is not None:
        return one.crossing.x
    return float(one.x[int(np.argmax(one.y >= one.y[-1] * _NEARLY_ALL))])


def _segments(series: list[Series], low: float, high: float) -> tuple[Segment, ...]:
    """Which route gives the best chance at each sum; of equals the one that needs least for the goal."""
    ranked = sorted(series, key=lambda one: (one.crossing.x if one.crossing else math.inf, one.place))
    edges = np.sort(np.concatenate([one.x[(one.x >= low) & (one.x < high)] for one in ranked] or [np.array([])]))
    if edges.size == 0:
        return ()
    table = np.stack([_values(one, edges) for one in ranked])
    # Differences that no one could see must not flicker between routes.
    best = np.argmax(table >= table.max(axis=0) - 0.001, axis=0)
    turns = [0, *(np.flatnonzero(np.diff(best)) + 1).tolist()]
    ends = [*(float(edges[turn]) for turn in turns[1:]), high]
    return tuple(
        Segment(float(edges[turn]), end, ranked[best[turn]].place, ranked[best[turn]].name)
        for turn, end in zip(turns, ends, strict=True)
        if end > edges[turn]
    )


def _values(one: Series, edges: Floats) -> Floats:
    at = np.searchsorted(one.x, edges, side="right") - 1
    return np.where(at >= 0, one.y[np.maximum(at, 0)], -1.0)

"""The three charts of a comparison, as pictures: chance by money, by eggs and by season; no Qt."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from core.routes.result import Floats, RouteResult
from desktop.findings import Finding
from desktop.panels.charts.cheapest_here import segments
from desktop.panels.charts.placing import round_step
from desktop.panels.charts.series import Crossing, Picture, Series, distinct
from desktop.panels.charts.showing import Showing
from desktop.words import charts as words

Draw = Callable[[Showing], Picture]
# Routes that need far more than the cheapest may run out of the picture rather than squeeze it.
_WIDEST = 6.0
_NEARLY_ALL = 0.97
_MONEY_STOPS = 50
# Cents count below this span.
_WHOLE_MONEY_FROM = 100.0


def money_picture(showing: Showing) -> Picture:
    """Chance by money, at the count that reaches the goal for least, as staircases."""
    series = [_money_series(one, showing) for one in showing.drawn()]
    plan, goal, numbers = showing.plan, showing.plan.goal, showing.numbers
    low, high = showing.span or _money_span(showing, series)
    outright = None if goal.outright_price is None else (float(goal.outright_price), words.outright(plan, numbers))
    limit = None if goal.budget is None else (float(goal.budget), words.beyond(plan, numbers))
    return Picture(
        tuple(series),
        low,
        high,
        showing.chance,
        words.money_unit(plan),
        words.read_money,
        words.describe_money(plan, showing.drawn(), showing.winner, numbers),
        grid=1.0 if high - low >= _WHOLE_MONEY_FROM else 0.01,
        stops=_money_stops(series, low, high, [one[0] for one in (outright, limit) if one]),
        segments=segments(series, low, high),
        segments_head=words.CHEAPEST_HERE,
        outright=outright,
        limit=limit,
        notes=_notes(showing),
    )


def eggs_picture(showing: Showing) -> Picture:
    """Chance by eggs, at the count that reaches the goal for least."""
    series = [
        _eggs_series(one, showing) for one in showing.drawn() if one.result and one.result.chance_by_eggs.size > 1
    ]
    plan = showing.plan
    low, high = showing.span or (0.0, _eggs_high(series))
    return Picture(
        tuple(series),
        low,
        high,
        showing.chance,
        words.eggs_unit(plan),
        words.read_eggs if plan.species.young == "eggs" else words.read_young,
        words.describe_eggs(plan, showing.drawn(), showing.winner),
        stops=np.arange(0.0, high + 1e-9) if series else np.zeros(0),
        notes=_notes(showing),
    )


def season_picture(showing: Showing) -> Picture:
    """Chance by season, at the count that reaches the goal for least."""
    plan = showing.plan
    series = [_season_series(one, showing) for one in showing.drawn()]
    seasons = np.arange(1.0, plan.goal.seasons + 1.0)
    return Picture(
        tuple(series),
        0.7,
        plan.goal.seasons + 0.3,
        showing.chance,
        words.SEASON_UNIT,
        words.read_season,
        words.describe_season(plan, showing.drawn(), showing.winner),
        stops=seasons if series else np.zeros(0),
        marked=tuple(seasons.tolist()),
        notes=_notes(showing),
    )


def _money_series(one: Finding, showing: Showing) -> Series:
    curve = _result(one).chance_by_money
    crossing = None
    if one.to_goal is not None:
        text = words.money(one.to_goal.money, showing.numbers)
        crossing = Crossing(one.to_goal.money, text, words.with_and_season(one))
    return _series(one, showing, curve.money, curve.chance, crossing, is_step=True)


def _eggs_series(one: Finding, showing: Showing) -> Series:
    chance = _result(one).chance_by_eggs
    eggs = one.to_goal.eggs if one.to_goal else None
    crossing = None if eggs is None else Crossing(eggs, showing.numbers.whole(eggs))
    return _series(one, showing, np.arange(chance.size, dtype=np.float64), chance, crossing)


def _season_series(one: Finding, showing: Showing) -> Series:
    chance = _result(one).chance_by_season[: showing.plan.goal.seasons]
    crossing = None
    if one.to_goal is not None and one.to_goal.season <= chance.size:
        crossing = Crossing(one.to_goal.season, showing.numbers.whole(one.to_goal.season), numbered=False)
    return _series(one, showing, np.arange(1.0, chance.size + 1.0), chance, crossing)


def _series(
    one: Finding, showing: Showing, x: Floats, y: Floats, crossing: Crossing | None, *, is_step: bool = False
) -> Series:
    return Series(
        one.id,
        " ".join(one.name.split()),
        one.mark,
        x,
        y,
        showing.emphasis(one),
        is_step,
        _noise(one, y),
        crossing,
        one.id in showing.stale,
    )


def _result(one: Finding) -> RouteResult:
    if one.result is None:
        raise ValueError("only answered routes are drawn")
    return one.result


def _noise(one: Finding, y: Floats) -> Floats | None:
    """Two standard errors of a simulated chance."""
    return None if one.result is None else one.result.noise(y)


def _notes(showing: Showing) -> tuple[str, ...]:
    drawn = showing.drawn()
    noises = [(one, _noise(one, _result(one).chance_by_season)) for one in drawn]
    simulated = [(one, float(np.max(noise))) for one, noise in noises if noise is not None and noise.size]
    most = max((noise for _, noise in simulated), default=0.0)
    return tuple(
        note
        for note in (
            words.being_redone(tuple(one for one in drawn if one.id in showing.stale)),
            words.left_out(showing.left_out()),
            words.simulated(tuple(one for one, _ in simulated), most, showing.numbers),
        )
        if note
    )


def _money_span(showing: Showing, series: list[Series]) -> tuple[float, float]:
    goal = showing.plan.goal
    series = _able(series)
    ends = [_end(one) for one in series]
    limits = [float(limit) for limit in (goal.outright_price, goal.budget) if limit is not None]
    if not ends:
        return 0.0, max([*limits, 1.0]) * 1.15
    starts = [float(one.x[int(np.argmax(one.y >= min(0.02, one.y[-1])))]) for one in series]
    high = max([_high(series), *limits])
    # A goal of a few percent is reached before a curve has left the ground.
    low = min([*starts, *ends])
    room = max(high - low, 1.0)
    return max(0.0, low - room * 0.06), high + room * 0.12


def _money_stops(series: list[Series], low: float, high: float, limits: list[float]) -> Floats:
    """Round sums, and the ones that matter: where routes reach the goal, the budget, the outright price."""
    if not series:
        return np.zeros(0)
    step = round_step((high - low) / _MONEY_STOPS)
    round_sums = np.arange(np.ceil(low / step), np.floor(high / step) + 1) * step
    crossings = [one.crossing.x for one in series if one.crossing]
    stops = distinct(np.concatenate([round_sums, crossings, limits]))
    return stops[(stops >= low) & (stops <= high)]


def _eggs_high(series: list[Series]) -> float:
    able = _able(series)
    return max(_high(able) * 1.12, 10.0) if able else 100.0


def _able(series: list[Series]) -> list[Series]:
    """Those with any chance, as only they have a part of interest; all where none has."""
    return [one for one in series if one.y[-1] > 0] or series


def _high(series: list[Series]) -> float:
    """Up to where curves are of interest; the first that reaches the goal is in sight, whatever others end at."""
    ends = [_end(one) for one in series]
    first = min([one.crossing.x for one in series if one.crossing is not None] or ends)
    return min(max(ends), first * _WIDEST)


def _end(one: Series) -> float:
    """Where the interesting part of a curve ends: at the goal, else where it has nearly all it will have."""
    if one.crossing is not None:
        return one.crossing.x
    return float(one.x[int(np.argmax(one.y >= one.y[-1] * _NEARLY_ALL))])

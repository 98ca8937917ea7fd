"""What matters most: how far the answer moves when each assumption does, and which of them change the winner."""

from __future__ import annotations

import math
from collections.abc import Generator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from msgspec import structs

from core.advice.matters_clutch import clutch_assumption
from core.advice.matters_hets import het_assumptions
from core.advice.matters_ranges import TABLE, Assumption
from core.advice.worth_money import goals_of, least
from core.genetics.compile import compile_genetics
from core.plan.model import Plan
from core.progress import part_of
from core.routes.answer import MONEY_STEP
from core.routes.assemble import SAME
from core.routes.evaluate import Engined, engine_steps

# A value this close to a whole multiple of a step, in steps, is one.
_SLACK = 1e-6
_SAME_CHANCE = 1e-4
# Sixty evaluations of a route with more would take minutes; these tell 80 % to about a point.
MOST_RUNS = 5_000

Side = Literal["below", "above"]


@dataclass(frozen=True)
class Figures:
    """One route under one value: the least money to the goal (None: out of reach), its range where simulated.

    count: that reaches it for this money; season: the first that reaches the goal's chance there; chances: by count of
    the route's scale, of the goal by the horizon.
    """

    money: float | None
    count: int | None
    season: int
    span: tuple[float, float] | None
    chances: Mapping[int | None, float]


@dataclass(frozen=True, eq=False)
class Reply:
    """What every route answers with an assumption at `value`; routes that cannot be worked out are left out.

    cheapest: the id of the route that reaches the goal with the least money, None where none does.
    """

    value: float
    routes: Mapping[str, Figures]
    cheapest: str | None


@dataclass(frozen=True, eq=False)
class Flip:
    """Where the cheapest route changes: from `value` on it is another one, or none; at `last` it is not yet."""

    side: Side
    value: float
    last: float
    winner: str | None
    money: float | None


@dataclass(frozen=True, eq=False)
class Effect:
    """What one assumption does at both ends of its range, and where it changes the winner."""

    assumption: Assumption
    low: Reply
    high: Reply
    flips: tuple[Flip, ...]


@dataclass(frozen=True, eq=False)
class Matters:
    """The answer as the plan stands, and what each assumption does to it, in the order of the table."""

    usual: Reply
    effects: tuple[Effect, ...]


def assumptions(plan: Plan) -> tuple[Assumption, ...]:
    """Everything the plan takes for given that its routes hang on, with ranges; in the order of a form."""
    rows = (row.of(plan) for row in TABLE)
    return (clutch_assumption(plan), *(one for one in rows if one is not None), *het_assumptions(plan))


def matters_steps(plan: Plan) -> Generator[float, None, Matters]:
    """Every assumption at both ends of its range, all routes evaluated; yields the share of the work done.

    Where a far end has another winner, or none, the first value that does so is looked for between the plan's value
    and that end, on whole multiples of the assumption's step; the winner is taken to change once. Inside the noise of
    a simulated answer nobody wins. What is simulated is played no more often than MOST_RUNS, as it is so many times.
    """
    plan = fewer_runs(plan)
    every = assumptions(plan)
    many = 1 + len(every)
    usual = yield from part_of(reply_steps(plan, math.nan), 0, many)
    effects = []
    for done, assumption in enumerate(every, start=1):
        effects.append((yield from part_of(_effect(plan, assumption, usual), done, many)))
    return Matters(usual, tuple(effects))


def fewer_runs(plan: Plan) -> Plan:
    """The plan with no more runs than there is time for at every value."""
    runs = min(plan.simulation.runs, MOST_RUNS)
    return structs.replace(plan, simulation=structs.replace(plan.simulation, runs=runs))


def ranked(matters: Matters, route: str) -> tuple[tuple[Effect, ...], tuple[Effect, ...]]:
    """The assumptions that a route's money or chance hangs on, or the winner, most money first; and all others.

    Where the goal falls out of reach counts for more than any money, and there the chance decides.
    """
    count = matters.usual.routes[route].count if route in matters.usual.routes else None
    sized = [(_size(effect, route, count), effect) for effect in matters.effects]
    moving = [(size, effect) for size, effect in sized if max(size) > 0 or effect.flips]
    moving.sort(key=_by_size)
    idle = tuple(effect for size, effect in sized if not (max(size) > 0 or effect.flips))
    return tuple(effect for _, effect in moving), idle


def _size(effect: Effect, route: str, count: int | None) -> tuple[float, float]:
    """How far money and chance of a route lie apart between the ends; nothing for less than can be told."""
    low, high = effect.low.routes.get(route), effect.high.routes.get(route)
    if low is None or high is None:
        return 0.0, 0.0
    sums = [math.inf if one.money is None else one.money for one in (low, high)]
    money = 0.0 if sums[0] == sums[1] else abs(sums[0] - sums[1])
    chance = abs(chance_at(low, count) - chance_at(high, count))
    return money if money > MONEY_STEP * min(sums) else 0.0, chance if chance > _SAME_CHANCE else 0.0


def _by_size(sized: tuple[tuple[float, float], Effect]) -> tuple[float, float]:
    return -sized[0][0], -sized[0][1]


def chance_at(figures: Figures, count: int | None) -> float:
    """The chance at a count; the best there is where that count was not tried."""
    return figures.chances.get(count, max(figures.chances.values(), default=0.0))


def reply_steps(plan: Plan, value: float) -> Generator[float, None, Reply]:
    """What every route of a plan answers; `value`: of the assumption that was changed."""
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    found: dict[str, Figures] = {}
    for done, route in enumerate(plan.routes):
        try:
            said = yield from part_of(engine_steps(plan, route, genetics), done, len(plan.routes))
        except ValueError:
            continue
        found[route.id] = _figures(plan, said)
    able = [
        (one.money, one.season, place, id_) for place, (id_, one) in enumerate(found.items()) if one.money is not None
    ]
    return Reply(value, found, min(able)[3] if able else None)


def _figures(plan: Plan, said: Engined) -> Figures:
    goals, scaled = goals_of(plan), said.scaled
    money, count = least(scaled, goals.usual)
    span = None if said.played is None else (least(scaled, goals.low)[0], least(scaled, goals.high)[0])
    chances = {counted.count: min(1.0, float(counted.answer.chance[-1])) for counted in scaled}
    if math.isinf(money):
        return Figures(None, None, 0, span, chances)
    best = next(counted for counted in scaled if counted.count == count)
    season = int(np.argmax(best.answer.chance >= goals.usual - SAME)) + 1
    return Figures(money, count, season, span, chances)


def _effect(plan: Plan, assumption: Assumption, usual: Reply) -> Generator[float, None, Effect]:
    ends: list[Reply] = []
    flips: list[Flip] = []
    sides: tuple[tuple[Side, float], ...] = (("below", assumption.low), ("above", assumption.high))
    for place, (side, end) in enumerate(sides):
        if end == assumption.usual:
            ends.append(replace(usual, value=end))
            continue
        reply = yield from part_of(_reply(plan, assumption, end), 2 * place, 4)
        ends.append(reply)
        if beaten(usual.cheapest, reply):
            flips.append((yield from part_of(_flip(plan, assumption, usual, side, reply), 2 * place + 1, 4)))
    return Effect(assumption, ends[0], ends[1], tuple(flips))


def _reply(plan: Plan, assumption: Assumption, value: float) -> Generator[float, None, Reply]:
    return reply_steps(assumption.put(plan, value), value)


def _flip(plan: Plan, assumption: Assumption, usual: Reply, side: Side, end: Reply) -> Generator[float, None, Flip]:
    """The first value on the way to an end where the winner is another one, halving what lies between."""
    values = steps_between(assumption, end.value)
    low, high, found, rounds = 0, len(values), end, 0
    while low < high:
        middle = (low + high) // 2
        reply = yield from part_of(_reply(plan, assumption, values[middle]), rounds, len(values).bit_length())
        rounds += 1
        if beaten(usual.cheapest, reply):
            high, found = middle, reply
        else:
            low = middle + 1
    last = values[low - 1] if low else assumption.usual
    money = found.routes[found.cheapest].money if found.cheapest else None
    return Flip(side, found.value, last, found.cheapest, money)


def steps_between(assumption: Assumption, end: float) -> list[float]:
    """Whole multiples of the step strictly between the plan's value and an end, nearest to the plan's value first."""
    step, usual = assumption.step, assumption.usual
    low, high = sorted((usual, end))
    first, last = math.floor(low / step + _SLACK) + 1, math.ceil(high / step - _SLACK) - 1
    values = [round(number * step, 9) for number in range(first, last + 1)]
    return values if end > usual else values[::-1]


def beaten(winner: str | None, reply: Reply) -> bool:
    """Whether somebody else, or nobody, is cheapest now, beyond the noise of simulated answers."""
    if reply.cheapest == winner:
        return False
    old = reply.routes.get(winner) if winner is not None else None
    if old is None:
        return True
    if reply.cheapest is None:
        return old.span is None or math.isinf(old.span[0])
    new = reply.routes[reply.cheapest]
    if old.span is None and new.span is None:
        return True
    return _end(new, 1) < _end(old, 0)


def _end(figures: Figures, which: int) -> float:
    if figures.span is not None:
        return figures.span[which]
    return math.inf if figures.money is None else figures.money

"""Every assumption at both ends of its range, and where it changes the winner: the plan evaluated again and again.

A first answer takes the winner to change once at most on the way to an end (`matters_steps`); what is told in the
end has tried every value on the way (`sure_steps`).
"""

from __future__ import annotations

import math
from collections.abc import Generator, Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np
from msgspec import structs

from core.advice.matters import Effect, Figures, Flip, Matters, Reply, Side
from core.advice.matters_clutch import clutch_assumption
from core.advice.matters_hets import het_assumptions
from core.advice.matters_ranges import Assumption, with_range
from core.advice.matters_table import TABLE
from core.advice.worth_money import goals_of, least
from core.genetics.compile import compile_genetics
from core.plan.model import Plan
from core.progress import part_of
from core.routes.assemble import SAME
from core.routes.evaluate import Engined, engine_steps
from core.routes.unanswerable import UNANSWERABLE

# A value this close to a whole multiple of a step, in steps, is one.
_SLACK = 1e-6
# Sixty evaluations of a route with more would take minutes; these tell 80 % to about a point.
MOST_RUNS = 5_000
# Ranges of the person's own, by the key of the assumption.
Ranges = Mapping[str, tuple[float, float]]


def assumptions(plan: Plan, own: Ranges = MappingProxyType({})) -> tuple[Assumption, ...]:
    """Everything the plan takes for given that its routes hang on, with ranges; in the order of a form.

    own: ranges of the person's own; one that cannot be in this plan is left out.
    """
    rows = (row.of(plan) for row in TABLE)
    every = (clutch_assumption(plan), *(one for one in rows if one is not None), *het_assumptions(plan))
    return tuple((one.key in own and with_range(plan, one, *own[one.key])) or one for one in every)


def matters_steps(plan: Plan, own: Ranges = MappingProxyType({})) -> Generator[float, None, Matters]:
    """Every assumption at both ends of its range, all routes evaluated; yields the share of the work done.

    Where a far end has another winner, or none, the first value that does so is looked for between the plan's value
    and that end, on whole multiples of the assumption's step; the winner is taken to change once. Inside the noise of
    a simulated answer nobody wins. What is simulated is played no more often than MOST_RUNS, as it is so many times.
    """
    plan = fewer_runs(plan)
    every = assumptions(plan, own)
    many = 1 + len(every)
    usual = yield from part_of(reply_steps(plan, math.nan), 0, many)
    effects = []
    for done, assumption in enumerate(every, start=1):
        effects.append((yield from part_of(_effect(plan, assumption, usual), done, many)))
    return Matters(usual, tuple(effects))


def again_steps(plan: Plan, matters: Matters, assumption: Assumption) -> Generator[float, None, Matters]:
    """The same answer with one assumption over another range; yields the share of the work done."""
    effect = yield from _effect(fewer_runs(plan), assumption, matters.usual)
    return Matters(
        matters.usual, tuple(effect if one.assumption.key == assumption.key else one for one in matters.effects)
    )


def fewer_runs(plan: Plan) -> Plan:
    """The plan with no more runs than there is time for at every value."""
    runs = min(plan.simulation.runs, MOST_RUNS)
    return structs.replace(plan, simulation=structs.replace(plan.simulation, runs=runs))


def reply_steps(plan: Plan, value: float) -> Generator[float, None, Reply]:
    """What every route of a plan answers; `value`: of the assumption that was changed."""
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    found: dict[str, Figures] = {}
    for done, route in enumerate(plan.routes):
        try:
            said = yield from part_of(engine_steps(plan, route, genetics, bare=True), done, len(plan.routes))
        except UNANSWERABLE:
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
    return _flip_at(side, found, last, end, stays=found.cheapest == end.cheapest)


def _flip_at(side: Side, found: Reply, last: float, end: Reply, *, stays: bool) -> Flip:
    money = found.routes[found.cheapest].money if found.cheapest else None
    return Flip(side, found.value, last, found.cheapest, money, end.cheapest, stays)


def sure_steps(plan: Plan, matters: Matters) -> Generator[float, None, Matters]:
    """The same answer with every value on the way to both ends tried; yields the share of the work done.

    plan: the one that `matters` is about. Effects that are sure already stay as they are.
    """
    plan = fewer_runs(plan)
    effects = []
    for done, effect in enumerate(matters.effects):
        if not effect.sure:
            effect = yield from part_of(_sure_effect(plan, matters.usual, effect), done, len(matters.effects))
        effects.append(effect)
    return Matters(matters.usual, tuple(effects))


def _sure_effect(plan: Plan, usual: Reply, effect: Effect) -> Generator[float, None, Effect]:
    flips: list[Flip] = []
    sides: tuple[tuple[Side, Reply], ...] = (("below", effect.low), ("above", effect.high))
    for place, (side, end) in enumerate(sides):
        if end.value != effect.assumption.usual:
            found = yield from part_of(_first_flip(plan, effect.assumption, usual, side, end), place, len(sides))
            flips += [found] if found is not None else []
    return replace(effect, flips=tuple(flips), sure=True)


def _first_flip(
    plan: Plan, assumption: Assumption, usual: Reply, side: Side, end: Reply
) -> Generator[float, None, Flip | None]:
    """The first value on the way to an end where the winner is another one, every value tried; None where none is."""
    values = steps_between(assumption, end.value)
    tried = []
    for done, value in enumerate(values):
        tried.append((yield from part_of(_reply(plan, assumption, value), done, len(values))))
    tried.append(end)
    at = next((place for place, reply in enumerate(tried) if beaten(usual.cheapest, reply)), None)
    if at is None:
        return None
    found = tried[at]
    last = tried[at - 1].value if at else assumption.usual
    return _flip_at(side, found, last, end, stays=all(reply.cheapest == found.cheapest for reply in tried[at:]))


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

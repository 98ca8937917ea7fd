"""What the goal line's fields hold: one row a field, from which its name, its reading and its refusal come."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import msgspec

from core.plan.model import Goal, Plan
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, price

# A value as the plan holds it; None: the field was left empty.
Value = int | float | None


@dataclass(frozen=True)
class GoalField:
    """One field: where it stands in the plan, how it reads, and how a typed number is put in."""

    place: str
    name: str
    step: str
    show: Callable[[Plan, Numbers], str]
    put: Callable[[Goal, Value], Goal]
    whole: bool
    may_be_empty: bool = False


def _share(plan: Plan, numbers: Numbers) -> str:
    share = float_chance(plan.goal.chance) * 100
    return numbers.whole(round(share)) if abs(share - round(share)) < 1e-6 else numbers.decimal(share, 1)


def _put_share(goal: Goal, value: Value) -> Goal:
    # Hundredths of whole percents are exact as decimals; more places than the field shows are not kept.
    return msgspec.structs.replace(goal, chance=round((value or 0) / 100, 6))


def _put_count(goal: Goal, value: Value) -> Goal:
    first, *others = goal.want
    return msgspec.structs.replace(goal, want=(msgspec.structs.replace(first, count=value), *others))


COUNT = GoalField(
    place="goal.want[0].count",
    name="How many animals you want",
    step="change how many are wanted",
    show=lambda plan, numbers: numbers.whole(plan.goal.want[0].count),
    put=_put_count,
    whole=True,
)
SURE = GoalField(
    place="goal.chance",
    name="How sure you want to be, in percent",
    step="change how sure to be",
    show=_share,
    put=_put_share,
    whole=False,
)
SEASONS = GoalField(
    place="goal.seasons",
    name="Within how many seasons",
    step="change the seasons",
    show=lambda plan, numbers: numbers.whole(plan.goal.seasons),
    put=lambda goal, value: msgspec.structs.replace(goal, seasons=value),
    whole=True,
)
BUDGET = GoalField(
    place="goal.budget",
    name="The most money you have; empty for no limit",
    step="change the money there is",
    show=lambda plan, numbers: "" if plan.goal.budget is None else price(plan.goal.budget, numbers),
    put=lambda goal, value: msgspec.structs.replace(goal, budget=value),
    whole=False,
    may_be_empty=True,
)


def edited(plan: Plan, field: GoalField, value: Value) -> Plan:
    """The plan with another value in this field."""
    return msgspec.structs.replace(plan, goal=field.put(plan.goal, value))


def with_sex(plan: Plan, sex: str) -> Plan:
    """The plan with another sex wanted in the first row."""
    first, *others = plan.goal.want
    want = (msgspec.structs.replace(first, sex=sex), *others)
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=want))

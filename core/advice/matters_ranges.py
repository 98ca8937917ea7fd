"""Something a plan takes for given, and how far it may plausibly be off; with the reason and what that stands on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import replace as changed
from typing import Literal

from core.plan.check import check_plan
from core.plan.model import Plan

# What a range stands on: common practice, without a source; the plan's own clutch records; what a trade word can mean;
# what the person says.
Standing = Literal["common practice", "your own records", "what the word can mean", "your own range"]
# How a value is said. `times`: as a share of what the plan says.
Unit = Literal["laid", "chance", "times", "seasons", "females", "clutches"]
Read = Callable[[Plan], float | None]
Put = Callable[[Plan, float], Plan]

# A chance that is not nothing stays so.
_LEAST_CHANCE = 0.05


@dataclass(frozen=True, eq=False)
class Assumption:
    """Something the plan takes for given, and how far it may be off.

    usual: its value in the plan, low..high: the range around it; step: how closely a value that changes the winner is
    told; why: the reason for the range; put: the plan with another value.
    """

    key: str
    name: str
    unit: Unit
    usual: float
    low: float
    high: float
    step: float
    why: str
    standing: Standing
    put: Put


def with_range(plan: Plan, assumption: Assumption, low: float, high: float) -> Assumption | None:
    """The assumption over a range of the person's own; None where it leaves out the plan's value, or cannot be."""
    if not 0 <= low <= assumption.usual <= high or low == high:
        return None
    own = changed(assumption, low=low, high=high, standing="your own range")
    ends = (own.put(plan, end) for end in (low, high))
    return None if any(check_plan(end) for end in ends) else own


@dataclass(frozen=True)
class Row:
    """A row of the table; `below`, `above`: how far a value may be off, in its own unit.

    read: the value in a plan, None where it has no say; born: the name where young are born alive.
    """

    key: str
    name: str
    unit: Unit
    below: float
    above: float
    step: float
    why: str
    read: Read
    put: Put
    born: str = ""

    def of(self, plan: Plan) -> Assumption | None:
        """The assumption this is in a plan; None where it has no say."""
        usual = self.read(plan)
        if usual is None:
            return None
        low, high = usual - self.below, usual + self.above
        if self.unit == "chance":
            least = 0.0 if self.key == "clutch_lost" else min(usual, _LEAST_CHANCE)
            low, high = max(low, least), min(high, 1.0)
        elif self.unit != "times":
            low = max(low, 1.0)
            if check_plan(self.put(plan, high)):
                # More than a plan may say.
                high = usual
        if low == high:
            return None
        name = self.born if self.born and plan.species.young == "live" else self.name
        return Assumption(self.key, name, self.unit, usual, low, high, self.step, self.why, "common practice", self.put)

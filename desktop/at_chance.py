"""What known answers come to at another chance: the curves stay, only where they reach the goal moves; no Qt."""

from __future__ import annotations

import math
from collections.abc import Collection

import numpy as np
from msgspec.structs import replace

from core.routes.result import Floats, RouteResult, ToGoal
from desktop.findings import Finding

_SLACK = 1e-12


def at_chance(found: tuple[Finding, ...], chance: float, only: Collection[str] | None = None) -> tuple[Finding, ...]:
    """The findings for a goal of `chance`, each route at the counts it was last worked out for; `only` those ids."""
    return tuple(_at(one, chance) if only is None or one.id in only else one for one in found)


def _at(one: Finding, chance: float) -> Finding:
    if one.result is None:
        return one
    count = one.to_goal.count if one.to_goal else None
    reached = reach(one.result, chance, count)
    return replace(one, to_goal=reached, money_range=_money_range(one.result, chance) if reached else None)


def reach(result: RouteResult, chance: float, count: int | None) -> ToGoal | None:
    """Where the curves of one result reach `chance`; None where they never do."""
    curve = result.chance_by_money
    at = _first(curve.chance, chance)
    season = _first(result.chance_by_season, chance)
    if at is None or season is None:
        return None
    eggs = _first(result.chance_by_eggs, chance)
    return ToGoal(count, float(curve.money[at]), season + 1, eggs, float(curve.chance[at]))


def _money_range(result: RouteResult, chance: float) -> tuple[float, float] | None:
    noise = result.noise(chance)
    if noise is None:
        return None
    low, high = (_money(result, chance + sign * float(noise)) for sign in (-1, 1))
    return low, high


def _money(result: RouteResult, chance: float) -> float:
    at = _first(result.chance_by_money.chance, chance)
    return math.inf if at is None else float(result.chance_by_money.money[at])


def _first(rising: Floats, chance: float) -> int | None:
    at = np.flatnonzero(rising >= chance - _SLACK)
    return int(at[0]) if at.size else None

"""Single values of a plan by their place, as faults name it: `species.breeds.male`, `for_sale[3].price`."""

from __future__ import annotations

import re
from typing import Any

import msgspec

from core.plan.model import Plan

_STEP = re.compile(r"([A-Za-z_]\w*)|\[(\d+)\]")


def value_at(plan: Plan, place: str) -> Any:
    """Give the value at a place. Raises LookupError or AttributeError where the plan has no such place."""
    value: Any = plan
    for step in _steps(place):
        value = value[step] if isinstance(step, int) else getattr(value, step)
    return value


def with_value(plan: Plan, place: str, value: object) -> Plan:
    """Give the plan with another value at a place; nothing is checked. Raises like `value_at`."""
    changed = _put(plan, _steps(place), value)
    assert isinstance(changed, Plan)
    return changed


def _steps(place: str) -> list[int | str]:
    return [int(found[2]) if found[2] else found[1] for found in _STEP.finditer(place)]


def _put(part: Any, steps: list[int | str], value: object) -> Any:
    if not steps:
        return value
    first, *rest = steps
    if isinstance(first, int):
        return (*part[:first], _put(part[first], rest, value), *part[first + 1 :])
    return msgspec.structs.replace(part, **{first: _put(getattr(part, first), rest, value)})

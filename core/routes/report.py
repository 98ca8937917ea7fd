"""A comparison as the JSON that `evaluate` prints."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np

from core.routes.result import Comparison, RouteResult

_SIMULATED_ONLY = ("runs", "seed", "chance_by_season_se")
# For a window beside the counts as drawn; the plan file's `evaluate` knows nothing of it.
_NOT_TOLD = ("at_cheapest",)


def as_json(comparison: Comparison) -> dict[str, Any]:
    """Everything an evaluation reports, as plain JSON values."""
    return {"routes": [route_json(route) for route in comparison.routes], "cheapest": comparison.cheapest}


def route_json(route: RouteResult) -> dict[str, Any]:
    """One route's result as plain JSON values."""
    left_out = (*_NOT_TOLD, *(_SIMULATED_ONLY if route.method == "exact" else ()))
    return {field.name: _plain(getattr(route, field.name)) for field in fields(route) if field.name not in left_out}


def _plain(value: Any) -> Any:
    if isinstance(value, np.ndarray):
        return value.tolist()
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value

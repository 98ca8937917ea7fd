"""Which counts a route is tried with."""

from __future__ import annotations

from core.plan.model import Bought, Route, Scale

DEFAULT_COUNTS = (1, 2, 3, 4, 5, 6, 7, 8)


def scale_of(route: Route) -> Scale | None:
    """Give a route's own scale, else 1 to 8 of its first bought female group; None: as drawn only."""
    if route.scale is not None:
        return route.scale
    for group in route.groups:
        if isinstance(group, Bought) and group.sex == "female":
            return Scale(groups=(group.id,), counts=DEFAULT_COUNTS)
    return None

"""Engines that a helper takes over into its process; no Qt is loaded with them."""

from __future__ import annotations

import os
import sys
from collections.abc import Generator

from core.plan.model import Plan, Route
from core.progress import Long
from core.routes.result import RouteResult
from desktop.evaluation import Engine, core_engine


def without_qt() -> Engine:
    """The program's own, and a fault where Qt is loaded."""
    return _without_qt


def failing() -> Engine:
    """One that fails at whatever it is asked."""
    return _failing


def ending() -> Engine:
    """One that takes its process along."""
    return _ending


def endless() -> Engine:
    """One that comes to no end with a plan that is called endless."""
    return _endless


def _without_qt(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
    if any(name.startswith(("PySide6", "pyqtgraph")) for name in sys.modules):
        raise ValueError("Qt is loaded")
    return (yield from core_engine()(plan, route))


def _failing(_plan: Plan, _route: Route) -> Generator[float, None, RouteResult]:
    yield 0.0
    raise ValueError("no answer from there")


def _ending(_plan: Plan, _route: Route) -> Generator[float, None, RouteResult]:
    yield 0.0
    os._exit(1)


def _endless(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
    while plan.title == "endless":
        yield 0.0
    return (yield from core_engine()(plan, route))


def slow() -> Engine:
    """One that is told at once that it takes long."""
    return _slow


def _slow(plan: Plan, route: Route) -> Generator[float, None, RouteResult]:
    yield Long(0.0)
    return (yield from core_engine()(plan, route))

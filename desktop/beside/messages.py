"""What the window's process and its helper say to each other; both run the same program, and nobody else is heard."""

from __future__ import annotations

import msgspec

from core.plan.model import Plan
from desktop.evaluation import RouteAnswer, Underway


class Asked(msgspec.Struct, frozen=True):
    """A route that is to be worked out; `plan` is None where it is the one of the question before."""

    plan: Plan | None
    route: str


class Replied(msgspec.Struct, frozen=True):
    """News of a question: every one ends with an answer that is not early, or with None where there is none to be had.

    remembered: whether the helper can tell the route again at other prices.
    """

    step: RouteAnswer | Underway | None
    remembered: bool = False


class Ready(msgspec.Struct, frozen=True):
    """The helper has loaded what it needs."""


# Said to a helper at work: nobody waits for that answer any more.
GIVE_UP = None

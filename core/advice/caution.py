"""One thing to mind, as a value with plain sentences: the window, cards and prints all use these words."""

from __future__ import annotations

from typing import Literal

import msgspec

from core.plan.model import Plan

Kind = Literal[
    "inbreeding", "every season", "young breeders", "male load", "idle females", "one male", "already the goal",
    "ideal risks", "surplus", "housing", "lethal", "health", "health of the goal",
]  # fmt: skip

# About the animals wanted themselves, whatever the routes.
OF_GOAL: Kind = "health of the goal"


class Caution(msgspec.Struct, frozen=True):
    """Something to mind. It never stops anybody.

    `key` is what a plan keeps once the caution was read; `route` is None where the whole plan is meant. `short` fits a
    list, `sentence` says it, `why` gives the reason, and `source` who says so ("" where it follows from the plan).
    """

    key: str
    kind: Kind
    route: str | None
    short: str
    sentence: str
    why: str
    source: str = ""


def caution_key(kind: Kind, *parts: str) -> str:
    """The key of a caution about these ids; ids hold no slash."""
    return "/".join((kind.replace(" ", "-"), *parts))


def is_read(plan: Plan, caution: Caution) -> bool:
    """Whether the person marked it as read in this plan."""
    return caution.key in plan.cautions_read

"""How far a plan has come on the way to its first answer; no Qt."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

import msgspec

from core.plan.model import Plan

Topic = Literal["want", "mine", "sale", "routes"]
TOPICS: tuple[Topic, ...] = ("want", "mine", "sale", "routes")
State = Literal["done", "left out", "next", "later"]
# What may be left out: whoever owns nothing buys, and whoever owns enough buys nothing.
LISTS: tuple[Topic, ...] = ("mine", "sale")


class Step(msgspec.Struct, frozen=True):
    """One of the four steps, and whether it is the one to take now."""

    topic: Topic
    state: State


def steps(plan: Plan, left_out: Collection[Topic] = ()) -> tuple[Step, ...]:
    """The steps in order; the first that is neither done nor left out is the next one."""
    found: list[Step] = []
    for topic in TOPICS:
        if is_done(plan, topic):
            state: State = "done"
        elif topic in left_out:
            state = "left out"
        else:
            state = "later" if any(one.state == "next" for one in found) else "next"
        found.append(Step(topic, state))
    return tuple(found)


def is_done(plan: Plan, topic: Topic) -> bool:
    """Whether the plan says enough about it for a first answer."""
    if topic == "want":
        return has_species(plan) and bool(plan.genes) and all(want.forms for want in plan.goal.want)
    return bool({"mine": plan.my_animals, "sale": plan.for_sale, "routes": plan.routes}[topic])


def can_draw(plan: Plan) -> bool:
    """Whether there is anything that a route could be drawn from."""
    return is_done(plan, "want") and bool(plan.my_animals or plan.for_sale or plan.goal.outright_price is not None)


def can_find(plan: Plan) -> bool:
    """Whether there is anything that routes could be found from: more than the price of the finished animal."""
    return is_done(plan, "want") and bool(plan.my_animals or plan.for_sale)


def has_species(plan: Plan) -> bool:
    """Whether the species is more than the placeholder of an empty plan."""
    return bool(plan.species.name.strip())


def section_for(topic: str, plan: Plan) -> str:
    """The part of the assumptions in which a step is taken: what is wanted needs a species and its genes first."""
    if topic != "want":
        return topic
    if not has_species(plan):
        return "species"
    return "wanted" if plan.genes else "genes"

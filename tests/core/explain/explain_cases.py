"""Small plans to explain, and generators run to their end."""

from __future__ import annotations

import json
from typing import Any, TypeVar

from core.explain.ladder import Ladder, ladder_steps
from core.explain.why import Why, season_to_explain, why_steps
from core.plan.model import Plan
from core.plan.read import read_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route

Json = dict[str, Any]
Got = TypeVar("Got")

A_B = [
    {"id": name, "name": name.upper(), "alleles": [name], "forms": {f"{name}/{name}": f"{name}-form"}} for name in "ab"
]
BOTH = {"a": "a-form", "b": "b-form"}
BOTH_WANTED = [{"forms": BOTH}]
DOUBLE_HET = {"a": "a/+", "b": "b/+"}
HALF_HET = {"a": "a/a", "b": {"b/+": "1/2", "+/+": "1/2"}}


def bought(name: str, sex: str, count: int, carries: Json, **more: Any) -> Json:
    return {"id": name, "sex": sex, "count": count, "carries": carries, "origin": "buy", "price": 100} | more


def held(name: str, count: int, pick: list[Json], source: str = "first", sex: str = "female") -> Json:
    return {"id": name, "sex": sex, "count": count, "origin": "hold", "from": [source], "pick": pick}


def pairing(name: str, male: str, female: str, seasons: list[int | None] | None = None) -> Json:
    return {"id": name, "males": [male], "females": [female], "seasons": seasons or [None, None]}


def plan_of(
    groups: list[Json],
    pairings: list[Json],
    *,
    genes: list[Json] | None = None,
    want: list[Json] | None = None,
    eggs: Any = 6,
    seasons: int = 1,
    linkage: list[Json] | None = None,
    sex_system: str = "ZW",
    **species: Any,
) -> Plan:
    """One route at its counts as drawn; `eggs`: of a clutch."""
    clutch = {"fixed": eggs} if isinstance(eggs, int) else eggs
    told = {"name": "Test", "sex_system": sex_system, "clutch": clutch, "matures": {"male": 1, "female": 2}}
    return read_plan(
        json.dumps(
            {
                "format": "pairwright-plan",
                "version": 1,
                "title": "To explain",
                "currency": "USD",
                "genes": genes or A_B,
                "linkage": linkage or [],
                "species": told | {"females_per_male": 99} | species,
                "goal": {"want": want or BOTH_WANTED, "chance": 0.8, "seasons": seasons},
                "routes": [{"id": "r", "name": "Route", "groups": groups, "pairings": pairings}],
            }
        ).encode()
    )


def pair_plan(sire: Json, dam: Json, *, dams: int = 1, **more: Any) -> Plan:
    """One bought male with some bought females."""
    groups = [bought("sire", "male", 1, sire), bought("dams", "female", dams, dam)]
    return plan_of(groups, [pairing("first", "sire", "dams")], **more)


def back_plan(*, daughters: int = 4, **more: Any) -> Plan:
    """A double het sire over visual dams, their visual daughters back to him."""
    groups = [
        bought("sire", "male", 1, DOUBLE_HET),
        bought("dams", "female", 2, {"a": "a/a"}),
        held("daughters", daughters, [{"a": "a-form"}]),
    ]
    pairings = [pairing("first", "sire", "dams", [1, 1]), pairing("back", "sire", "daughters")]
    return plan_of(groups, pairings, **({"seasons": 5} | more))


def chance_of(plan: Plan) -> Any:
    """The chance by season of the plan's route."""
    return evaluate_route(plan, plan.routes[0]).chance_by_season


def ladder_of(plan: Plan, *, from_end: bool = False) -> Ladder:
    route = plan.routes[0]
    return finished(ladder_steps(plan, route, evaluate_route(plan, route), from_end=from_end))


def why_of(plan: Plan, season: int | None = None, *, from_end: bool = False) -> Why:
    route = plan.routes[0]
    when = season or season_to_explain(plan, route)
    return finished(why_steps(plan, route, evaluate_route(plan, route), when, from_end=from_end))

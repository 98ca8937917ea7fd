"""Small plans for cautions, invented for these tests."""

from __future__ import annotations

import json
from typing import Any

from core.advice.caution import Caution
from core.advice.cautions import plan_cautions, route_cautions
from core.plan.model import Plan
from core.plan.read import read_plan
from core.routes.evaluate import evaluate_route

Json = dict[str, Any]
DOUBLE_HET = {"amel": "a/+", "lav": "l/+"}


def plan(**parts: Any) -> Json:
    """A plan whose risks all stand at a real value; `species`, `goal` and `costs` are added to, the rest replaces."""
    whole: Json = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Invented for tests",
        "currency": "USD",
        "genes": [
            {"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amel"}},
            {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}},
        ],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"fixed": 6},
            "matures": {"male": 1, "female": 1},
            "lays": 0.9,
            "clutch_lost": 0.1,
            "fertile": 0.9,
            "hatches": 0.9,
            "breeds": {"male": 0.9, "female": 0.9},
            "reaches_breeding": 0.9,
        },
        "goal": {"want": [{"forms": {"amel": "amel", "lav": "lavender"}}], "chance": 0.8, "seasons": 4},
        "simulation": {"runs": 200, "seed": 1},
    }
    for key, value in parts.items():
        whole[key] = {**whole[key], **value} if key in ("species", "goal") else value
    return whole


def bought(name: str, sex: str, count: int = 1, **more: Any) -> Json:
    """A bought group of double hets."""
    return {"id": name, "sex": sex, "count": count, "carries": DOUBLE_HET, "origin": "buy", "price": 100, **more}


def held(name: str, sex: str, source: str, count: int = 1, **more: Any) -> Json:
    """A group held back from any young of a pairing."""
    return {"id": name, "sex": sex, "count": count, "origin": "hold", "from": [source], "pick": [{}], **more}


def pairing(name: str, male: str, female: str, *seasons: int | None) -> Json:
    """A pairing of two groups."""
    return {"id": name, "males": [male], "females": [female], "seasons": list(seasons) or [None, None]}


def route(groups: list[Json], pairings: list[Json], **more: Any) -> Json:
    """A route of these groups and pairings."""
    return {"id": "r", "name": "A route", "groups": groups, "pairings": pairings, **more}


def pair(count: int = 1, **more: Any) -> Json:
    """One bought male with some bought females."""
    return route([bought("sire", "male"), bought("dams", "female", count)], [pairing("first", "sire", "dams")], **more)


def read(whole: Json) -> Plan:
    """Read it as the program does."""
    return read_plan(json.dumps(whole).encode())


def found(whole: Json) -> dict[str, Caution]:
    """The cautions on its first route and on the whole plan, by key."""
    told = read(whole)
    of_route: tuple[Caution, ...] = ()
    if told.routes:
        first = told.routes[0]
        of_route = route_cautions(told, first, evaluate_route(told, first))
    return {caution.key: caution for caution in (*of_route, *plan_cautions(told))}

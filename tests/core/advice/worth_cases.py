"""A market that can be worked out by hand, invented for these tests.

One recessive gene, clutches of four, one season, no risks and no costs but prices. Wanted: a visual, for 90 of 100.
Het male × visual female: half the eggs are visual, and one clutch fails 1 in 16 people. Het male × het females: a
quarter are; two clutches fail (3/4)^8 = 10.01 % of people, three (3/4)^12 = 3.2 %, so it takes three females.
"""

from __future__ import annotations

import json
from typing import Any

from core.plan.model import Plan
from core.plan.read import read_plan

Json = dict[str, Any]
HET, VISUAL = {"lav": "l/+"}, {"lav": "l/l"}


def group(name: str, sex: str, carries: Json, price: float, **more: Any) -> Json:
    """One bought animal."""
    return {"id": name, "sex": sex, "count": 1, "carries": carries, "origin": "buy", "price": price, **more}


def route(name: str, *groups: Json, **more: Any) -> Json:
    """A sire and dams, bred every season."""
    pairing = {"id": "pair", "males": [groups[0]["id"]], "females": [groups[1]["id"]]}
    return {"id": name, "name": name.capitalize(), "groups": list(groups), "pairings": [pairing], **more}


def offer(name: str, sex: str, carries: Json, price: float, **more: Any) -> Json:
    """An animal for sale."""
    return {"id": name, "sex": sex, "carries": carries, "price": price, **more}


SIRE = group("sire", "male", HET, 100)
HETS = route("hets", SIRE, group("dams", "female", HET, 50))
VISUALS = route("visuals", SIRE, group("dams", "female", VISUAL, 300))


def market(**parts: Any) -> Plan:
    """The plan; `species`, `goal` and `costs` are added to, the rest replaces."""
    whole: Json = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Invented for tests",
        "currency": "USD",
        "genes": [
            {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}},
            {"id": "amel", "name": "Amelanistic", "alleles": ["a"], "forms": {"a/a": "amel"}},
        ],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"fixed": 4},
            "matures": {"male": 1, "female": 1},
        },
        "goal": {"want": [{"forms": {"lav": "lavender"}}], "chance": 0.9, "seasons": 1},
        "costs": {},
        "routes": [HETS, VISUALS],
        "for_sale": [
            offer("het-f", "female", HET, 50, quantity=4, label="Het female"),
            offer("visual-f", "female", VISUAL, 300, label="Lavender female"),
        ],
    }
    for key, value in parts.items():
        whole[key] = {**whole[key], **value} if key in ("species", "goal", "costs") else value
    return read_plan(json.dumps(whole).encode())

"""Small herds for a season's questions, invented for these tests."""

from __future__ import annotations

import json
from typing import Any

from core.plan.model import Plan
from core.plan.read import read_plan

Json = dict[str, Any]
POSSIBLE = {"lav": {"l/+": "2/3", "+/+": "1/3"}}


def plan(**parts: Any) -> Plan:
    """A plan for one gene, without risks; `species`, `goal` and `costs` are added to, the rest replaces."""
    whole: Json = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Invented for tests",
        "currency": "USD",
        "genes": [{"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"fixed": 4},
            "matures": {"male": 1, "female": 2},
        },
        "goal": {"want": [{"forms": {"lav": "lavender"}}], "chance": 0.8, "seasons": 4},
        "costs": {"keep_adult": 20, "per_egg": 1},
    }
    for key, value in parts.items():
        whole[key] = {**whole[key], **value} if key in ("species", "goal", "costs") else value
    return read_plan(json.dumps(whole).encode())


def record(sire: str, dam: str, *rows: tuple[str, int], season: int = 0, sex: str = "any") -> Json:
    """A clutch of a pair: (form, count) rows."""
    young = [{"forms": {"lav": form}, "count": count, "sex": sex} for form, count in rows]
    return {"sire": sire, "dam": dam, "season": season, "young": young}


PAIR = [
    {"id": "M", "name": "Flint", "sex": "male", "carries": {"lav": "l/l"}},
    {"id": "F", "name": "Hazel", "sex": "female", "carries": POSSIBLE},
]
OWN_PAIR = {
    "id": "pair",
    "name": "My pair",
    "groups": [
        {"id": "sire", "sex": "male", "animals": ["M"], "origin": "own", "kept_anyway": False},
        {"id": "dam", "sex": "female", "animals": ["F"], "origin": "own", "kept_anyway": False},
    ],
    "pairings": [{"id": "first", "males": ["sire"], "females": ["dam"]}],
}


def dominant(sire: str) -> Json:
    """Parts of a plan for a dominant gene of which a dam is in doubt."""
    gene = {"id": "d", "name": "Dusk", "alleles": ["D"], "forms": {"D/+": "dusk", "D/D": "dusk"}}
    dam = {"id": "F", "name": "Hazel", "sex": "female", "carries": {"d": {"D/+": 0.5, "+/+": 0.5}}}
    return {
        "genes": [gene],
        "my_animals": [{"id": "M", "name": "Flint", "sex": "male", "carries": {"d": sire}}, dam],
        "goal": {"want": [{"forms": {"d": "dusk"}}]},
    }

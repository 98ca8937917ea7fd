"""A plan that uses most of the plan file, and ways to break it."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from core.plan.faults import PlanError
from core.plan.read import read_plan

SAMPLE = Path(__file__).parents[2] / "data" / "amel-lavender.plan.json"
GONE = object()

Json = dict[str, Any]


def rich() -> Json:
    """A valid plan with linked, sex-linked and lethal genes, a pedigree, and every kind of group."""
    genes = [
        {
            "id": "amel",
            "name": "Amelanistic",
            "alleles": ["a", "u"],
            "forms": {"a/a": "amelanistic", "a/u": "ultramel"},
        },
        {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}},
        {"id": "spider", "name": "Spider", "alleles": ["S"], "forms": {"S/+": "spider"}, "lethal": ["S/S"]},
        {"id": "band", "name": "Banded", "alleles": ["b"], "forms": {"b/b": "banded"}, "placement": "sex-chromosome"},
    ]
    het = {"amel lav": "a l/+ +"}
    groups = [
        {"id": "sire", "sex": "male", "count": 1, "carries": het, "origin": "buy", "price": 150},
        {
            "id": "dams",
            "sex": "female",
            "count": 2,
            "carries": {"amel": "a/a"},
            "origin": "buy",
            "price": 90,
            "season": 2,
        },
        {"id": "mine", "sex": "female", "animals": ["F1"], "origin": "own"},
        {"id": "others", "sex": "female", "count": 1, "carries": {}, "origin": "own", "until": 2},
        {
            "id": "kept",
            "sex": "female",
            "count": 4,
            "origin": "hold",
            "from": ["first"],
            "pick": [{"amel": "amelanistic"}],
        },
    ]
    pairings = [
        {"id": "first", "males": ["sire"], "females": ["dams", "mine", "others"], "seasons": [1, 2]},
        {"id": "back", "males": ["sire"], "females": ["kept"]},
    ]
    scale = {"groups": ["dams"], "counts": [1, 2, 4]}
    return {
        "format": "pairwright-plan",
        "version": 1,
        "title": "A plan",
        "currency": "EUR",
        "genes": genes,
        "linkage": [{"genes": ["amel", "lav"], "recombination": [0.12]}],
        "combinations": [{"name": "opal", "forms": {"amel": "amelanistic", "lav": "lavender"}}],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"mean": 12, "sd": 3, "min": 5, "max": 20},
            "matures": {"male": 2, "female": 3},
        },
        "goal": {"want": [{"forms": {"amel": "amelanistic"}}], "chance": 0.8, "seasons": 6, "outright_price": 900},
        "costs": {"surplus": [{"forms": {"lav": "lavender"}, "price": 20}]},
        "for_sale": [{"id": "m1", "sex": "male", "carries": {"lav": {"l/+": "2/3", "+/+": "1/3"}}, "price": 150}],
        "my_animals": [
            {"id": "F1", "sex": "female", "sire": "M0", "dam": "F0", "forms": {"amel": "amelanistic"}},
            {"id": "M0", "sex": "male", "carries": {"amel": "a/+"}},
            {"id": "F0", "sex": "female", "carries": {"amel": "a/+", "band": "b/W"}},
        ],
        "clutch_records": [
            {"sire": "M0", "dam": "F0", "season": -1, "young": [{"forms": {"amel": "normal"}, "count": 5}]},
        ],
        "routes": [
            {"id": "r", "name": "Back", "buy_outright": 6, "groups": groups, "pairings": pairings, "scale": scale},
            {"id": "s", "name": "Nothing"},
        ],
    }


def put(plan: Json, place: str, value: object) -> Json:
    """Set what is at a place such as `routes[0].groups[1].price`, or take it away (GONE)."""
    *way, last = [int(step) if step.isdigit() else step.strip('"') for step in re.findall(r'[\w-]+|"[^"]*"', place)]
    part: Any = plan
    for step in way:
        part = part[step]
    if value is GONE:
        del part[last]
    else:
        part[last] = value
    return plan


def faults_of(plan: object) -> list[str]:
    """The lines that reading a plan ends with; none for a plan without fault."""
    data = plan if isinstance(plan, bytes) else json.dumps(plan).encode()
    try:
        read_plan(data)
    except PlanError as error:
        return [str(fault) for fault in error.faults]
    return []

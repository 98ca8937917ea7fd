"""The comparison that the benchmarks time: eight routes, all answered exactly, with every risk of the species on."""

from __future__ import annotations

from typing import Any

from core.plan.check import examine
from core.plan.model import Plan, Route

Json = dict[str, Any]

SEASONS = 7
COUNTS = [1, 2, 3, 4, 5, 6, 7, 8]
_DOUBLE_HET = {"amber": "a/+", "pied": "p/+"}
_POSSIBLE = {"amber": {"a/+": "2/3", "+/+": "1/3"}, "pied": {"p/+": "1/2", "+/+": "1/2"}}
_GENES = [
    {"id": "amber", "name": "Amber", "alleles": ["a"], "forms": {"a/a": "amber"}},
    {"id": "pied", "name": "Pied", "alleles": ["p"], "forms": {"p/p": "pied"}},
]
_EMBER = {"id": "ember", "name": "Ember", "alleles": ["e"], "forms": {"e/e": "ember"}, "placement": "sex-chromosome"}
_SPECIES = {
    "name": "Invented python", "sex_system": "XY", "clutch": {"mean": 7, "sd": 2, "min": 3, "max": 12},
    "matures": {"male": 2, "female": 3}, "lays": 0.8, "clutch_lost": 0.05, "fertile": 0.9, "hatches": 0.9,
    "breeds": {"male": 0.95, "female": 0.93}, "reaches_breeding": 0.9, "females_per_male": 4,
}  # fmt: skip
_COSTS = {
    "setup": 150, "keep_adult": 60, "keep_young": 40, "per_egg": 0.5, "per_young": 5, "sold_share": 0.5,
    "surplus": [{"forms": {"pied": "pied"}, "price": 80}, {"price": 20}],
}  # fmt: skip
_BOTH = {"amber": "amber", "pied": "pied"}


def eight_routes() -> list[tuple[Plan, Route]]:
    """Eight routes, each with its plan: the pair as goal and the sex-linked goal have plans of their own."""
    straight = [
        _bred("double-hets", _DOUBLE_HET, _DOUBLE_HET),
        _bred("visual-sire", {"amber": "a/+", "pied": "p/p"}, _DOUBLE_HET),
        _bred("hidden", _POSSIBLE, _POSSIBLE),
    ]
    holding = [_daughters_back(), _young_together(), _daughters_kept_filled()]
    linked = [_bred("linked", {"ember": "e/Y"}, {"ember": "e/+"})]
    plans = [
        _plan([{"forms": _BOTH}], straight + holding, _GENES),
        _plan(
            [{"forms": _BOTH, "sex": "male"}, {"forms": _BOTH, "sex": "female"}],
            [_bred("pair", {"amber": "a/a", "pied": "p/p"}, _DOUBLE_HET)],
            _GENES,
        ),
        _plan([{"forms": {"ember": "ember"}}], linked, [_EMBER, *_GENES]),
    ]
    return [(plan, route) for plan in plans for route in plan.routes]


def three_generations() -> tuple[Plan, Route]:
    """A route that holds young back twice, which is simulated."""
    groups = [
        _bought("sire", "male", 1, {"amber": "a/a"}, 200),
        _bought("dams", "female", 3, {"pied": "p/p"}, 220),
        _held("sons", "male", 2, "first"),
        _held("daughters", "female", 4, "first"),
        {**_held("granddaughters", "female", 4, "second"), "pick": [{"amber": "amber"}, {"pied": "pied"}]},
    ]
    pairings = [
        {"id": "first", "males": ["sire"], "females": ["dams"], "seasons": [1, 2]},
        {"id": "second", "males": ["sons"], "females": ["daughters"]},
        {"id": "third", "males": ["sons"], "females": ["granddaughters"]},
    ]
    route = {"id": "three", "name": "Three generations", "groups": groups, "pairings": pairings}
    plan = _plan([{"forms": _BOTH, "sex": "female", "count": 2}], [route], _GENES, seasons=9)
    return plan, plan.routes[0]


def _plan(want: list[Json], routes: list[Json], genes: list[Json], seasons: int = SEASONS) -> Plan:
    goal = {"want": want, "chance": 0.8, "seasons": seasons, "budget": 2500, "outright_price": 2600}
    head = {"format": "pairwright-plan", "version": 1, "title": "Timed", "currency": "USD"}
    return examine({**head, "genes": genes, "species": _SPECIES, "goal": goal, "costs": _COSTS, "routes": routes})


def _bought(id_: str, sex: str, count: int, carries: Json, price: int) -> Json:
    return {"id": id_, "sex": sex, "count": count, "carries": carries, "origin": "buy", "price": price}


def _held(id_: str, sex: str, count: int, source: str) -> Json:
    return {"id": id_, "sex": sex, "count": count, "origin": "hold", "from": [source], "pick": [{}]}


def _bred(id_: str, sire: Json, dam: Json) -> Json:
    groups = [_bought("sire", "male", 1, sire, 400), _bought("dams", "female", 2, dam, 250)]
    pairings = [{"id": "first", "males": ["sire"], "females": ["dams"]}]
    return _scaled(id_, groups, pairings)


def _daughters_back() -> Json:
    groups = [
        _bought("sire", "male", 1, _DOUBLE_HET, 200),
        {**_bought("dams", "female", 2, {"amber": "a/a"}, 150), "until": 1},
        {**_held("daughters", "female", 4, "first"), "pick": [{"amber": "amber"}]},
    ]
    pairings = [
        {"id": "first", "males": ["sire"], "females": ["dams"], "seasons": [1, 1]},
        {"id": "back", "males": ["sire"], "females": ["daughters"]},
    ]
    return _scaled("daughters-back", groups, pairings)


def _young_together() -> Json:
    groups = [
        {**_bought("sire", "male", 1, {"pied": "p/p"}, 300), "until": 1},
        {**_bought("dams", "female", 1, {"amber": "a/a"}, 150), "until": 1},
        _held("sons", "male", 2, "first"),
        _held("daughters", "female", 3, "first"),
    ]
    pairings = [
        {"id": "first", "males": ["sire"], "females": ["dams"], "seasons": [1, 1]},
        {"id": "together", "males": ["sons"], "females": ["daughters"]},
    ]
    return _scaled("young-together", groups, pairings)


def _daughters_kept_filled() -> Json:
    groups = [
        _bought("sire", "male", 1, {"amber": "a/a", "pied": "p/p"}, 900),
        {**_bought("dams", "female", 2, {"amber": "a/+"}, 120), "until": 2},
        {**_held("daughters", "female", 3, "first"), "pick": [{"amber": "amber"}]},
    ]
    pairings = [
        {"id": "first", "males": ["sire"], "females": ["dams"], "seasons": [1, 2]},
        {"id": "back", "males": ["sire"], "females": ["daughters"]},
    ]
    return _scaled("filled-over-two-seasons", groups, pairings)


def _scaled(id_: str, groups: list[Json], pairings: list[Json]) -> Json:
    scale = {"groups": ["dams"], "counts": COUNTS}
    return {"id": id_, "name": id_, "groups": groups, "pairings": pairings, "scale": scale}

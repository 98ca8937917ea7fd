"""Sheets small enough to be tried out whole, and the obvious search that does so. Invented for these tests."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from itertools import combinations, product
from typing import Any

import msgspec

from core.plan.model import Bought, ForSale, Group, Held, Pairing, Plan, Route, Scale
from core.plan.read import read_plan
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult

Json = dict[str, Any]
HET: Json = {"lav": "l/+"}
VISUAL: Json = {"lav": "l/l"}
MAYBE: Json = {"lav": {"l/+": "1/2", "+/+": "1/2"}}
# Way, sire, dams, other dams, second male.
Recipe = tuple[str, str | None, str | None, str | None, str | None]


def sheet(
    *, kinds: int = 4, goal: Json | None = None, species: Json | None = None, costs: Json | None = None, **parts: Any
) -> Plan:
    """So many males and females, one gene, small clutches, three seasons."""
    offers = [
        {"id": f"{sex[0]}{place}", "sex": sex, "carries": carries, "price": price, "quantity": many}
        for sex, prices in (("male", (30, 10, 95, 0)), ("female", (48, 25, 140, 5)))
        for place, (carries, price, many) in enumerate(
            [*zip((HET, MAYBE, VISUAL, {}), prices, (2, 2, 1, 2), strict=True)][:kinds]
        )
    ]
    whole: Json = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Invented for tests",
        "currency": "USD",
        "genes": [{"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}],
        "species": {
            "name": "Corn snake",
            "sex_system": "ZW",
            "clutch": {"counts": {"1": 0.5, "2": 0.5}},
            "matures": {"male": 1, "female": 1},
            "females_per_male": 2,
            **(species or {}),
        },
        "goal": {
            "want": [{"forms": {"lav": "lavender"}}],
            "chance": 0.6,
            "seasons": 3,
            "outright_price": 170,
            **(goal or {}),
        },
        "costs": {"keep_adult": 9, "keep_young": 4, "per_egg": 1, **(costs or {})},
        "for_sale": offers,
        **parts,
    }
    return read_plan(json.dumps(whole).encode())


def everything(plan: Plan) -> list[tuple[Recipe, RouteResult]]:
    """Every route of the space that there is room for, worked out one after the other."""
    house = plan.goal.housing
    able = ((recipe, one) for recipe, one in routes(plan) if house is None or most_there(plan, one) <= house)
    return [(recipe, evaluate_route(plan, route)) for recipe, route in able]


def every_best(plan: Plan, every: list[tuple[Recipe, RouteResult]]) -> list[float]:
    """The money of every recipe that is told, the cheapest first."""
    best: dict[Recipe, tuple[float, int]] = {}
    plain: dict[Recipe, list[RouteResult]] = {}
    for recipe, result in every:
        if result.to_goal is None:
            continue
        found = result.to_goal.money, result.to_goal.season
        if found < best.get(recipe, (math.inf, 0)):
            best[recipe] = found
        if recipe[0] == "straight" and recipe[3] is None:
            plain.setdefault(recipe, []).append(result)
    budget = math.inf if plan.goal.budget is None else plan.goal.budget
    told = [money for recipe, (money, season) in best.items() if not spared(recipe, money, season, plain)]
    return sorted(money for money in told if money <= budget)


def most_there(plan: Plan, route: Route) -> int:
    """The most animals in any season where every place is filled at the first occasion, which is season 1."""
    seasons = range(1, plan.goal.seasons + 1)
    return max(sum(group.count or 0 for group in route.groups if is_there(group, season)) for season in seasons)


def is_there(group: Group, season: int) -> bool:
    first = 2 if isinstance(group, Held) else group.season
    return first <= season <= (group.until or season)


def spared(recipe: Recipe, money: float, season: int, plain: dict[Recipe, list[RouteResult]]) -> bool:
    """Whether fewer animals of the same, bred straight together, are as cheap and as soon."""
    way, sire, dams, other, _ = recipe
    if way == "outright" or (way == "straight" and other is None):
        return False
    for one in (dams, other):
        for result in plain.get(("straight", sire, one, None, None), []):
            sooner = result.to_goal_by_season[season - 1]
            if sooner is not None and sooner.money <= money * 1.005:
                return True
    return False


def routes(plan: Plan) -> Iterator[tuple[Recipe, Route]]:
    """The whole space, written out."""
    males = [one for one in plan.for_sale if one.sex == "male"]
    females = [one for one in plan.for_sale if one.sex == "female"]
    load = plan.species.females_per_male
    if plan.goal.outright_price is not None:
        yield ("outright", None, None, None, None), Route(id="r", name="", buy_outright=1)
    buys = [(1, s) for s in range(2, plan.goal.seasons + 1) if plan.goal.outright_price is not None]
    for sire, dams in product(males, females):
        for sires, buy in [(1, None), (2, None), *buys]:
            way = "straight" if buy is None else "then buy"
            least = 1 if sires == 1 else load + 1
            for n in range(least, min(dams.quantity, load * sires, 8) + 1):
                if sires <= sire.quantity:
                    groups = (buy_in("sire", sire, sires), buy_in("dams", dams, n))
                    yield (way, sire.id, dams.id, None, None), straight(groups, "dams", buy=buy)
        yield from held(plan, sire, dams, males)
    for sire, (dams, other) in product(males, combinations(sorted(females, key=lambda one: one.price), 2)):
        for n, k in product(range(1, dams.quantity + 1), range(1, other.quantity + 1)):
            if n + k <= load:
                groups = (buy_in("sire", sire, 1), buy_in("dams", dams, n), buy_in("more", other, k))
                yield ("straight", sire.id, dams.id, other.id, None), straight(groups, "dams", "more")


def held(plan: Plan, sire: ForSale, dams: ForSale, males: list[ForSale]) -> Iterator[tuple[Recipe, Route]]:
    """Young held back; every animal is breeder-size when it comes, and matures in one season."""
    load = plan.species.females_per_male
    certain = all(isinstance(value, str) for value in dams.carries.values())
    for many, goes, pick in product(
        range(1, min(dams.quantity, 2 if certain else 1) + 1), (1, 2, None), ({}, {"lav": "lavender"})
    ):
        stay = load - (many if goes is None else 0)
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, goes))
        for k in range(1, 5):
            young = Held(id="daughters", sex="female", count=k, source=("first",), pick=(pick,))
            founders = buy_in("dams", dams, many, until=goes)
            if k <= stay:
                later = Pairing(id="back", males=("sire",), females=("daughters",))
                yield (
                    ("back", sire.id, dams.id, None, None),
                    draw(buy_in("sire", sire, 1), founders, young, first=first, later=later),
                )
            if goes is None or k > load:
                continue
            leaving = buy_in("sire", sire, 1, until=goes)
            son = Held(id="sons", sex="male", count=1, source=("first",), pick=(pick,))
            later = Pairing(id="later", males=("sons",), females=("daughters",))
            yield (
                ("together", sire.id, dams.id, None, None),
                draw(leaving, founders, son, young, first=first, later=later),
            )
            for second in males:
                if second.id != sire.id:
                    later = Pairing(id="later", males=("second",), females=("daughters",))
                    bought = buy_in("second", second, 1, season=2)
                    yield (
                        ("second male", sire.id, dams.id, None, second.id),
                        draw(leaving, founders, young, bought, first=first, later=later),
                    )
        if goes is None:
            son = Held(id="son", sex="male", count=1, source=("first",), pick=(pick,))
            first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, 1))
            later = Pairing(id="later", males=("son", "sire"), females=("dams",), seasons=(2, None))
            route = draw(buy_in("sire", sire, 1), buy_in("dams", dams, many), son, first=first, later=later)
            yield ("son", sire.id, dams.id, None, None), route


def buy_in(name: str, one: ForSale, count: int, season: int = 1, until: int | None = None) -> Bought:
    return Bought(id=name, sex=one.sex, count=count, carries=one.carries, price=one.price, season=season, until=until)


def straight(groups: tuple[Group, ...], *dams: str, buy: int | None = None) -> Route:
    pairing = Pairing(id="first", males=("sire",), females=dams)
    return _one_count(Route(id="r", name="", groups=groups, pairings=(pairing,), buy_outright=buy))


def draw(*groups: Group, first: Pairing, later: Pairing) -> Route:
    return _one_count(Route(id="r", name="", groups=groups, pairings=(first, later)))


def _one_count(route: Route) -> Route:
    dams = next(group for group in route.groups if isinstance(group, Bought) and group.id == "dams")
    return msgspec.structs.replace(route, scale=Scale(groups=("dams",), counts=(dams.count,)))

"""Ways on from today, each checked by evaluating the changed plan apart."""

from __future__ import annotations

import math
from collections.abc import Generator
from typing import TypeVar

import msgspec
import pytest

from core.plan.check import check_plan
from core.plan.model import Plan, Route
from core.routes.evaluate import evaluate, evaluate_route
from core.season.next_steps import next_steps, without
from core.season.stopping import settled_by_young, stopping_rule, with_normal_young
from tests.core.season.season_cases import OWN_PAIR, PAIR, dominant, plan, record

T = TypeVar("T")
OFFERS = [
    {"id": "cheap", "sex": "male", "carries": {"lav": "l/+"}, "price": 50},
    {"id": "sold-out", "sex": "male", "carries": {"lav": "l/l"}, "price": 10, "quantity": 0},
    {"id": "lady", "sex": "female", "carries": {"lav": "l/l"}, "price": 80},
]
SECOND = {"id": "G", "name": "Willow", "sex": "female", "carries": {"lav": "l/+"}}


def end(steps: Generator[float, None, T]) -> T:
    while True:
        try:
            assert 0 <= next(steps) <= 1
        except StopIteration as last:
            value: T = last.value
            return value


def two_dams(**parts: object) -> Plan:
    groups = [OWN_PAIR["groups"][0], OWN_PAIR["groups"][1] | {"animals": ["F", "G"]}]
    return plan(my_animals=[*PAIR, SECOND], routes=[OWN_PAIR | {"groups": groups}], **parts)


def test_each_way_is_the_model_itself() -> None:
    told = two_dams(for_sale=OFFERS, goal={"outright_price": 300})
    steps = end(next_steps(told, told.routes[0]))
    assert {(step.way, step.about) for step in steps} == {
        ("carry on", ""), ("drop", "F"), ("drop", "G"), ("other male", "cheap"), ("buy", ""),
    }  # fmt: skip
    assert [step.money for step in steps] == sorted(step.money for step in steps)
    for step in steps:
        changed = msgspec.structs.replace(told, routes=(step.route,))
        assert not check_plan(changed)
        apart = evaluate(changed).routes[0].as_drawn
        assert (apart.money if apart else math.inf) == step.money


def test_the_last_female_cannot_be_dropped() -> None:
    told = plan(my_animals=PAIR, routes=[OWN_PAIR])
    assert without(told.routes[0], "F") is None
    assert without(told.routes[0], "M") is None
    assert [step.way for step in end(next_steps(told, told.routes[0]))] == ["carry on"]


def money(told: Plan, route: Route) -> float:
    found = evaluate_route(told, route).as_drawn
    return found.money if found else math.inf


def test_stopping_rule_agrees_with_the_plan_after_the_event() -> None:
    told = two_dams(costs={"keep_adult": 60}, goal={"chance": 0.9, "seasons": 6})
    route = told.routes[0]
    rule = end(stopping_rule(told, route, "M", "F"))
    assert rule is not None
    other = without(route, "F")
    assert other is not None
    for young in range(1, rule.young + 1):
        after = with_normal_young(told, "M", "F", ("lav",), young)
        assert (money(after, other) < money(after, route)) is (young == rule.young)
    assert rule.sentence(told) == f"No visual Lavender in {rule.young} more young of Hazel and Flint: move her on."


def test_no_rule_for_a_proven_female() -> None:
    told = two_dams(clutch_records=[record("M", "F", ("lavender", 1))])
    assert end(stopping_rule(told, told.routes[0], "M", "F")) is None


@pytest.mark.parametrize("female", ["F", "G"])
def test_no_rule_where_nothing_is_saved(female: str) -> None:
    told = two_dams(costs={"keep_adult": 0, "per_egg": 0})
    assert end(stopping_rule(told, told.routes[0], "M", female)) is None


@pytest.mark.parametrize(("sire", "settled"), [("D/+", ("d",)), ("D/D", ()), ("+/+", ("d",))])
def test_no_rule_rests_on_young_that_cannot_be(sire: str, settled: tuple[str, ...]) -> None:
    parts = dominant(sire)
    mine = [*parts["my_animals"], {"id": "G", "sex": "female", "carries": {"d": "D/+"}}]
    groups = [OWN_PAIR["groups"][0], OWN_PAIR["groups"][1] | {"animals": ["F", "G"]}]
    told = plan(**parts | {"my_animals": mine, "routes": [OWN_PAIR | {"groups": groups}]})
    assert settled_by_young(told, "M", "F") == settled
    rule = end(stopping_rule(told, told.routes[0], "M", "F"))
    assert rule is None or rule.genes == settled


def test_no_rule_where_every_young_shows_one_gene_or_the_other() -> None:
    # Linked without crossing over, the sire gives one or the other; each by itself may well be missing.
    genes = [{"id": "d", "name": "Dusk", "alleles": ["D"], "forms": {"D/+": "dusk", "D/D": "dusk"}}]
    genes += [{"id": "e", "name": "Dawn", "alleles": ["E"], "forms": {"E/+": "dawn", "E/E": "dawn"}}]
    dam = {"d e": {"D +/+ +": 0.4, "+ E/+ +": 0.4, "+ +/+ +": 0.2}}
    mine = [{"id": "M", "sex": "male", "carries": {"d e": "D +/+ E"}}] + [
        {"id": name, "sex": "female", "carries": dam} for name in ("F", "G")
    ]
    groups = [OWN_PAIR["groups"][0], OWN_PAIR["groups"][1] | {"animals": ["F", "G"]}]
    told = plan(
        genes=genes,
        linkage=[{"genes": ["d", "e"], "recombination": [0]}],
        my_animals=mine,
        goal={"want": [{"forms": {"d": "dusk", "e": "dawn"}}]},
        routes=[OWN_PAIR | {"groups": groups}],
    )
    assert settled_by_young(told, "M", "F") == ("d", "e")
    assert end(stopping_rule(told, told.routes[0], "M", "F")) is None

"""Wanted looks that nothing at hand carries the copies for."""

from __future__ import annotations

import msgspec
import pytest

from core.explain.lacking import lacking
from core.plan.model import Animal, Carries, Gene, Plan, Want
from core.plan.read import load_plan
from desktop.plan_files import SAMPLE

SERIES = Gene(id="ser", name="Sand", alleles=("t", "f"), forms={"t/t": "toffee", "t/f": "caramel"})
DUSK = Gene(id="dusk", name="Dusk", alleles=("d",), forms={"d/d": "dusk"}, placement="sex-chromosome")


@pytest.fixture(scope="module")
def plan() -> Plan:
    sample = load_plan(SAMPLE)
    return msgspec.structs.replace(sample, genes=(*sample.genes, SERIES, DUSK), linkage=(), combinations=())


def wanting(plan: Plan, *forms: dict[str, str]) -> Plan:
    want = tuple(Want(forms=one) for one in forms)
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=want))


@pytest.mark.parametrize(
    ("animals", "missing"),
    [
        ([{"amel": "a/+"}, {"lav": "l/+"}], ()),
        ([{"amel": "a/a"}], ("lavender",)),
        ([{"amel": {"a/+": "1/2", "+/+": "1/2"}}, {}], ("lavender",)),
        ([{"amel lav": "a l/+ +"}], ()),
        ([], ("amel", "lavender")),
    ],
)
def test_recessives(plan: Plan, animals: list[Carries], missing: tuple[str, ...]) -> None:
    assert lacking(wanting(plan, {"amel": "amel", "lav": "lavender"}), animals) == missing


def test_a_series_takes_both_of_its_alleles(plan: Plan) -> None:
    wanted = wanting(plan, {"ser": "caramel"}, {"ser": "toffee"})
    assert lacking(wanted, [{"ser": "t/+"}]) == ("caramel",)
    assert lacking(wanted, [{"ser": "t/+"}, {"ser": "f/+"}]) == ()


def test_one_copy_will_do_for_the_other_sex(plan: Plan) -> None:
    assert lacking(wanting(plan, {"dusk": "dusk"}), [{"dusk": "d/W"}]) == ()
    assert lacking(wanting(plan, {"dusk": "dusk", "amel": "normal"}), [{}]) == ("dusk",)


def test_what_is_seen_of_mine_is_there(plan: Plan) -> None:
    mine = Animal(id="m", sex="male", forms={"lav": "lavender"})
    assert lacking(wanting(plan, {"lav": "lavender"}), [], [mine]) == ()

"""Each caution appears exactly when its condition holds, at the boundary too."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings

from core.advice.caution import is_read
from core.advice.cautions import plan_cautions, route_cautions
from core.routes.evaluate import evaluate, evaluate_route
from tests.core.advice.advice_cases import bought, found, held, pair, pairing, plan, read, route
from tests.reference.plans import plans

Json = dict[str, Any]


def test_one_male_and_a_second() -> None:
    assert "one-male/r" in found(plan(routes=[pair()]))
    two = route([bought("sire", "male", 2), bought("dams", "female")], [pairing("first", "sire", "dams")])
    assert "one-male/r" not in found(plan(routes=[two]))


def test_a_male_that_never_breeds_is_no_second() -> None:
    spare = pair()
    spare["groups"].append(bought("spare", "male"))
    assert "one-male/r" in found(plan(routes=[spare]))


def test_no_rest_from_two_seasons_on() -> None:
    groups = [bought("sire", "male"), bought("dams", "female")]
    once = route(groups, [pairing("first", "sire", "dams", 1, 1)])
    assert "every-season/r/dams" not in found(plan(goal={"seasons": 1}, routes=[once]))
    twice = route(groups, [pairing("first", "sire", "dams", 1, 2)])
    assert "every-season/r/dams" in found(plan(goal={"seasons": 2}, routes=[twice]))


def test_a_season_off_is_a_rest() -> None:
    groups = [bought("sire", "male"), bought("dams", "female")]
    rested = [pairing("first", "sire", "dams", 1, 1), pairing("later", "sire", "dams", 3, 4)]
    assert "every-season/r/dams" not in found(plan(routes=[route(groups, rested)]))
    gone = [groups[0], bought("dams", "female", until=1)]
    assert "every-season/r/dams" not in found(plan(routes=[route(gone, rested[:1])]))


def test_seasons_are_told_to_where_the_route_mostly_ends() -> None:
    assert "every-season/r/dams" not in found(plan(goal={"chance": 0.3}, routes=[pair(4)]))
    assert "seasons 1 to 4" in found(plan(routes=[pair()]))["every-season/r/dams"].sentence


@pytest.mark.parametrize(("first", "warned"), [(None, True), (3, False)])
def test_young_breeders(first: int | None, warned: bool) -> None:
    back = route(
        [bought("sire", "male"), bought("dams", "female"), held("daughters", "female", "first")],
        [pairing("first", "sire", "dams", 1, 1), pairing("back", "sire", "daughters", first, None)],
    )
    assert ("young-breeders/r/daughters" in found(plan(routes=[back]))) is warned


def test_a_bought_juvenile_is_a_young_breeder_too() -> None:
    young = route([bought("sire", "male"), bought("dams", "female", ready_in=1)], [pairing("first", "sire", "dams")])
    assert "season 2" in found(plan(routes=[young]))["young-breeders/r/dams"].sentence
    assert not [key for key in found(plan(routes=[pair()])) if key.startswith("young-breeders")]


@pytest.mark.parametrize(("females", "warned"), [(4, False), (5, True)])
def test_male_load(females: int, warned: bool) -> None:
    told = found(plan(species={"females_per_male": 9}, routes=[pair(females)]))
    assert ("male-load/r/sire" in told) is warned


@pytest.mark.parametrize(("females", "warned"), [(4, False), (5, True)])
def test_idle_females(females: int, warned: bool) -> None:
    told = found(plan(routes=[pair(females)]))
    assert ("idle-females/r" in told) is warned
    if warned:
        assert told["idle-females/r"].sentence == "In seasons 1 to 4, 1 female (dams) has no male to go to."


def test_a_female_that_waits_for_her_male_is_idle() -> None:
    waits = route([bought("sire", "male", ready_in=1), bought("dams", "female")], [pairing("first", "sire", "dams")])
    assert "In season 1" in found(plan(routes=[waits]))["idle-females/r"].sentence


@pytest.mark.parametrize(
    ("carries", "sex", "warned"),
    [
        ({"amel": "a/a", "lav": "l/l"}, "any", True),
        ({"amel": "a/a", "lav": "l/l"}, "male", True),
        ({"amel": "a/a", "lav": "l/l"}, "female", False),
        ({"amel": "a/a", "lav": "l/+"}, "any", False),
        ({"amel": "a/a", "lav": {"l/l": 0.9, "l/+": 0.1}}, "any", False),
    ],
)
def test_buying_the_goal(carries: Json, sex: str, warned: bool) -> None:
    whole = pair()
    whole["groups"][0]["carries"] = carries
    goal = {"want": [{"forms": {"amel": "amel", "lav": "lavender"}, "sex": sex}]}
    assert ("already-the-goal/r/sire" in found(plan(goal=goal, routes=[whole]))) is warned


def test_buying_the_goal_where_temperature_decides_the_sex() -> None:
    whole = pair()
    whole["groups"][0]["carries"] = {"amel": "a/a", "lav": "l/l"}
    goal = {"want": [{"forms": {"amel": "amel", "lav": "lavender"}, "sex": "female"}]}
    told = found(plan(species={"sex_system": "temperature"}, goal=goal, routes=[whole]))
    assert "already-the-goal/r/sire" not in told


@pytest.mark.parametrize(("housing", "warned"), [(None, False), (3, False), (2, True)])
def test_room(housing: int | None, warned: bool) -> None:
    assert ("housing/r" in found(plan(goal={"housing": housing}, routes=[pair(2)]))) is warned


def test_room_a_little_short_is_not_said_to_be_enough() -> None:
    # Whether the second pair is still kept late in the plan is a matter of chance, so the mean is no whole number.
    told, back = plan(), route(
        [bought("sire", "male"), bought("dams", "female"), held("daughters", "female", "first", 3)],
        [pairing("first", "sire", "dams")],
    )  # fmt: skip
    peak = evaluate_route(read({**told, "routes": [back]}), read({**told, "routes": [back]}).routes[0]).peak_animals
    assert peak != round(peak)
    room = math.floor(peak)
    caution = found(plan(goal={"housing": room}, routes=[back]))["housing/r"]
    assert f"about {room + 1} animals; the plan has room for {room}." in caution.sentence


@pytest.mark.parametrize(("young", "words"), [("eggs", "hatch."), ("live", "are born.")])
def test_young_hatch_or_are_born(young: str, words: str) -> None:
    assert words in found(plan(species={"young": young}, routes=[pair()]))["surplus/r"].why


def test_surplus_and_none() -> None:
    assert "surplus/r" in found(plan(routes=[pair()]))
    outright = {"id": "r", "name": "Buy", "buy_outright": 1}
    assert "surplus/r" not in found(plan(goal={"outright_price": 900}, routes=[outright]))


@pytest.mark.parametrize("share", [0.49, 0.51])
def test_surplus_from_one_animal_on(share: float) -> None:
    # One egg a season for one season, hardly ever wanted: the surplus is the chance that it hatches, (15/16) share.
    hatching = share * 16 / 15
    species = {"clutch": {"fixed": 1}, "lays": 1, "clutch_lost": 0, "fertile": hatching, "hatches": 1,
               "breeds": {"male": 1, "female": 1}}  # fmt: skip
    one = route([bought("sire", "male"), bought("dams", "female")], [pairing("first", "sire", "dams", 1, 1)])
    assert ("surplus/r" in found(plan(species=species, routes=[one]))) is (share > 0.5)


IDEAL = {"lays": 1, "clutch_lost": 0, "fertile": 1, "hatches": 1, "breeds": {"male": 1, "female": 1}}


@pytest.mark.parametrize("risk", [*IDEAL, "reaches_breeding"])
def test_each_risk_left_at_its_ideal_value(risk: str) -> None:
    holds = route(
        [bought("sire", "male"), bought("dams", "female"), held("more", "female", "first")],
        [pairing("first", "sire", "dams")],
    )
    assert "ideal-risks" not in found(plan(routes=[holds]))
    assert "ideal-risks" in found(plan(species={risk: IDEAL.get(risk, 1)}, routes=[holds]))


def test_losses_of_young_count_only_where_young_are_held_back() -> None:
    assert "ideal-risks" not in found(plan(species={"reaches_breeding": 1}, routes=[pair()]))


def test_all_risks_are_named() -> None:
    told = found(plan(species=IDEAL, routes=[pair()]))["ideal-risks"]
    assert told.sentence == (
        "The plan counts on it that every female lays every season, no clutch is lost, there are no slugs, "
        "every fertile egg hatches and every animal breeds. Its chances are a ceiling."
    )


def test_read_cautions_are_kept_by_the_plan() -> None:
    told = read(plan(species=IDEAL, cautions_read=["ideal-risks"]))
    assert [is_read(told, caution) for caution in plan_cautions(told)] == [True]
    assert not is_read(read(plan()), plan_cautions(told)[0])


@settings(max_examples=15, deadline=None)
@given(plans())
def test_any_plan_has_its_cautions_told(drawn: Json) -> None:
    any_plan = read(drawn)
    results = {result.id: result for result in evaluate(any_plan).routes}
    told = list(plan_cautions(any_plan))
    for one in any_plan.routes:
        told += route_cautions(any_plan, one, results[one.id])
    assert len({caution.key for caution in told}) == len(told)
    for caution in told:
        assert caution.sentence.endswith((".", "?"))
        assert caution.why.endswith(".")
        assert caution.short

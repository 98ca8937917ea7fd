"""Going on from today: chances add up with those of the seasons gone, and every result is a plan."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.genetics.beliefs import belief_report
from core.plan.check import check_plan
from core.plan.model import Held, Owned, Plan
from core.plan.read import read_plan
from core.plan.write import write_plan
from core.routes.evaluate import evaluate_route
from core.season.carry_on import KeptYoung, carry_on, possible_parents
from tests.core.season.season_cases import OWN_PAIR, PAIR, plan, record
from tests.reference.plans import plans

BOUGHT = [
    {"id": "sire", "sex": "male", "count": 1, "carries": {"lav": "l/+"}, "origin": "buy", "price": 100},
    {"id": "dams", "sex": "female", "count": 2, "carries": {"lav": "l/+"}, "origin": "buy", "price": 90},
]
FIRST = {"id": "first", "males": ["sire"], "females": ["dams"]}
STRAIGHT = {"id": "r", "name": "Hets together", "groups": BOUGHT, "pairings": [FIRST]}
DAUGHTERS = {"id": "daughters", "sex": "female", "count": 2, "origin": "hold", "from": ["first"], "pick": [{}]}
BACK: dict[str, Any] = {
    "id": "r",
    "name": "Daughters back",
    "groups": [*BOUGHT, DAUGHTERS],
    "pairings": [FIRST | {"seasons": [1, 2]}, {"id": "back", "males": ["sire"], "females": ["daughters"]}],
}


def evaluated(told: Plan, number: int = 0) -> Any:
    return evaluate_route(told, told.routes[number])


@pytest.mark.parametrize("gone", [1, 2, 3])
def test_chances_before_and_after_add_up(gone: int) -> None:
    # Law of total probability; all genotypes are known, so seasons without a hit teach nothing.
    told = plan(routes=[STRAIGHT])
    whole = evaluated(told).chance_by_season
    rest = evaluated(carry_on(told, "r", gone, 0)).chance_by_season
    assert len(rest) == 4 - gone
    assert whole[gone - 1] + (1 - whole[gone - 1]) * rest[-1] == pytest.approx(whole[-1])


def test_what_was_bought_is_mine_and_still_eats() -> None:
    after = carry_on(plan(routes=[STRAIGHT], already_spent=10), "r", 1, 322.5)
    assert [animal.id for animal in after.my_animals] == ["sire-1", "dams-1", "dams-2"]
    assert [animal.name for animal in after.my_animals] == ["Sire 1", "Dams 1", "Dams 2"]
    assert after.already_spent == 332.5
    assert evaluated(after).up_front == 3 * 20


def test_no_young_yet_teaches_what_records_teach() -> None:
    told = plan(my_animals=PAIR, routes=[OWN_PAIR], clutch_records=[record("M", "F", ("normal", 4), season=1)])
    after = carry_on(told, "pair", 1, 0)
    assert after.clutch_records[0].season == 0
    assert after.my_animals == told.my_animals
    # Two thirds is 1/9 after four normal young; each further egg of a het shows it with 1/2.
    assert evaluated(after).chance_by_season[0] == pytest.approx(1 / 9 * (1 - 0.5**4))


def test_kept_young_grow_up_and_places_stay_open() -> None:
    young = KeptYoung(forms={"lav": "normal"}, season=1, name="Fern")
    after = carry_on(plan(routes=[BACK]), "r", 1, 0, {"daughters": (young,)})
    own, still = after.routes[0].groups[2:]
    assert isinstance(own, Owned)
    assert own.animals == ("daughters-1",)
    # Hatched in season 1, she matures in 2 seasons: she breeds from season 3, the second from today.
    assert own.ready_in == 1
    assert isinstance(still, Held)
    assert still.count == 1
    assert after.routes[0].pairings[1].females == ("daughters", still.id)
    assert not check_plan(after)


def test_places_that_nothing_can_fill_any_more_are_given_up() -> None:
    after = carry_on(plan(routes=[BACK]), "r", 2, 0)
    assert [group.id for group in after.routes[0].groups] == ["sire", "dams"]
    assert after.routes[0].pairings == ()


def test_more_kept_than_places() -> None:
    young = KeptYoung(forms={}, season=1)
    with pytest.raises(ValueError, match="more young"):
        carry_on(plan(routes=[BACK]), "r", 1, 0, {"daughters": (young,) * 3})


def test_the_price_of_the_finished_animal_moves_on() -> None:
    goal = {"outright_price": 1000, "outright_change": -0.1}
    after = carry_on(plan(goal=goal, routes=[STRAIGHT | {"buy_outright": 3}]), "r", 1, 0)
    assert after.goal.outright_price == pytest.approx(900)
    assert after.routes[0].buy_outright == 2


@pytest.mark.parametrize("gone", [0, 4])
def test_there_must_be_seasons_left(gone: int) -> None:
    with pytest.raises(ValueError, match="seasons left"):
        carry_on(plan(routes=[STRAIGHT]), "r", gone, 0)


@settings(max_examples=40, deadline=None)
@given(plans(), st.integers(1, 3))
def test_any_plan_carried_on_is_a_plan(drawn: dict[str, Any], gone: int) -> None:
    told = read_plan(msgspec.json.encode(drawn))
    if gone >= told.goal.seasons:
        return
    after = carry_on(told, told.routes[0].id, gone, 12.5)
    assert not check_plan(after)
    assert read_plan(write_plan(after)) == after


def test_parents_that_have_left_are_still_parents() -> None:
    # Dams that went after season 1 are no animals of the route any more, but their daughters carry what they did.
    gone = [BOUGHT[0], BOUGHT[1] | {"until": 1, "carries": {"lav": "l/l"}}]
    told = plan(routes=[BACK | {"groups": [*gone, DAUGHTERS]}])
    young = KeptYoung(forms={"lav": "normal"}, season=1)
    after = carry_on(told, "r", 1, 0, {"daughters": (young,)})
    assert [animal.id for animal in after.my_animals] == ["sire-1", "dams-1", "daughters-1"]
    assert [group.id for group in after.routes[0].groups] == ["sire", "daughters"]
    assert belief_report(after)["daughters-1"] == {"lav": {"l/+": pytest.approx(1)}}
    assert [one.id for one in possible_parents(told, "r", 1, {}, "daughters")] == ["sire-1", "dams-1", "dams-2"]


def test_brothers_that_can_breed_stay_in_one_group() -> None:
    # The first group of males that can breed is the only one that does: two groups would leave a son idle.
    sons = {"id": "sons", "sex": "male", "count": 3, "origin": "hold", "from": ["first"], "pick": [{}]}
    route = STRAIGHT | {"groups": [*BOUGHT, sons]}
    kept = tuple(KeptYoung(forms={}, season=season) for season in (1, 2, 3))
    after = carry_on(plan(routes=[route]), "r", 3, 0, {"sons": kept})
    groups = [group for group in after.routes[0].groups if isinstance(group, Owned)][2:]
    assert [(group.animals, group.ready_in) for group in groups] == [(("sons-1", "sons-2", "sons-3"), 0)]


def test_money_gone_is_gone_from_the_budget() -> None:
    told = plan(routes=[STRAIGHT], goal={"budget": 500})
    assert carry_on(told, "r", 1, 322.5).goal.budget == 177.5
    assert carry_on(told, "r", 1, 522.5).goal.budget == 0


def test_young_of_nobody() -> None:
    later = [BOUGHT[0] | {"season": 3}, BOUGHT[1]]
    told = plan(routes=[BACK | {"groups": [*later, DAUGHTERS]}])
    with pytest.raises(ValueError, match="parents"):
        carry_on(told, "r", 1, 0, {"daughters": (KeptYoung(forms={}, season=1),)})


def test_a_younger_brother_has_the_females_that_the_older_leaves_over() -> None:
    # One egg a clutch, all of them male, so one son a season; two het females, of which a male serves one.
    sons = {"id": "sons", "sex": "male", "count": 2, "origin": "hold", "from": ["first"], "pick": [{}]}
    mates = BOUGHT[1] | {"id": "mates", "season": 3}
    first = FIRST | {"females": ["dam"]}
    groups = [
        BOUGHT[0] | {"carries": {"lav": "l/l"}},
        {"id": "dam", "sex": "female", "count": 1, "carries": {}, "origin": "buy", "price": 5},
        sons,
        mates,
    ]
    route = STRAIGHT | {
        "groups": groups,
        "pairings": [first, {"id": "later", "males": ["sons", "sire"], "females": ["mates"]}],
    }
    species = {"sex_system": "temperature", "female_share": 0, "clutch": {"fixed": 1}, "females_per_male": 1}
    told = plan(routes=[route], species=species)
    after = carry_on(told, "r", 1, 0, {"sons": (KeptYoung(forms={}, season=1),)})
    assert [(one.id, one.males) for one in after.routes[0].pairings] == [
        ("first", ("sire",)),
        ("later", ("sons", "sons-1", "sire")),
        ("later-2", ("sons-1",)),
    ]
    whole = evaluated(told)
    assert evaluated(after).chance_by_season == pytest.approx(whole.chance_by_season[1:])
    assert evaluated(after).paid_by_season == pytest.approx(whole.paid_by_season[1:] - whole.paid_by_season[0])

"""The steps of a route: who is there when, who grows, who breeds."""

from __future__ import annotations

import msgspec
import pytest

from core.plan.model import Bought, Held, Pairing, Plan, Route
from desktop.lanes import Breeding, Purchase, Stay, expected_eggs, lane_count, lanes, mean_clutch
from desktop.locale_numbers import LocaleNumbers
from desktop.panels.steps.drawing import numbered
from desktop.plan_files import SAMPLE, SAMPLES, open_plan
from desktop.words import steps


@pytest.fixture(scope="module")
def plan() -> Plan:
    opened = open_plan(SAMPLE)
    assert isinstance(opened, Plan)
    return opened


def route(plan: Plan, name: str) -> Route:
    return next(one for one in plan.routes if one.id == name)


def test_daughters_grow_three_seasons_before_they_breed(plan: Plan) -> None:
    found = lanes(plan, route(plan, "daughters-back"))
    daughters = next(lane for lane in found if isinstance(lane, Stay) and lane.group.id == "daughters")
    assert (daughters.arrives, daughters.breeds) == (1, 4)
    first, back = (lane for lane in found if isinstance(lane, Breeding))
    assert first.seasons == (1,)
    assert back.seasons == (4, 5, 6, 7)
    assert steps.breeding_text(plan, first, 1)[0] == "about 19 eggs, hold back up to 4 amel daughters"


def test_a_pairing_stands_below_its_last_group(plan: Plan) -> None:
    kinds = [type(lane).__name__ for lane in lanes(plan, route(plan, "from-visuals"))]
    assert kinds == ["Stay", "Stay", "Breeding", "Stay", "Stay", "Breeding"]


def test_buying_outright_is_a_step(plan: Plan) -> None:
    assert lanes(plan, route(plan, "outright")) == (Purchase(1),)
    said = steps.purchase_text(plan, Purchase(2), only=False, numbers=LocaleNumbers())
    assert said[0] == "buy it for 1,805 if none has hatched"
    pair = msgspec.structs.replace(plan.goal, want=(msgspec.structs.replace(plan.goal.want[0], count=2),))
    two = msgspec.structs.replace(plan, goal=pair)
    said = steps.purchase_text(two, Purchase(2), only=False, numbers=LocaleNumbers())
    assert said == ("buy them for 1,805 if not all are there", "buy them for 1,805", "buy them")
    assert steps.buy_finished(two) == "Buy them finished"
    born = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, young="live"))
    said = steps.purchase_text(born, Purchase(2), only=False, numbers=LocaleNumbers())
    assert said[0] == "buy it for 1,805 if none was born"


def test_a_group_fed_by_its_own_young_never_begins(plan: Plan) -> None:
    alone = Held(id="loop", sex="female", count=1, source=("p",), pick=({},))
    ring = Route(id="r", name="r", groups=(alone,), pairings=(Pairing(id="p", males=("loop",), females=("loop",)),))
    stay = lanes(plan, ring)[0]
    assert isinstance(stay, Stay)
    assert stay.arrives > plan.goal.seasons


def test_eggs_are_expected_from_all_females(plan: Plan) -> None:
    breeding = next(lane for lane in lanes(plan, route(plan, "double-hets")) if isinstance(lane, Breeding))
    assert expected_eggs(plan, breeding, 1) == round(2 * 12 * 0.85 * 0.93)
    fixed = msgspec.structs.replace(
        plan.species.clutch, mean=None, sd=None, min=None, max=None, counts={"4": "1/2", "6": 0.5}
    )
    counted = msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, clutch=fixed))
    assert mean_clutch(counted) == 5


def test_many_seasons_are_numbered_now_and_then() -> None:
    assert numbered(7, 80, 20) == (1, 2, 3, 4, 5, 6, 7)
    assert numbered(12, 8, 20) == (1, 5, 10)


def test_lanes_are_counted_as_they_are_laid_out() -> None:
    for sample in SAMPLES.glob("*.plan.json"):
        opened = open_plan(sample)
        assert isinstance(opened, Plan)
        for one in opened.routes:
            assert lane_count(one) == len(lanes(opened, one))


def test_who_breeds_when_is_told_to_those_who_do_not_see_it(plan: Plan) -> None:
    numbers = LocaleNumbers()
    said = steps.spoken(plan, lanes(plan, route(plan, "daughters-back")), numbers)
    assert "sire × dams in season 1;" in said
    assert "sire × daughters in seasons 4, 5, 6, 7" in said
    soon = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, seasons=2))
    assert "sire × daughters never" in steps.spoken(soon, lanes(soon, route(soon, "daughters-back")), numbers)


def two_sires(plan: Plan, *, dams: int = 2, buy: int | None = None) -> tuple[Breeding, Breeding]:
    """Two males, one pairing after the other, for the same females."""
    groups = (
        Bought(id="one", sex="male", count=1, carries={}, price=1),
        Bought(id="two", sex="male", count=1, carries={}, price=1, season=2),
        Bought(id="dams", sex="female", count=dams, carries={}, price=1),
    )
    pairings = tuple(Pairing(id=name, males=(name,), females=("dams",)) for name in ("two", "one"))
    drawn = Route(id="r", name="r", groups=groups, pairings=pairings, buy_outright=buy)
    first, second = (lane for lane in lanes(plan, drawn) if isinstance(lane, Breeding))
    return first, second


def test_females_go_to_one_male_a_season(plan: Plan) -> None:
    first, second = two_sires(plan)
    assert (first.laying, second.laying) == ((2, 3, 4, 5, 6, 7), (1,))
    assert second.seasons == (1, 2, 3, 4, 5, 6, 7)
    assert expected_eggs(plan, second, 2) == 0


def test_a_male_takes_no_more_females_than_he_serves(plan: Plan) -> None:
    first, second = two_sires(plan, dams=plan.species.females_per_male + 2)
    assert (first.females_in(2), second.females_in(2)) == (plan.species.females_per_male, 2)
    assert second.females_in(1) == plan.species.females_per_male


def test_nothing_is_bred_from_the_season_that_buys(plan: Plan) -> None:
    first, second = two_sires(plan, buy=4)
    assert (first.laying, second.laying) == ((2, 3), (1,))
    assert two_sires(plan, buy=1)[1].laying == ()

"""What is worth paying and what matters most, in words."""

from __future__ import annotations

from dataclasses import replace as replace_flip
from pathlib import Path

import pytest
from msgspec.structs import replace

from core.advice.matters import Effect, Figures, Flip, Matters
from core.advice.matters_words import end_words, flip_short, flip_words, money_words, range_words, value_words
from core.advice.matters_work import matters_steps
from core.advice.worth import Worth, WorthPaying, worth_steps
from core.advice.worth_words import lot_words, most_words, reason_words, verdict_words
from core.explain.numbers import PlainNumbers
from core.plan.model import Plan
from core.plan.read import load_plan
from core.progress import finished
from tests.core.advice.worth_cases import HETS, VISUAL, VISUALS, market, offer

PLAIN = PlainNumbers()
SAMPLES = Path(__file__).parents[3] / "assets" / "samples"


def told(plan: Plan) -> tuple[WorthPaying, dict[str, Worth]]:
    answered = finished(worth_steps(plan))
    return answered, {lot_words(plan, row.lot): row for row in answered.rows}


def test_both_sexes_under_one_name_are_told_apart() -> None:
    """A list may call either sex of a kind the same."""
    names = list(told(load_plan(SAMPLES / "corn-linked.plan.json"))[1])
    assert {"Double het, two visuals (male)", "Double het, two visuals (female)", "Amber slate male"} <= {*names}


def test_buy_this_one() -> None:
    plan = market()
    answered, rows = told(plan)
    assert list(rows) == ["Het lavender male", "Het female", "Lavender female"]
    assert verdict_words(rows["Het female"], PLAIN) == "yes, 50 under what it is worth to you"
    assert most_words(rows["Het female"], PLAIN) == "100"
    assert reason_words(plan, answered.lots, rows["Het female"], PLAIN) == (
        "The best plan with it, buying 3 of them, is “Hets”: set aside 250. "
        "“Visuals” takes 400: above 100 each it is cheaper."
    )
    assert verdict_words(rows["Lavender female"], PLAIN) == "no, 150 over what it is worth to you"
    assert reason_words(plan, answered.lots, rows["Lavender female"], PLAIN) == (
        "The best plan with it is “Visuals”: set aside 400. “Hets” takes 250: above 150 it is cheaper."
    )
    assert verdict_words(rows["Het lavender male"], PLAIN) == "yes, nothing else gets there"
    assert reason_words(plan, answered.lots, rows["Het lavender male"], PLAIN) == (
        "Only plans with it reach the goal for 90 of 100 within 1 season, so nothing here bounds its price. "
        "A budget would."
    )


def test_what_a_budget_bounds() -> None:
    plan = market(goal={"budget": 600})
    answered, rows = told(plan)
    male = rows["Het lavender male"]
    assert verdict_words(male, PLAIN) == "yes, 350 under what it is worth to you"
    assert reason_words(plan, answered.lots, male, PLAIN).endswith(
        "No other plan reaches the goal for 90 of 100 within 1 season; above 450 your budget is too small."
    )


def test_another_animal_in_its_place_and_the_finished_one() -> None:
    sale = [offer("visual-m", "male", VISUAL, 200, label="Lavender male")]
    plan = market(routes=[HETS], for_sale=sale, goal={"outright_price": 240})
    answered, rows = told(plan)
    assert verdict_words(rows["Lavender male"], PLAIN) == "no, 10 over what it is worth to you"
    assert reason_words(plan, answered.lots, rows["Lavender male"], PLAIN) == (
        "The best plan with it is “Hets”, with Lavender male as sire: set aside 250. "
        "Buying the finished animal takes 240: above 190 it is cheaper."
    )


def test_no_price_at_all() -> None:
    amel = offer("amel-f", "female", {"amel": "a/a"}, 40, label="Amel female")
    dear = {**VISUALS, "setup": 200}
    plan = market(routes=[HETS, dear], for_sale=[amel])
    answered, rows = told(plan)
    assert verdict_words(rows["Amel female"], PLAIN) == "only for another goal"
    assert reason_words(plan, answered.lots, rows["Amel female"], PLAIN) == (
        "Amel female carries nothing of what you want here."
    )
    dams = rows["Lavender female"]
    assert verdict_words(dams, PLAIN) == "no, not even as a gift"
    assert reason_words(plan, answered.lots, dams, PLAIN) == (
        "The best plan with it is “Visuals”: set aside 600. “Hets” takes 250, less than that even without its price."
    )
    assert most_words(dams, PLAIN) == ""


def test_within_the_noise_there_is_a_range() -> None:
    plan = market()
    _, rows = told(plan)
    row = replace_row(rows["Het female"], span=(45.0, 100.0))
    assert verdict_words(row, PLAIN) == "too close to call"
    assert most_words(row, PLAIN) == "45 to 100"


def replace_row(row: Worth, **parts: object) -> Worth:
    return type(row)(**{**{name: getattr(row, name) for name in row.__dataclass_fields__}, **parts})


@pytest.fixture(scope="module")
def royals() -> tuple[Plan, Matters]:
    plan = load_plan(SAMPLES / "royal-possible-hets.plan.json")
    return plan, finished(matters_steps(plan))


def effect(answered: Matters, key: str) -> Effect:
    return next(one for one in answered.effects if one.assumption.key.startswith(key))


def test_values_with_their_units(royals: tuple[Plan, Matters]) -> None:
    plan, answered = royals

    def said(key: str, value: float) -> str:
        return value_words(plan, effect(answered, key).assumption, value, PLAIN)

    assert [said("clutch", value) for value in (1, 6.8, 9)] == ["1 egg", "6.8 eggs", "9 eggs"]
    assert [said("lays", value) for value in (0.65, 0.925, 1)] == ["65 %", "92.5 %", "100 %"]
    assert [said("prices", value) for value in (0.8, 1, 1.05)] == ["20 % less", "as planned", "5 % more"]
    assert [said("females_per_male", value) for value in (1, 4)] == ["1 female", "4 females"]
    assert said("het/", 2 / 3) == "66 %"
    litter = replace(plan, species=replace(plan.species, young="live"))
    assert value_words(litter, effect(answered, "clutch_").assumption, 0.5, PLAIN) == "50 %"
    assert value_words(litter, effect(answered, "clutch").assumption, 6.5, PLAIN) == "6.5 young"


def test_ends_and_where_the_winner_changes(royals: tuple[Plan, Matters]) -> None:
    plan, answered = royals
    clutch, males, price = (effect(answered, key) for key in ("clutch", "breeds.male", "outright"))
    assert end_words(plan, clutch, clutch.low, "hets", 2, PLAIN) == "5.1 eggs: 3,211"
    assert end_words(plan, males, males.low, "hets", 2, PLAIN).startswith("80 %: out of reach, ")
    assert [flip_words(plan, clutch.assumption, flip, PLAIN) for flip in clutch.flips] == [
        "At 6.4 eggs or fewer, “Pied sire, double hets” is cheapest: set aside 2,697.",
        "At 7.5 eggs or more, “Pied sire, double hets” is cheapest: set aside 2,458.",
    ]
    assert flip_words(plan, price.assumption, price.flips[0], PLAIN) == (
        "At 13 % less or lower still, “Buy the finished snake” is cheapest: set aside 2,610."
    )
    # At 80 % it is neither.
    assert flip_words(plan, males.assumption, males.flips[0], PLAIN) == (
        "At 90 %, “Pied sire, double hets” is cheapest: set aside 2,838. At 80 %, “Buy the finished snake” is cheapest."
    )
    assert flip_short(plan, males.assumption, males.flips[0], PLAIN) == (
        "At 90 %: Pied sire, double hets; at 80 %: Buy the finished snake"
    )
    assert flip_short(plan, clutch.assumption, clutch.flips[0], PLAIN) == (
        "At 6.4 eggs or fewer: Pied sire, double hets"
    )
    out = replace_flip(males.flips[0], far=None)
    assert flip_words(plan, males.assumption, out, PLAIN).endswith(" At 80 %, no route reaches the goal.")
    wavering = replace_flip(clutch.flips[0], stays=False)
    assert flip_words(plan, clutch.assumption, wavering, PLAIN) == (
        "At 6.4 eggs, “Pied sire, double hets” is cheapest: set aside 2,697. "
        "On the way to 5.1 eggs the cheapest changes more than once."
    )
    assert flip_short(plan, clutch.assumption, wavering, PLAIN) == (
        "At 6.4 eggs: Pied sire, double hets, on and off to 5.1 eggs"
    )
    nobody = Flip("below", 0.8, 0.81, None, None, None, stays=True)
    assert flip_words(plan, males.assumption, nobody, PLAIN) == "At 80 % or less, no route reaches the goal."
    assert range_words(plan, clutch.assumption, PLAIN) == (
        "5.1 eggs to 8.5 eggs. Common practice, without a source. "
        "A quarter either way: numbers differ with a female's size, age and condition."
    )


def test_a_route_without_an_answer() -> None:
    assert money_words(None, None, PLAIN) == "no answer"
    assert money_words(Figures(None, None, 0, None, {2: 0.655}), 2, PLAIN) == "out of reach, 65 in 100"

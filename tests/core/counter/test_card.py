"""The words and numbers of an odds card."""

from __future__ import annotations

import msgspec
import pytest

from core.counter.card import Parent, clutch_words, goal_words, odds_card, price_words, reckoned
from core.explain.numbers import PlainNumbers, in_currency
from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.plan_files import SAMPLES

NUMBERS = PlainNumbers()


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLES / "amel-lavender.plan.json")


def test_a_card_says_it_all(plan: Plan) -> None:
    male = Parent("male", plan.for_sale[0].carries, 160)
    female = Parent("female", plan.for_sale[1].carries, 230)
    card = odds_card(plan, male, female, plan.goal.want[0].forms, NUMBERS)
    assert (card.male, card.female) == ("Double het male", "double het female")
    assert card.price == "160 + 230 = 390 USD for the pair"
    assert [row.share for row in card.rows] == ["9 in 16", "3 in 16", "3 in 16", "1 in 16"]
    assert [row.is_goal for row in card.rows] == [False, False, False, True]
    assert (card.rows[0].look, card.rows[0].hides) == ("Normal", "66 % het amel, 66 % het lavender")
    assert (card.rows[3].look, card.rows[3].hides) == ("Opal", "amel lavender")
    assert card.headline == "in 100 single clutches give at least one opal."
    assert 0 < card.dots < 100
    assert card.promise == "Odds, not promises."
    assert any("ask your authority" in caution for caution in card.cautions)
    assert card.foot == "Prices and rates were invented for this example."


def test_one_at_home_has_no_price(plan: Plan) -> None:
    home, bought = Parent("female", {}), Parent("male", {}, 340)
    assert price_words(plan, bought, home, NUMBERS) == "340 USD, for the one at home"
    assert price_words(plan, Parent("male", {}), home, NUMBERS) == ""


def test_doubt_is_said(plan: Plan) -> None:
    possible = {plan.genes[0].id: {f"{plan.genes[0].alleles[0]}/+": "1/2", "+/+": "1/2"}}
    card = odds_card(plan, Parent("male", possible, 1), Parent("female", {}, 1), plan.goal.want[0].forms, NUMBERS)
    assert any("what the male may carry is only possible" in line for line in card.reckoned)


def test_words_of_a_goal(plan: Plan) -> None:
    gene = plan.genes[0]
    form = next(iter(gene.forms.values()))
    assert goal_words(plan, {gene.id: form}, "any") == form
    assert goal_words(plan, {gene.id: "normal"}, "any") == "normal"
    assert goal_words(plan, {gene.id: form}, "female") == f"{form} female"


def test_what_is_lost_and_what_is_not_counted_is_said(plan: Plan) -> None:
    told = clutch_words(plan, NUMBERS)
    assert told == (
        "A clutch of about 12 eggs, from 5 to 20; 81 % of them hatch. 4 % of clutches are lost whole. "
        "5 % of males never sire."
    )
    gecko = load_plan(SAMPLES / "gecko-sex-linked.plan.json")
    assert clutch_words(gecko, NUMBERS).startswith("A clutch of 2 eggs; 72 % of them hatch.")
    male, female = Parent("male", {}, 1), Parent("female", {}, 1)
    assert reckoned(load_plan(SAMPLES / "boa-my-animals.plan.json"), male, female, NUMBERS)[-1].startswith(
        "Every young"
    )
    assert "Counted from clutches that are there. In a season 20 % of females have none." in reckoned(
        plan, male, female, NUMBERS
    )


def test_a_live_bearer_has_litters_throughout() -> None:
    boas = load_plan(SAMPLES / "boa-my-animals.plan.json")
    doubtful = {"coal": {"c/+": "2/3", "+/+": "1/3"}}
    for carries in ({"coal": "c/+"}, doubtful):
        card = odds_card(
            boas, Parent("male", {"coal": "c/c"}, 1), Parent("female", carries, 1), {"coal": "coal"}, NUMBERS
        )
        told = " ".join([card.headline, card.more, card.out_of_100, *card.reckoned])
        assert "litter" in told
        assert not any(word in told.lower() for word in ("clutch", "hatch", "egg"))


def test_a_plan_without_a_currency_has_no_gap_for_it(plan: Plan) -> None:
    bare = msgspec.structs.replace(plan, currency="")
    male, female = Parent("male", {}, 160), Parent("female", {}, 230)
    assert price_words(bare, male, female, NUMBERS) == "160 + 230 = 390 for the pair"
    assert price_words(bare, male, Parent("female", {}), NUMBERS) == "160, for the one at home"
    assert in_currency("390", plan) == "390 USD"


def test_what_a_map_says_for_sure_is_no_doubt(plan: Plan) -> None:
    allele = plan.genes[0].alleles[0]
    sure = {plan.genes[0].id: {f"{allele}/+": "1/1", "+/+": 0}}
    card = odds_card(plan, Parent("male", sure, 1), Parent("female", {}, 1), plan.goal.want[0].forms, NUMBERS)
    assert "Both parents are taken to carry what they are said to carry." in card.reckoned

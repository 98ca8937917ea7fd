"""Sentences of an explanation: singular, plural and zero; certain only where it is; who beats whom."""

from __future__ import annotations

import numpy as np
import pytest
from explain_cases import DOUBLE_HET, HALF_HET, back_plan, pair_plan, why_of

from core.explain.beats import Contender, decisive_sentence, money_lines, season_lines
from core.explain.fractions import decimal_text, equals_text, fraction_text, power_text, share_words, spoken
from core.explain.ladder import Ladder, Rung
from core.explain.money import Spending
from core.explain.numbers import PlainNumbers, told_parts, told_sum
from core.explain.people import cause_words, people, people_sentence, small_sentence
from core.explain.rungs import (
    ceiling_sentence,
    chance_text,
    gap_sentence,
    headline,
    in_100,
    method_sentence,
    order_sentence,
    points_text,
    rung_note,
)
from core.explain.truths import TRUTHS, Truth
from core.routes.result import ToGoal

NUMBERS = PlainNumbers()


def ladder(textbook: float, costs: dict[Truth, float], runs: int | None = None) -> Ladder:
    """A ladder of one season with these costs."""
    now, rungs = textbook, []
    for truth in TRUTHS:
        after = now - costs.get(truth, 0.0)
        rungs.append(Rung(truth, np.array([now]), np.array([after]), truth in costs))
        now = after
    return Ladder(tuple(rungs), False, runs)


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "0 in 100"),
        (0.004, "fewer than 1 in 100"),
        (0.629, "62 in 100"),
        (0.996, "more than 99 in 100"),
        (1 - 1e-13, "more than 99 in 100"),
        (1.0, "100 in 100"),
    ],
)
def test_chances_in_prose(chance: float, words: str) -> None:
    assert in_100(chance) == words


@pytest.mark.parametrize(
    ("real", "reached", "sentence"),
    [
        (0.0, 0, "As the plan has it, none of 100 people who try this reaches the goal."),
        (0.004, 1, "About 1 of 100 people who try this reaches the goal."),
        (0.62, 62, "About 62 of 100 people who try this reach the goal."),
        (0.9999, 99, "About 99 of 100 people who try this reach the goal."),
        (1.0, 100, "As the plan has it, 100 of 100 people who try this reach the goal."),
    ],
)
def test_the_hundred_people(real: float, reached: int, sentence: str) -> None:
    found = people(ladder(1.0, {"breeders": 1.0 - real}), 1)
    assert found.reached == reached
    assert sum(many for _, many in found.missed) == 100 - reached
    assert people_sentence(found) == sentence


@pytest.mark.parametrize(
    ("textbook", "real", "words", "reached"),
    [(0.9999, 1.0, "more than 99 in 100", 99), (0.9, 0.0, "fewer than 1 in 100", 1), (0.0, 0.0, "0 in 100", 0)],
)
def test_what_came_out_in_every_run_is_not_certain(textbook: float, real: float, words: str, reached: int) -> None:
    simulated = ladder(textbook, {"breeders": textbook - real}, runs=200)
    assert words in headline(simulated, 1)[2]
    found = people(simulated, 1)
    assert found.reached == reached
    assert sum(many for _, many in found.missed) == 100 - reached


def test_misses_are_shared_out_by_the_ladder() -> None:
    found = people(ladder(0.98, {"genotypes": 0.06, "sizes": 0.002, "holding": 0.298}), 1)
    assert found.missed == (("holding", 30), ("genotypes", 6), ("luck", 2))
    assert small_sentence(found) == "Small clutches cost less than 1 person in 100 here."
    assert cause_words("holding") == "too few of the right young to hold back, or young lost"


def test_a_rung_that_adds_takes_from_all_causes() -> None:
    found = people(ladder(0.8, {"genotypes": 0.2, "sizes": -0.1}), 1)
    assert (found.reached, found.missed) == (70, (("luck", 15), ("genotypes", 15)))


def test_what_can_never_be() -> None:
    assert people(ladder(0.0, {"breeders": 0.0}), 1).missed == (("never", 100),)
    assert gap_sentence(ladder(0.0, {}), 1, NUMBERS).startswith("This route cannot give what is wanted")


def test_what_only_bad_luck_makes_possible() -> None:
    """The textbook fills all places at once with young of no use; where a clutch is lost, later ones may do."""
    lucky = ladder(0.0, {"losses": -0.2})
    assert gap_sentence(lucky, 1, NUMBERS).startswith("Real odds are better here")
    assert people(lucky, 1).missed == (("luck", 80),)


@pytest.mark.parametrize(
    ("costs", "sentence"),
    [
        ({"laying": 0.002}, "The textbook is right here, to within half a percentage point."),
        ({"laying": 0.2, "sizes": 0.01}, "Most of the gap is females that do not lay in a season."),
        (
            {"laying": 0.2, "breeders": 0.18},
            "The largest part of the gap is females that do not lay in a season (20.0 points); "
            "then animals that never breed (18.0 points).",
        ),
        ({"sizes": -0.05}, "Real odds are better here, mainly because of clutches that turn out small."),
    ],
)
def test_the_gap_in_a_sentence(costs: dict[Truth, float], sentence: str) -> None:
    assert gap_sentence(ladder(0.9, costs), 1, NUMBERS) == sentence


def test_the_headline_never_promises() -> None:
    assert headline(ladder(1 - 1e-13, {"breeders": 0.15}), 1) == (
        "Textbook odds say more than 99 in 100",
        "by season",
        ". Real odds are 85 in 100.",
    )


@pytest.mark.parametrize(("points", "text"), [(-6.44, "−6.4"), (0.31, "+0.3"), (-0.04, "0.0"), (0.0, "0.0")])
def test_points(points: float, text: str) -> None:
    assert points_text(points, NUMBERS) == text


@pytest.mark.parametrize(
    ("chance", "text"), [(1.0, "100.0"), (0.9999, "> 99.9"), (0.847, "84.7"), (0.0004, "< 0.1"), (0.0, "0.0")]
)
def test_ends_of_the_ladder(chance: float, text: str) -> None:
    assert chance_text(chance, NUMBERS) == text


def test_the_order_and_the_method() -> None:
    plan = back_plan()
    assert "in this order" in order_sentence(why_of(plan).ladder)
    assert "from the last to the first" in order_sentence(why_of(plan, from_end=True).ladder)
    assert method_sentence(ladder(1, {}), NUMBERS) == "Worked out exactly."
    assert method_sentence(ladder(1, {}, 20_000), NUMBERS, 0.004).endswith("20,000 runs each, ± 0.4 points.")


def test_risks_left_out_make_a_ceiling() -> None:
    plan = pair_plan(DOUBLE_HET, HALF_HET, lays=0.9, hatches=0.9, breeds={"male": 0.9, "female": 0.9})
    assert ceiling_sentence(plan) == "This plan leaves out young that are lost, so its chances are a ceiling."
    every = pair_plan(
        DOUBLE_HET, HALF_HET, lays=0.9, hatches=0.9, breeds={"male": 0.9, "female": 0.9}, reaches_breeding=0.9
    )
    assert ceiling_sentence(every) == ""
    assert rung_note(plan, "laying", applies=True) == "A female lays in 90 of 100 seasons."
    assert rung_note(plan, "holding", applies=False) == "Nothing is held back."


@pytest.mark.parametrize(
    ("chance", "text"),
    [
        (0.0, "0"),
        (1.0, "1"),
        (1 / 16, "1/16"),
        (0.123456789, "0.1235"),
        (4e-6, "0.000004"),
        (1 - 1e-9, "more than 0.9999"),
    ],
)
def test_fractions_and_decimals(chance: float, text: str) -> None:
    assert fraction_text(chance) == text


def test_small_numbers_are_not_called_nothing() -> None:
    assert decimal_text(1e-12) == "less than 0.000000001"
    assert equals_text(1e-12) == "< 0.000000001"
    assert equals_text(0.25) == "= 0.2500"


def test_powers_are_heard() -> None:
    assert power_text("15/16", 24) == "(15/16)²⁴"
    assert spoken("(15/16)²⁴ = 0.2125") == "(15/16) to the power of 24 = 0.2125"
    assert power_text("0.5", 1) == "0.5"


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1 / 16, "1 in 16"),
        (0.12345678, "12 in 100"),
        (0.00123456, "less than 1 in 100"),
        (0.99912345, "more than 99 in 100"),
    ],
)
def test_shares_in_words(chance: float, words: str) -> None:
    assert share_words(chance) == words


# Why this beats that


def contender(
    name: str, steps: Ladder, money: float | None, *, kinds: tuple[float, float, float] = (0, 0, 0), season: int = 1
) -> Contender:
    to_goal = None if money is None else ToGoal(1, money, season, 1, 0.8)
    spent = dict(zip(("buying", "keeping", "young"), (np.array([kind]) for kind in kinds), strict=True))
    return Contender(name, steps, Spending(spent), to_goal)  # type: ignore[arg-type]


SURE, HELD = ladder(0.99, {"breeders": 0.05}), ladder(0.99, {"breeders": 0.05, "holding": 0.3})


def test_the_cheaper_beats_by_its_largest_saving() -> None:
    one = contender("A", SURE, 900, kinds=(500, 100, 50))
    other = contender("B", SURE, 1200, kinds=(450, 400, 60))
    sentence = "“A” beats “B”: 300 less to set aside. Its largest saving is keeping animals: 300 less on average."
    assert decisive_sentence(one, other, 0.8, 1, NUMBERS) == sentence
    assert decisive_sentence(other, one, 0.8, 1, NUMBERS) == sentence


def test_who_reaches_the_goal_beats_who_does_not() -> None:
    assert decisive_sentence(contender("A", HELD, None), contender("B", SURE, 900), 0.8, 1, NUMBERS) == (
        "“B” beats “A”: within 1 season only it is 80 in 100 sure, with 94 in 100 against 64 in 100. "
        "What decides it is too few of the right young to hold back, and young that are lost: "
        "that costs “A” 30 of 100 people, and “B” nobody."
    )


def test_neither_reaches_the_goal() -> None:
    one, other = contender("A", ladder(0.6, {}), None), contender("B", ladder(0.4, {}), None)
    assert decisive_sentence(one, other, 0.8, 1, NUMBERS) == (
        "“A” comes closer than “B”: 60 in 100 against 40 in 100. "
        "What decides it is the textbook's part, more young or better odds for each: 20 of 100 people."
    )
    assert "neither beats the other" in decisive_sentence(one, one, 0.8, 1, NUMBERS)


def test_ties_and_noise() -> None:
    one, sooner = contender("A", SURE, 900, season=3), contender("B", SURE, 900, season=2)
    assert decisive_sentence(one, sooner, 0.8, 3, NUMBERS).endswith("“B” gets there 1 season sooner.")
    noisy = Contender("C", SURE, one.spending, ToGoal(1, 950, 1, 1, 0.8), span=(880.0, 1000.0))
    assert decisive_sentence(one, noisy, 0.8, 1, NUMBERS).startswith("Too close to call")


def test_of_sums_that_are_told_alike_the_sooner_is_named() -> None:
    one, sooner = contender("A", SURE, 999.2, season=3), contender("B", SURE, 999.9, season=2)
    assert decisive_sentence(one, sooner, 0.8, 3, NUMBERS).endswith("“B” gets there 1 season sooner.")
    dearer = contender("B", SURE, 1000.1, season=3)
    assert decisive_sentence(one, dearer, 0.8, 1, NUMBERS).startswith("“A” beats “B”: 1 less to set aside.")


@pytest.mark.parametrize(
    ("goal", "lost", "told"),
    [
        (0.999, 0.0015, "99.9 in 100 sure, with 99.9 in 100 against 99.8 in 100."),
        (0.805, 0.1972, "80.5 in 100 sure, with 99.9 in 100 against 80.2 in 100."),
        (0.8, 0.1996, "80 in 100 sure, with more than 99 in 100 against 79 in 100."),
    ],
)
def test_chances_on_either_side_of_the_goal_are_told_apart(goal: float, lost: float, told: str) -> None:
    one, other = contender("A", ladder(0.9995, {}), 900), contender("B", ladder(0.9995, {"losses": lost}), None)
    assert told in decisive_sentence(one, other, goal, 1, NUMBERS)


def test_what_helps_the_winner_costs_nobody() -> None:
    # Of several animals wanted, a dam that may be het gives all of them or none.
    one, other = contender("A", ladder(0.05, {"genotypes": -0.11}), None), contender("B", ladder(0.05, {}), None)
    assert decisive_sentence(one, other, 0.8, 1, NUMBERS) == (
        "“A” comes closer than “B”: 16 in 100 against 5 in 100. "
        "What decides it is what its animals truly carry: that gives “A” 11 of 100 people more, and “B” nobody."
    )


def test_small_sums_are_told_apart_by_cents() -> None:
    one = contender("A", SURE, 1.946, kinds=(0.5, 0.1, 0.05))
    other = contender("B", SURE, 2.1623, kinds=(0.45, 0.4, 0.06))
    sentence = "“A” beats “B”: 0.22 less to set aside. Its largest saving is keeping animals: 0.30 less on average."
    assert decisive_sentence(one, other, 0.8, 1, NUMBERS) == sentence


def test_what_neither_can_give_is_said() -> None:
    never = ladder(0.0, {})
    both = contender("A", never, None), contender("B", never, None)
    assert decisive_sentence(*both, 0.8, 1, NUMBERS) == "Neither “A” nor “B” can give what is wanted within 1 season."


def test_money_adds_up() -> None:
    one = contender("A", HELD, 900, kinds=(500, 100, 50))
    other = contender("B", SURE, 1200, kinds=(450, 400, 60))
    *kinds, together = money_lines(one, other, 1)
    assert sum(line.difference for line in kinds) == together.difference == -260
    assert [line.words for line in season_lines(one, other)] == ["Season 1"]


def test_told_parts_add_up_to_the_told_sum() -> None:
    parts = (639.6, 1118.7, 354.6)
    assert told_parts(parts, whole=True) == [640, 1119, 354]
    assert sum(told_parts(parts, whole=True)) == told_sum(sum(parts))
    assert sum(told_parts((0.111, 0.111), whole=False)) == pytest.approx(told_sum(0.222))

"""Sentences: right numbers, right plurals, nothing promised that is not certain."""

from __future__ import annotations

from collections.abc import Generator

import msgspec
import pytest
import window_double as double
from msgspec.structs import replace

from core.plan.model import Gene, Plan, Route, Want
from core.routes.result import RouteResult
from desktop.evaluation import Finished, RouteAnswer, RouteFailure, evaluation_steps
from desktop.findings import Finding, Verdict, findings, verdict
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.words import numbers as n
from desktop.words.animals import animal, form_words
from desktop.words.answer import Answer, answer
from desktop.words.goal import goal_sentence
from desktop.words.runs import plain

PLAIN = n.PlainNumbers()


@pytest.fixture(scope="module")
def plan() -> Plan:
    opened = open_plan(SAMPLE)
    assert not isinstance(opened, Faults)
    return opened


def goal_of(plan: Plan, **changes: object) -> Plan:
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, **changes))


def only(plan: Plan, *names: str) -> Plan:
    return msgspec.structs.replace(plan, routes=tuple(route for route in plan.routes if route.id in names))


def found_of(plan: Plan) -> tuple[Finding, ...]:
    steps = evaluation_steps(plan, double.engine())
    return findings(plan, {step.id: step for step in steps if isinstance(step, RouteAnswer | RouteFailure)})


def said(plan: Plan, found: tuple[Finding, ...] | None = None) -> Answer:
    known = found_of(plan) if found is None else found
    return answer(plan, known, verdict(known, complete=True), PLAIN)


@pytest.mark.parametrize(
    ("value", "text"), [(1800, "1,800"), (1889.2, "1,890"), (99.5, "99.50"), (0, "0"), (12, "12"), (1556.0, "1,556")]
)
def test_sums_are_rounded_up_so_that_they_stay_enough(value: float, text: str) -> None:
    assert n.sum_of_money(value, PLAIN) == text


@pytest.mark.parametrize(
    ("chance", "text", "people"),
    [
        (0, "0 %", 0),
        (0.001, "< 1 %", 1),
        (0.5, "50 %", 50),
        (0.797, "79 %", 79),
        (0.999, "> 99 %", 99),
        (0.9999999, "> 99 %", 99),
        (1, "100 %", 100),
    ],
)
def test_only_what_is_certain_is_all_or_nothing(chance: float, text: str, people: int) -> None:
    assert n.percent(chance, PLAIN) == text
    assert n.of_100(chance) == people


def test_eighty_per_cent_is_eighty_people() -> None:
    assert n.of_100(0.8) == 80
    assert n.of_100(0.797) == 79


@pytest.mark.parametrize(
    ("males", "females", "text"),
    [(1, 2, "one male, two females"), (0, 1, "one female"), (2, 0, "two males"), (0, 0, "no animals")],
)
def test_groups_are_spelled_out(males: int, females: int, text: str) -> None:
    assert n.long_group(males, females) == text


def test_animals_are_named_as_the_trade_does(plan: Plan) -> None:
    assert animal(plan, {"amel": "a/+", "lav": "l/+"}) == "double het"
    assert animal(plan, {"lav": "l/l", "amel": "a/+"}) == "lavender het amel"
    assert animal(plan, {"amel": "a/a", "lav": {"l/+": "2/3", "+/+": "1/3"}}) == "amel 66 % het lavender"
    assert animal(plan, {}) == "normal"
    assert animal(plan, {"amel": "+/a"}) == "het amel"


def test_linked_and_sex_linked_genes_are_named_too(plan: Plan) -> None:
    ember = Gene(id="em", name="Ember", alleles=("e",), forms={"e/e": "ember"}, placement="sex-chromosome")
    more = msgspec.structs.replace(plan, genes=(*plan.genes, ember))
    assert animal(more, {"em": "e/W"}) == "ember"
    assert animal(more, {"amel lav": "a +/+ l"}) == "double het amel lavender"


def test_forms_are_joined(plan: Plan) -> None:
    assert form_words(plan, {"amel": "amel", "lav": "lavender"}) == "amel + lavender visual"
    assert form_words(plan, {"amel": "normal"}) == "normal for amelanistic"
    assert form_words(plan, {}) == "animal"


def test_the_goal_counts_and_leaves_out_what_is_not_set(plan: Plan) -> None:
    want = (Want(forms={"amel": "amel"}, sex="male", count=2), Want(forms={}, sex="female"))
    changed = goal_of(plan, want=want, seasons=1, budget=None, chance="2/3")
    assert plain(goal_sentence(changed, PLAIN)) == (
        "I want 2 males amel visual and 1 female animal, 66.7 % sure, within 1 season"
    )


def test_the_goal_where_the_sex_does_not_matter(plan: Plan) -> None:
    changed = goal_of(plan, want=(Want(forms={"amel": "amel"}),), seasons=2, budget=None, chance=0.8)
    assert plain(goal_sentence(changed, PLAIN)) == "I want 1 amel visual of any sex, 80 % sure, within 2 seasons"


def test_the_answer_names_the_cheapest(plan: Plan) -> None:
    sentence = said(plan)
    assert plain(sentence.head) == "Cheapest: Lavender sire, double hets. Set aside 1,556."
    assert sentence.lead == (
        "It reaches the goal for 80 of 100 people who try it, with 1.2 (one male, two females), "
        "most often in season 1. It is 344 less than buying it finished."
    )
    assert sentence.share == 80


def test_buying_finished_wins_where_it_is_cheaper(plan: Plan) -> None:
    sentence = said(only(plan, "finished-sire", "outright"))
    assert plain(sentence.head) == "Cheapest: Buy the finished animal. Set aside 1,900."
    assert "Breeding needs at least 2,100." in sentence.lead
    assert "It is 100 over your 1,800" in sentence.lead
    assert sentence.share == 100


def test_buying_finished_is_mentioned_where_no_route_does_it(plan: Plan) -> None:
    assert "Buying it finished is cheaper: 1,900." in said(only(plan, "finished-sire")).lead


def test_where_nothing_reaches_the_goal_the_closest_is_named(plan: Plan) -> None:
    sentence = said(only(plan, "daughters-back", "from-visuals"))
    assert plain(sentence.head) == "No route is 80 % sure within 7 seasons."
    assert sentence.lead == (
        "Amel dams, daughters back comes closest: 62 of 100 people by season 7. "
        "Settle for 62 % sure, or allow more seasons."
    )


def test_within_the_noise_nobody_wins(plan: Plan) -> None:
    found = found_of(plan)
    close = tuple(
        replace(one, money_range=(1540.0, 1560.0)) if one.id == "visual-sire"
        else replace(one, money_range=(1550.0, 1900.0)) if one.id == "double-hets"
        else one
        for one in found
    )  # fmt: skip
    decided = verdict(close, complete=True)
    assert decided.kind == "close"
    assert decided.winner is None
    assert plain(said(plan, close).head) == "Too close to call. Set aside 1,540 to 1,900."
    assert "Lavender sire, double hets and Double hets, bred together" in said(plan, close).lead


def test_a_simulated_winner_gives_a_range(plan: Plan) -> None:
    found = tuple(
        replace(one, money_range=(1500.0, 1600.0)) if one.id == "visual-sire" else one for one in found_of(plan)
    )
    assert plain(said(plan, found).head) == "Cheapest: Lavender sire, double hets. Set aside 1,500 to 1,600."


def test_waiting_and_empty_plans_say_so(plan: Plan) -> None:
    waiting = findings(plan, {})
    assert plain(answer(plan, waiting, verdict(waiting, complete=False), PLAIN).head) == "Working out the routes…"
    assert plain(said(only(plan)).head) == "This plan has no routes yet."
    failed = findings(plan, {route.id: RouteFailure(route.id, "It has no females.") for route in plan.routes})
    assert said(plan, failed).lead == "It has no females."


def test_a_failing_route_leaves_the_others_alone(plan: Plan) -> None:
    def evaluate(whole: Plan, route: Route) -> Generator[float, None, RouteResult]:
        if route.id == "outright":
            raise ZeroDivisionError
        return (yield from double.route_steps(whole, route))

    steps = list(evaluation_steps(plan, evaluate))
    assert [type(step) for step in steps].count(RouteFailure) == 1
    assert steps[-1] == Finished()


def test_the_cheapest_so_far_is_said_to_be_so_far(plan: Plan) -> None:
    answers = {step.id: step for step in evaluation_steps(plan, double.engine()) if isinstance(step, RouteAnswer)}
    del answers["from-visuals"]
    found = findings(plan, answers)
    decided = verdict(found, complete=False)
    sentence = answer(plan, found, decided, PLAIN)
    assert plain(sentence.head).startswith("Cheapest so far: Lavender sire")
    assert sentence.lead.endswith("One route is still being worked out.")
    assert decided.winner is None


def test_no_verdict_before_all_answers_are_in(plan: Plan) -> None:
    assert verdict(findings(plan, {}), complete=False) == Verdict("waiting", pending=7)

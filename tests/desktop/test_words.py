"""Sentences: right numbers, right plurals, nothing promised that is not certain."""

from __future__ import annotations

import dataclasses
from collections.abc import Generator

import msgspec
import pytest
import window_double as double
from msgspec.structs import replace

from core.plan.limits import MOST_FAULTS
from core.plan.model import Gene, Plan, Route, Want
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult
from desktop.evaluation import Finished, RouteAnswer, RouteFailure, core_engine, evaluation_steps
from desktop.exports.comparison import assumptions
from desktop.findings import Finding, Verdict, findings, verdict
from desktop.plan_files import SAMPLE, Faults, open_plan
from desktop.words import carry_on, charts, counter, find, labels
from desktop.words import numbers as n
from desktop.words.animals import animal, form_words
from desktop.words.answer import Answer, answer
from desktop.words.goal import bought, goal_sentence
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


def test_what_is_bought_never_runs_one_number_into_another(plan: Plan) -> None:
    route = next(one for one in plan.routes if one.id == "finished-sire")
    groups = tuple(
        msgspec.structs.replace(group, carries={"lav": {"l/+": "2/3", "+/+": "1/3"}}) if group.id == "dams" else group
        for group in route.groups
    )
    (one,) = found_of(msgspec.structs.replace(plan, routes=(msgspec.structs.replace(route, groups=groups),)))
    assert one.buys == "1 opal male, 2 females 66 % het lavender"


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


@pytest.mark.parametrize(
    ("dear", "cheap", "text"),
    [(3050.4, 3000, "51"), (1900, 1555.2, "344"), (2.1623, 1.946, "0.22"), (101.2, 99.5, "2.50"), (12, 9, "3")],
)
def test_differences_are_of_the_sums_as_told(dear: float, cheap: float, text: str) -> None:
    assert n.more_by(dear, cheap, PLAIN) == text


def test_small_sums_differ_by_cents(plan: Plan) -> None:
    best = next(one for one in found_of(plan) if one.id == "visual-sire")
    small = replace(best, to_goal=dataclasses.replace(best.to_goal, money=1.946))  # type: ignore[type-var]
    lead = said(goal_of(plan, outright_price=2.5, budget=1.5), (small,)).lead
    assert "It is 0.55 less than buying it finished." in lead
    assert "It is 0.45 over your 1.50;" in lead


def test_the_price_of_what_is_bought_finished_is_for_all_of_them(plan: Plan) -> None:
    assert bought(plan) == "Bought finished it costs"
    three = goal_of(plan, want=(Want(forms={"amel": "amel"}, count=2), Want(forms={}, sex="female")))
    assert bought(three) == "Bought finished they cost together"


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
        "Amel dams, daughters back comes closest, with 1.2 (one male, two females): 62 of 100 people by season 7. "
        "Settle for 62 % sure, or allow more seasons. Buying it finished takes 1,900, 100 over your 1,800."
    )


def test_where_nothing_reaches_the_goal_no_closest_is_named_within_the_noise(plan: Plan) -> None:
    near = tuple(
        replace(one, chance=0.615, noise=0.007) if one.id == "from-visuals" else one
        for one in found_of(only(plan, "daughters-back", "from-visuals"))
    )
    lead = said(only(plan, "daughters-back", "from-visuals"), near).lead
    assert lead.startswith(
        "Amel dams, daughters back and Visuals, young together come closest: about 62 of 100 people by season 7. "
    )


def test_a_chance_that_is_hardly_there_is_not_rounded_up(plan: Plan) -> None:
    few = tuple(replace(one, chance=0.004, noise=None) for one in found_of(only(plan, "daughters-back")))
    sentence = said(only(plan, "daughters-back"), few)
    assert "fewer than 1 of 100 people by season 7. More seasons are needed." in sentence.lead
    assert (sentence.share, sentence.share_note) == (1, "or fewer reach the goal")


def test_the_chance_asked_for_is_told_as_it_was_asked(plan: Plan) -> None:
    nearly = goal_of(only(plan, "daughters-back"), chance=0.999)
    assert plain(said(nearly).head) == "No route is 99.9 % sure within 7 seasons."
    third = goal_of(only(plan, "daughters-back"), chance="2/3")
    assert plain(said(third).head) == "No route is 66.7 % sure within 7 seasons."


def test_less_than_is_told_is_no_saving(plan: Plan) -> None:
    assert "less than buying" not in said(goal_of(plan, outright_price=1556.5)).lead
    assert "It is 1.50 less than buying it finished." in said(goal_of(plan, outright_price=1557.5)).lead


def test_several_finished_animals_are_bought_together(plan: Plan) -> None:
    two = goal_of(plan, want=(msgspec.structs.replace(plan.goal.want[0], count=2),))
    assert "Buying them finished is cheaper: 1,900." in said(only(two, "finished-sire")).lead
    assert "It is 344 less than buying them finished." in said(two).lead


def test_too_close_to_call_buying_is_told_where_it_is_cheaper(plan: Plan) -> None:
    two = only(goal_of(plan, outright_price=1500.0), "finished-sire", "double-hets")
    close = tuple(replace(one, money_range=(1850.0, 2150.0)) for one in found_of(two))
    assert said(two, close).lead.endswith("Buying it finished is cheaper: 1,500.")


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


def test_without_a_currency_no_sentence_has_a_gap(plan: Plan) -> None:
    bare = msgspec.structs.replace(plan, currency="", already_spent=340)
    spoken = (
        labels.spent_apart(bare, PLAIN),
        charts.money_unit(bare),
        plain(goal_sentence(bare, PLAIN)),
        *assumptions(bare, PLAIN),
        counter.pair_of(bare),
        counter.rank_note(bare, bare.for_sale[0], 2031, PLAIN),
        carry_on.spent_guess(350.0, 1, bare, PLAIN),
    )
    for said in spoken:
        assert not any(gap in said for gap in ("  ", " ,", " .", " :")), said
        assert said == said.strip()
    told = assumptions(
        msgspec.structs.replace(bare, species=msgspec.structs.replace(bare.species, young="live")), PLAIN
    )
    assert not any("egg" in said for said in told)


def test_with_the_budget_the_best_chance_is_of_any_count(plan: Plan) -> None:
    """Two dams reach the goal for least; who has less money does best with one."""
    short = only(goal_of(plan, budget=1000, chance=0.9, outright_price=None), "double-hets")
    engine = core_engine()
    found = findings(
        short, {step.id: step for step in evaluation_steps(short, engine) if isinstance(step, RouteAnswer)}
    )
    (one,) = found
    assert one.result is not None
    told = evaluate_route(short, short.routes[0]).chance_at_budget
    assert told is not None
    assert told > (one.result.chance_at_budget or 0) + 0.05
    lead = answer(short, found, verdict(found, complete=True), PLAIN).lead
    # There are no others to speak of.
    assert f"with that its chance is {n.percent(told, PLAIN)} at best." in lead


def test_faults_are_counted_as_far_as_they_are_told() -> None:
    assert "one thing in it is wrong" in labels.faults_head("a", 1)
    assert "100 things in it are wrong" in labels.faults_head("a", MOST_FAULTS)
    assert "more than 100 things in it are wrong" in labels.faults_head("a", MOST_FAULTS + 1)


def test_out_of_reach_for_good_says_what_nobody_carries(plan: Plan) -> None:
    bare = tuple(
        msgspec.structs.replace(group, carries={"amel": "a/+"})
        for group in next(route for route in plan.routes if route.id == "double-hets").groups
    )
    route = msgspec.structs.replace(only(plan, "double-hets").routes[0], groups=bare)
    never = goal_of(msgspec.structs.replace(plan, routes=(route,)), outright_price=None)
    steps = evaluation_steps(never, core_engine())
    found = findings(never, {step.id: step for step in steps if isinstance(step, RouteAnswer)})
    said = answer(never, found, verdict(found, complete=True), PLAIN).lead
    assert said == "None of them can give the wanted animal: no animal in them carries the copies for lavender."
    for_sale = tuple(msgspec.structs.replace(one, carries={"amel": "a/a"}) for one in plan.for_sale)
    said = find.nothing(msgspec.structs.replace(plan, for_sale=for_sale))
    assert said == "No male and female here can give what you want: none carries the copies for lavender."


@pytest.mark.parametrize(
    ("chance", "told"), [(0.8, "80"), (0.999, "99.9"), (0.005, "0.5"), (0.9995, "99.95"), (1 / 3, "33.3")]
)
def test_what_is_asked_for_is_told_as_it_was_asked(plan: Plan, chance: float, told: str) -> None:
    assert n.asked_of_100(chance, PLAIN) == told
    assert f"{told} % sure" in plain(goal_sentence(goal_of(plan, chance=chance), PLAIN))


def test_a_route_without_a_name_goes_by_its_id(plan: Plan) -> None:
    nameless = msgspec.structs.replace(plan, routes=(msgspec.structs.replace(plan.routes[0], name=" "),))
    found = found_of(nameless)
    assert found[0].name == plan.routes[0].id
    assert plan.routes[0].id in plain(answer(nameless, found, verdict(found, complete=True), PLAIN).head)

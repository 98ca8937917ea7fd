"""The engine against every way a route can go, taken one by one in exact fractions, on random tiny plans."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, given, settings

from core.plan.model import Plan, Route
from core.plan.read import read_plan
from core.progress import finished
from core.routes.evaluate import evaluate_route
from core.routes.prepare import prepare
from core.routes.result import PLAYS_A_RUN, RouteResult, ToGoal
from core.routes.simulation.play import play_route, stream
from core.routes.simulation.played import Played
from core.routes.simulation.player import Odds
from tests.reference import derived, kinship
from tests.reference.enumerate import TooMany, enumerate_route
from tests.reference.plans import plans
from tests.reference.results import Result

EXAMPLES = int(os.environ.get("PAIRWRIGHT_EXAMPLES", "54"))
RUNS = 1000
MOST_STEPS = 2500
CLOSE = 1e-9
# The same examples every time; a plan that fails is made smaller only where one asks for many.
PHASES = [Phase.explicit, Phase.generate, *([Phase.shrink] if "PAIRWRIGHT_EXAMPLES" in os.environ else [])]
FIXED = settings(deadline=None, derandomize=True, suppress_health_check=list(HealthCheck), phases=PHASES)
# Standard errors that a simulated figure may be off.
FAR = 4.5

Json = dict[str, Any]
Count = int | None
# How far from this chance an answer may be.
Slack = Callable[[float], float]


@dataclass
class Expected:
    """What a route comes to by the reference, as drawn and at every count of its scale."""

    plan: Json
    route: Json
    drawn: Result
    results: Mapping[Count, Result]
    odds: dict[str, Fraction | None]
    kinship: dict[str, Fraction | None]


def expected_of(plan: Json, route: Json, most_steps: int | None = None) -> Expected:
    """Raises TooMany where there are too many ways."""

    def every_way(counts: Mapping[str, int]) -> Result:
        return enumerate_route(plan, route, counts, most_steps)

    return Expected(
        plan,
        route,
        every_way({}),
        derived.over_counts(route, every_way),
        derived.per_egg(plan, route),
        kinship.inbreeding(plan, route),
    )


@dataclass
class Curve:
    """A chance by money as the reference has it, at one count or the best of several."""

    results: Mapping[Count, Result]
    seasons: int
    _steps: list[tuple[np.typing.NDArray[np.float64], np.typing.NDArray[np.float64]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for result in self.results.values():
            steps = result.within(self.seasons).money()
            money = np.array([float(x) for x, _ in steps])
            self._steps.append((money, np.cumsum([0.0, *(float(p) for _, p in steps)])))

    @property
    def totals(self) -> list[float]:
        return sorted({float(x) for money, _ in self._steps for x in money})

    def at(self, x: float) -> float:
        """The chance with no more than x, rounding of x forgiven."""
        slack = 1e-9 * max(1.0, abs(x))
        return max((float(chance[np.searchsorted(money, x + slack, "right")]) for money, chance in self._steps))


def step_of(results: Mapping[Count, Result]) -> float:
    """One step of money: 0.1 % of the largest sum that can meet the goal."""
    return 0.001 * max((float(x) for result in results.values() for x, _ in result.money()), default=0.0)


def evaluated(plan: Json) -> Iterator[tuple[Json, RouteResult, Plan, Route]]:
    """The plan's routes with the engine's answers."""
    read = read_plan(json.dumps(plan).encode())
    for told, route in zip(plan["routes"], read.routes, strict=True):
        yield told, evaluate_route(read, route), read, route


# Faults, as words: none where the engine is right


def faults_of_exact(ours: RouteResult, expected: Expected) -> Iterator[str]:
    drawn = expected.drawn
    yield from _apart("chance_by_season", ours.chance_by_season, drawn.chance_by_season())
    yield from _apart("chance_by_eggs", ours.chance_by_eggs, _as_long(expected, len(ours.chance_by_eggs)))
    for name in ("paid_by_season", "sales_by_season"):
        yield from _apart(name, getattr(ours, name), getattr(drawn, name)(), relative=True)
    for name in ("young", "surplus", "peak_animals", "peak_young"):
        yield from _apart(name, [getattr(ours, name)], [getattr(drawn, name)()], relative=True)
    yield from faults_of_drawing(ours, expected)
    yield from faults_of_money(ours, expected, slack=lambda _: CLOSE)


def faults_of_drawing(ours: RouteResult, expected: Expected) -> Iterator[str]:
    """What follows from the drawing of a route alone, played or not."""
    yield from _apart("up_front", [ours.up_front], [expected.drawn.up_front], relative=True)
    for name, told in (("per_egg", expected.odds), ("inbreeding", expected.kinship)):
        figures = getattr(ours, name)
        if figures.keys() != told.keys() or any((figures[key] is None) != (told[key] is None) for key in told):
            yield f"{name}: {figures}, expected {told}"
        else:
            known = [key for key in told if told[key] is not None]
            yield from _apart(name, [figures[key] for key in known], [told[key] for key in known])


def faults_of_money(ours: RouteResult, expected: Expected, slack: Slack) -> Iterator[str]:
    """Everything that is told through money, within a step; `slack` is how far a chance may be off."""
    goal, seasons = expected.plan["goal"], expected.plan["goal"]["seasons"]
    step, best = step_of({None: expected.drawn}), Curve(expected.results, seasons)
    drawn = Curve({None: expected.drawn}, seasons)
    yield from _curve_apart("chance_by_money", ours.chance_by_money, drawn, step, slack)
    wide = step_of(expected.results)
    yield from _curve_apart("budget_curve", ours.budget_curve, best, wide, slack)
    yield from _wrong_counts(ours, expected, wide, slack)
    wanted = float(Fraction(str(goal["chance"])))
    yield from _wrong_way("to_goal", ours.to_goal, expected.results, wanted, seasons, wide, slack)
    yield from _wrong_way("as_drawn", ours.as_drawn, {None: expected.drawn}, wanted, seasons, step, slack)
    for season, way in enumerate(ours.to_goal_by_season, start=1):
        yield from _wrong_way(f"to_goal_by_season[{season}]", way, expected.results, wanted, season, wide, slack)
    if len(ours.to_goal_by_season) != seasons:
        yield f"to_goal_by_season has {len(ours.to_goal_by_season)} entries"
    yield from _wrong_at_budget(ours.chance_at_budget, goal.get("budget"), best, wide, slack)


def _apart(name: str, ours: Iterable[Any], expected: Iterable[Any], *, relative: bool = False) -> Iterator[str]:
    ours, expected = list(ours), list(expected)
    if len(ours) != len(expected):
        yield f"{name}: {len(ours)} entries, expected {len(expected)}"
        return
    for place, (one, other) in enumerate(zip(ours, expected, strict=True)):
        size = max(1.0, abs(float(other))) if relative else 1.0
        if not abs(float(one) - float(other)) <= CLOSE * size:
            yield f"{name}[{place}]: {float(one)}, expected {float(other)}"


def _as_long(expected: Expected, length: int) -> list[Any]:
    """The egg curve. Where an egg may be sure to meet the goal, it may go on for eggs that need not be laid."""
    species, curve = expected.plan["species"], expected.drawn.chance_by_eggs()
    sure = species.get("fertile", 1) == species.get("hatches", 1) == 1 and not species.get("clutch_lost", 0)
    return [*curve, *[curve[-1]] * (length - len(curve))] if sure else curve


def _curve_apart(name: str, ours: Any, expected: Curve, step: float, slack: Slack) -> Iterator[str]:
    """A step curve that rises too soon or too late."""
    money, chance = ours.money, ours.chance
    if not len(money) or (np.diff(money) <= 0).any():
        yield f"{name}: money does not ascend: {money.tolist()}"
        return
    for x, c in zip(money.tolist(), chance.tolist(), strict=True):
        most = expected.at(x + step)
        if c > most + slack(most):
            yield f"{name}: {c} with {x}, expected at most {most}"
    for x in expected.totals:
        least, have = expected.at(x), _value(money, chance, x + step)
        if have < least - slack(least):
            yield f"{name}: {have} with {x + step}, expected at least {least}"
    if expected.totals and not money[0] >= expected.totals[0] - 1e-9 * max(1.0, expected.totals[0]):
        yield f"{name}: begins at {money[0]}, the least that can be paid is {expected.totals[0]}"


def _value(money: Any, chance: Any, x: float) -> float:
    place = int(np.searchsorted(money, x * (1 + 1e-9) + 1e-9, "right"))
    return float(chance[place - 1]) if place else 0.0


def _wrong_counts(ours: RouteResult, expected: Expected, step: float, slack: Slack) -> Iterator[str]:
    seasons = expected.plan["goal"]["seasons"]
    curves = {count: Curve({count: result}, seasons) for count, result in expected.results.items()}
    best = Curve(expected.results, seasons)
    curve = ours.budget_curve
    for x, chance, count in zip(curve.money.tolist(), curve.chance.tolist(), curve.count.tolist(), strict=True):
        named = count if None not in curves else None
        if named not in curves:
            yield f"budget_curve: no count {count}"
            continue
        most = curves[named].at(x + step)
        if chance > most + slack(most):
            yield f"budget_curve: {chance} with {x} by {count}, which gives at most {most}"
        for other, one in curves.items():
            if other is not None and other < count and one.at(x - step) > best.at(x + step) + slack(1.0) - 2 * CLOSE:
                yield f"budget_curve: count {count} with {x}, {other} is as good"


def _wrong_way(
    name: str,
    ours: ToGoal | None,
    results: Mapping[Count, Result],
    wanted: float,
    seasons: int,
    step: float,
    slack: Slack,
) -> Iterator[str]:
    best = Curve(results, seasons)
    most = best.at(math.inf)
    if ours is None:
        if most > wanted + slack(wanted):
            yield f"{name}: none, but {most} is reached"
        return
    if most < wanted - slack(wanted):
        yield f"{name}: {ours}, expected none"
        return
    count = None if None in results else ours.count
    if count not in results:
        yield f"{name}: no such count: {ours}"
        return
    own = Curve({count: results[count]}, seasons)
    if own.at(ours.money + step) < wanted - slack(wanted):
        yield f"{name}: {ours}, but the chance there is {own.at(ours.money + step)}"
    if best.at(ours.money - step * 1.000001 - 1e-6) > wanted + slack(wanted):
        yield f"{name}: {ours}, but less money will do"
    if not own.at(ours.money - step) - slack(wanted) <= ours.chance <= own.at(ours.money + step) + slack(wanted):
        yield f"{name}: chance {ours.chance}, expected {own.at(ours.money)}"
    chances, eggs = results[count].within(seasons).chance_by_season(), results[count].within(seasons).chance_by_eggs()
    yield from _not_first(f"{name}.season", ours.season - 1, chances, wanted, slack)
    yield from _not_first(f"{name}.eggs", ours.eggs, eggs, wanted, slack)


def _not_first(name: str, ours: int | None, chances: Sequence[Any], wanted: float, slack: Slack) -> Iterator[str]:
    """`ours`: the first place at which the chances reach what is wanted; None where none does."""
    if ours is None:
        if float(chances[-1]) > wanted + slack(wanted):
            yield f"{name}: none, but {float(chances[-1])} is reached"
    elif not 0 <= ours < len(chances) or float(chances[ours]) < wanted - slack(wanted):
        yield f"{name}: {ours} is too soon"
    elif ours and float(chances[ours - 1]) > wanted + slack(wanted):
        yield f"{name}: {ours} is too late"


def _wrong_at_budget(ours: float | None, budget: float | None, best: Curve, step: float, slack: Slack) -> Iterator[str]:
    if budget is None or ours is None:
        if budget is not None or ours is not None:
            yield f"chance_at_budget: {ours} with {budget}"
        return
    least, most = best.at(budget - step), best.at(budget + step)
    if not least - slack(least) <= ours <= most + slack(most):
        yield f"chance_at_budget: {ours}, expected {least} to {most}"


# Played routes


def faults_of_played(ours: RouteResult, expected: Expected, played: Played) -> Iterator[str]:
    """Within 4.5 standard errors; those of expectations are the plays' own."""
    drawn, plays = expected.drawn, len(played.met_season)
    errors = ours.chance_by_season_se
    assert errors is not None
    for season, (one, other) in enumerate(zip(ours.chance_by_season, drawn.chance_by_season(), strict=True), start=1):
        if abs(one - float(other)) > FAR * errors[season - 1] + CLOSE:
            yield f"chance by season {season}: {one} +- {errors[season - 1]}, expected {float(other)}"
    yield from _eggs_apart(ours, drawn, plays)
    for name, each in (("paid", played.paid), ("sales", played.sales)):
        yield from _means_apart(name, getattr(ours, f"{name}_by_season"), drawn.running(name), each.T)
    young, surplus = played.young.sum(axis=1), played.surplus
    yield from _means_apart("young", [ours.young], [drawn.young()], [young])
    yield from _means_apart("surplus", [ours.surplus], [drawn.surplus()], [surplus])
    yield from faults_of_drawing(ours, expected)
    yield from faults_of_money(ours, expected, slack=lambda c: FAR * _se(c, plays) + 10 / plays)


def _se(chance: float, plays: int) -> float:
    return math.sqrt(max(chance * (1 - chance), 0.0) / plays)


def _eggs_apart(ours: RouteResult, drawn: Result, plays: int) -> Iterator[str]:
    curve = drawn.chance_by_eggs()
    if len(ours.chance_by_eggs) > len(curve):
        yield f"chance_by_eggs: {len(ours.chance_by_eggs)} entries, at most {len(curve)} can be"
    for place, other in enumerate(curve):
        one = float(ours.chance_by_eggs[min(place, len(ours.chance_by_eggs) - 1)])
        if abs(one - float(other)) > FAR * _se(float(other), plays) + 10 / plays:
            yield f"chance_by_eggs[{place}]: {one}, expected {float(other)}"


def _means_apart(name: str, ours: Iterable[float], expected: Sequence[Any], plays: Sequence[Any]) -> Iterator[str]:
    for place, (one, other, each) in enumerate(zip(ours, expected, plays, strict=True)):
        # A spread of the rare that was not seen at all.
        rare = 10 * max(1.0, float(other), float(np.max(each))) / len(each)
        if abs(one - float(other)) > FAR * float(np.std(each)) / math.sqrt(len(each)) + rare:
            yield f"{name}[{place}]: {one}, expected {float(other)}"


def played_again(plan: Plan, route: Route) -> Played:
    """The same plays that the engine's answer as drawn rests on."""
    problem = prepare(plan, route, crowded=True)
    steps = play_route(problem, plan.simulation.runs * PLAYS_A_RUN, stream(plan.simulation.seed), Odds(problem))
    return finished(steps)


def faults(ours: RouteResult, expected: Expected, plan: Plan, route: Route) -> list[str]:
    if ours.method == "exact":
        return list(faults_of_exact(ours, expected))
    return list(faults_of_played(ours, expected, played_again(plan, route)))


def held_to_the_reference(plan: Json) -> None:
    plan = plan | {"simulation": {"runs": RUNS, "seed": 1}}
    for told, ours, read, route in evaluated(plan):
        try:
            expected = expected_of(plan, told, MOST_STEPS)
        except TooMany:
            return
        wrong = faults(ours, expected, read, route)
        assert not wrong, "\n".join(wrong)


@settings(FIXED, max_examples=EXAMPLES)
@given(plans(tiny=True))
def test_every_way_a_tiny_route_can_go(plan: Json) -> None:
    held_to_the_reference(plan)


# Single plans that went wrong once


def route_of(groups: list[Json], pairings: list[Json], want: list[Json], seasons: int, **species: Any) -> Json:
    """One recessive gene, clutches of two, animals that breed the season after they hatch."""
    return {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Some plan",
        "currency": "USD",
        "genes": [{"id": "a", "name": "Gene", "alleles": ["a"], "forms": {"a/a": "visual"}}],
        "species": {
            "name": "Some reptile",
            "sex_system": "ZW",
            "clutch": {"fixed": 2},
            "matures": {"male": 1, "female": 1},
        }
        | species,
        "goal": {"want": want, "chance": 0.5, "seasons": seasons},
        "costs": {"per_egg": 1, "keep_adult": 10},
        "routes": [
            {
                "id": "r",
                "name": "Some route",
                "groups": groups,
                "pairings": pairings,
                "scale": {"groups": [groups[0]["id"]], "counts": [groups[0]["count"]]},
            }
        ],
    }


def bought(name: str, sex: str, genotype: str, **more: Any) -> Json:
    return {"id": name, "sex": sex, "count": 1, "carries": {"a": genotype}, "origin": "buy", "price": 100} | more


def held(name: str, pick: list[Json], sex: str = "female", count: int = 1, source: str = "p") -> Json:
    return {"id": name, "sex": sex, "count": count, "origin": "hold", "from": [source], "pick": pick}


def pairing(name: str, males: list[str], females: list[str]) -> Json:
    return {"id": name, "males": males, "females": females}


def wrong_with(plan: Json) -> list[str]:
    [(told, ours, read, route)] = evaluated(plan)
    assert ours.method == "exact"
    return faults(ours, expected_of(plan, told), read, route)


def test_the_curve_ends_with_the_eggs_that_can_be_laid() -> None:
    """The first egg meets the goal; the clutch is laid to its end, and no more."""
    founders = [bought("m", "male", "a/a"), bought("f", "female", "a/a")]
    plan = route_of(founders, [pairing("p", ["m"], ["f"])], [{"forms": {"a": "visual"}}], seasons=3)
    [(_, ours, _, _)] = evaluated(plan)
    assert ours.chance_by_eggs.tolist() == [0, 1, 1]


def test_the_best_count_reaches_its_last_step_of_money() -> None:
    """Two counts with grids of their own: the dearer one's last step is on the curve of both."""
    founders = [bought("f", "female", "a/+"), bought("m", "male", "a/+")]
    plan = route_of(founders, [pairing("p", ["m"], ["f"])], [{"forms": {"a": "visual"}}], seasons=2)
    plan["costs"] = {"setup": 30, "keep_adult": 7}
    plan["routes"][0]["scale"]["counts"] = [1, 2]
    [(_, ours, _, _)] = evaluated(plan)
    assert not wrong_with(plan)
    assert ours.budget_curve.chance[-1] == pytest.approx(1 - (3 / 4) ** 8, abs=1e-9)


def test_the_last_step_of_money_is_told_where_prices_have_no_common_measure() -> None:
    """`chance_by_money` ends with the chance that the goal is met at all, however prices fall on a grid."""
    founders = [bought("m", "male", "a/+", until=1), bought("f", "female", "a/+")]
    pairings = [pairing("p", ["m"], ["f"]), pairing("q", ["s"], ["f"])]
    plan = route_of([*founders, held("s", [{}], "male")], pairings, [{"forms": {"a": "visual"}}], seasons=2)
    plan["costs"] = {"keep_adult": 10, "per_young": 0.7}
    [(_, ours, _, _)] = evaluated(plan)
    assert ours.chance_by_money.chance[-1] == pytest.approx(ours.chance_by_season[-1], abs=CLOSE)
    assert not wrong_with(plan)


@pytest.mark.parametrize("want", [[17], [50], [5, 4]])
def test_what_is_expected_is_told_for_goals_of_many(want: list[int]) -> None:
    """`paid_by_season` and `young`: with so few eggs the goal is out of reach, so all of them are laid and hatch."""
    rows = [
        {"forms": {"a": "visual"}, "sex": sex, "count": n} for sex, n in zip(("female", "male"), want, strict=False)
    ]
    founders = [bought("m", "male", "a/+"), bought("f", "female", "a/+", count=3)]
    plan = route_of(founders, [pairing("p", ["m"], ["f"])], rows, 2, clutch={"counts": {"0": 0.5, "2": 0.5}})
    [(_, ours, _, _)] = evaluated(plan)
    assert ours.method == "exact"
    assert ours.young == pytest.approx(6)
    assert ours.paid_by_season == pytest.approx([443, 486])


@pytest.mark.parametrize("genotype", ["a/a", "a/+"])
def test_money_is_told_to_a_step_of_what_is_told_where_far_more_could_be_paid(genotype: str) -> None:
    """A step of at most 0.1 % of the largest x, however much is paid in seasons that can meet the goal no more."""
    founders = [bought("m", "male", genotype, price=9.99, until=2), bought("f", "female", "a/a", price=3.33)]
    late = bought("other", "male", "+/+", price=40_000, season=3)
    pairings = [pairing("p", ["m", "other"], ["f"])]
    plan = route_of([*founders, late], pairings, [{"forms": {"a": "visual"}}], seasons=4)
    assert not wrong_with(plan)


@pytest.mark.parametrize("pick", [{}, {"a": "normal"}])
@pytest.mark.parametrize("drawn", [1, 2])
def test_a_male_that_only_daughters_are_put_to_makes_a_difference(pick: Json, drawn: int) -> None:
    """Each serves one female, and there is one dam: whether there is a second male tells who breeds later on."""
    founders = [bought("m", "male", "a/+", count=drawn), bought("f", "female", "a/+", until=1)]
    pairings = [pairing("p", ["m"], ["f"]), pairing("q", ["m"], ["d"])]
    plan = route_of(
        [*founders, held("d", [pick], count=2)], pairings, [{"forms": {"a": "visual"}}],
        seasons=2, females_per_male=1, breeds={"male": 0.9, "female": 1},
    )  # fmt: skip
    plan["routes"][0]["scale"]["counts"] = [1, 2]
    assert not wrong_with(plan)


def test_nothing_is_bred_where_the_finished_animal_is_bought_at_once() -> None:
    founders = [bought("m", "male", "a/+"), bought("f", "female", "a/+")]
    pairings = [pairing("q", ["m"], ["d"]), pairing("p", ["m"], ["f"])]
    plan = route_of([*founders, held("d", [{}])], pairings, [{"forms": {"a": "visual"}}], seasons=2)
    plan["goal"]["outright_price"] = 50
    plan["routes"][0]["buy_outright"] = 1
    assert not wrong_with(plan)


def test_where_prices_of_several_rows_cannot_be_told_it_is_played() -> None:
    """Sons bring money and daughters none, either counts for one of two rows, and a son that is held takes over."""
    founders = [bought("m", "male", "+/+"), bought("f", "female", "a/a", season=2, ready_in=2)]
    pairings = [pairing("q", ["s"], ["f"]), pairing("p", ["m"], ["f"])]
    want = [{"forms": {"a": "normal"}}, {"forms": {"a": "normal"}}]
    plan = route_of([*founders, held("s", [{}], "male")], pairings, want, seasons=6, clutch={"fixed": 1})
    plan["costs"] = {"surplus": [{"price": 5, "sex": "male"}]}
    [(_, ours, _, _)] = evaluated(plan)
    assert ours.method == "simulated"


def test_one_animal_in_two_groups_works_in_both_or_in_neither() -> None:
    """Half of all males work: who gave no young in the first season gives none in the third, in another group."""
    groups = [
        bought("f", "female", "+/+"),
        {"id": "now", "sex": "male", "animals": ["M"], "origin": "own", "until": 1},
        {"id": "later", "sex": "male", "animals": ["M"], "origin": "own", "season": 3},
    ]
    pairings = [pairing("p", ["now", "later"], ["f"])]
    plan = route_of(groups, pairings, [{"forms": {"a": "normal"}, "count": 2}], 3, clutch={"fixed": 1})
    plan["my_animals"] = [{"id": "M", "sex": "male", "carries": {}}]
    plan["species"]["breeds"] = {"male": 0.5, "female": 1}
    [(told, ours, read, route)] = evaluated(plan)
    assert expected_of(plan, told).drawn.chance_by_season() == [0, 0, 0.5]
    assert ours.chance_by_season[-1] == pytest.approx(0.5, abs=FAR * _se(0.5, len(played_again(read, route).paid)))


def test_nothing_is_held_where_the_finished_animal_is_bought_at_once() -> None:
    """Groups that want the same young are followed by chains, which have no season to go through then."""
    founders = [bought("m", "male", "a/+"), bought("f", "female", "a/+")]
    groups = [*founders, held("d", [{}]), held("e", [{}])]
    plan = route_of(groups, [pairing("p", ["m"], ["f"])], [{"forms": {"a": "visual"}}], seasons=2)
    plan["goal"]["outright_price"] = 50
    plan["routes"][0]["buy_outright"] = 1
    assert not wrong_with(plan)

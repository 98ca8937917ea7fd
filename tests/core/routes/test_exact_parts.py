"""Parts of the exact engine that take a short way, beside the long one; and what an answer leaves behind."""

from __future__ import annotations

import gc
import json
import weakref
from collections.abc import Callable
from functools import reduce
from itertools import pairwise
from math import comb
from typing import Any

import numpy as np
import pytest
from test_exact_enumeration import bought, held, pairing, route_of

from core.plan.model import Plan, Route
from core.plan.read import read_plan
from core.routes import evaluate
from core.routes.calendar import fixed_costs, founders_present
from core.routes.evaluate import evaluate_route
from core.routes.exact.algebra import EXPECTING, CountAlgebra, GoalAlgebra
from core.routes.exact.chain import counts
from core.routes.exact.ending import Standing, Standings, ended_sum, in_turn
from core.routes.exact.held_route import HeldRoute
from core.routes.exact.lattice import Running, fast_length, money_lattice
from core.routes.exact.met import running_sums
from core.routes.exact.ordered_goal import OrderedGoal
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import exact_route, exact_routes, workshop
from core.routes.exact.solve import chances
from core.routes.exact.ways import numbering
from core.routes.prepare import prepare
from tests.bench.plans import eight_routes


@pytest.mark.parametrize("shape", [(0, 16), (3, 24), (2, 3, 40), (4, 13)])
def test_running_sums(shape: tuple[int, ...]) -> None:
    numbers = np.random.default_rng(1).random(shape)
    assert running_sums(numbers.copy()) == pytest.approx(np.cumsum(numbers, axis=-1))


@pytest.mark.parametrize("wanted", [(1,), (3, 2), (1, 4), (2, 1, 3), (1, 2, 1, 1)])
def test_an_egg_moves_whole_blocks_of_counts(wanted: tuple[int, ...]) -> None:
    """The same as state by state."""
    goal, rng = OrderedGoal(wanted), np.random.default_rng(8)
    counts, miss, *steps = (rng.random((*lead, 5)) + 0j for lead in ((goal.size,), *[()] * (1 << len(wanted))))
    assert goal.lay(counts, miss, steps) == pytest.approx(CountAlgebra.lay(goal, counts, miss, steps))


def test_lengths_are_no_shorter_than_asked_for() -> None:
    lengths = [fast_length(least) for least in range(1, 3000)]
    assert all(length >= least for least, length in enumerate(lengths, start=1))
    assert all(one <= other for one, other in pairwise(lengths))
    assert max(length / least for least, length in enumerate(lengths, start=1) if least > 300) < 1.15


def test_a_shorter_lattice_holds_what_few_seasons_cost() -> None:
    laying = prepare(*eight_routes()[0]).biology
    lattice = money_lattice(Running(per_egg=0.5, per_young=5, most_eggs=28 * 12, laying=laying), 2.0)
    assert len(lattice.halves) >= 2
    hatch = laying.fertile * laying.hatches
    egg = np.zeros(lattice.per_egg + lattice.per_young + 1)
    egg[lattice.per_egg], egg[-1] = 1 - hatch, hatch
    season, clutch = np.array([1 - laying.lays]), np.array([1.0])
    for chance in laying.sizes:
        season = np.pad(season, (0, len(clutch) - len(season))) + laying.lays * chance * clutch
        clutch = np.convolve(clutch, egg)
    for half, bred in enumerate(lattice.halves, start=1):
        paid = reduce(np.convolve, [season] * bred)
        assert paid[lattice.length >> half :].sum() < 1e-11
        assert lattice.strides([bred, bred + 1]) == [1 << half, 1 << half - 1]


def _standings(rng: np.random.Generator, clusters: list[list[str]]) -> list[Standings]:
    def number() -> Any:
        return rng.random((3, 1, 4)) + 1j * rng.random((3, 1, 4))

    def states(weight: float, names: list[str]) -> Standings:
        idle = [Standing(name, number(), None if weight > 0.5 else number()) for name in names]
        return [(weight, idle), (1 - weight, [Standing(name, number(), number()) for name in names])]

    return [states(*given) for given in zip((0.4, 0.7, 0.2), clusters, strict=False)]


@pytest.mark.parametrize(
    ("clusters", "order"),
    [
        ([["a"]], "a"),
        ([["a", "b", "c"]], "ac"),
        ([["a", "b"], ["c", "d"]], "bacd"),
        ([["a", "b"], ["c", "d"], ["e"]], "acbd"),
        ([["a"], ["b"], ["c"]], "cb"),
    ],
)
def test_sums_over_eggs_agree_with_taking_them_in_turn(clusters: list[list[str]], order: str) -> None:
    each = _standings(np.random.default_rng(3), clusters)
    algebra = GoalAlgebra([1])
    ended, _ = in_turn(algebra, each, order, 1, 2)
    assert ended_sum(algebra, each, order, 1, 2) == pytest.approx(reduce(np.add, ended))


@pytest.mark.parametrize("shapes", [((5,), (5,)), ((2, 3, 5), (3, 5)), ((3, 5), (2, 1, 5)), ((1, 5), (4, 5))])
def test_few_numbers_are_multiplied_as_many_are(shapes: tuple[tuple[int, ...], tuple[int, ...]]) -> None:
    """All pairs of states in one call, or one by one."""
    algebra, rng = GoalAlgebra((2, 3)), np.random.default_rng(7)
    a, b = (rng.random((*own[:-1], algebra.size, own[-1])) + 1j for own in shapes)
    assert algebra.takes_all_at_once(max(a.size, b.size))
    many = [np.repeat(own, 500, axis=-1) for own in (a, b)]
    assert not algebra.takes_all_at_once(max(own.size for own in many))
    assert algebra.multiply(a, b) == pytest.approx(algebra.multiply(*many)[..., ::500], abs=1e-14)


@pytest.mark.parametrize("lacking", [(17,), (50,), (5, 4), (4, 3, 2)])
def test_a_tiny_imaginary_part_is_not_lost_in_goals_of_many(lacking: tuple[int, ...]) -> None:
    """Expectations stand in steps of 1e-20 off the real axis; goals of more than 16 states go through transforms."""
    algebra, rng = GoalAlgebra(lacking), np.random.default_rng(7)
    a, b = (rng.random((algebra.size, 9)) + 1j * rng.random((algebra.size, 9)) for _ in range(2))
    a.imag[:, :EXPECTING] *= 1e-20
    b.imag[:, :EXPECTING] *= 1e-20
    whole, plain = algebra.multiply(a, b), CountAlgebra.multiply(algebra, a, b)
    assert whole.real == pytest.approx(plain.real, rel=1e-9)
    assert whole.imag == pytest.approx(plain.imag, rel=1e-9, abs=1e-34)


def test_ways_of_holding_and_of_being_fit() -> None:
    """Two herds, one filled from a single lot and one from two: chances by plain counting."""
    lots, free, reaches = (1, 2), (2, 2), 0.75
    told, rng = numbering(lots, free), np.random.default_rng(5)
    # Chances of so many young in each lot, apart from each other.
    young = [[rng.dirichlet(np.ones(5)) for _ in range(many)] for many in lots]
    element = np.array(
        [
            np.prod([young[herd][lot][n] for herd, own in enumerate(counts) for lot, n in enumerate(own)])
            for counts in told.counts
        ]
    )
    ways = told.ways(lots)
    held = ways.held(element.astype(complex)[:, None, None])
    expected: dict[Any, float] = {}
    for some in np.ndindex(5, 5, 5):
        chance = float(young[0][0][some[0]] * young[1][0][some[1]] * young[1][1][some[2]])
        first, second = min(some[0], 2), min(some[1], 2)
        counts = (first,), (second, min(some[2], 2 - second))
        expected[counts] = expected.get(counts, 0.0) + chance
    assert dict(zip(ways.counts, held[:, 0, 0].real, strict=True)) == pytest.approx(expected)
    ways.thin(held, 1, 0, reaches, 1 - reaches)
    fit: dict[Any, float] = dict.fromkeys(ways.counts, 0.0)
    for (one, (first, second)), chance in expected.items():
        for able in range(first + 1):
            fit[one, (able, second)] += chance * comb(first, able) * reaches**able * (1 - reaches) ** (first - able)
    assert dict(zip(ways.counts, held[:, 0, 0].real, strict=True)) == pytest.approx(fit)


def _sons_take_over() -> tuple[Plan, Route]:
    """Held sons are put to the founders' females, so that it matters when there are how many."""
    groups = [bought("m", "male", "a/a"), bought("f", "female", "a/+"), held("h", [{}], "male")]
    pairings = [pairing("q", ["h"], ["f"]), pairing("p", ["m"], ["f"])]
    told = route_of(groups, pairings, [{"forms": {"a": "visual"}}], seasons=3, hatches=0.5)
    plan = read_plan(json.dumps(told).encode())
    return plan, plan.routes[0]


def _two_that_want_the_same() -> tuple[Plan, Route]:
    """Two groups held from the same young, which chains of counts follow."""
    founders = [bought("m", "male", "a/+"), bought("f", "female", "a/+")]
    groups = [*founders, held("g", [{}]), held("h", [{"a": "visual"}])]
    pairings = [pairing("p", ["m"], ["f"]), pairing("q", ["m"], ["g", "h"])]
    told = route_of(groups, pairings, [{"forms": {"a": "visual"}}], seasons=3)
    plan = read_plan(json.dumps(told).encode())
    return plan, plan.routes[0]


@pytest.mark.parametrize(("plan", "route"), [*eight_routes(), _sons_take_over(), _two_that_want_the_same()])
def test_nothing_waits_for_garbage_to_be_looked_for(plan: Plan, route: Route, monkeypatch: pytest.MonkeyPatch) -> None:
    left: list[weakref.ref[Workshop]] = []

    def watched(begin: Callable[..., Workshop]) -> Callable[..., Workshop]:
        def begun(*given: Any, **more: Any) -> Workshop:
            shop = begin(*given, **more)
            left.append(weakref.ref(shop))
            return shop

        return begun

    monkeypatch.setattr(evaluate, "workshop", watched(evaluate.workshop))
    monkeypatch.setattr(counts, "Workshop", watched(Workshop))
    gc.disable()
    try:
        evaluate_route(plan, route)
        assert left
        assert all(shop() is None for shop in left)
    finally:
        gc.enable()


def test_counts_beyond_what_males_can_serve_are_made_ready_once() -> None:
    plan, route = next(case for case in eight_routes() if case[1].id == "young-together")
    drawn = prepare(plan, route)
    # One sire, four females for a male; the sons are put to other females.
    problems = [drawn.with_counts(["dams"], count) for count in (3, 4, 5, 8)]
    three, four, *more = exact_routes(problems, workshop(drawn))
    assert isinstance(three, HeldRoute)
    assert isinstance(four, HeldRoute)
    assert three.held is not four.held
    for one, problem in zip(more, problems[2:], strict=True):
        assert isinstance(one, HeldRoute)
        assert one.held is four.held
        assert one.problem is problem
        assert list(one.fixed) == list(fixed_costs(problem))
        assert list(one.present) == list(founders_present(problem))
        alone = exact_route(problem, workshop(problem))
        assert chances(one) == pytest.approx(chances(alone), abs=1e-12)

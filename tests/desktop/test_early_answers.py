"""Where an exact answer takes many seconds a simulated one stands in its place until it is there."""

from __future__ import annotations

from collections.abc import Iterator

import helper_engines as engines
import pytest
from msgspec.structs import replace

from core.plan.model import Plan, Simulation
from core.plan.scale import scale_of
from core.progress import Long
from core.routes import evaluate
from core.routes.evaluate import evaluate_steps
from core.routes.exact.chain import counts
from core.routes.exact.limits import OutOfReach
from desktop.beside.helper import Helper
from desktop.document import Document
from desktop.evaluation import Finished, RouteAnswer, Step, Underway, answer_route, evaluation_steps
from desktop.plan_files import SAMPLE, open_plan
from desktop.words import editing_answer, routes
from desktop.words.answer import answer
from desktop.words.numbers import PlainNumbers

pytestmark = pytest.mark.usefixtures("qtbot")


@pytest.fixture
def plan() -> Plan:
    """One route of the sample, played a few times."""
    opened = open_plan(SAMPLE)
    assert isinstance(opened, Plan)
    return replace(opened, routes=opened.routes[:1], simulation=Simulation(runs=500))


def steps_of(plan: Plan) -> Iterator[Step]:
    return evaluation_steps(plan, engines.slow())


def test_it_is_simulated_then_exact(plan: Plan) -> None:
    early, last = (step for step in steps_of(plan) if isinstance(step, RouteAnswer))
    assert (early.early, early.drawn.method) == (True, "simulated")
    assert (last.early, last.drawn.method) == (False, "exact")


def test_what_is_simulated_stands_there_until_the_exact_answer_is_in(plan: Plan) -> None:
    document = Document(plan)
    steps = list(steps_of(plan))
    place = next(place for place, step in enumerate(steps) if isinstance(step, RouteAnswer))
    document.take([*steps[: place + 1], Underway(plan.routes[0].id, 0.25)])
    (one,) = document.found
    assert (one.state, one.early, one.stale) == ("answered", True, False)
    assert document.pending == {one.id}
    assert document.verdict.winner is None
    numbers = PlainNumbers()
    assert routes.set_aside_note(plan, one, numbers).endswith("exact answer to come 25 %")
    assert editing_answer.working_out(one) == "Simulated so far; exact answer: 25 %"
    assert answer(plan, document.found, document.verdict, numbers).lead.endswith(
        "One simulated answer will be followed by an exact one."
    )
    document.take(steps[place + 1 :])
    (one,) = document.found
    assert (one.early, one.noise, document.complete, document.pending) == (False, None, True, frozenset())
    assert document.verdict.winner == one.id


def test_stopped_it_stays(plan: Plan) -> None:
    document = Document(plan)
    document.take([step for step in steps_of(plan) if isinstance(step, RouteAnswer)][:1])
    document.cancel()
    (one,) = document.found
    assert (one.state, one.early, document.verdict.stopped) == ("answered", True, 1)
    document.resume()
    assert document.pending == {one.id}


def test_a_change_makes_it_old(plan: Plan) -> None:
    document = Document(plan)
    document.take([step for step in steps_of(plan) if isinstance(step, RouteAnswer)][:1])
    document.edit(replace(plan, costs=replace(plan.costs, setup=7)), "setup")
    (one,) = document.found
    assert one.stale
    # Going back it is not taken for an answer that was there.
    document.undo()
    assert document.pending == {one.id}


def test_a_helper_tells_both(plan: Plan) -> None:
    helper = Helper(engines.slow)
    try:
        helper.start()
        helper.news(60.0)
        helper.ask((plan, plan.routes[0]))
        told: list[RouteAnswer] = []
        while len(told) < 2:
            news = helper.news(60.0)
            assert news, "nothing came in time"
            told += [one for one in news if isinstance(one, RouteAnswer)]
        assert [one.early for one in told] == [True, False]
        assert helper.is_free
    finally:
        helper.stop()


def test_chains_say_so_where_they_take_long(monkeypatch: pytest.MonkeyPatch) -> None:
    opened = open_plan(SAMPLE)
    assert isinstance(opened, Plan)
    route = next(one for one in opened.routes if one.id == "daughters-back")
    scale = scale_of(route)
    assert scale is not None
    route = replace(route, scale=replace(scale, counts=(1,)))

    def out_of_reach(*_: object) -> None:
        raise OutOfReach("left to the chains")

    monkeypatch.setattr(evaluate, "exact_counts", out_of_reach)

    def longs() -> int:
        return sum(isinstance(share, Long) for share in evaluate_steps(opened, route))

    assert longs() == 0
    monkeypatch.setattr(counts, "_LONG_WORK", 0.0)
    assert longs() == 1


def test_answers_at_once_have_none_before_them(plan: Plan) -> None:
    steps = answer_route(plan, plan.routes[0], engines.core_engine())
    assert not any(isinstance(step, RouteAnswer | Finished) for step in steps)

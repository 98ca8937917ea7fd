"""What counts of a route share, beside each count worked out by itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.progress import finished
from core.routes import assemble
from core.routes.calendar import fixed_costs
from core.routes.evaluate import Engined, engine_steps
from core.routes.exact.alike_endings import alike_endings, are_alike
from core.routes.exact.eggs import Joined, joined
from core.routes.exact.ending import endings, filling
from core.routes.exact.plain import PlainRoute
from core.routes.exact.reach import exact_routes, workshop
from core.routes.exact.solve import beaten, lattice_of
from core.routes.prepare import prepare
from tests.bench.plans import eight_routes

_CASES = {route.id: (plan, route) for plan, route in eight_routes()}


def _said(id_: str) -> Engined:
    return finished(engine_steps(*_CASES[id_]))


def _plain(id_: str) -> tuple[list[PlainRoute], Joined]:
    drawn = prepare(*_CASES[id_])
    problems = [drawn.with_counts(["dams"], count) for count in range(1, 5)]
    routes = exact_routes(problems, workshop(drawn))
    probe = joined(max(route.eggs_bound for route in routes), lattice_of(routes))
    return [route for route in routes if isinstance(route, PlainRoute)], probe


@pytest.mark.parametrize("id_", ["double-hets", "hidden", "pair", "linked"])
def test_one_more_that_is_alike_is_a_factor_more_for_an_egg_that_ends(id_: str) -> None:
    """The same as females laying in turn, each followed by herself."""
    routes, probe = _plain(id_)
    points = probe.where(probe.eggs)
    for route in routes:
        breeding = route.shop.breeding(route.problem, (0,), probe)
        [(_, clusters)] = route._worlds
        assert are_alike(clusters)
        orders = [[mating.female for mating in pairs] for pairs in route.signature]
        whole = endings(breeding, clusters, orders, filling, points)
        assert alike_endings(breeding, clusters[0], filling, points) == pytest.approx(whole, abs=1e-13)


@pytest.mark.parametrize("id_", list(_CASES))
def test_a_count_that_is_beaten_is_never_better(id_: str) -> None:
    """Dams that no male has time for only cost."""
    scaled = _said(id_).scaled
    worse = [one for one in scaled if one.answer.beaten]
    assert [one.count for one in worse] == [5, 6, 7, 8]
    points = np.unique(np.concatenate([one.answer.grid.points() for one in scaled]))
    best = np.max([one.with_at_most(points) for one in assemble.unbeaten(scaled)], axis=0)
    for one in worse:
        assert (one.with_at_most(points) <= best + assemble.SAME).all()


def test_counts_that_cost_nothing_are_all_compared() -> None:
    drawn = prepare(*_CASES["double-hets"])
    free = replace(drawn, herds=tuple(replace(herd, price=0.0, pays_keep=False) for herd in drawn.herds))
    for dams, told in ((drawn, [False, True]), (free, [False, False])):
        routes = exact_routes([dams.with_counts(["dams"], count) for count in (4, 5)], workshop(dams))
        assert beaten(routes, lattice_of(routes)) == told


def test_what_counts_share_is_not_shared_with_another_price() -> None:
    """Setup 150, a sire of 400, dams of 250 each, and 60 for the keep of each animal."""
    drawn = prepare(*_CASES["double-hets"])
    five = drawn.with_counts(["dams"], 5)
    dearer = replace(five, herds=tuple(replace(herd, price=herd.price + 100) for herd in five.herds))
    first = [float(fixed_costs(one)[0]) for one in (drawn, five, dearer)]
    assert first == [150 + 460 + 2 * 310, 150 + 460 + 5 * 310, 150 + 560 + 5 * 410]

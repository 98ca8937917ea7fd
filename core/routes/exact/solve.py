"""From generating functions to answers: chances by season, money and eggs, and expectations."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Sequence
from functools import partial

import numpy as np

from core.progress import finished
from core.routes.another import another
from core.routes.answer import MONEY_STEP, Answer, Expected, MoneyGrid, money_grid
from core.routes.exact.algebra import Complex
from core.routes.exact.eggs import CHANCES, Joined, expectations
from core.routes.exact.ending import filling
from core.routes.exact.lattice import Lattice, Running, money_lattice
from core.routes.exact.met import AT_ONCE, Ends, ends_of, unmet
from core.routes.exact.reach import ExactRoute
from core.routes.problem import Problem
from core.routes.result import Floats

# A lattice is made so much finer at most where little of what could be paid is told.
_FINEST = 8


def money_range(route: ExactRoute) -> tuple[float, float]:
    """The least and the most that can be paid by the time the goal is met, or in all."""
    problem, first = route.problem, float(route.fixed[0])
    if problem.outright is None:
        return first, float(route.fixed.sum()) + _most_running(route)
    before = float(route.fixed[: problem.outright - 1].sum())
    bought = before + problem.outright_price
    return bought if problem.outright == 1 else min(bought, first), bought + _most_running(route)


def _most_running(route: ExactRoute) -> float:
    prices = route.problem.prices
    return route.eggs_bound * (prices.per_egg + prices.per_young) + route.keep_bound


def _allowed(routes: Sequence[ExactRoute]) -> float:
    """How far off sums of money may be: by a share of what is told, but what it takes grows the finer that is."""
    told = min(route.problem.most_told for route in routes)
    told = max(told, max(map(_most_running, routes)) / _FINEST)
    return min(told, *(money_range(route)[1] for route in routes)) * MONEY_STEP


def lattice_of(routes: Sequence[ExactRoute]) -> Lattice:
    """One money lattice for all counts, fine enough for the least of them and long enough for the most."""
    prices = routes[0].problem.prices
    longest = max(routes, key=lambda route: route.keep_bound)
    held = sum(herd.count for herd in longest.problem.herds if herd.held) * longest.problem.horizon
    running = Running(
        per_egg=prices.per_egg,
        per_young=prices.per_young,
        most_eggs=max(route.eggs_bound for route in routes),
        laying=longest.problem.biology,
        keep=((prices.keep_adult, held), (prices.keep_young, held)),
        most_keep=longest.keep_bound,
    )
    return money_lattice(running, _allowed(routes))


def chances(route: ExactRoute) -> Floats:
    """The chance that the goal is met by the end of each season, and nothing else: [seasons]."""
    found = np.ones(route.problem.horizon)
    found[: route.problem.breeding_seasons] = 1 - unmet(route, CHANCES).alive[1:, 0].real
    return np.clip(found, 0.0, 1.0)


def answer(route: ExactRoute, lattice: Lattice, probe: Joined, *, beaten: bool = False) -> Answer:
    """The answer for one set of counts; `probe` tells money on this lattice. beaten: see `Answer`."""
    shop = route.shop
    ends = shop.kept(("ends", route.signature), lambda: finished(ends_of([route], lattice, probe))[0])
    found = answer_of(
        route, lattice, ends, lambda: shop.kept(("eggs", route.signature), lambda: egg_chances(route, probe))
    )
    return another(found, beaten=True) if beaten else told(found)


def told(found: Answer) -> Answer:
    """An answer that has worked out what it tells of money, and lets go of what that took."""
    by_money = found.by_money
    return another(found, money=lambda: by_money)


def beaten(routes: Sequence[ExactRoute], lattice: Lattice) -> list[bool]:
    """Which of a route's counts breed like one before for more money; see `Answer`."""
    first: dict[Hashable, ExactRoute] = {}
    return [_costs_more(route, first.setdefault(route.signature, route), lattice) for route in routes]


def _costs_more(route: ExactRoute, other: ExactRoute, lattice: Lattice) -> bool:
    """Whether a route takes a step of the other's grid more by the end of every season, whatever is bred."""
    # What is bought outright at once costs the same.
    if route is other or route.problem.outright == 1:
        return False
    more = route.fixed.cumsum() - other.fixed.cumsum()
    return bool(more.min() >= _grid(other, lattice).step + lattice.step)


def _grid(route: ExactRoute, lattice: Lattice) -> MoneyGrid:
    least, most = money_range(route)
    return money_grid(least, max(least, min(most, route.problem.most_told)), lattice.step)


def answer_of(route: ExactRoute, lattice: Lattice, ends: Ends, eggs: Callable[[], Floats]) -> Answer:
    """The answer, from how the seasons end and the chances by egg."""
    grid = _grid(route, lattice)
    chance = np.ones(route.problem.horizon)
    chance[: len(ends.chance)] = ends.chance
    by_money = partial(_by_money, route.problem, route.fixed, grid, lattice.step, ends)
    return Answer(chance, grid, by_money, eggs)


def _by_money(problem: Problem, fixed: Floats, grid: MoneyGrid, step: float, ends: Ends) -> Floats:
    """See `Answer`."""
    by_money = np.empty((problem.horizon, grid.size))
    on_grid = _OnGrid(grid, step)
    so_far = np.zeros(grid.size)
    costs = fixed.cumsum().tolist()
    for own, paid, met in zip(by_money, costs, ends.met, strict=False):
        if met[-1] > 0:
            on_grid.add(so_far, own, paid, met)
        else:
            own[...] = so_far
        so_far = own
    by_money[len(ends.chance) :] = so_far
    if problem.outright is not None and ends.left is not None:
        before = costs[problem.outright - 2] if problem.outright > 1 else 0.0
        left = by_money[problem.outright - 1]
        on_grid.add(so_far, left, before + problem.outright_price, ends.left)
        by_money[problem.outright :] = left
    return by_money


class _OnGrid:
    """Reads sums of whole steps of a lattice at the points of a grid."""

    def __init__(self, grid: MoneyGrid, step: float) -> None:
        self._grid, self._step = grid, step
        every = round(grid.step / step)
        # How many steps one of the grid is; 0 where that is no whole number.
        self._every = every if abs(every * step - grid.step) < 1e-9 * grid.step else 0

    def add(self, before: Floats, out: Floats, fixed: float, running: Floats) -> None:
        """Put into `out` what was before and the chance that `fixed` and some steps are at most what each point is.

        running: [lattice], chance that at most so many steps are paid.
        """
        every = self._every
        if every:
            first = math.floor((self._grid.least - fixed) / self._step + 1e-6)
            begin = 0 if first >= 0 else min(-(first // every), len(out))
            own = running[first + begin * every :: every][: len(out) - begin]
            end = begin + len(own)
        else:
            where = np.floor((self._grid.points() - fixed) / self._step + 1e-6).astype(np.int64)
            begin, end = np.searchsorted(where, (0, len(running)))
            own = running[where[begin:end]]
        if begin:
            out[:begin] = before[:begin]
        np.add(before[begin:end], own, out=out[begin:end])
        # Nobody pays more than the last point, though what is paid may come out as more where it is rounded to steps.
        end = min(end, len(out) - 1)
        np.add(before[end:], running[-1], out=out[end:])


def egg_chances(route: ExactRoute, probe: Joined) -> Floats:
    """Chance that the goal is met in each season by each egg: [seasons, most eggs + 1]."""
    most = route.most_eggs(probe)
    if not most:
        return np.zeros((route.problem.horizon, 1))

    laid = unmet(route, probe).open[:, probe.where(probe.eggs)] if lays_to_the_goal(route) else None
    return egg_curve(route.problem, most, probe.eggs_length, egg_transform(route, probe), laid)


def lays_to_the_goal(route: ExactRoute) -> bool:
    """Whether some egg surely meets the goal: then a season's eggs are only laid after seasons without any."""
    return any(route.shop.sure(row) for row in range(len(route.problem.wanted)))


def egg_transform(route: ExactRoute, probe: Joined) -> Complex:
    """The egg that meets the goal, by season, at the points that tell eggs: [breeding seasons, points]."""
    total: Complex = np.zeros(1, dtype=complex)
    for rows, sign in route.looks:
        total = total + sign * route.endings(rows, probe, probe.eggs, filling)
    return total


def egg_curve(problem: Problem, most: int, length: int, transform: Complex, laid: Complex | None) -> Floats:
    """Back from the transforms of the egg that meets the goal, and of the eggs laid so far, to chances."""
    found = np.zeros((problem.horizon, most + 1))
    # As many seasons at once as take little memory.
    rows = max(1, AT_ONCE // length)
    for first in range(0, len(transform), rows):
        own = np.fft.irfft(transform[first : first + rows], length)[:, : most + 1]
        # Transforms leave noise where nothing can happen.
        np.copyto(found[first : first + len(own)], own, where=own >= 1e-15)
    return found if laid is None else found[:, : _last_egg(laid, length) + 1]


def _last_egg(laid: Complex, length: int) -> int:
    """The most eggs with a chance above rounding to be laid by the end of any season."""
    likely = (np.flatnonzero(np.fft.irfft(own, length) > 1e-14) for own in laid)
    return max(int(eggs[-1]) for eggs in likely if eggs.size)


def expected_at(routes: Sequence[ExactRoute], probe: Joined, place: int) -> Expected:
    """Expectations for the set of counts at a place."""
    return expected(routes[place], probe)


def expected(route: ExactRoute, probe: Joined) -> Expected:
    """Expectations for one set of counts."""
    problem, prices, seasons = route.problem, route.problem.prices, route.problem.breeding_seasons
    totals = unmet(route, probe)
    alive, reached_too = expectations(totals.alive), expectations(totals.open)
    gain = reached_too[1:] - alive[:-1]
    held = route.extras(probe)
    lacking = [route.lacking(row, probe) for row in range(len(problem.wanted))]
    by_season = np.zeros((4, problem.horizon))
    reached, paid, sales, hatched = by_season
    reached[:seasons], hatched[:seasons] = alive[:-1, 0], gain[:, 2]
    # What `EXPECTATIONS` tells, one after the other.
    paid[:seasons] = gain @ [0, prices.per_egg, prices.per_young, 0, 1, 0] + route.fixed[:seasons] * alive[:-1, 0]
    sales[:seasons] = gain[:, 3] - _counted_worth(route, probe, lacking) - held.worth + held.both_worth
    present = np.where(reached > 0, route.present, 0.0)
    present[:seasons] += gain[:, 5] / np.maximum(reached[:seasons], 1e-300)
    if problem.outright is not None:
        reached[problem.outright - 1] = alive[-1, 0]
        paid[problem.outright - 1] = alive[-1, 0] * problem.outright_price
        present[problem.outright - 1 :] = 0.0
    # A row that is not full yet has not met the goal, so what counts for each can be followed by itself.
    counted = sum([count - float(lacks[-1]) for count, lacks in zip(problem.wanted, lacking, strict=True)])
    return Expected(
        paid=np.cumsum(paid),
        sales=np.cumsum(sales),
        present=present,
        reached=reached,
        young=hatched,
        surplus=float(hatched.sum() - counted - held.held.sum() + held.both.sum()),
        up_front=problem.outright_price if problem.outright == 1 else float(route.fixed[0]),
    )


def _counted_worth(route: ExactRoute, probe: Joined, lacking: Sequence[Floats]) -> Floats:
    """What the young that count for the goal would have brought, by season: [breeding seasons].

    lacking: how many each row still lacks.
    """
    total = np.zeros(route.problem.breeding_seasons)
    for row, lacks in enumerate(lacking):
        price = route.shop.price_of(row)
        if price is None:
            total += route.counted_worth(row, probe)
        elif price:
            total -= price * (lacks[1:] - lacks[:-1])
    return total

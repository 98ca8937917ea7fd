"""What the answers come to: one row of figures per route, and the verdict over all routes; no Qt."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from typing import Literal

import msgspec
import numpy as np
from msgspec.structs import replace

from core.plan.model import Bought, Held, Owned, Plan, Route
from core.plan.sexes import sex_words
from core.routes.result import BudgetCurve, MoneyCurve, RouteResult, ToGoal
from core.text import tr
from desktop.evaluation import RouteAnswer, RouteFailure, at_count
from desktop.words.animals import animal
from desktop.words.goal import float_chance, how_many

# What a play cannot tell from certainty.
_UNSURE = 1e-9

State = Literal["waiting", "stopped", "failed", "answered"]


class Finding(msgspec.Struct, frozen=True, eq=False):
    """The figures of one route, all for one and the same counts; `stale` ones are from before the last change.

    early: they are simulated while the exact answer takes its time.

    `mark`: the number of the route's mark, which it keeps when routes change places.
    """

    route: Route
    place: int
    mark: int
    state: State
    reason: str = ""
    result: RouteResult | None = None
    to_goal: ToGoal | None = None
    money_range: tuple[float, float] | None = None
    males: int = 0
    females: int = 0
    buys: str = ""
    chance: float = 0.0
    # The chance with no more than the plan's budget, for the same counts.
    at_budget: float | None = None
    noise: float | None = None
    share_done: float = 0.0
    stale: bool = False
    early: bool = False
    # What the counts as drawn give, where `result` is about the count that reaches the goal for least or comes closest.
    drawn: RouteResult | None = None

    @property
    def id(self) -> str:
        """The route's id."""
        return self.route.id

    @property
    def name(self) -> str:
        """The route's name."""
        return self.route.called

    @property
    def only_buys(self) -> bool:
        """Whether the route breeds nothing and buys the finished animals."""
        return self.route.buy_outright is not None and not self.route.groups


class Verdict(msgspec.Struct, frozen=True):
    """The answer to the goal; `rivals` are as cheap, or come as close, within the noise, and then nobody wins.

    While routes are `pending`, or where the person `stopped` some, the answer is about the others only. It is about
    the routes that are shown; a hidden one that does better is `beaten_by`, so that hiding never changes it silently.
    """

    kind: Literal["waiting", "empty", "hidden", "won", "close", "missed"]
    best: Finding | None = None
    rivals: tuple[Finding, ...] = ()
    pending: int = 0
    stopped: int = 0
    beaten_by: Finding | None = None

    @property
    def winner(self) -> str | None:
        """The id of the cheapest route, where there is one beyond the noise."""
        return self.best.id if self.kind == "won" and self.best and not self.pending and not self.stopped else None


class Purchases:
    """What routes buy, in words: most changes of a plan leave it as it is."""

    def __init__(self) -> None:
        self._known: dict[str, tuple[object, str]] = {}

    def words(self, plan: Plan, route: Route) -> str:
        """What a route buys, from before where nothing that is told has changed."""
        told = (route.groups, route.buy_outright, plan.goal.want, plan.genes, plan.combinations)
        known = self._known.get(route.id)
        if known is None or known[0] != told:
            known = self._known[route.id] = (told, _buys(plan, route))
        return known[1]

    def keep(self, routes: Collection[str]) -> None:
        """Forgets all but these."""
        self._known = {id_: known for id_, known in self._known.items() if id_ in routes}


def findings(
    plan: Plan,
    answers: Mapping[str, RouteAnswer | RouteFailure],
    shares: Mapping[str, float] | None = None,
    stale: Collection[str] = (),
    *,
    stopped: bool = False,
    marks: Mapping[str, int] | None = None,
    purchases: Purchases | None = None,
) -> tuple[Finding, ...]:
    """One finding per route, in the plan's order; routes without an answer wait, with their share done so far.

    `marks`: the number of each route's mark, by id; by default its place in the plan. `purchases`: what was told of
    the same routes before, to be told again without being put into words anew.
    """
    done, marks, purchases = shares or {}, marks or {}, purchases or Purchases()
    found = []
    for place, route in enumerate(plan.routes):
        one = Finding(route, place, marks.get(route.id, place), "stopped" if stopped else "waiting")
        if route.id in answers:
            one = _answered(plan, one, answers[route.id], purchases)
        found.append(replace(one, share_done=done.get(route.id, 0.0), stale=route.id in stale))
    purchases.keep([one.id for one in found])
    return tuple(found)


def verdict(
    found: tuple[Finding, ...], *, complete: bool, stopped: bool = False, hidden: Collection[str] = ()
) -> Verdict:
    """Which route is cheapest, or that none is, or that it is too close to call; stale answers do not count."""
    answered = [one for one in found if one.state == "answered" and not one.stale]
    missing = sum(one.state in ("waiting", "stopped") or one.stale or one.early for one in found)
    shown = [one for one in answered if one.id not in hidden]
    decided = _decided(shown, 0 if complete else missing)
    if decided.kind == "empty" and found and all(one.id in hidden for one in found):
        decided = Verdict("hidden")
    unseen = [one for one in answered if one.id in hidden]
    return replace(decided, stopped=missing if stopped else 0, beaten_by=_better(unseen, decided))


def _better(unseen: list[Finding], decided: Verdict) -> Finding | None:
    """The hidden route that needs least, where it needs less than all that are shown."""
    best = min((one for one in unseen if one.to_goal is not None), key=_by_money, default=None)
    if best is None or decided.kind == "waiting":
        return None
    shown = decided.best
    return best if shown is None or _by_money(best) < _by_money(shown) else None


def _decided(answered: list[Finding], pending: int) -> Verdict:
    reaching = [one for one in answered if one.to_goal is not None]
    if pending and not reaching:
        return Verdict("waiting", pending=pending)
    if not answered:
        return Verdict("empty")
    if not reaching:
        closest = max(answered, key=lambda one: one.chance)
        return Verdict(
            "missed", closest, tuple(one for one in answered if one is not closest and _as_close(closest, one))
        )
    best = min(reaching, key=_by_money)
    rivals = tuple(one for one in reaching if one is not best and _too_close(best, one))
    return Verdict("close" if rivals else "won", best, rivals, pending)


# Least money first, of equals the sooner, then the first listed: the order of core's own comparison.
def _by_money(one: Finding) -> tuple[float, int, int]:
    to_goal = one.to_goal
    return (to_goal.money, to_goal.season, one.place) if to_goal else (math.inf, 0, one.place)


def _too_close(best: Finding, other: Finding) -> bool:
    if best.money_range is None and other.money_range is None:
        return False
    return _span(other)[0] <= _span(best)[1]


def _as_close(closest: Finding, other: Finding) -> bool:
    """Whether plays cannot tell which of two comes closer; exact answers are told apart."""
    noise = (closest.noise or 0.0) + (other.noise or 0.0)
    return noise > 0 and closest.chance > 0 and other.chance >= closest.chance - noise


def _span(one: Finding) -> tuple[float, float]:
    money = one.to_goal.money if one.to_goal else math.inf
    return one.money_range or (money, money)


def _answered(plan: Plan, one: Finding, answer: RouteAnswer | RouteFailure, purchases: Purchases) -> Finding:
    if isinstance(answer, RouteFailure):
        return replace(one, state="failed", reason=answer.reason)
    to_goal = answer.cheapest.to_goal
    count = to_goal.count if to_goal else _closest_count(answer)
    best = one.route if count is None else at_count(one.route, count)
    span = _money_range(answer.drawn, answer.drawn.budget_curve, float_chance(plan.goal.chance)) if to_goal else None
    figures = _figures(plan, replace(one, route=best), answer.cheapest, to_goal, purchases)
    return replace(figures, money_range=span, drawn=answer.drawn, early=answer.early)


def _closest_count(answer: RouteAnswer) -> int | None:
    """The count that comes closest to a goal out of reach, where it is not the one drawn."""
    return None if answer.cheapest is answer.drawn else int(answer.cheapest.budget_curve.count[-1])


def as_drawn(plan: Plan, one: Finding) -> Finding:
    """The same route with its counts as drawn instead of those that reach the goal for least."""
    route = next((route for route in plan.routes if route.id == one.id), None)
    if one.drawn is None or route is None:
        return one
    to_goal = one.drawn.as_drawn
    span = _money_range(one.drawn, one.drawn.chance_by_money, float_chance(plan.goal.chance)) if to_goal else None
    return replace(_figures(plan, replace(one, route=route), one.drawn, to_goal, Purchases()), money_range=span)


def _figures(plan: Plan, one: Finding, result: RouteResult, to_goal: ToGoal | None, purchases: Purchases) -> Finding:
    route, noise = one.route, result.chance_by_season_se
    chance = honest_chance(route, result, len(result.chance_by_season))
    return replace(
        one,
        state="answered",
        result=result,
        to_goal=to_goal,
        males=_starting(route, "male"),
        females=_starting(route, "female"),
        buys=purchases.words(plan, route),
        chance=chance,
        at_budget=None if plan.goal.budget is None else _at_budget(route, result, plan.goal.budget),
        # What is bought is certain, whatever came out in the plays before.
        noise=None if noise is None or chance == 1 else 2 * float(noise[-1]),
    )


def honest_chance(route: Route, result: RouteResult, season: int) -> float:
    """The chance by a season; what came out in every play, or in none, is not certain for that, but buying is."""
    chance = float(result.chance_by_season[season - 1])
    bought = route.buy_outright is not None and season >= route.buy_outright
    return chance if result.method == "exact" or bought else min(max(chance, _UNSURE), 1 - _UNSURE)


def _at_budget(route: Route, result: RouteResult, budget: float) -> float:
    """The chance with so much money; of plays that it is enough to begin, neither none nor all of them is certain."""
    chance = chance_with(result.chance_by_money, budget)
    if result.method == "exact" or budget < result.up_front:
        return chance
    return max(chance if route.buy_outright is not None else min(chance, 1 - _UNSURE), _UNSURE)


def _money_range(result: RouteResult, curve: BudgetCurve | MoneyCurve, goal: float) -> tuple[float, float] | None:
    """The least money to the goal within two standard errors of the chance there; None where exact."""
    noise = result.noise(goal)
    if noise is None:
        return None
    return money_to(curve, goal - float(noise)), money_to(curve, goal + float(noise))


def money_to(curve: BudgetCurve | MoneyCurve, chance: float) -> float:
    """The least money that gives `chance`, or infinity."""
    reached = np.flatnonzero(curve.chance >= chance - 1e-12)
    return float(curve.money[reached[0]]) if reached.size else math.inf


def chance_with(curve: MoneyCurve, money: float) -> float:
    """The chance with no more than this much money."""
    below = int(np.searchsorted(curve.money, money * (1 + 1e-12), side="right"))
    return float(curve.chance[below - 1]) if below else 0.0


def _starting(route: Route, sex: str) -> int:
    """Animals of one sex that are bought or mine; held-back young come later and cost nothing to get."""
    return sum(group_size(group) for group in route.groups if group.sex == sex and not isinstance(group, Held))


def group_size(group: Bought | Owned | Held) -> int:
    """How many animals a group has, or may hold back."""
    if isinstance(group, Owned) and group.animals is not None:
        return len(group.animals)
    return group.count or 0


def _buys(plan: Plan, route: Route) -> str:
    bought = [group for group in route.groups if isinstance(group, Bought)]
    if not bought and route.buy_outright is not None:
        return tr("the finished animals", "the finished animal", how_many(plan))
    return ", ".join(_bought(plan, one) for one in bought) or tr("nothing")


def _bought(plan: Plan, one: Bought) -> str:
    what, sex = animal(plan, one.carries), sex_words(one.sex, one.count)
    # A possible het begins with its own number.
    if what[0].isdigit():
        return tr("{n} {sex} {animal}", n=one.count, animal=what, sex=sex)
    return tr("{n} {animal} {sex}", n=one.count, animal=what, sex=sex)

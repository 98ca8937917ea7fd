"""What an evaluation reports beyond single plays, each from its definition on the page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from .beliefs import joint
from .chances import Distribution, coin, exact
from .genetics import Genome, Genotype, Plan
from .results import Number, Result

Route = dict[str, Any]
Count = int | None
Results = Mapping[Count, Result]


def scale_of(route: Route) -> tuple[list[str], list[int]]:
    """The groups and counts of the route's scale; no groups where it is evaluated as drawn only."""
    if route.get("scale"):
        return list(route["scale"]["groups"]), list(route["scale"]["counts"])
    for group in route.get("groups", []):
        if group["origin"] == "buy" and group["sex"] == "female":
            return [group["id"]], list(range(1, 9))
    return [], []


def over_counts(route: Route, evaluate: Callable[[dict[str, int]], Result]) -> dict[Count, Result]:
    """The route evaluated with every count of its scale; under None where there are none, as drawn."""
    groups, counts = scale_of(route)
    if not groups:
        return {None: evaluate({})}
    return {count: evaluate(dict.fromkeys(groups, count)) for count in counts}


# Money and the goal


@dataclass(frozen=True)
class ToGoal:
    """The least money in hand that reaches the goal's chance, with the count that does it."""

    count: Count
    money: Fraction
    season: int
    eggs: int | None
    chance: Number


def best_with(results: Results, x: Fraction | float) -> tuple[Number, Count]:
    """The best chance with at most x in hand, and the count that gives it, of equals the smallest."""
    ranked = [(-result.chance_with(x), count or 0, count) for count, result in results.items()]
    chance, _, count = min(ranked)
    return -chance, count


def budget_curve(results: Results) -> list[tuple[Fraction, Number, Count]]:
    """(money, chance, count) at every total where the best chance can step."""
    totals = {x for result in results.values() for x, _ in result.money()}
    return [(x, *best_with(results, x)) for x in sorted(totals)]


def as_drawn(result: Result, wanted: Number) -> ToGoal | None:
    return to_goal({None: result}, wanted)


def to_goal(results: Results, wanted: Number) -> ToGoal | None:
    ways = [way for count, result in results.items() if (way := _reach(count, result, wanted)) is not None]
    return min(ways, key=lambda way: (way.money, way.count or 0), default=None)


def _reach(count: Count, result: Result, wanted: Number) -> ToGoal | None:
    wanted, reached = exact(wanted), Fraction(0)
    for money, p in result.money():
        reached += exact(p)
        if reached >= wanted:
            season = next(s for s, chance in enumerate(result.chance_by_season(), start=1) if chance >= wanted)
            eggs = next((e for e, chance in enumerate(result.chance_by_eggs()) if chance >= wanted), None)
            return ToGoal(count, money, season, eggs, reached)
    return None


def to_goal_by_season(results: Results, wanted: Number, seasons: int) -> list[ToGoal | None]:
    """The same with the horizon cut to each season in turn."""
    return [
        to_goal({count: result.within(season) for count, result in results.items()}, wanted)
        for season in range(1, seasons + 1)
    ]


def chance_at_budget(results: Results, budget: Fraction | float | None) -> Number | None:
    return None if budget is None else best_with(results, exact(budget))[0]


def cheapest(routes: Iterable[tuple[str, ToGoal | None]]) -> str | None:
    """The route with the least money to the goal; of equals the sooner, then the first listed."""
    ways = [(way.money, way.season, place, route) for place, (route, way) in enumerate(routes) if way is not None]
    return min(ways)[-1] if ways else None


# The chance of one egg


def per_egg(plan: Plan, route: Route) -> dict[str, Fraction | None]:
    odds = EggOdds(plan, route)
    return {pairing["id"]: odds.wanted(pairing) for pairing in route.get("pairings", [])}


class EggOdds:
    """What the young of a pairing may be, with its first males and first females each averaged by itself."""

    def __init__(self, plan: Plan, route: Route) -> None:
        self.plan = plan
        self.genome = Genome(plan)
        self.groups = {group["id"]: group for group in route.get("groups", [])}
        self.pairings = {pairing["id"]: pairing for pairing in route.get("pairings", [])}

    def wanted(self, pairing: dict[str, Any]) -> Fraction | None:
        eggs = self.eggs(pairing, frozenset())
        if eggs is None:
            return None
        species, rows = self.plan["species"], self.plan["goal"]["want"]
        hatches = coin(species.get("clutch_lost", 0)).chance(lambda lost: not lost)
        hatches *= exact(species.get("fertile", 1)) * exact(species.get("hatches", 1))
        return hatches * eggs.chance(
            lambda egg: self.genome.viable(egg[1]) and any(self._fits(row, egg) for row in rows)
        )

    def _fits(self, row: dict[str, Any], egg: tuple[str, Genotype]) -> bool:
        return row.get("sex", "any") in ("any", egg[0]) and self.genome.fits(egg[1], row.get("forms", {}))

    def eggs(self, pairing: dict[str, Any], feeding: frozenset[str]) -> Distribution[tuple[str, Genotype]] | None:
        """Sex and genotype of a fertile egg; none where the parents cannot be."""
        sires, dams = self.carried(pairing["males"][0], feeding), self.carried(pairing["females"][0], feeding)
        if sires is None or dams is None:
            return None
        return Distribution(
            (egg, p * q * r)
            for sire, p in sires.items()
            for dam, q in dams.items()
            for egg, r in self.genome.offspring(sire, dam).items()
        )

    def carried(self, name: str, feeding: frozenset[str]) -> Distribution[Genotype] | None:
        """What a member of the group may carry; none where a held one cannot be."""
        group = self.groups[name]
        if "animals" in group:
            one_by_one = [joint(self.plan, self.genome, [animal]) for animal in group["animals"]]
            return Distribution((genotype, p) for belief in one_by_one for (genotype,), p in belief.items())
        if group["origin"] != "hold":
            return self.genome.prior(group.get("carries", {}), group["sex"])
        if name in feeding:
            return None
        eggs = self.eggs(self.pairings[group["from"][0]], feeding | {name})
        if eggs is None or not eggs.chance(lambda egg: self._could_be(group, egg)):
            return None
        kept = eggs.given(lambda egg: self._could_be(group, egg))
        return Distribution((genotype, p) for (_, genotype), p in kept.items())

    def _could_be(self, group: dict[str, Any], egg: tuple[str, Genotype]) -> bool:
        sex, genotype = egg
        return sex == group["sex"] and self.genome.viable(genotype) and self.genome.fits(genotype, group["pick"][0])

"""From a plan and one of its routes to the numbers that both engines work on."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from core.genetics.beliefs import beliefs, joint
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.elimination import TooEntangled
from core.genetics.young import Condition, judge_of
from core.plan.chances import chance
from core.plan.model import Bought, Costs, Group, Held, Owned, Plan, Route, Species
from core.plan.model import Pairing as PlanPairing
from core.routes.clutch import clutch_sizes
from core.routes.problem import Biology, Genotype, Herd, Pairing, Prices, Problem
from core.routes.result import Floats
from core.text import tr

# More true genotypes than this in one animal (or in named animals together) are not told apart one by one.
MOST_GENOTYPES = 20_000

Alone = tuple[tuple[Genotype, float], ...]
Together = tuple[tuple[tuple[Genotype, ...], float], ...]


class TooManyGenotypes(ValueError):
    """Raised where animals may carry more genotypes than can be told apart; says so in a sentence."""

    def __init__(self, animals: str) -> None:
        super().__init__(
            tr(
                "{animals} may carry more than {most} different genotypes, too many to tell apart: "
                "say more exactly what is carried",
                animals=animals,
                most=f"{MOST_GENOTYPES:,}",
            )
        )


def prepare(plan: Plan, route: Route, genetics: Genetics | None = None, *, crowded: bool = False) -> Problem:
    """The route as drawn, ready for the engines.

    genetics: the plan's, where compiled before. crowded: whether named animals may carry too much together to be
    listed; what is prepared can then only be played. Errors: TooManyGenotypes, ImpossibleEvidence, TooEntangled.
    """
    whole = genetics or compile_genetics(plan.genes, plan.linkage, plan.species)
    conditions, picks = _conditions(plan, route)
    relevant = whole.restrict({gene for condition in conditions for gene in condition.forms})
    pairing_index = {pairing.id: i for i, pairing in enumerate(route.pairings)}
    named = tuple(dict.fromkeys(animal for group in route.groups for animal in _animals(group)))
    reader = _Reader(relevant, pairing_index, picks, named)
    together, apart = _named_genotypes(plan, relevant, named, crowded=crowded)
    group_index = {group.id: i for i, group in enumerate(route.groups)}
    price = plan.goal.outright_price or 0
    if route.buy_outright is not None:
        price *= (1 + plan.goal.outright_change) ** (route.buy_outright - 1)
    return Problem(
        plan=plan,
        route=route,
        judge=judge_of(relevant, conditions),
        biology=whole.kept("biology", lambda: biology(plan.species)),
        prices=_prices(plan.costs, route),
        conditions=conditions,
        wanted=tuple(row.count for row in plan.goal.want),
        herds=tuple(reader.herd(i, group) for i, group in enumerate(route.groups)),
        pairings=tuple(_pairing(pairing, group_index, plan.goal.seasons) for pairing in route.pairings),
        horizon=plan.goal.seasons,
        outright=route.buy_outright,
        outright_price=float(price),
        named=named,
        together=together,
        apart=apart,
    )


def biology(species: Species) -> Biology:
    """The species' numbers as floats."""
    return Biology(
        sizes=clutch_sizes(species.clutch),
        clutches=species.clutches_per_season,
        lays=chance(species.lays),
        lost=chance(species.clutch_lost),
        fertile=chance(species.fertile),
        hatches=chance(species.hatches),
        works={"male": chance(species.breeds.male), "female": chance(species.breeds.female)},
        reaches=chance(species.reaches_breeding),
        load=species.females_per_male,
        matures={"male": species.matures.male, "female": species.matures.female},
    )


def _conditions(plan: Plan, route: Route) -> tuple[tuple[Condition, ...], dict[str, tuple[int, ...]]]:
    """All conditions judged on young, and per held group the bits of its picks."""
    conditions = [Condition(row.forms, row.sex) for row in plan.goal.want]
    picks: dict[str, tuple[int, ...]] = {}
    for group in route.groups:
        if isinstance(group, Held):
            first = len(conditions)
            conditions += [Condition(forms, group.sex) for forms in group.pick]
            picks[group.id] = tuple(range(first, len(conditions)))
    conditions += [Condition(row.forms, row.sex) for row in plan.costs.surplus]
    return tuple(conditions), picks


def _prices(costs: Costs, route: Route) -> Prices:
    return Prices(
        setup=float(costs.setup) + float(route.setup),
        keep_adult=float(costs.keep_adult),
        keep_young=float(costs.keep_young),
        per_egg=float(costs.per_egg),
        per_young=float(costs.per_young),
        sold_share=chance(costs.sold_share),
        surplus=tuple(float(row.price) for row in costs.surplus),
    )


def _pairing(pairing: PlanPairing, group_index: dict[str, int], horizon: int) -> Pairing:
    first, last = pairing.seasons
    return Pairing(
        id=pairing.id,
        males=tuple(group_index[group] for group in pairing.males),
        females=tuple(group_index[group] for group in pairing.females),
        first=1 if first is None else first,
        last=horizon if last is None else last,
    )


class _Reader:
    """Turns the groups of one route into herds."""

    def __init__(
        self,
        genetics: Genetics,
        pairings: dict[str, int],
        picks: dict[str, tuple[int, ...]],
        named: tuple[str, ...],
    ) -> None:
        self._genetics, self._pairings, self._picks, self._named = genetics, pairings, picks, named

    def herd(self, index: int, group: Group) -> Herd:
        if isinstance(group, Held):
            return self._held(index, group)
        animals = _animals(group)
        prior = () if animals else tuple(_each(group.id, self._genetics.prior(group.carries or {}, group.sex)))
        return Herd(
            index=index,
            id=group.id,
            sex=group.sex,
            count=len(animals) if animals else group.count or 0,
            held=False,
            arrives=group.season,
            ready=group.season + group.ready_in,
            until=group.until,
            pays_keep=isinstance(group, Bought) or not group.kept_anyway,
            price=float(group.price),
            prior=prior,
            named=tuple(self._named.index(animal) for animal in animals),
        )

    def _held(self, index: int, group: Held) -> Herd:
        return Herd(
            index=index,
            id=group.id,
            sex=group.sex,
            count=group.count,
            held=True,
            arrives=1,
            ready=None,
            until=group.until,
            pays_keep=True,
            price=0.0,
            sources=tuple(self._pairings[source] for source in group.source),
            picks=self._picks[group.id],
        )


def _animals(group: Group) -> tuple[str, ...]:
    return group.animals or () if isinstance(group, Owned) else ()


def _named_genotypes(
    plan: Plan, genetics: Genetics, named: Sequence[str], *, crowded: bool
) -> tuple[Together, tuple[Alone, ...]]:
    """`Problem.together` and `Problem.apart`: the second only where there is too much for the first."""
    if not named:
        return (), ()
    try:
        return joint_genotypes(plan, genetics, named), ()
    except (TooEntangled, TooManyGenotypes):
        if not crowded:
            raise
    alone = beliefs(plan, genetics)
    return (), tuple(tuple(_each(animal, alone[animal])) for animal in named)


def _each(animal: str, units: Sequence[Floats]) -> Iterator[tuple[Genotype, float]]:
    """The genotypes of one animal or of a bought group's, with chances, from those of its units."""
    possible = [[(g, p) for g, p in enumerate(chances.tolist()) if p > 0] for chances in units]
    if math.prod(len(unit) for unit in possible) > MOST_GENOTYPES:
        raise TooManyGenotypes(animal)
    for choice in product(*possible):
        yield tuple(g for g, _ in choice), math.prod(p for _, p in choice)


def joint_genotypes(plan: Plan, genetics: Genetics, animals: Sequence[str]) -> Together:
    """What named animals may carry together, from their joint belief: their genotypes in order, with chances."""
    units = [
        [(tuple(int(i) for i in where), float(chances[tuple(where)])) for where in zip(*chances.nonzero(), strict=True)]
        for chances in joint(plan, genetics, animals)
    ]
    if math.prod(len(unit) for unit in units) > MOST_GENOTYPES:
        raise TooManyGenotypes(", ".join(animals))
    return tuple(
        (
            tuple(tuple(per_unit[0][k] for per_unit in choice) for k in range(len(animals))),
            math.prod(per_unit[1] for per_unit in choice),
        )
        for choice in product(*units)
    )

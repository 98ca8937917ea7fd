"""Genes and animals taken out of a plan with everything that speaks of them."""

from __future__ import annotations

import msgspec
from msgspec.structs import replace

from core.plan.mapped import map_carries, map_forms
from core.plan.model import Carries, Forms, Group, Held, Owned, Plan, Route, Sex
from core.plan.relink import with_linkage, without_linked


class Users(msgspec.Struct, frozen=True):
    """Who speaks of a gene or an animal: the names of each kind, in the plan's order."""

    goal: bool = False
    for_sale: tuple[int, ...] = ()
    mine: tuple[int, ...] = ()
    routes: tuple[int, ...] = ()
    combinations: tuple[int, ...] = ()
    prices: int = 0
    records: int = 0

    @property
    def is_used(self) -> bool:
        """Whether anything speaks of it."""
        lists = (self.for_sale, self.mine, self.routes, self.combinations)
        return self.goal or any(lists) or bool(self.prices or self.records)


def gene_users(plan: Plan, gene: str) -> Users:
    """Give who speaks of a gene."""

    def carries(carried: Carries) -> bool:
        return any(gene in key.split(" ") for key in carried)

    return Users(
        goal=any(gene in row.forms for row in plan.goal.want),
        for_sale=tuple(i for i, row in enumerate(plan.for_sale) if carries(row.carries)),
        mine=tuple(i for i, one in enumerate(plan.my_animals) if carries(one.carries) or gene in one.forms),
        routes=tuple(i for i, one in enumerate(plan.routes) if any(_group_uses(g, gene) for g in one.groups)),
        combinations=tuple(i for i, row in enumerate(plan.combinations) if gene in row.forms),
        prices=sum(gene in row.forms for row in plan.costs.surplus),
        records=sum(any(gene in row.forms for row in one.young) for one in plan.clutch_records),
    )


def _group_uses(group: Group, gene: str) -> bool:
    if isinstance(group, Held):
        return any(gene in forms for forms in group.pick)
    return any(gene in key.split(" ") for key in group.carries or {})


def without_gene(plan: Plan, gene: str) -> Plan:
    """Give the plan without a gene: nobody carries it, no condition asks for it.

    Combinations, prices and wanted rows that asked for nothing else go; a goal of only such rows is left with a
    first row that any animal fits, which the caller may not want.
    """
    unlinked = with_linkage(plan, without_linked(plan.linkage, gene))

    def carries(carried: Carries, _sex: Sex) -> Carries:
        return {key: entry for key, entry in carried.items() if key != gene}

    def forms(asked: Forms) -> Forms:
        return {key: form for key, form in asked.items() if key != gene}

    only = [set(row.forms) == {gene} for row in plan.goal.want]
    found = map_forms(map_carries(unlinked, carries), forms)
    want = tuple(row for row, gone in zip(found.goal.want, only, strict=True) if not gone) or found.goal.want[:1]
    named = zip(plan.combinations, found.combinations, strict=True)
    priced = zip(plan.costs.surplus, found.costs.surplus, strict=True)
    return replace(
        found,
        genes=tuple(one for one in plan.genes if one.id != gene),
        goal=replace(found.goal, want=want),
        combinations=tuple(now for was, now in named if set(was.forms) != {gene}),
        costs=replace(found.costs, surplus=tuple(now for was, now in priced if set(was.forms) != {gene})),
    )


def animal_users(plan: Plan, animal: str) -> Users:
    """Give who speaks of one of my animals: young of it, clutch records, routes."""
    return Users(
        mine=tuple(i for i, one in enumerate(plan.my_animals) if animal in (one.sire, one.dam)),
        routes=tuple(i for i, one in enumerate(plan.routes) if any(_group_has(group, animal) for group in one.groups)),
        records=sum(animal in (one.sire, one.dam) for one in plan.clutch_records),
    )


def _group_has(group: Group, animal: str) -> bool:
    return isinstance(group, Owned) and animal in (group.animals or ())


def without_animal(plan: Plan, animal: str) -> Plan:
    """Give the plan without one of my animals: its young have unknown parents, its records and places in routes go."""
    mine = tuple(
        replace(one, sire=None, dam=None) if animal in (one.sire, one.dam) else one
        for one in plan.my_animals
        if one.id != animal
    )
    records = tuple(one for one in plan.clutch_records if animal not in (one.sire, one.dam))
    routes = tuple(_route_without(route, animal) for route in plan.routes)
    return replace(plan, my_animals=mine, clutch_records=records, routes=routes)


def _route_without(route: Route, animal: str) -> Route:
    groups: list[Group] = []
    for group in route.groups:
        if not isinstance(group, Owned) or animal not in (group.animals or ()):
            groups.append(group)
        elif left := tuple(one for one in group.animals or () if one != animal):
            groups.append(replace(group, animals=left))
    return route if len(groups) == len(route.groups) == 0 else _settled(replace(route, groups=tuple(groups)))


def _settled(route: Route) -> Route:
    """Without pairings that lack a side, groups held back from none, and what hangs on these in turn."""
    while True:
        names = {group.id for group in route.groups}
        pairings = tuple(
            replace(one, males=males, females=females)
            for one in route.pairings
            if (males := tuple(g for g in one.males if g in names))
            and (females := tuple(g for g in one.females if g in names))
        )
        bred = {one.id for one in pairings}
        groups = tuple(left for group in route.groups if (left := _fed(group, bred)) is not None)
        scale = route.scale
        if scale is not None:
            tried = tuple(name for name in scale.groups if name in {group.id for group in groups})
            scale = replace(scale, groups=tried) if tried else None
        settled = replace(route, groups=groups, pairings=pairings, scale=scale)
        if settled == route:
            return route
        route = settled


def _fed(group: Group, bred: set[str]) -> Group | None:
    if not isinstance(group, Held):
        return group
    source = tuple(name for name in group.source if name in bred)
    return replace(group, source=source) if source else None

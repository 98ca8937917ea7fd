"""The same change at every place of a plan that says what animals carry or how they look."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from core.plan.model import Bought, Carries, ClutchRecord, Forms, Group, Held, Owned, Plan, Route, Sex

OnCarries = Callable[[Carries, Sex], Carries]
OnForms = Callable[[Forms], Forms]


def map_carries(plan: Plan, change: OnCarries) -> Plan:
    """Give the plan with every `carries` changed: for sale, mine, and in the groups of every route."""
    return replace(
        plan,
        for_sale=tuple(replace(row, carries=change(row.carries, row.sex)) for row in plan.for_sale),
        my_animals=tuple(
            animal if animal.sire is not None else replace(animal, carries=change(animal.carries, animal.sex))
            for animal in plan.my_animals
        ),
        routes=tuple(_map_groups(route, lambda group: _carries_of_group(group, change)) for route in plan.routes),
    )


def map_forms(plan: Plan, change: OnForms) -> Plan:
    """Give the plan with every condition on forms changed: wanted, priced, named, seen and picked."""
    return replace(
        plan,
        combinations=tuple(replace(row, forms=change(row.forms)) for row in plan.combinations),
        goal=replace(plan.goal, want=tuple(replace(row, forms=change(row.forms)) for row in plan.goal.want)),
        costs=replace(plan.costs, surplus=tuple(replace(row, forms=change(row.forms)) for row in plan.costs.surplus)),
        my_animals=tuple(replace(animal, forms=change(animal.forms)) for animal in plan.my_animals),
        clutch_records=tuple(_forms_of_record(record, change) for record in plan.clutch_records),
        routes=tuple(_map_groups(route, lambda group: _forms_of_group(group, change)) for route in plan.routes),
    )


def _map_groups(route: Route, change: Callable[[Group], Group]) -> Route:
    return replace(route, groups=tuple(change(group) for group in route.groups))


def _carries_of_group(group: Group, change: OnCarries) -> Group:
    if isinstance(group, Bought):
        return replace(group, carries=change(group.carries, group.sex))
    if isinstance(group, Owned) and group.carries is not None:
        return replace(group, carries=change(group.carries, group.sex))
    return group


def _forms_of_group(group: Group, change: OnForms) -> Group:
    if isinstance(group, Held):
        return replace(group, pick=tuple(change(forms) for forms in group.pick))
    return group


def _forms_of_record(record: ClutchRecord, change: OnForms) -> ClutchRecord:
    return replace(record, young=tuple(replace(row, forms=change(row.forms)) for row in record.young))

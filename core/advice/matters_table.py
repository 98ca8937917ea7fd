"""The table of assumptions: how each is read from a plan and put into it, and how far it may be off."""

from __future__ import annotations

from msgspec.structs import replace

from core.advice.matters_ranges import Put, Read, Row
from core.plan.chances import chance
from core.plan.model import Bought, Breeds, Group, Held, Matures, Plan, Route, Sex
from core.text import tr


def _species(key: str) -> tuple[Read, Put]:
    """How a value of the species is read and put."""

    def read(plan: Plan) -> float:
        return chance(getattr(plan.species, key))

    def put(plan: Plan, value: float) -> Plan:
        whole = isinstance(getattr(plan.species, key), int) and key in ("females_per_male", "clutches_per_season")
        return replace(plan, species=replace(plan.species, **{key: round(value) if whole else value}))

    return read, put


def _female_share(plan: Plan) -> float | None:
    """A plan that leaves it out means half."""
    share = plan.species.female_share
    return None if plan.species.sex_system != "temperature" else 0.5 if share is None else chance(share)


def _breeds(sex: Sex) -> tuple[Read, Put]:
    def read(plan: Plan) -> float | None:
        return chance(getattr(plan.species.breeds, sex))

    def put(plan: Plan, value: float) -> Plan:
        breeds: Breeds = replace(plan.species.breeds, **{sex: value})
        return replace(plan, species=replace(plan.species, breeds=breeds))

    return read, put


def _matures(sex: Sex) -> tuple[Read, Put]:
    """Seasons to breeder-size, where a route holds animals of this sex back."""

    def read(plan: Plan) -> float | None:
        held = any(isinstance(group, Held) and group.sex == sex for group in _groups(plan))
        return float(getattr(plan.species.matures, sex)) if held else None

    def put(plan: Plan, value: float) -> Plan:
        matures: Matures = replace(plan.species.matures, **{sex: round(value)})
        return replace(plan, species=replace(plan.species, matures=matures))

    return read, put


def _ready(plan: Plan) -> float | None:
    """The longest that a bought animal has to grow."""
    waits = [group.ready_in for group in _groups(plan) if isinstance(group, Bought)]
    return float(max(waits)) if any(waits) else None


def _put_ready(plan: Plan, value: float) -> Plan:
    """Every bought animal that has to grow takes as much longer, or less."""
    more = round(value - (_ready(plan) or 0.0))
    return replace(plan, routes=tuple(_grown_by(route, more) for route in plan.routes))


def _grown_by(route: Route, more: int) -> Route:
    groups: tuple[Group, ...] = tuple(
        replace(group, ready_in=max(0, group.ready_in + more))
        if isinstance(group, Bought) and group.ready_in
        else group
        for group in route.groups
    )
    return replace(route, groups=groups)


def _reaches(plan: Plan) -> float | None:
    return chance(plan.species.reaches_breeding) if any(isinstance(one, Held) for one in _groups(plan)) else None


def _several_clutches(plan: Plan) -> float | None:
    clutches = plan.species.clutches_per_season
    return float(clutches) if clutches > 1 else None


def _costs(*keys: str) -> tuple[Read, Put]:
    """Some of the running costs together, as a share of what the plan says."""

    def read(plan: Plan) -> float | None:
        return 1.0 if any(getattr(plan.costs, key) for key in keys) else None

    def put(plan: Plan, value: float) -> Plan:
        changed = {key: getattr(plan.costs, key) * value for key in keys}
        return replace(plan, costs=replace(plan.costs, **changed))

    return read, put


def _is_bought(plan: Plan) -> float | None:
    return 1.0 if any(isinstance(one, Bought) and one.price for one in _groups(plan)) else None


def _put_prices(plan: Plan, value: float) -> Plan:
    return replace(plan, routes=tuple(_priced(route, value) for route in plan.routes))


def _priced(route: Route, value: float) -> Route:
    groups: tuple[Group, ...] = tuple(
        replace(group, price=group.price * value) if isinstance(group, Bought) else group for group in route.groups
    )
    return replace(route, groups=groups)


def _outright(plan: Plan) -> float | None:
    return 1.0 if plan.goal.outright_price and any(route.buy_outright for route in plan.routes) else None


def _put_outright(plan: Plan, value: float) -> Plan:
    assert plan.goal.outright_price is not None
    return replace(plan, goal=replace(plan.goal, outright_price=plan.goal.outright_price * value))


def _groups(plan: Plan) -> list[Group]:
    return [group for route in plan.routes for group in route.groups]


_LAYING = tr("A female may skip a season, for her age, her weight or no reason that shows.")
_EGGS = tr("Years and keepers differ: a fifth fewer is a poor year, no disaster.")
_GROWN = tr("A season sooner or later is nothing unusual: it hangs on how they are fed.")

# Ranges that planners commonly allow for: none of them is from a paper, and your own records are better than any.
TABLE = (
    Row("lays", tr("Females that lay"), "chance", 0.2, 0.1, 0.01, _LAYING, *_species("lays")),
    Row(
        "clutches", tr("Clutches a season"), "clutches", 1, 1, 1,
        tr("One clutch more or fewer, by season and by female."), _several_clutches, _species("clutches_per_season")[1],
    ),
    Row(
        "clutch_lost", tr("Clutches lost whole"), "chance", 0.1, 0.15, 0.01,
        tr("All of it can fail at once, with the mother or after."), *_species("clutch_lost"),
        born=tr("Litters lost whole"),
    ),
    Row("fertile", tr("Fertile eggs"), "chance", 0.2, 0.1, 0.01, _EGGS, *_species("fertile"),
        born=tr("Fertilised young")),
    Row("hatches", tr("Fertile eggs that hatch"), "chance", 0.2, 0.1, 0.01, _EGGS, *_species("hatches"),
        born=tr("Fertilised young that are born alive")),
    Row(
        "breeds.female", tr("Females that breed"), "chance", 0.15, 0.1, 0.01,
        tr("Some females never do; a proven one has shown that she does."), *_breeds("female"),
    ),
    Row(
        "breeds.male", tr("Males that breed"), "chance", 0.15, 0.1, 0.01,
        tr("Some males never do; a proven one has shown that he does."), *_breeds("male"),
    ),
    Row(
        "reaches_breeding", tr("Young held back that grow up"), "chance", 0.2, 0.1, 0.01,
        tr("Hatchlings are lost, and some of the grown never breed."), _reaches, _species("reaches_breeding")[1],
    ),
    Row("matures.female", tr("Seasons until a female breeds"), "seasons", 1, 1, 1, _GROWN, *_matures("female")),
    Row("matures.male", tr("Seasons until a male breeds"), "seasons", 1, 1, 1, _GROWN, *_matures("male")),
    Row("ready_in", tr("Seasons until bought young breed"), "seasons", 1, 1, 1, _GROWN, _ready, _put_ready),
    Row(
        "females_per_male", tr("Females that one male serves"), "females", 2, 2, 1,
        tr("About four is common; males and seasons differ by a couple."), *_species("females_per_male"),
    ),
    Row(
        "female_share", tr("Young that are female"), "chance", 0.2, 0.2, 0.01,
        tr("Where warmth decides the sex, incubators miss what was meant."), _female_share, _species("female_share")[1],
    ),
    Row(
        "prices", tr("Prices of the animals bought"), "times", 0.2, 0.2, 0.01,
        tr("A fifth either way is what seasons, shows and bargaining do to a price."), _is_bought, _put_prices,
    ),
    Row(
        "outright", tr("Price of the finished animals"), "times", 0.25, 0.25, 0.01,
        tr("What is new gets cheaper, and what is rare now may not be for sale at all."), _outright, _put_outright,
    ),
    Row(
        "keeping", tr("Costs of keeping"), "times", 0.5, 0.5, 0.01,
        tr("Food, heat, housing and the vet are seldom written down in full."), *_costs("keep_adult", "keep_young"),
    ),
    Row(
        "young costs", tr("Costs of eggs and young"), "times", 0.5, 0.5, 0.01,
        tr("What they take in their first weeks is seldom written down in full."), *_costs("per_egg", "per_young"),
        born=tr("Costs of the young"),
    ),
)  # fmt: skip

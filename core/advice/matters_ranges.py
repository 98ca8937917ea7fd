"""How far each assumption of a plan may plausibly be off: a table of ranges, each with its reason and its standing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import replace as changed
from typing import Literal

from msgspec.structs import replace

from core.plan.chances import chance
from core.plan.check import check_plan
from core.plan.model import Bought, Breeds, Group, Held, Matures, Plan, Route, Sex

# What a range stands on: common practice, without a source; the plan's own clutch records; what a trade word can mean;
# what the person says.
Standing = Literal["common practice", "your own records", "what the word can mean", "your own range"]
# How a value is said. `times`: as a share of what the plan says.
Unit = Literal["laid", "chance", "times", "seasons", "females", "clutches"]
Read = Callable[[Plan], float | None]
Put = Callable[[Plan, float], Plan]

# A chance that is not nothing stays so.
_LEAST_CHANCE = 0.05


@dataclass(frozen=True, eq=False)
class Assumption:
    """Something the plan takes for given, and how far it may be off.

    usual: its value in the plan, low..high: the range around it; step: how closely a value that changes the winner is
    told; why: the reason for the range; put: the plan with another value.
    """

    key: str
    name: str
    unit: Unit
    usual: float
    low: float
    high: float
    step: float
    why: str
    standing: Standing
    put: Put


def with_range(plan: Plan, assumption: Assumption, low: float, high: float) -> Assumption | None:
    """The assumption over a range of the person's own; None where it leaves out the plan's value, or cannot be."""
    if not 0 <= low <= assumption.usual <= high or low == high:
        return None
    own = changed(assumption, low=low, high=high, standing="your own range")
    ends = (own.put(plan, end) for end in (low, high))
    return None if any(check_plan(end) for end in ends) else own


@dataclass(frozen=True)
class Row:
    """A row of the table; `below`, `above`: how far a value may be off, in its own unit.

    read: the value in a plan, None where it has no say; born: the name where young are born alive.
    """

    key: str
    name: str
    unit: Unit
    below: float
    above: float
    step: float
    why: str
    read: Read
    put: Put
    born: str = ""

    def of(self, plan: Plan) -> Assumption | None:
        """The assumption this is in a plan; None where it has no say."""
        usual = self.read(plan)
        if usual is None:
            return None
        low, high = usual - self.below, usual + self.above
        if self.unit == "chance":
            least = 0.0 if self.key == "clutch_lost" else min(usual, _LEAST_CHANCE)
            low, high = max(low, least), min(high, 1.0)
        elif self.unit != "times":
            low = max(low, 1.0)
        name = self.born if self.born and plan.species.young == "live" else self.name
        return Assumption(self.key, name, self.unit, usual, low, high, self.step, self.why, "common practice", self.put)


def _species(key: str) -> tuple[Read, Put]:
    """How a value of the species is read and put."""

    def read(plan: Plan) -> float | None:
        value = getattr(plan.species, key)
        return None if value is None else chance(value)

    def put(plan: Plan, value: float) -> Plan:
        whole = isinstance(getattr(plan.species, key), int) and key in ("females_per_male", "clutches_per_season")
        return replace(plan, species=replace(plan.species, **{key: round(value) if whole else value}))

    return read, put


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


_LAYING = "A female may skip a season, for her age, her weight or no reason that shows."
_EGGS = "Years and keepers differ: a fifth fewer is a poor year, no disaster."
_GROWN = "A season sooner or later is nothing unusual: it hangs on how they are fed."

# Ranges that planners commonly allow for: none of them is from a paper, and your own records are better than any.
TABLE = (
    Row("lays", "Females that lay", "chance", 0.2, 0.1, 0.01, _LAYING, *_species("lays")),
    Row(
        "clutches", "Clutches a season", "clutches", 1, 1, 1,
        "One clutch more or fewer, by season and by female.", _several_clutches, _species("clutches_per_season")[1],
    ),
    Row(
        "clutch_lost", "Clutches lost whole", "chance", 0.1, 0.15, 0.01,
        "A clutch can fail whole, with the mother or in the incubator.", *_species("clutch_lost"),
        born="Litters lost whole",
    ),
    Row("fertile", "Fertile eggs", "chance", 0.2, 0.1, 0.01, _EGGS, *_species("fertile"),
        born="Fertilised young"),
    Row("hatches", "Fertile eggs that hatch", "chance", 0.2, 0.1, 0.01, _EGGS, *_species("hatches"),
        born="Fertilised young that are born alive"),
    Row(
        "breeds.female", "Females that breed", "chance", 0.15, 0.1, 0.01,
        "Some females never do; a proven one has shown that she does.", *_breeds("female"),
    ),
    Row(
        "breeds.male", "Males that breed", "chance", 0.15, 0.1, 0.01,
        "Some males never do; a proven one has shown that he does.", *_breeds("male"),
    ),
    Row(
        "reaches_breeding", "Young held back that grow up", "chance", 0.2, 0.1, 0.01,
        "Hatchlings are lost, and some of the grown never breed.", _reaches, _species("reaches_breeding")[1],
    ),
    Row("matures.female", "Seasons until a female breeds", "seasons", 1, 1, 1, _GROWN, *_matures("female")),
    Row("matures.male", "Seasons until a male breeds", "seasons", 1, 1, 1, _GROWN, *_matures("male")),
    Row(
        "females_per_male", "Females that one male serves", "females", 2, 2, 1,
        "About four is common; males and seasons differ by a couple.", *_species("females_per_male"),
    ),
    Row(
        "female_share", "Young that are female", "chance", 0.2, 0.2, 0.01,
        "Where warmth decides the sex, incubators miss what was meant.", *_species("female_share"),
    ),
    Row(
        "prices", "Prices of the animals bought", "times", 0.2, 0.2, 0.01,
        "A fifth either way is what seasons, shows and bargaining do to a price.", _is_bought, _put_prices,
    ),
    Row(
        "outright", "Price of the finished animals", "times", 0.25, 0.25, 0.01,
        "What is new gets cheaper, and what is rare now may not be for sale at all.", _outright, _put_outright,
    ),
    Row(
        "keeping", "Costs of keeping", "times", 0.5, 0.5, 0.01,
        "Food, heat, housing and the vet are seldom written down in full.", *_costs("keep_adult", "keep_young"),
    ),
    Row(
        "young costs", "Costs of eggs and young", "times", 0.5, 0.5, 0.01,
        "Incubation and first meals are seldom written down in full.", *_costs("per_egg", "per_young"),
        born="Costs of the young",
    ),
)  # fmt: skip

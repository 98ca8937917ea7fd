"""The words of the steps strip."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan.model import Bought, Group, Held, Pairing, Plan
from core.plan.sexes import sexed
from core.text import tr
from desktop.lanes import Breeding, Lane, Purchase, Stay, expected_eggs, size
from desktop.words.animals import animal
from desktop.words.goal import how_many
from desktop.words.names import name_of, titled
from desktop.words.numbers import Numbers, price

GROWING = tr("growing")


def group_name(group: Group) -> str:
    """A group as the lane names it."""
    return titled(group.id)


def group_note(plan: Plan, group: Group, numbers: Numbers) -> str:
    """`2 females, double het, 230 each`, or how many are held back."""
    many = sexed(size(group), group.sex)
    if isinstance(group, Held):
        return tr("up to {many} held back", many=many)
    if isinstance(group, Bought):
        each = tr(" each") if group.count > 1 else ""
        return f"{many}, {animal(plan, group.carries)}, {price(group.price, numbers)}{each}"
    carries = f", {animal(plan, group.carries)}" if group.carries else ""
    return tr("{many}{carries}, mine", many=many, carries=carries)


def pairing_name(pairing: Pairing) -> str:
    """`sire × dams`."""
    return f"{_plain(pairing.males)} × {_plain(pairing.females)}"


def breeding_text(plan: Plan, breeding: Breeding, season: int) -> tuple[str, ...]:
    """What a season of a pairing gives, the fullest wording first for where it fits."""
    count = expected_eggs(plan, breeding, season)
    short = tr("{n} eggs", "{n} egg", count) if plan.species.young == "eggs" else tr("{n} young", "{n} young", count)
    if breeding.held and season == breeding.laying[0]:
        held = tr(" and ").join(_held(group) for group in breeding.held)
        return (
            tr("about {short}, hold back {held}", short=short, held=held),
            tr("{short}, hold back", short=short),
            short,
            str(count),
        )
    return (tr("about {short}", short=short), short, str(count))


def purchase_text(plan: Plan, purchase: Purchase, *, only: bool, numbers: Numbers) -> tuple[str, ...]:
    """What buying finished costs in that season."""
    goal = plan.goal
    cost = (goal.outright_price or 0) * (1 + goal.outright_change) ** (purchase.season - 1)
    many = how_many(plan)
    full = tr("buy them for {cost}", "buy it for {cost}", many, cost=price(round(cost, 2), numbers))
    return (full if only else _if_not_met(plan, full), full, tr("buy them", "buy it", many))


def buy_finished(plan: Plan) -> str:
    """The step of buying what is wanted."""
    return tr("Buy them finished", "Buy it finished", how_many(plan))


def _if_not_met(plan: Plan, full: str) -> str:
    if how_many(plan) > 1:
        return tr("{full} if not all are there", full=full)
    if plan.species.young == "live":
        return tr("{full} if none was born", full=full)
    return tr("{full} if none has hatched", full=full)


def spoken(plan: Plan, all_lanes: tuple[Lane, ...], numbers: Numbers) -> str:
    """The strip for those who do not see it."""
    parts = []
    for lane in all_lanes:
        if isinstance(lane, Stay):
            leaves = tr(" to {leaves}", leaves=lane.leaves) if lane.leaves else ""
            parts.append(
                tr(
                    "{group}: {group_note}, from season {arrives}{leaves}",
                    group=group_name(lane.group),
                    group_note=group_note(plan, lane.group, numbers),
                    arrives=lane.arrives,
                    leaves=leaves,
                )
            )
        elif isinstance(lane, Breeding):
            parts.append(_bred(pairing_name(lane.pairing), lane.laying))
        else:
            parts.append(
                tr(
                    "Buy them finished in season {season}",
                    "Buy it finished in season {season}",
                    how_many(plan),
                    season=lane.season,
                )
            )
    return "; ".join(parts)


def _bred(name: str, seasons: Sequence[int]) -> str:
    if not seasons:
        return tr("{name} never", name=name)
    return tr(
        "{name} in seasons {seasons}",
        "{name} in season {seasons}",
        len(seasons),
        name=name,
        seasons=", ".join(map(str, seasons)),
    )


def _plain(names: tuple[str, ...]) -> str:
    return tr(", then ").join(name_of(name) for name in names)


def _held(group: Held) -> str:
    forms = [form for form in (group.pick[0] if group.pick else {}).values() if form != "normal"]
    kind = f"{' '.join(forms)} " if forms else ""
    many = tr("{n} {kind}sons", "{n} {kind}son", group.count, kind=kind)
    if group.sex == "female":
        many = tr("{n} {kind}daughters", "{n} {kind}daughter", group.count, kind=kind)
    return tr("up to {many}", many=many) if group.count > 1 else many

"""The words of the steps strip."""

from __future__ import annotations

from core.plan.model import Bought, Group, Held, Pairing, Plan
from desktop.lanes import Breeding, Lane, Purchase, Stay, expected_eggs, size
from desktop.words.animals import animal
from desktop.words.names import name_of, titled
from desktop.words.numbers import Numbers, counted, price

GROWING = "growing"
BUY_FINISHED = "Buy it finished"


def group_name(group: Group) -> str:
    """A group as the lane names it."""
    return titled(group.id)


def group_note(plan: Plan, group: Group, numbers: Numbers) -> str:
    """`2 females, double het, 230 each`, or how many are held back."""
    many = counted(size(group), group.sex, f"{group.sex}s")
    if isinstance(group, Held):
        return f"up to {many} held back"
    if isinstance(group, Bought):
        each = " each" if group.count > 1 else ""
        return f"{many}, {animal(plan, group.carries)}, {price(group.price, numbers)}{each}"
    carries = f", {animal(plan, group.carries)}" if group.carries else ""
    return f"{many}{carries}, mine"


def pairing_name(pairing: Pairing) -> str:
    """`sire × dams`."""
    return f"{_plain(pairing.males)} × {_plain(pairing.females)}"


def breeding_text(plan: Plan, breeding: Breeding, season: int) -> tuple[str, ...]:
    """What a season of a pairing gives, the fullest wording first for where it fits."""
    what = "eggs" if plan.species.young == "eggs" else "young"
    count = expected_eggs(plan, breeding)
    short = counted(count, what[:-1] if what == "eggs" else what, what)
    if breeding.held and season == breeding.seasons[0]:
        held = " and ".join(_held(group) for group in breeding.held)
        return (f"about {short}, hold back {held}", f"{short}, hold back", short, str(count))
    return (f"about {short}", short, str(count))


def purchase_text(plan: Plan, purchase: Purchase, *, only: bool, numbers: Numbers) -> tuple[str, ...]:
    """What buying finished costs in that season."""
    goal = plan.goal
    cost = (goal.outright_price or 0) * (1 + goal.outright_change) ** (purchase.season - 1)
    full = f"buy it for {price(round(cost, 2), numbers)}"
    return (full if only else f"{full} if none has hatched", full, "buy it")


def spoken(plan: Plan, all_lanes: tuple[Lane, ...], numbers: Numbers) -> str:
    """The strip for those who do not see it."""
    parts = []
    for lane in all_lanes:
        if isinstance(lane, Stay):
            leaves = f" to {lane.leaves}" if lane.leaves else ""
            parts.append(
                f"{group_name(lane.group)}: {group_note(plan, lane.group, numbers)}, from season {lane.arrives}{leaves}"
            )
        elif isinstance(lane, Breeding):
            seasons = ", ".join(map(str, lane.seasons)) or "none"
            parts.append(f"{pairing_name(lane.pairing)} in seasons {seasons}")
        else:
            parts.append(f"Buy it finished in season {lane.season}")
    return "; ".join(parts)


def _plain(names: tuple[str, ...]) -> str:
    return ", then ".join(name_of(name) for name in names)


def _held(group: Held) -> str:
    forms = [form for form in (group.pick[0] if group.pick else {}).values() if form != "normal"]
    kind = f"{' '.join(forms)} " if forms else ""
    young = {"male": ("son", "sons"), "female": ("daughter", "daughters")}[group.sex]
    many = counted(group.count, f"{kind}{young[0]}", f"{kind}{young[1]}")
    return f"up to {many}" if group.count > 1 else many

"""Words of “This season” that differ between animals that lay and those that bear live young."""

from __future__ import annotations

import msgspec

from core.explain.numbers import is_live
from core.plan.model import Plan
from core.text import tr


class Births(msgspec.Struct, frozen=True):
    """`lost`: whole young that do not live; `added`, `changed` and `removed` are what undo says."""

    tab: str
    no_pair: str
    one_more: str
    mate: str
    nothing_open: str
    sire: str
    dam: str
    season: str
    lost: str
    enter: str
    says: str
    nothing_yet: str
    records: str
    no_records: str
    difference: str
    added: str
    changed: str
    removed: str


_LAID = Births(
    tab=tr("What hatched"),
    no_pair=tr("A clutch needs a male and a female of yours. Add both first."),
    one_more=tr("What one more clutch would tell"),
    mate=tr("The mate for one more clutch"),
    nothing_open=tr(
        "Nothing is open about this animal and the wanted genes: another clutch would tell nothing new of it."
    ),
    sire=tr("Sire of the clutch"),
    dam=tr("Dam of the clutch"),
    season=tr("Season of the clutch"),
    lost=tr("Did not hatch"),
    enter=tr("Enter this clutch"),
    says=tr("What this clutch says"),
    nothing_yet=tr("Count the young. What they say of your animals then stands here, before you enter the clutch."),
    records=tr("Clutches so far"),
    no_records=tr("No clutch is recorded yet."),
    difference=tr("The difference the chosen clutch made"),
    added=tr("the clutch"),
    changed=tr("the change to a clutch"),
    removed=tr("removing a clutch"),
)
_BORN = Births(
    tab=tr("What was born"),
    no_pair=tr("A litter needs a male and a female of yours. Add both first."),
    one_more=tr("What one more litter would tell"),
    mate=tr("The mate for one more litter"),
    nothing_open=tr(
        "Nothing is open about this animal and the wanted genes: another litter would tell nothing new of it."
    ),
    sire=tr("Sire of the litter"),
    dam=tr("Dam of the litter"),
    season=tr("Season of the litter"),
    lost=tr("Born dead"),
    enter=tr("Enter this litter"),
    says=tr("What this litter says"),
    nothing_yet=tr("Count the young. What they say of your animals then stands here, before you enter the litter."),
    records=tr("Litters so far"),
    no_records=tr("No litter is recorded yet."),
    difference=tr("The difference the chosen litter made"),
    added=tr("the litter"),
    changed=tr("the change to a litter"),
    removed=tr("removing a litter"),
)


def births(plan: Plan) -> Births:
    """The words for the plan's species."""
    return _BORN if is_live(plan) else _LAID

"""What the seasons cost."""

from __future__ import annotations

from core.text import tr
from desktop.forms.kinds import Money, Share
from desktop.forms.table import Field, Form, Line


def _cost(place: str, name: str, before: str, unit: str, help: str = "") -> Line:
    return Line(
        (Field(f"costs.{place}", name, Money(), before=before, unit=tr("{currency} {unit}", unit=unit).strip()),),
        help=help,
    )


COSTS = (
    Form(
        tr("Running costs"),
        (
            _cost("setup", tr("To set up"), tr("To set up,"), tr("once, in season 1"),
                  tr("Boxes, heating, an incubator. A route can add its own.")),
            _cost("keep_adult", tr("To keep an adult"), tr("To keep a breeder-size animal,"), tr("a season"),
                  tr("Not for animals that are kept anyway.")),
            _cost("keep_young", tr("To keep a young"), tr("To keep a young held back,"),
                  tr("a season until it is breeder-size")),
            _cost("per_egg", tr("For each egg"), tr("For each egg laid,"), "",
                  tr("Slugs and lost clutches too; of a live-bearer every young, alive or not.")),
            _cost("per_young", tr("For each young"), tr("For each young that hatches,"), "",
                  tr("Food, boxes and advertisements until it leaves.")),
        ),
    ),
    Form(
        tr("Sales"),
        (
            Line(
                (Field("costs.sold_share", tr("Surplus young that are sold"), Share(),
                       before=tr("Of 100 surplus young,"),
                       unit=tr("are sold at their price")),),
                help=tr("What surplus brings is shown beside the money, never taken off it."),
            ),
        ),
    ),
)  # fmt: skip

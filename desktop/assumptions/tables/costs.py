"""What the seasons cost."""

from __future__ import annotations

from desktop.forms.kinds import Money, Share
from desktop.forms.table import Field, Form, Line


def _cost(place: str, name: str, before: str, unit: str, help: str = "") -> Line:
    return Line(
        (Field(f"costs.{place}", name, Money(), before=before, unit=f"{{currency}} {unit}".strip()),), help=help
    )


COSTS = (
    Form(
        "Running costs",
        (
            _cost("setup", "To set up", "To set up,", "once, in season 1",
                  "Boxes, heating, an incubator. A route can add its own."),
            _cost("keep_adult", "To keep an adult", "To keep a breeder-size animal,", "a season",
                  "Not for animals that are kept anyway."),
            _cost("keep_young", "To keep a young", "To keep a young held back,", "a season until it is breeder-size"),
            _cost("per_egg", "For each egg", "For each egg laid,", "", "Slugs and lost clutches too."),
            _cost("per_young", "For each young", "For each young that hatches,", "",
                  "Food, boxes and advertisements until it leaves."),
        ),
    ),
    Form(
        "Sales",
        (
            Line(
                (Field("costs.sold_share", "Surplus young that are sold", Share(), before="Of 100 surplus young,",
                       unit="are sold at their price"),),
                help="What surplus brings is shown beside the money, never taken off it.",
            ),
        ),
    ),
)  # fmt: skip

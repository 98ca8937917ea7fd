"""Which routes do the same, and which of them try all that another one tries."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from core.plan.alike import Tried, alike_to
from core.plan.model import Bought, Pairing, Route, Scale

SIRE = Bought(id="sire", sex="male", count=1, carries={"lav": "l/l"}, price=340)
DAMS = Bought(id="dams", sex="female", count=2, carries={"lav": "l/+"}, price=230)
MINE = Route(
    id="mine",
    name="My route",
    groups=(SIRE, DAMS),
    pairings=(Pairing(id="first", males=("sire",), females=("dams",)),),
)


def found(*counts: int, drawn: int = 1, group: str = "females") -> Route:
    """The same route as a search would draw it, under names of its own."""
    return Route(
        id="found-1",
        name="Lavender × het",
        groups=(replace(SIRE, id="males"), replace(DAMS, id="females", count=drawn)),
        pairings=(Pairing(id="pair", males=("males",), females=("females",)),),
        scale=Scale(groups=(group,), counts=counts),
    )


@pytest.mark.parametrize(
    ("route", "covered"),
    [
        (found(1, 2, 3, 4), True),
        (found(1), True),
        (found(8, 9, drawn=8), False),
        # Another number of males is never tried.
        (found(1, 2, group="males"), False),
        (replace(found(1, 2), setup=10), False),
        (replace(found(1, 2), pairings=()), False),
    ],
    ids=["fewer counts", "one count", "more counts", "other group", "other money", "nobody bred"],
)
def test_a_route_is_covered_by_one_that_tries_all_its_counts(route: Route, covered: bool) -> None:
    assert Tried([replace(MINE, groups=(SIRE,), pairings=()), MINE]).covers(route) is covered
    assert alike_to(route) != alike_to(MINE)


def test_a_route_without_a_scale_of_its_own_is_tried_with_one_to_eight() -> None:
    assert Tried([MINE]).covers(found(*range(1, 9)))
    assert not Tried([replace(MINE, scale=Scale(groups=("dams",), counts=(2, 3)))]).covers(found(1, 2, 3))
    # What is drawn is worked out, too.
    assert Tried([replace(MINE, scale=Scale(groups=("dams",), counts=(3,)))]).covers(found(3, drawn=2))

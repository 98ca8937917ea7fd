"""Plain plans from what is for sale and what I own: one male and females of one kind, bred every season."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from core.advice.worth_options import Option
from core.explain.animals import animal_title
from core.explain.numbers import listed
from core.plan.model import Bought, ForSale, Group, Owned, Pairing, Plan, Route, Scale
from core.plan.scale import DEFAULT_COUNTS
from core.plan.sexes import sex_words
from core.routes.lists import Candidate, Lists
from core.routes.pairs import Pairs, Seen

# Mates that are weighed for each animal, the cheapest; and with how many of them it makes a plan, the best.
_MOST_WEIGHED, _MATES = 24, 3
# More animals than this, the cheapest of each sex, are not gone through.
_MOST_OF_A_SEX = 60


def pairs(plan: Plan) -> list[Option]:
    """A plan for every animal that may carry all that is wanted, with each of its most promising mates.

    Of several goal rows a mate is weighed by the one that takes most with it.
    No more are bought than there are, or than there is room for; of my own females all that may help go together.
    """
    rows = [Lists(plan, row) for row in range(len(plan.goal.want))]
    if not any(row.genes for row in rows):
        return []
    weighing = Pairs(plan, rows)
    males, females = (each[:_MOST_OF_A_SEX] for each in weighing.fitting("straight"))
    mine = [one[0] for one in females if not isinstance(one[0].source, ForSale)]
    # Room for females beside one male.
    house = math.inf if plan.goal.housing is None else plan.goal.housing
    if house < 2:
        return []
    made: dict[tuple[str, str], Option] = {}
    for (sire, *_), (dam, *_) in (*_matched(weighing, males, females), *_matched(weighing, females, males)):
        dams = mine if dam in mine and len(mine) + 1 <= house else [dam]
        key = sire.key, dams[0].key
        if key not in made:
            made[key] = Option(_route(plan, sire, dams), "paired")
    return list(made.values())


def _matched(weighing: Pairs, ones: Sequence[Seen], mates: Sequence[Seen]) -> Iterator[tuple[Seen, Seen]]:
    """Each of the ones with its most promising mates, as sire and dam."""
    for one in ones:
        weighed = []
        for place, mate in enumerate(mates[:_MOST_WEIGHED]):
            sire, dam = (one, mate) if one[0].sex == "male" else (mate, one)
            money = weighing.guess("straight", sire, dam).money
            if not math.isinf(money):
                weighed.append((money, place, (sire, dam)))
        yield from (pair for _, _, pair in sorted(weighed, key=_by_money)[:_MATES])


def _by_money(weighed: tuple[float, int, object]) -> tuple[float, int]:
    return weighed[:2]


def _route(plan: Plan, sire: Candidate, dams: Sequence[Candidate]) -> Route:
    groups: tuple[Group, ...] = (_group("sire", [sire]), _group("dams", dams))
    source = dams[0].source
    most = source.quantity if isinstance(source, ForSale) else 0
    room = most if plan.goal.housing is None else min(most, plan.goal.housing - 1)
    counts = tuple(count for count in DEFAULT_COUNTS if count <= room)
    scale = Scale(groups=("dams",), counts=counts) if counts else None
    pairing = Pairing(id="pair", males=("sire",), females=("dams",))
    name = f"{_title(plan, [sire])} × {_title(plan, dams)}"
    return Route(id="pair", name=name, groups=groups, pairings=(pairing,), scale=scale)


def _group(name: str, ones: Sequence[Candidate]) -> Group:
    source = ones[0].source
    if isinstance(source, ForSale):
        carries, price = source.carries, source.price
        return Bought(id=name, sex=source.sex, count=1, carries=carries, price=price, ready_in=source.ready_in)
    return Owned(id=name, sex=source.sex, animals=tuple(one.source.id for one in ones))


def _title(plan: Plan, ones: Sequence[Candidate]) -> str:
    source = ones[0].source
    if isinstance(source, ForSale):
        title = animal_title(plan, source.carries)
        return source.label or f"{title[:1].upper()}{title[1:]} {sex_words(source.sex)}"
    return listed(
        [animal.name or animal.id for animal in (one.source for one in ones) if not isinstance(animal, ForSale)]
    )

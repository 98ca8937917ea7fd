"""The animals for sale that go best with one at home."""

from __future__ import annotations

from dataclasses import dataclass

from core.counter.pair import Pair
from core.plan.model import AnySex, Carries, Forms, ForSale, Plan, Sex


@dataclass(frozen=True)
class Partner:
    """One for sale: the chance of the goal in one clutch with the animal at home, and the first season it can breed."""

    offer: ForSale
    chance: float
    first_season: int


def partners(plan: Plan, at_home: Carries, sex: Sex, forms: Forms, of: AnySex = "any") -> tuple[Partner, ...]:
    """Every animal of the other sex that is not sold, best first: by chance, then by season, then by price."""
    found = []
    for offer in plan.for_sale:
        if offer.sex == sex or offer.quantity < 1:
            continue
        pair = Pair(plan, at_home, offer.carries) if sex == "male" else Pair(plan, offer.carries, at_home)
        found.append(Partner(offer, pair.at_least_one(forms, 1, of)[0], 1 + offer.ready_in))
    return tuple(sorted(found, key=_rank))


def _rank(one: Partner) -> tuple[float, int, float]:
    return (-round(one.chance, 12), one.first_season, float(one.offer.price))

"""What can be bought: every animal for sale, and every bought group of a route that no animal for sale stands for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from core.genetics.compile import Genetics, compile_genetics
from core.plan.model import Bought, Carries, ForSale, Plan, Route, Sex

# Sex, what it carries (chances over genotypes, rounded to what a plan can say), and seasons until it can breed.
Kind = tuple[Sex, tuple[bytes, ...], int]
# The id of an animal for sale; or a kind and its price.
Key = str | tuple[Kind, float]
_DIGITS = 12


@dataclass(frozen=True)
class Lot:
    """One kind of animal at one price: for sale, or bought by listed routes while nothing for sale is like it.

    asked: for each, in the plan's currency; carries, sex: what it is; offer: the animal for sale, or None; groups: the
    (route, group) ids of the listed routes that buy it.
    """

    sex: Sex
    carries: Carries
    asked: float
    offer: ForSale | None
    groups: tuple[tuple[str, str], ...] = ()

    @property
    def label(self) -> str:
        """What the list calls it; empty where it has no name."""
        return self.offer.label if self.offer else ""


class Market:
    """The lots of a plan, and which of them a bought group is; `genetics`: the plan's, compiled once."""

    def __init__(self, plan: Plan) -> None:
        self.genetics: Genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
        self._offers: dict[Kind, list[ForSale]] = {}
        for offer in plan.for_sale:
            self._offers.setdefault(self._kind(offer), []).append(offer)
        listed: dict[Key, list[tuple[str, Bought]]] = {}
        for route in plan.routes:
            for group in bought(route):
                listed.setdefault(self._key(group), []).append((route.id, group))
        keys: list[Key] = list(dict.fromkeys([*(offer.id for offer in plan.for_sale), *listed]))
        self._places = {key: place for place, key in enumerate(keys)}
        offers = {offer.id: offer for offer in plan.for_sale}
        self.lots = tuple(_lot(offers.get(key) if isinstance(key, str) else None, listed.get(key, [])) for key in keys)

    def place(self, group: Bought) -> int | None:
        """Which lot a bought group is: of those for sale alike in all else the one at its price; None for no lot."""
        return self._places.get(self._key(group))

    def stands_for(self, place: int) -> int:
        """The lot that stands for all alike at one price: the first of them."""
        offer = self.lots[place].offer
        return place if offer is None else self._places[self._key(offer)]

    def groups(self, route: Route, place: int) -> tuple[str, ...]:
        """The groups of a route, listed or not, that are this lot."""
        return tuple(group.id for group in bought(route) if self.place(group) == place)

    def _key(self, group: Bought | ForSale) -> Key:
        kind = self._kind(group)
        alike = self._offers.get(kind)
        if not alike:
            return kind, group.price
        return next((offer for offer in alike if offer.price == group.price), min(alike, key=_price)).id

    def _kind(self, animal: ForSale | Bought) -> Kind:
        prior = self.genetics.prior(animal.carries, animal.sex)
        return animal.sex, tuple(chances.round(_DIGITS).tobytes() for chances in prior), animal.ready_in


def bought(route: Route) -> Iterator[Bought]:
    """The groups of a route that are bought."""
    return (group for group in route.groups if isinstance(group, Bought))


def _lot(offer: ForSale | None, listed: list[tuple[str, Bought]]) -> Lot:
    one = offer or listed[0][1]
    return Lot(one.sex, one.carries, one.price, offer, tuple((route, group.id) for route, group in listed))


def _price(offer: ForSale) -> float:
    return offer.price

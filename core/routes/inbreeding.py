"""Wright's F expected of the young of a route's pairings."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

from core.plan.model import Held, Owned, Plan, Route


class Kin(NamedTuple):
    """Animals alike in descent: one of my animals, or a whole group of a route whose members are exchangeable."""

    mine: bool
    id: str


# Those a parent is drawn from, each with its chance.
Drawn = dict[Kin, float]


class _FedByItself(Exception):
    """A group is held from its own young."""


def inbreeding_by_pairing(plan: Plan, route: Route) -> dict[str, float | None]:
    """Per pairing, F of its young, highest over its male and female groups; None where a group is fed by itself.

    Bought animals are unrelated and not inbred; held ones come from any male and any female of the first pairing they
    are taken from.
    """
    pedigree = _Pedigree(plan, route)
    return {pairing.id: pedigree.of_young(pairing.males, pairing.females) for pairing in route.pairings}


class _Pedigree:
    """Kinship by the recursion of Wright S 1922, American Naturalist 56:330-338, on exchangeable groups.

    f(x, y) is the mean of f(parent of x, y) over the parents of the younger, x; f(x, x) = (1 + F of x) / 2.
    """

    def __init__(self, plan: Plan, route: Route) -> None:
        self._groups = {group.id: group for group in route.groups}
        self._pairings = {pairing.id: pairing for pairing in route.pairings}
        self._mine = {animal.id: animal for animal in plan.my_animals}
        self._known: dict[tuple[Kin, Kin], float] = {}
        self._generations: dict[Kin, int] = {}

    def of_young(self, males: Iterable[str], females: Iterable[str]) -> float | None:
        """F of the young of these groups."""
        try:
            return max(self._mean(self._drawn([m]), self._drawn([f])) for m, f in product(males, females))
        except _FedByItself:
            return None

    def _drawn(self, groups: Iterable[str]) -> Drawn:
        """One animal drawn evenly from all members of some groups."""
        counts: dict[Kin, int] = {}
        for group in (self._groups[group] for group in groups):
            if isinstance(group, Owned) and group.animals is not None:
                counts.update(dict.fromkeys((Kin(True, animal) for animal in group.animals), 1))
            else:
                counts[Kin(False, group.id)] = group.count or 0
        total = sum(counts.values())
        return {kin: count / total for kin, count in counts.items()} if total else {}

    def _parents(self, kin: Kin) -> tuple[Drawn, Drawn] | None:
        if kin.mine:
            animal = self._mine[kin.id]
            if animal.sire is None or animal.dam is None:
                return None
            return {Kin(True, animal.sire): 1.0}, {Kin(True, animal.dam): 1.0}
        group = self._groups[kin.id]
        if not isinstance(group, Held):
            return None
        source = self._pairings[group.source[0]]
        return self._drawn(source.males), self._drawn(source.females)

    def _generation(self, kin: Kin, below: tuple[Kin, ...] = ()) -> int:
        if kin in below:
            raise _FedByItself
        if kin not in self._generations:
            parents = self._parents(kin)
            older = [parent for drawn in parents or () for parent in drawn]
            self._generations[kin] = 1 + max((self._generation(parent, (*below, kin)) for parent in older), default=-1)
        return self._generations[kin]

    def _mean(self, some: Drawn, others: Drawn) -> float:
        """Kinship of two animals drawn apart from each other."""
        return sum(p * q * self._kinship(one, other) for one, p in some.items() for other, q in others.items())

    def _kinship(self, one: Kin, other: Kin) -> float:
        """Of a member of each, drawn apart, so perhaps the same one."""
        younger, older = sorted((one, other), key=lambda kin: (self._generation(kin), kin), reverse=True)
        key = younger, older
        if key not in self._known:
            self._known[key] = self._alike(one) if one == other else self._apart(younger, older)
        return self._known[key]

    def _apart(self, younger: Kin, older: Kin) -> float:
        parents = self._parents(younger)
        if parents is None:
            return 0.0
        return sum(self._mean(drawn, {older: 1.0}) for drawn in parents) / 2

    def _alike(self, kin: Kin) -> float:
        parents = self._parents(kin)
        count = 1 if kin.mine else self._groups[kin.id].count or 1
        if parents is None:
            return 0.5 / count
        same = (1 + self._mean(*parents)) / 2
        another = sum(self._mean(one, two) for one, two in product(parents, repeat=2)) / 4
        return same / count + another * (1 - 1 / count)

"""Wright's F expected of a pairing's young.

Individuals are animals by id or members of groups by number. A held member's sire and dam are each drawn, evenly and by
themselves, from all males and all females of the first pairing its group is fed from.
"""

from __future__ import annotations

from fractions import Fraction
from statistics import mean
from typing import Any

from .genetics import Plan

Route = dict[str, Any]
Individual = tuple[str, str, int]  # ("animal", id, 0) or ("member", group, number)
Parents = tuple[list[Individual], list[Individual]]


class FedByItself(Exception):
    """A group is held from its own young."""


def inbreeding(plan: Plan, route: Route) -> dict[str, Fraction | None]:
    kin = Kinship(plan, route)
    return {pairing["id"]: _of_pairing(kin, pairing) for pairing in route.get("pairings", [])}


def _of_pairing(kin: Kinship, pairing: dict[str, Any]) -> Fraction | None:
    try:
        return max(
            kin.between(kin.members(males), kin.members(females))
            for males in pairing["males"]
            for females in pairing["females"]
        )
    except FedByItself:
        return None


class Kinship:
    """Coefficients of kinship between the individuals of a route."""

    def __init__(self, plan: Plan, route: Route) -> None:
        self.animals = {animal["id"]: animal for animal in plan.get("my_animals", [])}
        self.groups = {group["id"]: group for group in route.get("groups", [])}
        self.pairings = {pairing["id"]: pairing for pairing in route.get("pairings", [])}
        self._kin: dict[frozenset[Individual], Fraction] = {}

    def members(self, group: str) -> list[Individual]:
        row = self.groups[group]
        if "animals" in row:
            return [("animal", animal, 0) for animal in row["animals"]]
        return [("member", group, number) for number in range(row["count"])]

    def parents(self, one: Individual) -> Parents | None:
        """All possible sires and dams, evenly likely; none for the unrelated."""
        kind, name, _ = one
        if kind == "animal":
            animal = self.animals[name]
            if "sire" not in animal:
                return None
            return [("animal", animal["sire"], 0)], [("animal", animal["dam"], 0)]
        if self.groups[name]["origin"] != "hold":
            return None
        source = self.pairings[self.groups[name]["from"][0]]
        return self._all(source["males"]), self._all(source["females"])

    def _all(self, groups: list[str]) -> list[Individual]:
        # An animal of several groups is one animal.
        return list(dict.fromkeys(member for group in groups for member in self.members(group)))

    def generation(self, one: Individual, below: frozenset[str] = frozenset()) -> int:
        """Generations since founders. Raises FedByItself."""
        parents = self.parents(one)
        if parents is None:
            return 0
        if one[0] == "member":
            if one[1] in below:
                raise FedByItself
            below |= {one[1]}
        # Members of one group are alike here, so one of each is enough.
        kinds = {parent[:2]: parent for parent in [*parents[0], *parents[1]]}
        return 1 + max(self.generation(parent, below) for parent in kinds.values())

    def between(self, some: list[Individual], others: list[Individual]) -> Fraction:
        """Mean kinship of one of some and one of the others, each drawn evenly."""
        return mean(self.kin(one, other) for one in some for other in others)

    def kin(self, one: Individual, other: Individual) -> Fraction:
        key = frozenset((one, other))
        if key not in self._kin:
            self._kin[key] = self._work_out(one, other)
        return self._kin[key]

    def _work_out(self, one: Individual, other: Individual) -> Fraction:
        if one == other:
            self.generation(one)
            parents = self.parents(one)
            return (1 + (self.between(*parents) if parents else Fraction(0))) / 2
        older, younger = sorted((one, other), key=self.generation)
        parents = self.parents(younger)
        if parents is None:
            return Fraction(0)
        return (self.between([older], parents[0]) + self.between([older], parents[1])) / 2

"""One way on which things may go for held animals that change who else breeds with whom."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from core.routes.calendar import Animal, Mating
from core.routes.exact.chain.dams import DamGroup
from core.routes.exact.clusters import MaleState, Mates, States, male_states
from core.routes.exact.filling import Founders
from core.routes.problem import Herd

if TYPE_CHECKING:
    from core.routes.exact.chain.sums import Numbers, Sum

# In place of what a held female is: nobody else asks for it.
ANY = "any"


# What a member is; or all that it may be, where one held female at most ever asks, or dams that are summed up.
Kind = MaleState | str | States


class Member(NamedTuple):
    """One that is held at the end of a season and will be fit to breed, and what it is."""

    season: int
    kind: Kind


class Lot(NamedTuple):
    """Members that were held of the same young: how many are of each kind, in any order."""

    animals: tuple[Animal, ...]
    kinds: tuple[tuple[States, int], ...]


class Part(NamedTuple):
    """What of one female's seasons is taken in: through so many of them; or what happens at her eggs in the last."""

    kind: str
    season: int


@dataclass(frozen=True, eq=False)
class Course:
    """One way on which things may go; its chance but for what is held is that of its world.

    world: the place of how founders are among all ways in which they can be. states: what founders are, and males among
    the members. order: per season, its matings in laying order; others that are held may be fewer, which changes
    nobody's mate. members: by place among the held herds, of those that change who else breeds with whom, its fit
    members in the order held; of those held after the season `through` it tells nothing, and of those held before the
    season `settled` only how many there are by then. most: so many members, where nobody asks for those after them.
    dams: founders that are told apart by how many of them work; what `states` says of each is good for what is held.
    lots: members who may change places; times: in how many ways they can, all of which are as likely.
    """

    world: int
    states: dict[Animal, States]
    order: Sequence[tuple[Mating, ...]]
    members: Mapping[int, tuple[Member, ...]]
    through: Mapping[int, int]
    settled: Mapping[int, int]
    most: Mapping[int, int]
    dams: tuple[DamGroup, ...] = ()
    lots: tuple[Lot, ...] = ()
    times: int = 1
    # By season, what its founders breed, as whoever follows it finds out.
    pairs: dict[int, list[tuple[Animal, Founders]]] = field(default_factory=dict)
    not_held: dict[int, tuple[Founders, ...]] = field(default_factory=dict)
    # What the males are that its dams meet where no young of theirs are held, season by season.
    mates: dict[Animal, tuple[MaleState | str | Animal, ...]] = field(default_factory=dict)
    # What is summed up of its dams, by what is looked at.
    summed: dict[Hashable, list[tuple[Sum, Numbers]]] = field(default_factory=dict)
    _ranks: dict[tuple[int, bool], int] = field(default_factory=dict)
    _males: dict[Animal, tuple[Animal | None, ...]] = field(default_factory=dict)

    def bred(self, season: int) -> list[Animal]:
        """The females that are bred in a season and may lay, in laying order."""
        idle = {animal for animal in self.states if self.is_idle(animal)} - self.summed_up
        idle |= {animal for group in self.dams if group.number == 0 for animal in group.animals}
        return [mating.female for mating in self.order[season - 1] if mating.female not in idle]

    @cached_property
    def summed_up(self) -> frozenset[Animal]:
        """The founders of which only how many work is said."""
        return frozenset(animal for group in self.dams for animal in group.animals)

    def is_idle(self, founder: Animal) -> bool:
        """Whether a founder is said not to work."""
        return self.states.get(founder) == ()

    def males(self, female: Animal) -> tuple[Animal | None, ...]:
        """Her male in every season."""
        if female not in self._males:
            own = (next((m.male for m in order if m.female == female), None) for order in self.order)
            self._males[female] = tuple(own)
        return self._males[female]

    def alike(self, herd: Herd, ranks: int, count: int, seasons: slice) -> tuple[int, ...]:
        """For each rank among a herd's fit ones, the first with the same males then; beyond `ranks` all are alike."""
        each = [self.males(Animal(herd.index, min(rank, ranks)))[seasons] for rank in range(count + 1)]
        return tuple(map(each.index, each))

    def fit(self, herd: int, season: int) -> tuple[int, int | None]:
        """How many of a herd are fit, at least and at most, of those held up to a season; None where that is open."""
        if season > self.through.get(herd, 0):
            return 0, None
        most = sum(member.season <= max(season, self.settled[herd]) for member in self.members[herd])
        least = 0 if season < self.settled[herd] else most
        return least, None if most == self.most.get(herd) else most

    def share(self, herd: int, rank: int, season: int, own: States) -> float:
        """The chance that a young held in a season, which may be one of `own`, is what the course says of its rank."""
        if season > self.through.get(herd, 0) or rank >= len(self.members[herd]):
            return 1.0
        kind = self.members[herd][rank].kind
        if isinstance(kind, str):
            return 1.0
        if isinstance(kind, tuple):
            return float(kind == own)
        return 1 - sum(weight for _, weight in own) if kind is None else dict(own).get(kind, 0.0)

    def known(self, males: Sequence[Animal | None], season: int) -> Iterator[tuple[float, Mates]]:
        """What males may be season by season, each one the same in all of them, and the chance that they are.

        What those are that are met after this season only is left out where it is open.
        """
        met = dict.fromkeys(
            male for place, male in enumerate(males) if male and (place < season or self._is_sure(male))
        )
        for states, chance in male_states([self.states[male] for male in met]):
            own = dict(zip(met, states, strict=True))
            yield chance, tuple("not bred" if male is None else own.get(male, "not bred") for male in males)

    def _is_sure(self, male: Animal) -> bool:
        return self.states.get(male) == () or any(weight == 1 for _, weight in self.states.get(male, ()))

    def ranks(self, place: int, herd: Herd, *, alone: bool) -> int:
        """Up to how many fit ones of a held herd are told apart: all later ones have the same males, or none.

        alone: what happens at the eggs of one of them is looked at; then only those that are never bred are alike.
        """
        key = place, alone
        if key not in self._ranks:
            self._ranks[key] = self._told_apart(place, herd, alone=alone)
        return self._ranks[key]

    def _told_apart(self, place: int, herd: Herd, *, alone: bool) -> int:
        mates = [self.males(Animal(herd.index, rank)) for rank in range(herd.count)]
        least = herd.count - 1
        if alone and any(mates[least]):
            return herd.count
        while least and mates[least - 1] == mates[least]:
            least -= 1
        return max(least, len(self.members.get(place, ())))

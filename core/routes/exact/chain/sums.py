"""What dams breed of whom only how many work is said, summed up over who does, and over what their males are.

A male of whom it is left open what he is ties the dams together that meet him. So they are taken one by one, in an
order in which few such males are under way at a time, and each male is averaged out with the last dam that meets him.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple, TypeVar

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex
from core.routes.exact.breeding import Breeding
from core.routes.exact.chain.course import Lot, Part
from core.routes.exact.chain.fates import ALIVE, AT, Fates
from core.routes.exact.clusters import MaleState, Mates, States, male_states

# Numbers that may be kept of sums; more of them are worked out anew.
_MOST_KEPT = 4_000_000


class Dam(NamedTuple):
    """One that works: her genotype, her males by season (an animal where it is open what he is), what is told of it."""

    kind: int
    mates: tuple[MaleState | str | Animal, ...]
    part: Part

    @property
    def met(self) -> tuple[Animal, ...]:
        """Her males that are left open."""
        return tuple(dict.fromkeys(male for male in self.mates if isinstance(male, Animal)))


class Group(NamedTuple):
    """Dams that are told apart by how many of them work, each with this chance; how often there is one of a kind."""

    works: float
    # Whether it is said how many work.
    counted: bool
    dams: tuple[tuple[Dam, int], ...]


class Sum(NamedTuple):
    """Groups of dams that meet males in common of whom it is open what they are, or one group; and those males.

    males: what each may be who is in no lot.
    """

    groups: tuple[Group, ...]
    males: tuple[tuple[Animal, States], ...]
    lots: tuple[Lot, ...]


# How many work in each group; 0 where any number may.
Numbers = tuple[int, ...]
# What males under way are.
_Said = tuple[tuple[Animal, MaleState], ...]
# Of every lot, how many of each of its kinds have not been met yet.
_Left = tuple[tuple[int, ...], ...]
_Ways = dict[tuple[_Said, _Left, Numbers], Complex]


def together(
    groups: Sequence[tuple[Group, int]], states: Mapping[Animal, States], lots: Sequence[Lot]
) -> Iterator[tuple[Sum, Numbers]]:
    """What hangs together of these groups, so many of each working; states: what males may be who are in no lot."""
    lot_of = {animal: lot for lot in lots for animal in lot.animals}
    parts: list[tuple[list[tuple[Group, int]], set[Animal]]] = []
    for own in groups:
        met = {male for dam, _ in own[0].dams for male in dam.met}
        males = met | {other for male in met if male in lot_of for other in lot_of[male].animals}
        members = [own]
        for part in [part for part in parts if part[1] & males]:
            parts.remove(part)
            members, males = [*part[0], *members], males | part[1]
        parts.append((members, males))
    for members, males in parts:
        alone = tuple((male, states[male]) for male in sorted(males - lot_of.keys()))
        own_lots = tuple(lot for lot in lots if males & {*lot.animals})
        yield Sum(tuple(group for group, _ in members), alone, own_lots), tuple(number for _, number in members)


class _Turn(NamedTuple):
    """A dam's turn: her group, her males that are left open, and those of them that no dam after her meets."""

    place: int
    dam: Dam
    met: tuple[Animal, ...]
    leaving: frozenset[Animal]


class Sums:
    """Sums at some points."""

    def __init__(self, breeding: Breeding, fates: Fates) -> None:
        self._breeding, self._fates, self._algebra = breeding, fates, breeding.algebra
        self._nothing = self._algebra.one(breeding.laying.probe.points)
        self._known: dict[Sum, dict[Numbers, Complex]] = {}
        # What one that works breeds through seasons with these males.
        self._through: dict[tuple[int, Mates], Complex] = {}
        self._kept = 0
        # How many products were worked out so far.
        self.products = 0

    def of(self, own: Sum, numbers: Numbers) -> Complex:
        """What these dams breed where so many of each group work."""
        if own not in self._known:
            if self._kept > _MOST_KEPT:
                self._known.clear()
                self._through.clear()
                self._kept = 0
            found = self._known[own] = self._work_out(own)
            self._kept += sum(way.size for way in found.values())
        return self._known[own].get(numbers, 0 * self._nothing)

    def _work_out(self, own: Sum) -> dict[Numbers, Complex]:
        every = tuple(tuple(times for _, times in lot.kinds) for lot in own.lots)
        ways: _Ways = {((), every, (0,) * len(own.groups)): self._nothing}
        for turn in _turns(own):
            ways = self._with_dam(own, ways, turn)
        found: dict[Numbers, Complex] = {}
        for (_, _, numbers), way in ways.items():
            _add(found, numbers, way)
        return found

    def _with_dam(self, own: Sum, ways: _Ways, turn: _Turn) -> _Ways:
        """With one dam more, who works or not."""
        group, grown = own.groups[turn.place], _Ways()
        idle = 0.0 if turn.dam.part.kind == AT else 1 - group.works
        working: dict[tuple[_Said, _Left], list[tuple[_Said, _Left, float, Complex]]] = {}
        for (said, left, numbers), way in ways.items():
            known = tuple(pair for pair in said if pair[0] in turn.met), left
            if known not in working:
                working[known] = self._working(own, turn, *known)
            others = tuple(pair for pair in said if pair[0] not in turn.leaving)
            one_more = _with_one(numbers, turn.place, 1) if group.counted else numbers
            for new, after, chance, bred in working[known]:
                now = *others, *new
                _add(grown, (now, after, one_more), self._algebra.multiply(way, bred))
                self.products += 1
                if idle:
                    _add(grown, (now, after, numbers), idle * chance * way)
        return grown

    def _working(self, own: Sum, turn: _Turn, said: _Said, left: _Left) -> list[tuple[_Said, _Left, float, Complex]]:
        """What she breeds if she works, by what those males are who stay; averaged over the others."""
        known, works = dict(said), own.groups[turn.place].works
        new = [male for male in turn.met if male not in known]
        chances: dict[tuple[_Said, _Left], float] = {}
        bred: dict[tuple[_Said, _Left], Complex] = {}
        for kinds, after, chance in _drawn(own, new, left):
            key = tuple((male, kinds[male]) for male in new if male not in turn.leaving), after
            chances[key] = chances.get(key, 0.0) + chance
            _add(bred, key, works * chance * self._bred(turn.dam, {**known, **kinds}))
        return [(*key, chance, bred[key]) for key, chance in chances.items()]

    def _bred(self, dam: Dam, said: Mapping[Animal, MaleState]) -> Complex:
        mates = tuple(said[male] if isinstance(male, Animal) else male for male in dam.mates)
        if dam.part.kind == ALIVE:
            return self._alive(dam.kind, mates)
        so_far, now = self._alive(dam.kind, mates[:-1]), mates[-1]
        if dam.part.kind == AT:
            if not isinstance(now, int):
                return 0 * so_far
            return self._algebra.multiply(so_far, self._fates.at(dam.kind, now))
        return so_far if isinstance(now, str) else so_far * self._breeding.season(dam.kind, now).allowed

    def _alive(self, kind: int, mates: Mates) -> Complex:
        """Through the seasons with these males; what she does with others after them goes on from here."""
        if not mates:
            return self._nothing
        if isinstance(mates[-1], str):
            return self._alive(kind, mates[:-1])
        if (kind, mates) not in self._through:
            before, season = self._alive(kind, mates[:-1]), self._breeding.season(kind, mates[-1])
            self._through[kind, mates] = self._algebra.multiply(before, season.alive)
            self._kept += self._through[kind, mates].size
        return self._through[kind, mates]


def _drawn(own: Sum, males: Sequence[Animal], left: _Left) -> Iterator[tuple[dict[Animal, MaleState], _Left, float]]:
    """What males may be who are met for the first time, what that leaves of their lots, and the chance of it."""
    if not males:
        yield {}, left, 1.0
        return
    *before, male = males
    place = next((place for place, lot in enumerate(own.lots) if male in lot.animals), None)
    alone = dict(own.males)
    for kinds, after, chance in _drawn(own, before, left):
        if place is None:
            ways = [(alone[male], after, 1.0)]
        else:
            lot, every = own.lots[place], sum(after[place])
            ways = [
                (states, _less(after, place, kind), many / every)
                for kind, ((states, _), many) in enumerate(zip(lot.kinds, after[place], strict=True))
                if many
            ]
        for states, rest, share in ways:
            for (state,), weight in male_states([states]):
                yield {**kinds, male: state}, rest, chance * share * weight


def _less(left: _Left, place: int, kind: int) -> _Left:
    return *left[:place], _with_one(left[place], kind, -1), *left[place + 1 :]


def _with_one(numbers: tuple[int, ...], place: int, more: int) -> tuple[int, ...]:
    return *numbers[:place], numbers[place] + more, *numbers[place + 1 :]


_Key = TypeVar("_Key")


def _add(ways: dict[_Key, Complex], key: _Key, way: Complex) -> None:
    ways[key] = ways[key] + way if key in ways else way


def _turns(own: Sum) -> Iterator[_Turn]:
    """The dams in an order in which few males are under way: next is always the one after whom they are fewest."""
    left = [_Turn(place, dam, dam.met, frozenset()) for place, dam in _each(own)]
    to_come = Counter(male for turn in left for male in turn.met)
    under_way = frozenset[Animal]()

    def after(turn: _Turn) -> frozenset[Animal]:
        return under_way.union(turn.met) - {male for male in turn.met if to_come[male] == 1}

    while left:
        number = min(range(len(left)), key=lambda number: (len(after(left[number])), len(left[number].met)))
        turn = left.pop(number)
        staying = after(turn)
        yield turn._replace(leaving=frozenset(turn.met) - staying)
        under_way = staying
        to_come.subtract(turn.met)


def _each(own: Sum) -> Iterator[tuple[int, Dam]]:
    for place, group in enumerate(own.groups):
        for dam, times in group.dams:
            for _ in range(times):
                yield place, dam

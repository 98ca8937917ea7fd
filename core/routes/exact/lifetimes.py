"""What founders breed over all their seasons, and which of their young are held."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from typing import NamedTuple

import numpy as np

from core.routes.calendar import Animal
from core.routes.exact.algebra import Complex
from core.routes.exact.breeding import Breeding
from core.routes.exact.brood import Classes, HeldHerds, HoldClass, level_of
from core.routes.exact.eggs import CHANCES, Probe, Step, egg_weights
from core.routes.exact.ending import AtEgg, ending
from core.routes.exact.filling import Founders
from core.routes.exact.places import Layout, Lot, Places
from core.routes.problem import Herd, Problem

# The point at which every weight is 1.
_CHANCE = slice(0, 1)
# The matings of one season that founders have among themselves, in laying order.
FounderPairs = tuple[tuple[Animal, Founders], ...]


class Bred(NamedTuple):
    """A founder put to a male (None: idle) in one season; her young of a (herd, preference) are of a (herd, lot)."""

    male: int | None
    lots: tuple[tuple[tuple[int, int], tuple[int, int]], ...]


class Dam(NamedTuple):
    """A founder: her genotype's number, the chance that she works, and her seasons, None where she is not bred."""

    female: int
    works: float
    seasons: tuple[Bred | None, ...]

    def without_lots(self) -> Dam:
        """The same founder, none of whose young are held."""
        return self._replace(seasons=tuple(bred and bred._replace(lots=()) for bred in self.seasons))


def layout_and_dams(
    held: HeldHerds, classes: Classes, pairs: Sequence[FounderPairs], last: int
) -> tuple[Layout, dict[Animal, Dam]]:
    """The lots of young that can be held by the end of the season `last`, and the founders that lay them.

    pairs: the founders' matings, season by season.
    """
    free = held.vacancies(held.nobody, 1)
    lots: list[list[Lot]] = [[] for _ in held.herds]
    lives: dict[Animal, list[Bred | None]] = {}
    known: dict[Animal, tuple[int, float]] = {}
    for season, mated in enumerate(pairs, start=1):
        holding = season <= last
        of_pair = _lots(held, classes, season, mated, lots) if holding else {}
        for female, pair in mated:
            known[female] = pair.female, pair.works
            bred = Bred(pair.male, of_pair.get(female, ()))
            lives.setdefault(female, [None] * len(pairs))[season - 1] = bred
    dams = {female: Dam(*known[female], tuple(life)) for female, life in lives.items()}
    return Layout(tuple(free), tuple(map(tuple, lots))), dams


def _lots(
    held: HeldHerds, classes: Classes, season: int, mated: FounderPairs, lots: list[list[Lot]]
) -> dict[Animal, tuple[tuple[tuple[int, int], tuple[int, int]], ...]]:
    """Add a season's lots to those of each herd: by preference, then by the order of laying."""
    fertile = [(female, pair) for female, pair in mated if pair.male is not None]
    runs = [list(run) for _, run in groupby(fertile, key=_pair)]
    found: dict[Animal, list[tuple[tuple[int, int], tuple[int, int]]]] = {}
    for place, (herd, free) in enumerate(zip(held.herds, held.vacancies(held.nobody, season), strict=True)):
        for level in range(len(herd.picks) if free > 0 else 0):
            for run in runs:
                pair = run[0][1]
                kind = HoldClass(herd.index, level, pair.male or 0, pair.female)
                if pair.pairing not in herd.sources or classes.kept(kind).chance <= 0:
                    continue
                for female, _ in run:
                    found.setdefault(female, []).append(((place, level), (place, len(lots[place]))))
                lots[place].append(Lot(season, kind))
    return {female: tuple(own) for female, own in found.items()}


def _pair(mated: tuple[Animal, Founders]) -> Founders:
    return mated[1]


@dataclass(frozen=True, eq=False)
class Lives:
    """What founders breed: `alive` and `open` by season, as `clusters.Seasons`, and all they have bred in the end.

    An entry for a season only tells the lots of seasons before it: [counts of `Lifetimes.told`, goal, points].
    """

    alive: Sequence[Complex]
    open: Sequence[Complex]
    end: Complex


class _Life(NamedTuple):
    """One founder as far as she works: by the end of each season, and what anything in a season weighs."""

    through: list[Complex]
    allowed: list[Complex | float]


class Lifetimes:
    """Founders' lives for one layout and one way of looking at the goal, at one set of points; keeps what repeats."""

    def __init__(
        self, problem: Problem, held: HeldHerds, breeding: Breeding, rows: Sequence[int], layout: Layout, told: int
    ) -> None:
        """`told`: at so many of the first points seasons are told; what was bred in the end is told at all."""
        self.breeding, self.places = breeding, Places(breeding.algebra, layout, breeding.room)
        self._biology, self._herds, self._rows = problem.biology, held.herds, tuple(rows)
        self._kept: dict[Hashable, Complex] = {}
        self._dams: dict[tuple[Dam, int], Lives] = {}
        self._lives: dict[Dam, _Life] = {}
        probe = breeding.laying.probe
        self._one, self._told = self.places.one(probe.points), slice(0, told)

    def together(self, dams: Sequence[Dam]) -> Lives:
        """All founders."""
        total: Lives | None = None
        for dam, times in Counter(dams).items():
            own = self._alike(dam, times)
            total = own if total is None else self._both(total, own)
        return Lives([self._one], [self._one], self._one) if total is None else total

    def told(self, season: int) -> Places:
        """The algebra of the lots of seasons before one."""
        return self.places.first(self.places.before(season))

    def alive(self, dam: Dam, points: slice) -> Complex:
        """One founder, no row filled, at some points: [seasons + 1, counts, goal, points]."""
        found = np.array([own[..., points] for own in self._life(dam).through])
        self.places.add_none(found, 1 - dam.works)
        return found

    def _life(self, dam: Dam) -> _Life:
        if dam not in self._lives:
            self._lives[dam] = found = self._lived(dam)
            self.breeding.room.keep(sum(own.size for own in found.through))
        return self._lives[dam]

    def _alike(self, dam: Dam, times: int) -> Lives:
        """So many founders with the same lives."""
        if (dam, times) not in self._dams:
            own = self._alone(dam) if times == 1 else self._both(self._alike(dam, times - 1), self._alike(dam, 1))
            self._dams[dam, times] = own
            self.breeding.room.keep(sum(each.size for each in (*own.alive, *own.open, own.end)))
        return self._dams[dam, times]

    def _alone(self, dam: Dam) -> Lives:
        life, told = self._life(dam), self._told
        alive, unfilled = [self._one[..., told]], [self._one[..., told]]
        for season, allowed in enumerate(life.allowed, start=1):
            few, places = self.places.rows(self.places.before(season)), self.told(season)
            for found, own in (
                (alive, life.through[season][..., told][few]),
                (unfilled, life.through[season - 1][..., told][few] * allowed),
            ):
                places.add_none(own, 1 - dam.works)
                found.append(own)
        end = life.through[-1].copy()
        self.places.add_none(end, 1 - dam.works)
        return Lives(alive, unfilled, end)

    def _both(self, a: Lives, b: Lives) -> Lives:
        alive, unfilled = [a.alive[0]], [a.open[0]]
        for season in range(1, len(a.alive)):
            told = self.told(season)
            alive.append(told.multiply(a.alive[season], b.alive[season]))
            unfilled.append(told.multiply(a.open[season], b.open[season]))
        return Lives(alive, unfilled, self.places.multiply(a.end, b.end))

    def taking(self, dams: Sequence[Dam]) -> Complex:
        """As chances, all founders, no row filled before each season, anything in it: [seasons, counts, goal, 1]."""
        total: Complex | None = None
        for dam in dams:
            own = self._kept_under(("taking", dam), partial(self._taking, dam))
            total = own if total is None else self.places.multiply(total, own)
        return np.zeros((0, *self._one[..., _CHANCE].shape), dtype=complex) if total is None else total

    def at_eggs(self, dam: Dam, at_egg: AtEgg, points: slice) -> Complex:
        """What happens at a founder's eggs of each season, at some points: [seasons + 1, counts, goal, points]."""
        return self._kept_under((dam, at_egg, points.start), lambda: self._at_eggs(dam, at_egg, points))

    def _kept_under(self, key: Hashable, work_out: Callable[[], Complex]) -> Complex:
        if key not in self._kept:
            self._kept[key] = work_out()
            self.breeding.room.keep(self._kept[key].size)
        return self._kept[key]

    def _at_eggs(self, dam: Dam, at_egg: AtEgg, points: slice) -> Complex:
        through = self._life(dam).through
        at = np.zeros((len(through), *through[0][..., points].shape), dtype=complex)
        for season, bred in enumerate(dam.seasons, start=1):
            if bred is not None and bred.male is not None:
                own = ending(self.breeding, dam.female, bred.male, at_egg, points)
                at[season] = self.breeding.algebra.multiply(through[season - 1][..., points], own)
        return at

    def _taking(self, dam: Dam) -> Complex:
        one, life = self._one[..., _CHANCE], self._life(dam)
        idle, taking = (1 - dam.works) * one, []
        for season, bred in enumerate(dam.seasons):
            before = life.through[season][..., _CHANCE]
            if bred is not None:
                before = self.places.multiply(before, self._season(dam.female, bred, (), CHANCES))
            taking.append(before + idle)
        return np.stack(taking)

    def _lived(self, dam: Dam) -> _Life:
        through, allowed = [dam.works * self._one], list[Complex | float]()
        begun = False
        for bred in dam.seasons:
            if bred is None:
                allowed.append(1.0)
                through.append(through[-1])
                continue
            allowed.append(self.breeding.allowed(dam.female, bred.male, self._told))
            probe = self.breeding.laying.probe
            own = self._kept_under((dam.female, bred), partial(self._season, dam.female, bred, self._rows, probe))
            through.append(self.places.multiply(through[-1], own) if begun else dam.works * own)
            begun = True
        return _Life(through, allowed)

    def _season(self, female: int, bred: Bred, rows: Sequence[int], probe: Probe) -> Complex:
        """A working founder's season, these goal rows looked at, at the first points: [counts, goal, points]."""
        points = slice(0, probe.points)
        if bred.male is None:
            return self._one[..., points] * self.breeding.allowed(female, None, points)
        places = {place: len(rows) + i for i, (place, _) in enumerate(bred.lots)}
        pair, biology = self.breeding.pairs[bred.male, female], self._biology
        eggs = egg_weights(pair, _step_of(rows, self._herds, places), len(rows) + len(places), probe)
        lots = {lot: places[place] for place, lot in bred.lots}
        clutch = self.places.clutch(biology.sizes, eggs, lots)
        clutch *= 1 - biology.lost
        self.places.add_none(clutch, biology.lost * self.breeding.laying.lost[points])
        season = self.places.power(clutch, biology.clutches)
        season *= biology.lays
        self.places.add_none(season, 1 - biology.lays)
        return season


def _step_of(rows: Sequence[int], herds: Sequence[Herd], places: Mapping[tuple[int, int], int]) -> Step:
    """Steps of an egg: the goal's rows, then each (herd, preference) that is held from this mating."""

    def step_of(mask: int) -> int | None:
        for step, row in enumerate(rows):
            if mask >> row & 1:
                return step
        for place, herd in enumerate(herds):
            found = level_of(herd, mask)
            if found is not None and (place, found) in places:
                return places[place, found]
        return None

    return step_of

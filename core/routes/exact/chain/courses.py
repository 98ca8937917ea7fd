"""Courses: how the founders are, and of held animals that change who else breeds with whom, who there is from when."""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Iterator, Mapping, Sequence
from itertools import combinations_with_replacement, product

from core.routes.calendar import Animal, Mating
from core.routes.exact.brood import last_hold
from core.routes.exact.chain.choices import Choice, Levels, choices, count_choices
from core.routes.exact.chain.course import ANY, Course, Kind, Lot, Member
from core.routes.exact.chain.dams import Dams
from core.routes.exact.chain.herds import first_hold, most_asked, seasons_asked
from core.routes.exact.chain.orders import Orders
from core.routes.exact.chain.sorts import Nest
from core.routes.exact.clusters import MaleState, States
from core.routes.exact.filling import Founders
from core.routes.exact.founding import FounderWorld
from core.routes.problem import Herd, Problem

# So many go together.
_AT_ONCE = 16
# Ways in which members may come that are listed to count what they may be.
_MOST_LISTED = 2_000


class Courses:
    """The courses of one route; left_open: herds of whose males it is not said what they are, but for their chances."""

    def __init__(
        self,
        problem: Problem,
        worlds: Sequence[FounderWorld],
        nest: Nest,
        dams: Dams,
        left_open: Collection[int] = (),
    ) -> None:
        self._problem, self._worlds, self._dams, self._left_open = problem, worlds, dams, left_open
        self._herds = tuple(herd for herd in problem.herds if herd.held)
        # Places among the held herds of those that change who else breeds with whom.
        asked = {place: seasons_asked(problem, herd) for place, herd in enumerate(self._herds)}
        self._asked = {place: own for place, own in asked.items() if own}
        self.leaders = list(self._asked)
        self._hopeful = [any(self._may_hold(world, herd) for herd in self._herds) for world in worlds]
        each = {place: self._may_be(place, nest) for place in self.leaders}
        self._most = {place: most_asked(problem, self._herds[place]) for place in self.leaders}
        self._kinds = {place: kinds for place, (kinds, _) in each.items()}
        self._open = {place: ways for place, (_, ways) in each.items()}
        self._by_level = {place: self._levels_of(place, nest) for place in self.leaders}
        self._orders = Orders(problem, {self._herds[place].index: own for place, own in self._asked.items()})
        self._known: dict[tuple[int, bool], list[list[Course]]] = {}

    @property
    def differ(self) -> bool:
        """Whether any held animals change who else breeds with whom, so that every season has courses of its own."""
        return bool(self.leaders)

    def up_to(self, season: int, *, held: bool = False) -> list[list[Course]]:
        """The courses that differ in what is bred up to a season; those together where the same animals breed.

        held: what is held in that season is asked for, too.
        """
        if not self.differ:
            season = 0
        key = season, held and bool(self._dams.kinds)
        if key not in self._known:
            self._known[key] = list(self._list(*key))
        return self._known[key]

    def forget(self) -> None:
        """Lets go of those that were listed, and of what whoever followed them found out."""
        self._known.clear()

    def may_count_and_be_held(self, nest: Nest) -> bool:
        """Whether young of any founders may count for the goal and be held as well."""
        return any(nest.eggs(pair).counted_and_held for herd in self._herds for pair in self._pairs(herd))

    def chance(self, world: int) -> float:
        """The chance of one way in which the founders can be."""
        return self._worlds[world].chance

    def alike(self, courses: Sequence[Course], season: int) -> Hashable:
        """What tells courses that go together from others that breed differently up to a season, chances aside.

        Of founders only those that work, in laying order: how many there are besides makes no difference.
        """
        one = courses[0]
        bred = tuple(
            tuple(self._met(one, mating) for mating in order if self._may_lay(one, mating.female))
            for order in one.order[:season]
        )
        return season, bred, tuple(tuple(course.members.items()) for course in courses), one.dams

    def _may_lay(self, course: Course, female: Animal) -> bool:
        return female in course.summed_up or not course.is_idle(female)

    def _met(self, course: Course, mating: Mating) -> Hashable:
        held = self._problem.herds[mating.male.herd].held
        male = mating.male if held else course.states[mating.male]
        told = mating.female in course.states and mating.female not in course.summed_up
        return mating.pairing, male, course.states[mating.female] if told else mating.female

    def count(self, season: int) -> int:
        """How many there are, without listing them."""
        hopeful = sum(self._hopeful)
        times = math.prod(self._times(place, season) for place in self._kinds)
        if not any(self._open.values()) and not self._dams.kinds:
            # What females are nobody asks.
            return hopeful * times + len(self._hopeful) - hopeful
        if times > _MOST_LISTED:
            return hopeful * times
        return sum(
            math.prod(
                count_choices(when, kinds, self._levels(place, season))
                for place, when, kinds in zip(self._kinds, whens, self._kinds_of(whens, season), strict=True)
            )
            * self._ways_of_founders(whens, season)
            for whens in product(*(self._whens(place, season) for place in self._kinds))
        )

    def over_all_seasons(self, most: int) -> int:
        """How many there are of all seasons together, or at least if they are more than so many."""
        many = 0
        # Most of them differ in the last seasons only.
        for season in range(self._problem.breeding_seasons, 0, -1):
            many += self.count(season)
            if many > most:
                break
        return many

    def _ways_of_founders(self, whens: Sequence[tuple[int, ...]], season: int) -> int:
        worlds = [own for own, hopeful in zip(self._worlds, self._hopeful, strict=True) if hopeful or not any(whens)]
        if not self._dams.kinds:
            return len(worlds)
        order = self._order(whens)
        return sum(self._dams.count(own.states, order, season - 1) for own in worlds)

    def _times(self, place: int, season: int) -> int:
        """In how many ways a herd's members may come, as `_whens` lists them."""
        seasons, most = self._seasons(place, season)
        found: int = sum(math.comb(len(seasons) + n - 1, n) for n in range(1, most + 1))
        return 1 + found

    def _list(self, season: int, held: bool) -> Iterator[list[Course]]:
        through = {place: self._last(place, season) for place in self._kinds if season >= self._asked[place].start}
        settled = {place: self._settled(place, season) for place in through}
        most = {place: self._most[place] for place in through if self._most[place] < self._herds[place].count}
        for whens in product(*(list(self._whens(place, season)) for place in self._kinds)):
            order = self._order(whens)
            each = [
                choices(self._herds[place].index, when, kinds, self._levels(place, season))
                for place, when, kinds in zip(self._kinds, whens, self._kinds_of(whens, season), strict=True)
            ]
            for place, world in enumerate(self._worlds):
                if any(whens) and not self._hopeful[place]:
                    # Nothing is ever held.
                    continue
                for dams in self._dams.ways(world.states, order, season if held else season - 1, at_eggs=held):
                    states = {**world.states, **{animal: own for group in dams for animal, own in group.states.items()}}
                    found = [
                        Course(
                            place, {**states, **self._males(own)}, order, own, through, settled, most, dams, lots, times
                        )
                        for own, lots, times in map(self._members, product(*each))
                    ]
                    for first in range(0, len(found), _AT_ONCE):
                        yield found[first : first + _AT_ONCE]

    def _members(self, choice: Sequence[Choice]) -> tuple[dict[int, tuple[Member, ...]], tuple[Lot, ...], int]:
        """The members of every herd, their lots, and in how many ways they may change places."""
        members = {place: own.members for place, own in zip(self._kinds, choice, strict=True)}
        return members, tuple(lot for own in choice for lot in own.lots), math.prod(own.times for own in choice)

    def _order(self, whens: Sequence[tuple[int, ...]]) -> list[tuple[Mating, ...]]:
        return self._orders.of({self._herds[place].index: when for place, when in zip(self._kinds, whens, strict=True)})

    def _kinds_of(self, whens: Sequence[tuple[int, ...]], season: int) -> list[list[Sequence[Kind]]]:
        """What every member of every herd may be, as far as it matters up to a season."""
        females: dict[Animal, set[Animal]] = {}
        for order in self._order(whens)[:season]:
            for mating in order:
                females.setdefault(mating.male, set()).add(mating.female)
        found = []
        for place, when in zip(self._kinds, whens, strict=True):
            members = (Animal(self._herds[place].index, rank) for rank in range(len(when)))
            found.append([self._kinds_for(place, females.get(member, set())) for member in members])
        return found

    def _kinds_for(self, place: int, females: set[Animal]) -> Sequence[Kind]:
        """What a member may be that is put to these females."""
        if self._herds[place].sex == "female":
            return self._kinds[place]
        if not females:
            return [ANY]
        if self._herds[place].index in self._left_open:
            return self._open[place]
        alone = len(females) == 1 and all(self._problem.herds[female.herd].held for female in females)
        return min(self._kinds[place], self._open[place], key=len) if alone else self._kinds[place]

    def _males(self, members: Mapping[int, tuple[Member, ...]]) -> dict[Animal, States]:
        return {
            Animal(self._herds[place].index, rank): _states(member.kind)
            for place, own in members.items()
            for rank, member in enumerate(own)
            if not isinstance(member.kind, str)
        }

    def _whens(self, place: int, season: int) -> Iterator[tuple[int, ...]]:
        """The seasons in which a herd may come to its fit members, as far as they breed by a season."""
        seasons, most = self._seasons(place, season)
        for number in range(most + 1):
            yield from combinations_with_replacement(seasons, number)

    def _seasons(self, place: int, season: int) -> tuple[range, int]:
        """The seasons in which members may come, and the most of them; the first stands for all before it, too."""
        herd = self._herds[place]
        if season < self._asked[place].start or not self._kinds[place]:
            return range(0), 0
        return range(
            max(first_hold(self._problem, herd), self._settled(place, season)), self._last(place, season) + 1
        ), self._most[place]

    def _last(self, place: int, season: int) -> int:
        herd = self._herds[place]
        asked = min(season, self._asked[place].stop - 1)
        return min(asked - self._problem.biology.matures[herd.sex], last_hold(self._problem, herd))

    def _settled(self, place: int, season: int) -> int:
        """In which season it makes no difference any more when members came before it."""
        matures = self._problem.biology.matures[self._herds[place].sex]
        return min(self._asked[place].start - matures, self._last(place, season))

    def _may_be(self, place: int, nest: Nest) -> tuple[list[Kind], list[Kind]]:
        """What young held for a herd may be, and the ways in which it may be open what they are."""
        herd = self._herds[place]
        every = [sort for pair in self._pairs(herd) for sort in nest.eggs(pair).sorts]
        ways = list(dict.fromkeys(sort.states[place] for sort in every if sort.levels[place] is not None))
        if herd.sex == "female":
            return [ANY] if ways else [], []
        found = dict.fromkeys(kind for own in ways for kind, _ in own)
        idle = [None] if ways and self._problem.biology.works["male"] < 1 else []
        return [*found, *idle], [*ways]

    def _levels_of(self, place: int, nest: Nest) -> tuple[tuple[States, ...], ...] | None:
        """What young may be by their place in a herd's preferences, where they come in any order."""
        herd, pairs = self._herds[place], list(self._pairs(self._herds[place]))
        if herd.index not in self._left_open or len(pairs) > 1 or sum(own.sex == "male" for own in self._herds) > 1:
            return None
        found: dict[States, set[int]] = {}
        for sort in (sort for pair in pairs for sort in nest.eggs(pair).sorts):
            level = sort.levels[place]
            if level is not None:
                found.setdefault(sort.states[place], set()).add(level)
        if any(len(levels) > 1 for levels in found.values()):
            return None
        every = sorted({level for levels in found.values() for level in levels})
        return tuple(tuple(own for own, levels in found.items() if level in levels) for level in every)

    def _levels(self, place: int, season: int) -> Levels | None:
        """The same with what comes up to a season."""
        kinds, seasons = self._by_level[place], self._seasons(place, season)[0]
        if kinds is None:
            return None
        merged = seasons and seasons.start > first_hold(self._problem, self._herds[place])
        return Levels(kinds, seasons.start if merged else None)

    def _may_hold(self, world: FounderWorld, herd: Herd) -> bool:
        """Whether any pair that works may give young to hold."""
        working = {*self._dams.kinds, *(animal.herd for animal, own in world.states.items() if own)}
        pairings = [self._problem.pairings[source] for source in herd.sources]
        return any(working & {*own.males} and working & {*own.females} for own in pairings)

    def _pairs(self, herd: Herd) -> Iterator[Founders]:
        """Every pair of founders whose young may be held for a herd."""
        for source in herd.sources:
            pairing = self._problem.pairings[source]
            males, females = (self._carried({*groups}) for groups in (pairing.males, pairing.females))
            for male, female in product(males, females):
                yield Founders(source, male, female, 1.0)

    def _carried(self, groups: set[int]) -> list[int]:
        own = (states for world in self._worlds for animal, states in world.states.items() if animal.herd in groups)
        aside = (number for herd, number in self._dams.kinds.items() if herd in groups)
        return list(dict.fromkeys([*(number for states in own for number, _ in states), *aside]))


def _states(kind: MaleState | States) -> States:
    if isinstance(kind, tuple):
        return kind
    return () if kind is None else ((kind, 1.0),)

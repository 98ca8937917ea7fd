"""What founders breed, of young that are held and of young that are not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from itertools import groupby

from core.routes.calendar import Animal, Mating
from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.breeding import Breeding
from core.routes.exact.chain.course import Course, Part
from core.routes.exact.chain.dams import DamGroup, may_be_held
from core.routes.exact.chain.fates import ALIVE, ANYTHING, Fates, Variant, laid_before, part_of
from core.routes.exact.chain.sums import Dam, Group, Sums, together
from core.routes.exact.clusters import MaleState
from core.routes.exact.eggs import Probe
from core.routes.exact.filling import Founders
from core.routes.problem import Herd, Problem


class Bred:
    """What the founders of a course breed, at some points."""

    def __init__(
        self,
        problem: Problem,
        held: Sequence[Herd],
        breeding: Breeding,
        fates: Fates,
        algebra: CountAlgebra,
        probe: Probe,
    ) -> None:
        self._problem, self._held, self._breeding, self._fates = problem, held, breeding, fates
        self._algebra = algebra
        self.nothing = algebra.one(probe.points)
        self._free: dict[tuple[Founders, ...], Complex] = {(): self.nothing}
        self.sums = Sums(breeding, fates)

    def pairs(self, course: Course, season: int) -> list[tuple[Animal, Founders]]:
        """The founders that are bred in a season and work, as far as that is said, by female in laying order."""
        if season not in course.pairs:
            course.pairs[season] = list(self._pairs(course, season))
        return course.pairs[season]

    def _pairs(self, course: Course, season: int) -> Iterator[tuple[Animal, Founders]]:
        for mating in course.order[season - 1]:
            if self.is_founder(mating) and course.states[mating.female]:
                male, female = course.states[mating.male], course.states[mating.female]
                yield mating.female, Founders(mating.pairing, male[0][0] if male else None, *female[0])

    def is_founder(self, mating: Mating) -> bool:
        """Whether it is no held female that is bred."""
        return not self._problem.herds[mating.female.herd].held

    def is_source(self, pair: Founders, season: int) -> bool:
        """Whether young of a pair may be held in a season."""
        return pair.male is not None and may_be_held(self._problem, self._held, pair.pairing, season)

    def sources(self, course: Course, season: int) -> list[tuple[Founders, int]]:
        """The pairs whose young may be held, neighbours that are alike together, with how many they are."""
        pairs = (pair for _, pair in self.pairs(course, season))
        feeding = (pair for pair in pairs if self.is_source(pair, season))
        return [(pair, len(list(same))) for pair, same in groupby(feeding)]

    def alive(self, course: Course, season: int) -> Complex:
        """Founders whose young are not held, through a season; those that are summed up left out."""
        if season not in course.not_held:
            course.not_held[season] = tuple(pair for _, pair in self._not_held(course, season))
        pairs = course.not_held[season]
        if pairs not in self._free:
            self._free[pairs] = self._all(pairs)
        return self._free[pairs]

    def _not_held(self, course: Course, season: int) -> Iterator[tuple[Animal, Founders]]:
        for female, pair in self.pairs(course, season):
            if female not in course.summed_up and not self.is_source(pair, season):
                yield female, pair

    def last(self, course: Course, variant: Variant) -> Complex:
        """What founders do in the season looked at; and of those that are summed up all they do through it."""
        if variant.animal is not None and variant.animal not in course.summed_up and course.is_idle(variant.animal):
            return 0 * self.nothing
        total, laid = self.nothing, laid_before(course, variant)
        for female, pair in self.pairs(course, variant.season):
            if female in course.summed_up:
                continue
            if variant.kind == ANYTHING:
                allowed = self._breeding.season(pair.female, pair.male).allowed
                total = total * (pair.works * allowed + (1 - pair.works))
            elif female == variant.animal:
                at = 0 * total if pair.male is None else self._fates.at(pair.female, pair.male)
                total = self._algebra.multiply(total, pair.works * at)
            elif female in laid:
                total = self._algebra.multiply(total, self._one(pair))
        return self._with_groups(total, course, variant, lambda animal: part_of(variant, animal, laid))

    def before(self, course: Course, season: int) -> Complex:
        """What those that are summed up did before a season."""
        part = Part(ALIVE, season - 1)
        return self._with_groups(self.nothing, course, part, lambda _: part)

    def others(self, course: Course, variant: Variant) -> Complex:
        """What founders bred that laid before one's eggs, and whose young are not held.

        And of those that are summed up all they did before.
        """
        laid, season = laid_before(course, variant), variant.season
        total = self._all(pair for female, pair in self._not_held(course, season) if female in laid)

        def part(animal: Animal) -> Part:
            return Part(ALIVE, season if animal in laid else season - 1)

        return self._with_groups(total, course, ("before", variant), part)

    def most_matings(self, course: Course, last: int) -> int:
        """The most times that founders are bred through a season."""
        bred = Counter(m.female for order in course.order[:last] for m in order if self.is_founder(m))
        known = sum(times for female, times in bred.items() if course.states[female] and female not in course.summed_up)
        for group in course.dams:
            each = sorted((bred[animal] for animal in group.animals), reverse=True)
            known += sum(each[: group.number])
        return known

    def _all(self, pairs: Iterable[Founders]) -> Complex:
        total = self.nothing
        for pair in pairs:
            total = self._algebra.multiply(total, self._one(pair))
        return total

    def _one(self, pair: Founders) -> Complex:
        season = self._breeding.season(pair.female, pair.male).alive
        return pair.works * season + (1 - pair.works) * self.nothing

    # Dams that are summed up.

    def _with_groups(self, total: Complex, course: Course, what: Hashable, part: Callable[[Animal], Part]) -> Complex:
        """With all that dams do of which only how many work is said; `what`: names what part of each is taken in."""
        if what not in course.summed:
            groups = [(self._group(course, group, part), group.number or 0) for group in course.dams]
            course.summed[what] = list(together(groups, course.states, course.lots))
        for own, numbers in course.summed[what]:
            total = self._algebra.multiply(total, self.sums.of(own, numbers))
        return total if course.times == 1 else course.times * total

    def _group(self, course: Course, group: DamGroup, part: Callable[[Animal], Part]) -> Group:
        each = Counter(self._dam(course, group, animal, part(animal)) for animal in group.animals)
        return Group(group.works, group.number is not None, tuple(each.items()))

    def _dam(self, course: Course, group: DamGroup, animal: Animal, part: Part) -> Dam:
        if animal not in course.mates:
            course.mates[animal] = tuple(self._mates(course, group, animal))
        return Dam(group.kind, course.mates[animal][: part.season], part)

    def _mates(self, course: Course, group: DamGroup, animal: Animal) -> Iterator[MaleState | str | Animal]:
        for season, male in enumerate(course.males(animal), start=1):
            # What comes after the season looked at is not told.
            if male is None or season in group.fed or male not in course.states:
                yield "not bred"
            elif course.states[male]:
                (state, chance), *others = course.states[male]
                in_a_lot = any(male in lot.animals for lot in course.lots)
                yield male if in_a_lot or others or chance < 1 else state
            else:
                yield None

"""What the animals of a group that may or may not carry what is needed can give."""

from __future__ import annotations

import math
from functools import cached_property

from core.explain.averaged import Carried, members
from core.explain.crosses import per_egg
from core.explain.filled import carried_by, season_matings
from core.explain.numbers import listed
from core.plan.genotypes import NORMAL
from core.routes.calendar import Animal, Mating
from core.routes.problem import Genotype, Herd, Problem
from core.text import tr

_SAME = 1e-9


class Doubtful:
    """What the animals of one herd can give with the best of their mates up to a season."""

    def __init__(self, problem: Problem, herd: Herd, season: int) -> None:
        self.problem, self.herd = problem, herd
        self.condition = problem.conditions[0]
        self._mates: dict[Animal, Carried] = {}
        self._known: dict[Genotype, float] = {}
        # Whether nothing else gives the wanted.
        self.is_only_way = True
        for now in range(1, min(season, problem.breeding_seasons) + 1):
            for mating in season_matings(problem, now):
                mate, own = (mating.female, mating.male) if herd.sex == "male" else (mating.male, mating.female)
                if own.herd == herd.index:
                    self._mates[mate] = carried_by(problem, mate)
                elif self.is_only_way and herd.index not in (mating.male.herd, mating.female.herd):
                    self.is_only_way = not self._can_give(mating)

    @cached_property
    def each(self) -> list[dict[float, float]]:
        """For each animal the chances an egg that it may give, with their odds; one entry where all are alike."""
        found = []
        for carried in members(self.problem, self.herd):
            total: dict[float, float] = {}
            for genotype, share in carried.items():
                best = self._best(genotype)
                total[best] = total.get(best, 0.0) + share
            found.append(total)
        return found

    @cached_property
    def shares(self) -> frozenset[float]:
        """All chances an egg that any of them may give."""
        return frozenset(chance for total in self.each for chance in total)

    @property
    def is_split(self) -> bool:
        """Whether an animal of it may be one that gives the wanted, and may be one that does not."""
        # What too many named animals carry together is never listed, so there is no spread to tell.
        listed = not (self.herd.named and self.problem.crowded)
        split = bool(self._mates) and any(_SAME < share < 1 - _SAME for share in self.odds)
        return listed and split and not self._share_doubt()

    @property
    def is_stuck(self) -> bool:
        """Whether an animal that does not carry what is needed can never give the wanted."""
        return 0 in self.shares

    @cached_property
    def odds(self) -> list[float]:
        """For each animal the chance that it carries what is needed."""
        return [sum(share for chance, share in one.items() if self._is_carrier(chance)) for one in self.each]

    @property
    def carrier(self) -> float:
        """The same on average."""
        return sum(self.odds) / len(self.odds)

    @property
    def is_even(self) -> bool:
        """Whether that is as likely of each."""
        return max(self.odds) - min(self.odds) <= _SAME

    def spread(self) -> list[float]:
        """The chance of 0, 1, 2 … carriers; named animals as they are believed to be together."""
        herd, n, c = self.herd, self.herd.count, self.carrier
        if not herd.named:
            return [math.comb(n, k) * c**k * (1 - c) ** (n - k) for k in range(n + 1)]
        spread = [0.0] * (n + 1)
        for genotypes, chance in self.problem.together:
            spread[sum(self._is_carrier(self._best(genotypes[place])) for place in herd.named)] += chance
        return spread

    def needed(self) -> str:
        """What the carriers have and the others lack, by the forms that are wanted."""
        open_ = {place for carried in members(self.problem, self.herd) for place in self._differing(carried)}
        genes = [
            gene
            for place, unit in enumerate(self.problem.judge.genetics.units)
            if place in open_
            for gene in unit.genes
            if self.condition.forms.get(gene, NORMAL) != NORMAL
        ]
        return listed([self.condition.forms[gene] for gene in genes]) or tr("what is needed")

    def _differing(self, carried: Carried) -> list[int]:
        """The units in which an animal that carries what is needed is not like the same one without."""
        sides = [[one for one in carried if self._is_carrier(self._best(one)) == side] for side in (False, True)]
        if not all(sides):
            return []
        lacking, having = ([set(own) for own in zip(*side, strict=True)] for side in sides)
        return [place for place, own in enumerate(lacking) if own != having[place]]

    def _can_give(self, mating: Mating) -> bool:
        sires, dams = carried_by(self.problem, mating.male), carried_by(self.problem, mating.female)
        return any(per_egg(self.problem, sire, dam, self.condition) > 0 for sire in sires for dam in dams)

    def _is_carrier(self, chance: float) -> bool:
        """Whether so much an egg counts as carrying: anything beside nothing, else only the best."""
        return chance > 0 if self.is_stuck else chance == max(self.shares)

    def _share_doubt(self) -> bool:
        """Whether it is of siblings whose parents may be one thing or another: those are not coins thrown apart."""
        if self.herd.count < 2 or not self.herd.sources:
            return False
        born = [
            pair for pair in season_matings(self.problem, self.herd.arrives - 1) if pair.pairing in self.herd.sources
        ]
        parents = {animal for pair in born for animal in (pair.male, pair.female)}
        return any(len(carried_by(self.problem, animal)) > 1 for animal in parents)

    def _best(self, genotype: Genotype) -> float:
        if genotype not in self._known:
            male = self.herd.sex == "male"
            others = {other for carried in self._mates.values() for other in carried}
            pairs = ((genotype, other) if male else (other, genotype) for other in others)
            chances = (per_egg(self.problem, *pair, self.condition) for pair in pairs)
            self._known[genotype] = round(max(chances, default=0.0), 12)
        return self._known[genotype]

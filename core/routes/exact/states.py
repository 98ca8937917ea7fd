"""The true states of a route's animals: genotypes that give the same young with every mate share a number."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product

from core.routes.calendar import Animal
from core.routes.exact.clusters import States
from core.routes.exact.eggs import Pair, pair_model
from core.routes.problem import Genotype, Herd, Problem


class Pairs(dict[tuple[int, int], Pair]):
    """Pair models by the numbers of male and female genotype, worked out when first asked for."""

    def __init__(self, problem: Problem) -> None:
        super().__init__()
        self._problem = problem
        self.males: list[Genotype] = []
        self.females: list[Genotype] = []

    def __missing__(self, key: tuple[int, int]) -> Pair:
        pair = self[key] = pair_model(self._problem, self.males[key[0]], self.females[key[1]])
        return pair

    def every(self) -> Iterable[Pair]:
        """Those of all the numbers there are so far."""
        return (self[key] for key in product(range(len(self.males)), range(len(self.females))))


class Kinds:
    """Numbers for the genotypes of one route, and the states of its animals in those numbers."""

    def __init__(self, problem: Problem, *, alike: bool) -> None:
        """Number the founders' genotypes; `alike`: those that give the same young may share a number."""
        self.problem = problem
        self.pairs = Pairs(problem)
        self._typicals: dict[tuple[int, tuple[Pair, ...]], Genotype] = {}
        self._works = problem.biology.works
        self._numbers: dict[tuple[str, Genotype], int] = {}
        males = list(dict.fromkeys(_genotypes(problem, "male")))
        females = list(dict.fromkeys(_genotypes(problem, "female")))
        if not alike or len(males) * len(females) == 1:
            self._keep(males, females)
            return
        models: dict[tuple[int, int], Pair] = {}
        interned: dict[Pair, int] = {}
        for i, sire in enumerate(males):
            for j, dam in enumerate(females):
                models[i, j] = pair_model(problem, sire, dam)
                interned.setdefault(models[i, j], len(interned))
        rows = [tuple(interned[models[i, j]] for j in range(len(females))) for i in range(len(males))]
        columns = [tuple(interned[models[i, j]] for i in range(len(males))) for j in range(len(females))]
        self._merge("male", males, rows, self.pairs.males)
        self._merge("female", females, columns, self.pairs.females)
        for i, sire in enumerate(males):
            for j, dam in enumerate(females):
                self.pairs.setdefault((self.number("male", sire), self.number("female", dam)), models[i, j])

    def number(self, sex: str, genotype: Genotype) -> int:
        """The number of a genotype; a new one where it was not seen before."""
        found = self._numbers.get((sex, genotype))
        if found is None:
            known = self.pairs.males if sex == "male" else self.pairs.females
            found = self._numbers[sex, genotype] = len(known)
            known.append(genotype)
        return found

    def states(self, sex: str, genotypes: Iterable[tuple[Genotype, float]]) -> States:
        """Genotypes with chances, as states of an animal that may not work at all."""
        works = self._works["male" if sex == "male" else "female"]
        total: dict[int, float] = {}
        for genotype, weight in genotypes:
            number = self.number(sex, genotype)
            total[number] = total.get(number, 0.0) + weight * works
        return tuple(total.items()) if works > 0 else ()

    def held_states(self, herd: Herd, genotypes: Iterable[tuple[Genotype, float]]) -> States:
        """The same for held young: genotypes that give the same young with every possible mate share a number."""
        return self.states(herd.sex, ((self._typical(herd, genotype), weight) for genotype, weight in genotypes))

    def _typical(self, herd: Herd, genotype: Genotype) -> Genotype:
        """The first genotype met that gives the same young as this one; itself where its mates are held too."""
        mates = self._founder_mates(herd)
        if mates is None:
            return genotype
        number = self.number(herd.sex, genotype)
        keys = ((number, mate) if herd.sex == "male" else (mate, number) for mate in mates)
        return self._typicals.setdefault((herd.index, tuple(self.pairs[key] for key in keys)), genotype)

    def _founder_mates(self, herd: Herd) -> tuple[int, ...] | None:
        """The numbers of all founders a held herd may be bred to; None where some mates are held."""
        problem, other = self.problem, "female" if herd.sex == "male" else "male"
        groups = {
            mate
            for pairing in problem.pairings
            for own, mates in ((pairing.males, pairing.females), (pairing.females, pairing.males))
            if herd.index in own
            for mate in mates
        }
        herds = [problem.herds[group] for group in groups]
        if any(mate.held for mate in herds):
            return None
        genotypes = dict.fromkeys(genotype for mate in herds for genotype in _carried(problem, mate))
        return tuple(self.number(other, genotype) for genotype in genotypes)

    def _keep(self, males: Sequence[Genotype], females: Sequence[Genotype]) -> None:
        for sire in males:
            self.number("male", sire)
        for dam in females:
            self.number("female", dam)

    def _merge(
        self, sex: str, genotypes: Sequence[Genotype], profiles: Sequence[tuple[int, ...]], known: list[Genotype]
    ) -> None:
        first: dict[tuple[int, ...], int] = {}
        for genotype, profile in zip(genotypes, profiles, strict=True):
            if profile not in first:
                first[profile] = len(known)
                known.append(genotype)
            self._numbers[sex, genotype] = first[profile]


class World:
    """One way in which my named animals' genotypes can be, and its chance; without named animals, the only one."""

    def __init__(self, problem: Problem, kinds: Kinds, named: Sequence[Genotype], chance: float) -> None:
        self.chance = chance
        self._by_herd = [_herd_states(herd, kinds, named) for herd in problem.herds]

    def known(self, animal: Animal) -> tuple[States, None]:
        """What a founder may be in this world."""
        states = self._by_herd[animal.herd]
        return states[animal.place] if len(states) > 1 else states[0], None


def worlds(problem: Problem, kinds: Kinds) -> list[World]:
    """Every way in which my named animals' genotypes can be, alike ones joined."""
    if not problem.named:
        return [World(problem, kinds, (), 1.0)]
    sexes = {place: herd.sex for herd in problem.herds for place in herd.named}
    total: dict[tuple[int, ...], tuple[tuple[Genotype, ...], float]] = {}
    for genotypes, chance in problem.together:
        key = tuple(kinds.number(sexes[i], genotype) for i, genotype in enumerate(genotypes))
        total[key] = genotypes, total.get(key, (genotypes, 0.0))[1] + chance
    return [World(problem, kinds, genotypes, chance) for genotypes, chance in total.values()]


def _herd_states(herd: Herd, kinds: Kinds, named: Sequence[Genotype]) -> list[States]:
    if herd.held:
        return [()]
    if herd.named:
        return [kinds.states(herd.sex, [(named[i], 1.0)]) for i in herd.named]
    return [kinds.states(herd.sex, herd.prior)]


def _genotypes(problem: Problem, sex: str) -> Iterable[Genotype]:
    for herd in problem.herds:
        if herd.sex == sex and not herd.held:
            yield from _carried(problem, herd)


def _carried(problem: Problem, herd: Herd) -> Iterable[Genotype]:
    yield from (genotype for genotype, _ in herd.prior)
    yield from (genotypes[i] for i in herd.named for genotypes, _ in problem.together)

"""The chance that one egg of a pairing is wanted, as far as it follows from the route's drawing alone."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from core.routes.exact.eggs import pair_model
from core.routes.problem import Genotype, Herd, Problem

# What one animal may carry: true genotypes with chances.
Carried = dict[Genotype, float]


def per_egg_by_pairing(problem: Problem) -> dict[str, float | None]:
    """Per pairing, the chance that an egg laid by a working pair hatches as a wanted animal; see `EggOdds`."""
    odds = _EggOdds(problem)
    return {pairing.id: odds.wanted(place) for place, pairing in enumerate(problem.pairings)}


def lethal_by_pairing(problem: Problem) -> dict[str, float | None]:
    """Per pairing, the chance that a fertile egg dies of a lethal genotype, highest over its groups; see `lethal`."""
    odds = _EggOdds(problem)
    return {pairing.id: odds.lethal(place) for place, pairing in enumerate(problem.pairings)}


def lethal_genes_by_pairing(problem: Problem) -> dict[str, frozenset[str]]:
    """Per pairing, the ids of the genes with a genotype of which some of its fertile eggs die."""
    odds = _EggOdds(problem)
    return {pairing.id: odds.lethal_genes(place) for place, pairing in enumerate(problem.pairings)}


class _EggOdds:
    """First males and first females of a pairing, each averaged by itself over what it may carry."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._wanted = (1 << len(problem.wanted)) - 1
        self._known: dict[int, Carried | None] = {}

    def wanted(self, pairing: int) -> float | None:
        """The chance of one egg; None where the parents cannot be."""
        drawn = self._problem.pairings[pairing]
        sires, dams = self._carried(drawn.males[0], ()), self._carried(drawn.females[0], ())
        if sires is None or dams is None:
            return None
        kept = 1 - self._problem.biology.lost
        return kept * sum(
            p * q * chance
            for sire, p in sires.items()
            for dam, q in dams.items()
            for mask, chance, _ in pair_model(self._problem, sire, dam).young
            if mask & self._wanted
        )

    def lethal(self, pairing: int) -> float | None:
        """The chance that a fertile egg is not viable, highest over its groups; None where no parents can be."""
        lost = [
            1 - sum(p * q * sum(self._problem.masks(s, d).values()) for s, p in sires.items() for d, q in dams.items())
            for sires, dams in self._parents(pairing)
        ]
        return max(0.0, *lost) if lost else None

    def lethal_genes(self, pairing: int) -> frozenset[str]:
        """The genes some of the eggs die of; none where the parents cannot be."""
        deadly = {gene.id for gene in self._problem.plan.genes if gene.lethal}
        return frozenset(
            gene
            for sires, dams in self._parents(pairing)
            for place, unit in enumerate(self._problem.judge.genetics.units)
            if unit.lethal.any()
            and any(unit.cross(sire[place], dam[place]) @ unit.lethal > 0 for sire in sires for dam in dams)
            for gene in unit.genes
            if gene in deadly
        )

    def _parents(self, pairing: int) -> Iterator[tuple[Carried, Carried]]:
        """What sire and dam may carry, of each of its male and female groups that can be."""
        drawn = self._problem.pairings[pairing]
        for male, female in product(drawn.males, drawn.females):
            sires, dams = self._carried(male, ()), self._carried(female, ())
            if sires is not None and dams is not None:
                yield sires, dams

    def _carried(self, group: int, below: tuple[int, ...]) -> Carried | None:
        """What a member of a group may carry; None where it is fed by itself or by nothing that fits."""
        if group not in self._known:
            herd = self._problem.herds[group]
            if not herd.held:
                self._known[group] = _founder(self._problem, herd)
            elif group in below:
                return None
            else:
                self._known[group] = self._held(herd, (*below, group))
        return self._known[group]

    def _held(self, herd: Herd, below: tuple[int, ...]) -> Carried | None:
        """A young of the first source pairing that fits the first preference."""
        source = self._problem.pairings[herd.sources[0]]
        sires, dams = self._carried(source.males[0], below), self._carried(source.females[0], below)
        if sires is None or dams is None:
            return None
        fitting: Carried = {}
        for sire, p in sires.items():
            for dam, q in dams.items():
                for (mask, genotype), chance in self._problem.young(sire, dam).items():
                    if mask >> herd.picks[0] & 1:
                        fitting[genotype] = fitting.get(genotype, 0.0) + p * q * chance
        total = sum(fitting.values())
        return {genotype: chance / total for genotype, chance in fitting.items()} if total > 0 else None


def _founder(problem: Problem, herd: Herd) -> Carried:
    if not herd.named:
        return dict(herd.prior)
    carried: Carried = {}
    for place in herd.named if problem.crowded else ():
        for genotype, chance in problem.apart[place]:
            carried[genotype] = carried.get(genotype, 0.0) + chance / len(herd.named)
    for genotypes, chance in problem.together:
        for place in herd.named:
            carried[genotypes[place]] = carried.get(genotypes[place], 0.0) + chance / len(herd.named)
    return carried

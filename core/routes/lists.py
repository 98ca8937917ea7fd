"""What is for sale and what I own, weighed against the goal: who shows what, who carries what, what a pair gives."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from math import prod

import numpy as np

from core.genetics.beliefs import ImpossibleEvidence, beliefs
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.elimination import TooEntangled
from core.genetics.units import Floats, Unit
from core.plan.genotypes import NORMAL, mutants
from core.plan.model import Animal, Forms, ForSale, Plan, Sex

# Chances over the genotypes of each unit.
Prior = tuple[Floats, ...]
_SURE = 1 - 1e-9


@dataclass(frozen=True, eq=False)
class Candidate:
    """An animal of the lists; `shows` and `carries` name the wanted genes it shows and carries for sure.

    `may_carry` adds those it carries with some chance.
    """

    source: ForSale | Animal
    prior: Prior
    shows: frozenset[str]
    carries: frozenset[str]
    may_carry: frozenset[str]

    @property
    def key(self) -> str:
        """Its id, told apart between the two lists."""
        return f"{'sale' if isinstance(self.source, ForSale) else 'mine'}:{self.source.id}"

    @property
    def sex(self) -> Sex:
        """Its sex."""
        return self.source.sex

    @property
    def price(self) -> float:
        """What one costs; nothing for my own."""
        return self.source.price if isinstance(self.source, ForSale) else 0.0

    @property
    def ready_in(self) -> int:
        """Seasons until it is breeder-size."""
        return self.source.ready_in if isinstance(self.source, ForSale) else 0

    @property
    def most(self) -> int:
        """How many there are."""
        return self.source.quantity if isinstance(self.source, ForSale) else 1


class Lists:
    """The animals of a plan that can be bred towards one row of its goal, the first unless another is asked for."""

    def __init__(self, plan: Plan, row: int = 0) -> None:
        self.plan = plan
        self.want = plan.goal.want[row]
        self.genes = frozenset(gene for gene, form in self.want.forms.items() if form != NORMAL)
        every = compile_genetics(plan.genes, plan.linkage, plan.species)
        self.genetics: Genetics = every.restrict(self.want.forms)

    @cached_property
    def candidates(self) -> tuple[Candidate, ...]:
        """Mine first, then what is for sale; what is sold out is left out."""
        mine = self._beliefs()
        own = [self._candidate(one, mine[one.id]) for one in self.plan.my_animals if one.id in mine]
        offers = [one for one in self.plan.for_sale if one.quantity > 0]
        return (*own, *(self._candidate(one, self.genetics.prior(one.carries, one.sex)) for one in offers))

    def per_egg(self, sire: Prior, dam: Prior) -> float:
        """Chance that a fertile egg is wanted, parents averaged each by itself."""
        fits = [unit.fits(self.want.forms, self.want.sex) & ~unit.lethal for unit in self.genetics.units]
        parts = zip(self.genetics.units, sire, dam, fits, strict=True)
        chance = prod(float(young(unit, p, q) @ fit) for unit, p, q, fit in parts)
        return chance * (self._sex_share() if self.genetics.sex_unit is None else 1.0)

    def held(self, sire: Prior, dam: Prior, sex: Sex, forms: Forms) -> Prior | None:
        """A young held back that fits; None where none can."""
        found = []
        for unit, p, q in zip(self.genetics.units, sire, dam, strict=True):
            chances = young(unit, p, q) * (unit.fits(forms, sex) & ~unit.lethal)
            if chances.sum() <= 0:
                return None
            found.append(chances / chances.sum())
        return tuple(found)

    def can_show(self, sire: Prior, dam: Prior, sex: Sex) -> Forms:
        """The wanted forms that young of a sex can show, all at once."""
        forms = {gene: self.want.forms[gene] for gene in self.want.forms if gene in self.genes}
        return {gene: form for gene, form in forms.items() if self.held(sire, dam, sex, {gene: form}) is not None}

    def _candidate(self, source: ForSale | Animal, prior: Prior) -> Candidate:
        shows, carries, may = set(), set(), set()
        for unit, chances in zip(self.genetics.units, prior, strict=True):
            for gene in self.genes.intersection(unit.genes):
                form = self.want.forms[gene]
                if float(chances @ unit.fits({gene: form})) >= _SURE:
                    shows.add(gene)
                share = float(chances @ _helpful(unit, gene, form))
                if share > 0:
                    may.add(gene)
                if share >= _SURE:
                    carries.add(gene)
        return Candidate(source, prior, frozenset(shows), frozenset(carries), frozenset(may))

    def _beliefs(self) -> dict[str, Prior]:
        try:
            return beliefs(self.plan, self.genetics) if self.plan.my_animals else {}
        except (ImpossibleEvidence, TooEntangled):
            # Told where the animals are listed; here it only means that nothing can be built on them.
            return {}

    def _sex_share(self) -> float:
        share = self.genetics.female_share
        return {"female": share, "male": 1 - share, "any": 1.0}[self.want.sex]


def young(unit: Unit, sire: Floats, dam: Floats) -> Floats:
    """Chances of each genotype of one unit among the fertile eggs of parents that are themselves uncertain."""
    total = np.zeros(unit.size)
    for i in sire.nonzero()[0]:
        for j in dam.nonzero()[0]:
            total += sire[i] * dam[j] * unit.cross(int(i), int(j))
    return total


def _helpful(unit: Unit, gene: str, form: str) -> Floats:
    """Which genotypes hold an allele that a genotype of the wanted form is made of."""
    place = next(k for k, locus in enumerate(unit.loci) if locus.gene == gene)
    shown = unit.fits({gene: form})
    pairs = [(one[place], two[place]) for one, two in unit.genotypes]
    made_of = set(_alleles(pair for pair, fit in zip(pairs, shown, strict=True) if fit))
    return np.array([bool(made_of.intersection(mutants(pair))) for pair in pairs], dtype=np.float64)


def _alleles(pairs: Iterable[tuple[str, str]]) -> Iterable[str]:
    return (allele for pair in pairs for allele in mutants(pair))

"""Linkage units: loci that are inherited together, as haplotype pairs with their gametes and crosses.

A single gene, a linked set and the sex chromosomes are all the same thing here: loci in order, a recombination
fraction between neighbours, and the haplotype pairs that can exist. For the sex chromosomes one locus is the
sex-determining region; a gene that only one of them carries does not recombine with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations_with_replacement, product
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from core.genetics.locus import Locus
from core.genetics.notation import Genotype, Haplotype
from core.plan.model import AnySex, Forms, Sex

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Array = TypeVar("Array", bound=NDArray[np.generic])


class Unit:
    """One linkage unit. Genotypes are unordered haplotype pairs, known by their index 0..size-1."""

    def __init__(
        self,
        loci: Sequence[Locus],
        between: Sequence[float],
        *,
        row: Sequence[str] | None = None,
        sexes: tuple[Sex, Sex] | None = None,
    ) -> None:
        """Lay out a unit.

        loci: in order along the chromosome; for the sex chromosomes the region comes last.
        between: recombination fraction between neighbouring loci.
        row: every gene id of the linkage row as written in the plan, also those left out here.
        sexes: for the sex chromosomes, the sex with two alike and the sex with two different ones.
        """
        self.loci = tuple(loci)
        self.between = tuple(between)
        self.genes = tuple(locus.gene for locus in loci if locus.gene is not None)
        self.row = self.genes if row is None else tuple(row)
        self.sexes = sexes
        self.haplotypes = _haplotypes(self.loci, sexed=sexes is not None)
        self._haplotype_index = {haplotype: i for i, haplotype in enumerate(self.haplotypes)}
        pairs = combinations_with_replacement(self.haplotypes, 2)
        self.genotypes: tuple[Genotype, ...] = tuple(pair for pair in pairs if sexes is None or _sexed_pair(pair, loci))
        self.size = len(self.genotypes)
        self.sex: tuple[Sex | None, ...] = tuple(_sex(pair, sexes) for pair in self.genotypes)
        self._gene_loci = tuple((k, locus) for k, locus in enumerate(loci) if locus.gene is not None)
        self.forms = tuple(tuple(g.form(one[k], two[k]) for k, g in self._gene_loci) for one, two in self.genotypes)
        lethal = [any(g.lethal(one[k], two[k]) for k, g in self._gene_loci) for one, two in self.genotypes]
        self.lethal: Flags = _fixed(np.array(lethal, dtype=np.bool_))
        self._index = self._index_table()
        self._gametes: dict[int, tuple[NDArray[np.intp], Floats]] = {}
        self._crosses: dict[tuple[int, int], Floats] = {}
        self._table: Floats | None = None

    def find(self, one: Haplotype, two: Haplotype) -> int | None:
        """The index of a genotype from its haplotypes in either order; None where such a pair cannot exist."""
        i, j = self._haplotype_index.get(one), self._haplotype_index.get(two)
        if i is None or j is None or self._index[i, j] < 0:
            return None
        return int(self._index[i, j])

    def gametes(self, genotype: int) -> Floats:
        """Chances of the haplotypes one parent of this genotype passes on: [haplotypes], sums to 1."""
        where, chances = self._passed_on(genotype)
        full = np.zeros(len(self.haplotypes))
        full[where] = chances
        return full

    def cross(self, sire: int, dam: int) -> Floats:
        """Chances of each genotype among the fertile eggs of a pair, lethal ones included: [size], read-only."""
        found = self._crosses.get((sire, dam))
        if found is None:
            (of_sire, p), (of_dam, q) = self._passed_on(sire), self._passed_on(dam)
            young = self._index[of_sire[:, None], of_dam].ravel()
            chances = np.bincount(young, weights=(p[:, None] * q).ravel(), minlength=self.size)
            found = self._crosses[sire, dam] = _fixed(chances.astype(np.float64))
        return found

    def cross_table(self) -> Floats:
        """All crosses: [sire, dam, young], size cubed, so for small units; zero for a sire or dam of the wrong sex."""
        if self._table is None:
            table = np.zeros((self.size,) * 3)
            for sire, dam in product(self.of_sex("male"), self.of_sex("female")):
                table[sire, dam] = self.cross(sire, dam)
            self._table = _fixed(table)
        return self._table

    def of_sex(self, sex: Sex) -> tuple[int, ...]:
        """The genotypes an animal of this sex can have, lethal ones included."""
        return tuple(g for g, own in enumerate(self.sex) if own is None or own == sex)

    def fits(self, forms: Forms, sex: AnySex = "any") -> Flags:
        """Which genotypes fit the condition as far as this unit has a say in it: [size]."""
        asked = [(k, forms[gene]) for k, gene in enumerate(self.genes) if gene in forms]
        of_sex = (sex == "any" or own is None or own == sex for own in self.sex)
        fit = [ok and all(seen[k] == form for k, form in asked) for ok, seen in zip(of_sex, self.forms, strict=True)]
        return np.array(fit, dtype=np.bool_)

    def text(self, genotype: int) -> str:
        """A genotype as written in the plan: "a/+", "b/W", "b X/+ Y", or "a +/+ b" with its phase."""
        # Where the gene's own entry already names the chromosome ("b/W"), the region would only repeat it.
        shown = [k for k, locus in enumerate(self.loci) if locus.gene is not None or not self._region_is_repeated()]
        return "/".join(" ".join(haplotype[k] for k in shown) for haplotype in self.genotypes[genotype])

    def _region_is_repeated(self) -> bool:
        return any(locus.absent is not None for locus in self.loci)

    def _index_table(self) -> NDArray[np.intp]:
        count = len(self.haplotypes)
        table = np.full((count, count), -1, dtype=np.intp)
        for g, (one, two) in enumerate(self.genotypes):
            i, j = self._haplotype_index[one], self._haplotype_index[two]
            table[i, j] = table[j, i] = g
        return _fixed(table)

    def _passed_on(self, genotype: int) -> tuple[NDArray[np.intp], Floats]:
        """The haplotypes of positive chance in a gamete, and their chances."""
        found = self._gametes.get(genotype)
        if found is None:
            chances = _gamete_chances(self.genotypes[genotype], self.between)
            where = np.array([self._haplotype_index[haplotype] for haplotype in chances], dtype=np.intp)
            found = self._gametes[genotype] = where, np.array(list(chances.values()))
        return found


def _haplotypes(loci: Sequence[Locus], *, sexed: bool) -> tuple[Haplotype, ...]:
    every: Iterable[Haplotype] = product(*(locus.alleles for locus in loci))
    if not sexed:
        return tuple(every)
    shared = loci[-1].alleles[0]
    # A gene is absent from exactly those chromosomes whose letter stands for its absence.
    able = [h for h in every if all((a == g.absent) == (h[-1] == g.absent) for a, g in zip(h, loci, strict=True))]
    return tuple(sorted(able, key=lambda haplotype: haplotype[-1] != shared))


def _sexed_pair(pair: Genotype, loci: Sequence[Locus]) -> bool:
    shared = loci[-1].alleles[0]
    return shared in (pair[0][-1], pair[1][-1])


def _sex(pair: Genotype, sexes: tuple[Sex, Sex] | None) -> Sex | None:
    return None if sexes is None else sexes[pair[0][-1] != pair[1][-1]]


def _gamete_chances(genotype: Genotype, between: Sequence[float]) -> dict[Haplotype, float]:
    """Walk along the loci; between neighbours the copying strand changes with the recombination fraction."""
    walk = {(strand[:1], side): 0.5 for side, strand in enumerate(genotype)}
    for k, fraction in enumerate(between, start=1):
        longer: dict[tuple[Haplotype, int], float] = {}
        for (so_far, side), weight in walk.items():
            for to, step in ((side, 1 - fraction), (1 - side, fraction)):
                if step > 0:
                    key = (*so_far, genotype[to][k]), to
                    longer[key] = longer.get(key, 0.0) + weight * step
        walk = longer
    chances: dict[Haplotype, float] = {}
    for (haplotype, _), weight in walk.items():
        chances[haplotype] = chances.get(haplotype, 0.0) + weight
    return chances


def _fixed(array: Array) -> Array:
    array.setflags(write=False)
    return array

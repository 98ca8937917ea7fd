"""The genetics of a plan, compiled once and then only looked up."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from functools import cached_property
from itertools import pairwise
from typing import Any, TypeVar

from core.genetics.carries import unit_prior
from core.genetics.locus import Locus, gene_locus, region_locus
from core.genetics.notation import chance
from core.genetics.units import Floats, Unit
from core.plan.model import Carries, Gene, Linkage, Sex, SexSystem, Species

_Kept = TypeVar("_Kept")

# Chromosomes (shared one first) and the sex with two alike, the sex with two different ones.
_CHROMOSOMES: Mapping[SexSystem, tuple[tuple[str, str], tuple[Sex, Sex]]] = {
    "ZW": (("Z", "W"), ("male", "female")),
    "XY": (("X", "Y"), ("female", "male")),
}


class Genetics:
    """The linkage units of a plan: the autosomal ones in plan order, then the sex chromosomes if there are any.

    Units pass to the young independently of each other. Where temperature decides the sex there is no sex unit and
    the sex is a draw of its own with `female_share`.
    """

    def __init__(self, genes: Sequence[Gene], linkage: Sequence[Linkage], species: Species) -> None:
        """Compile these genes; see `compile_genetics`."""
        self._source = tuple(genes), tuple(linkage), species
        self._restricted: dict[frozenset[str], Genetics] = {}
        self._kept: dict[Hashable, Any] = {}
        self.female_share = 0.5 if species.female_share is None else chance(species.female_share)

    @cached_property
    def units(self) -> tuple[Unit, ...]:
        """The linkage units, laid out when first asked for: a long linked set costs much unless it is restricted."""
        genes, linkage, species = self._source
        return (*_autosomal(genes, linkage), *_sex_unit(genes, species))

    @cached_property
    def genes(self) -> tuple[str, ...]:
        """The gene ids in the order of the units."""
        return tuple(gene for unit in self.units for gene in unit.genes)

    @cached_property
    def sex_unit(self) -> int | None:
        """Where among the units the sex chromosomes are; None where temperature decides the sex."""
        return None if self._source[2].sex_system == "temperature" else len(self.units) - 1

    def kept(self, key: Hashable, work_out: Callable[[], _Kept]) -> _Kept:
        """Something that follows from the genetics alone, worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
        found: _Kept = self._kept[key]
        return found

    def prior(self, carries: Carries, sex: Sex) -> tuple[Floats, ...]:
        """Per unit, chances over its genotypes for an animal with these `carries`; units are independent."""
        written = ((gene, own if isinstance(own, str) else tuple(own.items())) for gene, own in carries.items())
        key = "prior", sex, tuple(written)
        return self.kept(key, lambda: tuple(unit_prior(unit, carries, sex) for unit in self.units))

    def restrict(self, genes: Iterable[str]) -> Genetics:
        """The genetics of these genes and of those with lethal genotypes; all else is left out.

        Leaving a gene out of a linked set joins the gaps on both sides of it; without interference this is exact.
        """
        named = frozenset(genes)
        every, linkage, species = self._source
        kept = tuple(gene for gene in every if gene.id in named or gene.lethal)
        if len(kept) == len(every):
            return self
        key = frozenset(gene.id for gene in kept)
        if key not in self._restricted:
            self._restricted[key] = Genetics(kept, linkage, species)
        return self._restricted[key]


def compile_genetics(genes: Sequence[Gene], linkage: Sequence[Linkage], species: Species) -> Genetics:
    """Compile the genes of a checked plan into linkage units.

    genes: those of interest; a gene that a linkage row names but that is not among them is left out of its unit.
    """
    return Genetics(genes, linkage, species)


def _autosomal(genes: Sequence[Gene], linkage: Sequence[Linkage]) -> tuple[Unit, ...]:
    """One unit per linkage row or gene in no row, in the order of the first gene of each."""
    loci = {gene.id: gene_locus(gene) for gene in genes if gene.placement == "autosome"}
    row_of = {gene: row for row in linkage for gene in row.genes}
    units: dict[tuple[str, ...], Unit] = {}
    for gene, locus in loci.items():
        row = row_of.get(gene)
        if row is None:
            units[gene,] = Unit((locus,), ())
        elif row.genes not in units:
            units[row.genes] = _linked(loci, row)
    return tuple(units.values())


def _linked(loci: Mapping[str, Locus], row: Linkage) -> Unit:
    kept = [gene for gene in row.genes if gene in loci]
    gaps = [chance(written) for written in row.recombination]
    places = [row.genes.index(gene) for gene in kept]
    between = [_across(gaps[left:right]) for left, right in pairwise(places)]
    return Unit([loci[gene] for gene in kept], between, row=row.genes)


def _across(gaps: Sequence[float]) -> float:
    """Recombination fraction over several gaps: an odd number of changes, without interference."""
    changed = 0.0
    for gap in gaps:
        changed = changed * (1 - gap) + (1 - changed) * gap
    return changed


def _sex_unit(genes: Sequence[Gene], species: Species) -> tuple[Unit, ...]:
    if species.sex_system == "temperature":
        return ()
    chromosomes, sexes = _CHROMOSOMES[species.sex_system]
    region = region_locus(chromosomes)
    for gene in genes:
        if gene.placement == "sex-chromosome":
            return (Unit((gene_locus(gene, absent=chromosomes[1]), region), (0.0,), sexes=sexes),)
        if gene.placement == "both-sex-chromosomes":
            return (Unit((gene_locus(gene), region), (chance(gene.recombination or 0),), sexes=sexes),)
    return (Unit((region,), (), sexes=sexes),)

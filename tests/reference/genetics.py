"""Genetics on explicit haplotypes.

A genome is a row of units that assort independently: one unit for each linked set, one for each other autosomal gene,
and (unless sex follows temperature) one for the sex chromosomes with the gene on them, if there is one.

A haplotype is a tuple with one entry for each locus of its unit. In the sex unit the last locus is the sex-determining
region, whose "alleles" are the chromosomes W, X, Y, Z; a gene that a chromosome lacks has the allele None there.
A genotype is a tuple of haplotype pairs, one pair for each unit; the order inside a pair means nothing and is sorted.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from .chances import Distribution, always, exact, product

Haplotype = tuple[str | None, ...]
Pair = tuple[Haplotype, Haplotype]
Genotype = tuple[Pair, ...]
Plan = dict[str, Any]

HALF = Fraction(1, 2)
REGION = "(sex)"
# Where the two differ, the odd one stands second.
CHROMOSOMES = {"ZW": {"male": ("Z", "Z"), "female": ("Z", "W")}, "XY": {"male": ("X", "Y"), "female": ("X", "X")}}


def pair_of(one: Haplotype, other: Haplotype) -> Pair:
    """The unordered pair."""
    return (one, other) if repr(one) <= repr(other) else (other, one)


def written_key(genotype: str) -> tuple[str, ...]:
    """A written genotype without regard to its order."""
    return tuple(sorted(genotype.split("/")))


@dataclass(frozen=True)
class Unit:
    """Loci that travel together, with the recombination fraction between neighbours."""

    loci: tuple[str, ...]
    recombination: tuple[Fraction, ...]

    @property
    def genes(self) -> tuple[str, ...]:
        return tuple(locus for locus in self.loci if locus != REGION)

    @property
    def has_sex(self) -> bool:
        return REGION in self.loci

    def gametes(self, pair: Pair) -> Distribution[Haplotype]:
        """Start on either haplotype, then cross over or not before each next locus."""
        rows: list[tuple[Haplotype, int, Fraction]] = [((pair[side][0],), side, HALF) for side in (0, 1)]
        for place, r in enumerate(self.recombination, start=1):
            rows = [
                ((*so_far, pair[new][place]), new, p * (r if new != side else 1 - r))
                for so_far, side, p in rows
                for new in (0, 1)
            ]
        return Distribution((haplotype, p) for haplotype, _, p in rows)


class Genome:
    """Everything a plan says about its genes, sexes and inheritance."""

    def __init__(self, plan: Plan) -> None:
        self.genes: dict[str, dict[str, Any]] = {gene["id"]: gene for gene in plan["genes"]}
        self.system: str = plan["species"]["sex_system"]
        self.female_share = exact(plan["species"].get("female_share", HALF))
        self.units = _units(plan)
        self.sex_unit: int | None = next((i for i, unit in enumerate(self.units) if unit.has_sex), None)
        self.place = {gene: (u, unit.loci.index(gene)) for u, unit in enumerate(self.units) for gene in unit.genes}
        self._forms: dict[Genotype, dict[str, str]] = {}
        self._viable: dict[Genotype, bool] = {}
        self._offspring: dict[tuple[Genotype, Genotype], Distribution[tuple[str, Genotype]]] = {}
        self._unit_offspring: dict[tuple[int, Pair, Pair], Distribution[Pair]] = {}

    # What a genotype looks like, and whether it lives

    def alleles(self, gene: str, genotype: Genotype) -> tuple[str, ...]:
        """The two alleles as written; in the one-copy sex the second is the other chromosome."""
        unit, place = self.place[gene]
        return tuple(sorted(_written_alleles(genotype[unit], place)))

    def form(self, gene: str, genotype: Genotype) -> str:
        unit, place = self.place[gene]
        return self.form_in_pair(gene, genotype[unit], place)

    def form_in_pair(self, gene: str, pair: Pair, place: int) -> str:
        listed = {written_key(text): form for text, form in self.genes[gene]["forms"].items()}
        alleles = _written_alleles(pair, place)
        key = tuple(sorted(alleles))
        if key not in listed and None in (pair[0][place], pair[1][place]):
            only = next(str(hap[place]) for hap in pair if hap[place] is not None)
            key = (only, only)
        return str(listed.get(key, "normal"))

    def forms(self, genotype: Genotype) -> dict[str, str]:
        if genotype not in self._forms:
            self._forms[genotype] = {gene: self.form(gene, genotype) for gene in self.genes}
        return self._forms[genotype]

    def fits(self, genotype: Genotype, wanted: Mapping[str, str]) -> bool:
        forms = self.forms(genotype)
        return all(forms[gene] == form for gene, form in wanted.items())

    def viable(self, genotype: Genotype) -> bool:
        if genotype not in self._viable:
            self._viable[genotype] = all(self.viable_pair(u, pair) for u, pair in enumerate(genotype))
        return self._viable[genotype]

    def viable_pair(self, unit: int, pair: Pair) -> bool:
        return not any(self._lethal(gene, pair, place) for place, gene in enumerate(self.units[unit].genes))

    def _lethal(self, gene: str, pair: Pair, place: int) -> bool:
        lethal = {written_key(text) for text in self.genes[gene].get("lethal", [])}
        if self.genes[gene].get("placement", "autosome") != "both-sex-chromosomes":
            return tuple(sorted(_written_alleles(pair, place))) in lethal
        with_chromosomes = tuple(sorted(f"{hap[0]} {hap[1]}" for hap in pair))
        return with_chromosomes in lethal or tuple(sorted(_written_alleles(pair, place))) in lethal

    # Sex

    def sex_of_pair(self, pair: Pair) -> str:
        """The sex that a pair of the sex unit makes."""
        chromosomes = sorted(str(hap[-1]) for hap in pair)
        return next(sex for sex, both in CHROMOSOMES[self.system].items() if sorted(both) == chromosomes)

    def chromosomes(self, sex: str) -> tuple[str, str]:
        return CHROMOSOMES[self.system][sex]

    def sexes(self, genotype: Genotype) -> Distribution[str]:
        """The sex a young of this genotype turns out to have."""
        if self.sex_unit is not None:
            return always(self.sex_of_pair(genotype[self.sex_unit]))
        return Distribution([("female", self.female_share), ("male", 1 - self.female_share)])

    # Inheritance

    def unit_offspring(self, unit: int, sire: Pair, dam: Pair) -> Distribution[Pair]:
        key = (unit, sire, dam)
        if key not in self._unit_offspring:
            gametes = self.units[unit].gametes
            self._unit_offspring[key] = Distribution(
                (pair_of(a, b), p * q) for a, p in gametes(sire).items() for b, q in gametes(dam).items()
            )
        return self._unit_offspring[key]

    def offspring(self, sire: Genotype, dam: Genotype) -> Distribution[tuple[str, Genotype]]:
        """Sex and genotype of a fertile egg, the lethal ones among them."""
        key = (sire, dam)
        if key not in self._offspring:
            genotypes = product(self.unit_offspring(u, sire[u], dam[u]) for u in range(len(self.units)))
            self._offspring[key] = Distribution(
                ((sex, genotype), p * q) for genotype, p in genotypes.items() for sex, q in self.sexes(genotype).items()
            )
        return self._offspring[key]

    # What an animal may carry

    def prior(self, carries: Mapping[str, Any], sex: str) -> Distribution[Genotype]:
        return product(self.unit_prior(u, carries, sex) for u in range(len(self.units)))

    def unit_prior(self, unit: int, carries: Mapping[str, Any], sex: str) -> Distribution[Pair]:
        if self.units[unit].has_sex:
            return self._sex_unit_prior(unit, carries, sex)
        return self._autosome_prior(unit, carries)

    def _autosome_prior(self, unit: int, carries: Mapping[str, Any]) -> Distribution[Pair]:
        genes = self.units[unit].genes
        joined = " ".join(genes)
        if joined in carries:
            return Distribution((_whole(text), p) for text, p in possible(carries[joined]).items())
        singles = product(possible(carries.get(gene, "+/+")) for gene in genes)
        return Distribution((pair, p * q) for texts, p in singles.items() for pair, q in _phases(texts).items())

    def _sex_unit_prior(self, unit: int, carries: Mapping[str, Any], sex: str) -> Distribution[Pair]:
        genes = self.units[unit].genes
        both = self.chromosomes(sex)
        if not genes:
            return always(pair_of((both[0],), (both[1],)))
        one_copy = self.genes[genes[0]]["placement"] == "sex-chromosome" and both[0] != both[1]
        wild = f"+/{'W' if 'W' in both else 'Y'}" if one_copy else "+/+"
        texts = possible(carries.get(genes[0], wild))
        return Distribution((pair, p * q) for text, p in texts.items() for pair, q in _sex_pairs(text, both).items())

    # Writing a pair down

    def written(self, unit: int, pair: Pair) -> str:
        """The pair as a plan would write it, mutant alleles first, with phase."""
        loci = self.units[unit]
        if loci.has_sex:
            return "/".join(sorted(self._sex_haplotypes(loci, pair), key=self._rank(loci)))
        return "/".join(sorted((" ".join(str(allele) for allele in hap) for hap in pair), key=self._rank(loci)))

    def _sex_haplotypes(self, unit: Unit, pair: Pair) -> Iterator[str]:
        kept = self.genes[unit.genes[0]]["placement"] == "both-sex-chromosomes" and pair[0][-1] != pair[1][-1]
        for allele, chromosome in pair:
            yield f"{allele} {chromosome}" if kept else str(chromosome if allele is None else allele)

    def _rank(self, unit: Unit) -> Any:
        order = [[*self.genes[gene]["alleles"], "+"] for gene in unit.genes]

        def rank(text: str) -> list[int]:
            written = zip(order, text.split(" "), strict=False)
            return [row.index(allele) if allele in row else len(row) for row, allele in written]

        return rank


def _written_alleles(pair: Pair, place: int) -> list[str]:
    return [str(hap[-1] if hap[place] is None else hap[place]) for hap in pair]


def possible(value: str | Mapping[str, Any]) -> Distribution[str]:
    """A genotype, or a map of chances over genotypes."""
    if isinstance(value, str):
        return always(value)
    return Distribution((text, exact(p)) for text, p in value.items())


def _whole(text: str) -> Pair:
    """A linked set given haplotype by haplotype."""
    one, other = text.split("/")
    return pair_of(tuple(one.split(" ")), tuple(other.split(" ")))


def _phases(texts: tuple[str, ...]) -> Distribution[Pair]:
    """Every way round of the genes of a set given one by one, all equally likely."""
    ways = itertools.product(*(itertools.permutations(text.split("/")) for text in texts))
    return Distribution((pair_of(tuple(a for a, _ in way), tuple(b for _, b in way)), Fraction(1)) for way in ways)


def _sex_pairs(text: str, both: tuple[str, str]) -> Distribution[Pair]:
    """The haplotype pairs of the sex unit that a written genotype can mean."""
    parts = text.split("/")
    if any(" " in part for part in parts):
        one, other = (part.split(" ") for part in parts)
        return always(pair_of((one[0], one[1]), (other[0], other[1])))
    if any(part in ("W", "Y") for part in parts):
        allele = next(part for part in parts if part not in ("W", "Y"))
        return always(pair_of((allele, both[0]), (None, both[1])))
    a, b = parts
    ways = [pair_of((a, both[0]), (b, both[1])), pair_of((b, both[0]), (a, both[1]))]
    return Distribution((way, HALF) for way in ways)


def _units(plan: Plan) -> list[Unit]:
    rows = plan.get("linkage", [])
    linked = {gene for row in rows for gene in row["genes"]}
    units = [Unit(tuple(row["genes"]), tuple(exact(r) for r in row["recombination"])) for row in rows]
    on_sex: list[dict[str, Any]] = []
    for gene in plan["genes"]:
        if gene.get("placement", "autosome") != "autosome":
            on_sex.append(gene)
        elif gene["id"] not in linked:
            units.append(Unit((gene["id"],), ()))
    if plan["species"]["sex_system"] != "temperature":
        units.append(_sex_chromosomes(on_sex))
    return units


def _sex_chromosomes(on_sex: list[dict[str, Any]]) -> Unit:
    if not on_sex:
        return Unit((REGION,), ())
    return Unit((on_sex[0]["id"], REGION), (exact(on_sex[0].get("recombination", 0)),))

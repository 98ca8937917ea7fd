"""The cross of one gene, of genes that travel together, or of the sex chromosomes, as a grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from core.explain.animals import HET, animal
from core.explain.fractions import fraction_text
from core.explain.numbers import PLAIN, Numbers, is_live
from core.genetics.notation import Haplotype
from core.genetics.units import Flags, Unit
from core.genetics.young import Condition
from core.plan.genotypes import NORMAL
from core.plan.model import Plan
from core.plan.sexes import sex_words
from core.text import tr

# Parents that pass on more kinds than this make a grid that nobody can read.
_MOST_KINDS = 8
# A sum of more products than this is no easier to follow than its result.
_MOST_PRODUCTS = 4


@dataclass(frozen=True)
class Gamete:
    """What a parent may pass on, and the chance that it does."""

    text: str
    chance: float


@dataclass(frozen=True)
class Cell:
    """What a young can be: its genotype, its trade name, whether it is wanted, and whether it never hatches."""

    genotype: str
    words: str
    chance: float
    is_wanted: bool
    is_lethal: bool


@dataclass(frozen=True)
class Grid:
    """One cross: the sire's side down, the dam's across.

    `chance` is the share of the eggs that are `wanted` as far as this grid has a say. `cells` is empty where there
    would be too many. `is_even`: all cells are equally likely, so that they can be counted.
    """

    genes: tuple[str, ...]
    title: str
    sire: tuple[Gamete, ...]
    dam: tuple[Gamete, ...]
    cells: tuple[tuple[Cell, ...], ...]
    wanted: str
    chance: float
    is_even: bool
    sexed: bool
    is_live: bool

    def sentence(self, numbers: Numbers = PLAIN) -> str:
        """`lavender: 1 of 4 = 1/4`, or the sum of the products where the cells are not equally likely."""
        cells = [cell for row in self.cells for cell in row]
        if self.is_even and cells:
            many = sum(cell.is_wanted for cell in cells)
            result = {0: tr("none"), len(cells): tr("all")}.get(many, fraction_text(self.chance, numbers))
            return tr(
                "{wanted}: {many} of {cells} = {result}", wanted=self.wanted, many=many, cells=len(cells), result=result
            )
        if self.chance == 0:
            return tr("{wanted}: none", wanted=self.wanted)
        products = [
            f"{fraction_text(one.chance, numbers)} × {fraction_text(other.chance, numbers)}"
            for one, row in zip(self.sire, self.cells, strict=True)
            for other, cell in zip(self.dam, row, strict=True)
            if cell.is_wanted
        ]
        summed = f"{' + '.join(products)} = " if 0 < len(products) <= _MOST_PRODUCTS else ""
        return f"{self.wanted}: {summed}{fraction_text(self.chance, numbers)}"

    def losses(self, numbers: Numbers = PLAIN) -> str:
        """What the grid says of those that never hatch; empty where there are none."""
        lost = sum(cell.chance for row in self.cells for cell in row if cell.is_lethal)
        if lost <= 0:
            return ""
        told = fraction_text(lost, numbers)
        if self.is_live:
            return tr("Never born alive: {fraction_text} of them.", fraction_text=told)
        return tr("Never hatches: {fraction_text} of them.", fraction_text=told)


def grid_of(plan: Plan, unit: Unit, sire: int, dam: int, condition: Condition) -> Grid:
    """The grid of two genotypes of a unit, and what of it fits the condition."""
    fits = unit.fits(condition.forms, condition.sex) & ~unit.lethal
    sides = [_gametes(unit, genotype) for genotype in (sire, dam)]
    small = all(len(side) <= _MOST_KINDS for side in sides)
    cells = tuple(tuple(_cell(plan, unit, one, other, fits) for other in sides[1]) for one in sides[0]) if small else ()
    chance = float(unit.cross(sire, dam) @ fits)
    names = {gene.id: gene.name for gene in plan.genes}
    even = all(len({round(chance, 12) for _, chance in side}) == 1 for side in sides)
    return Grid(
        genes=unit.genes,
        title=tr(" and ").join(names[gene] for gene in unit.genes) or tr("Sex"),
        sire=tuple(Gamete(_text(unit, haplotype), chance) for haplotype, chance in sides[0]),
        dam=tuple(Gamete(_text(unit, haplotype), chance) for haplotype, chance in sides[1]),
        cells=cells,
        wanted=_wanted(plan, unit, condition),
        chance=chance,
        is_even=even,
        sexed=unit.sexes is not None,
        is_live=is_live(plan),
    )


def _gametes(unit: Unit, genotype: int) -> list[tuple[Haplotype, float]]:
    """What a parent passes on; of a single gene each copy by itself, as people draw it, even when both are alike."""
    chances = unit.gametes(genotype)
    if len(unit.genes) == 1 and np.count_nonzero(chances) <= 2:
        return [(haplotype, 0.5) for haplotype in unit.genotypes[genotype]]
    found = [(unit.haplotypes[i], float(chances[i])) for i in np.flatnonzero(chances)]
    return sorted(found, key=lambda one: -round(one[1], 12))


def _cell(plan: Plan, unit: Unit, one: tuple[Haplotype, float], other: tuple[Haplotype, float], fits: Flags) -> Cell:
    genotype = unit.find(one[0], other[0])
    if genotype is None:
        raise ValueError("parents of the same sex")
    return Cell(
        genotype=unit.text(genotype),
        words=_lost(plan) if unit.lethal[genotype] else _young(plan, unit, genotype),
        chance=one[1] * other[1],
        is_wanted=bool(fits[genotype]),
        is_lethal=bool(unit.lethal[genotype]),
    )


def _lost(plan: Plan) -> str:
    return tr("never born alive") if is_live(plan) else tr("never hatches")


def _young(plan: Plan, unit: Unit, genotype: int) -> str:
    """`amel`, `het`, `normal`, `het ash male`: short where there is only one thing it can be a het of."""
    one, two = unit.genotypes[genotype]
    carries = {locus.gene: f"{one[k]}/{two[k]}" for k, locus in enumerate(unit.loci) if locus.gene is not None}
    words = animal(plan, dict(carries))
    genes = [gene for gene in plan.genes if gene.id in unit.genes]
    if len(genes) == 1 and len(genes[0].alleles) == 1 and words.startswith(f"{HET} "):
        words = HET
    sex = unit.sex[genotype]
    return words if sex is None else f"{words} {sex_words(sex)}"


def _wanted(plan: Plan, unit: Unit, condition: Condition) -> str:
    """The part of the condition that this unit has a say in: `lavender`, `ash female`, `hatches`."""
    names = {gene.id: gene.name.lower() for gene in plan.genes}
    asked = [(gene, condition.forms[gene]) for gene in unit.genes if gene in condition.forms]
    words = [tr("normal for {names}", names=names[gene]) if form == NORMAL else form for gene, form in asked]
    if unit.sexes is not None and condition.sex != "any":
        sex = sex_words(condition.sex)
        words = [" + ".join(words), sex] if words else [sex]
        return " ".join(words)
    return " + ".join(words) or (tr("lives") if is_live(plan) else tr("hatches"))


def _text(unit: Unit, haplotype: Haplotype) -> str:
    """A side of a genotype as the plan writes it; a chromosome is named unless the gene's own entry names it."""
    named = any(locus.absent is not None for locus in unit.loci)
    return " ".join(haplotype[k] for k, locus in enumerate(unit.loci) if locus.gene is not None or not named)

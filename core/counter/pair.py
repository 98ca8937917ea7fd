"""What two animals give together: every look of their young, and the chance of one at least in so many clutches."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from math import prod

import numpy as np

from core.counter.dots import dots_of
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.units import Flags, Floats, Unit
from core.plan.book import Book
from core.plan.genotypes import NORMAL, mutants
from core.plan.model import AnySex, Carries, Forms, Plan, Sex
from core.routes.prepare import biology
from core.text import tr

# Looks rarer than all of these together are summed up as others.
MOST_LOOKS = 24
# What the two may truly be in one set of linked genes; more is a list nobody sells from.
MOST_STATES = 40_000
# With more linked genes together than this gives, an answer takes longer than a frame.
_QUICK_HAPLOTYPES = 8
_LEAST = 1e-12
_SEXES: tuple[Sex, Sex] = ("male", "female")


@dataclass(frozen=True)
class Hatch:
    """One look among the young that hatch: `share` of them; `hides`: what such a young may carry, as a plan writes it.

    `sex` is "any" unless the look tells or depends on the sex.
    """

    forms: Forms
    share: float
    hides: Carries
    sex: AnySex = "any"


class Pair:
    """A male and a female with what is said of them; what each truly is, is drawn once and holds for every clutch."""

    def __init__(self, plan: Plan, male: Carries, female: Carries) -> None:
        """Compile the genes that the two, or the goal, speak of. Raises ValueError where too much is in doubt."""
        self._plan = plan
        named = {gene for carries in (male, female) for key in carries for gene in key.split(" ")}
        named |= {gene for want in plan.goal.want for gene in want.forms}
        # A gene that shows where nobody carries it, too.
        named |= {gene for gene, table in Book(plan).tables.items() if not all(map(mutants, table.looks))}
        self.genetics: Genetics = compile_genetics(plan.genes, plan.linkage, plan.species).restrict(named)
        self._priors = self.genetics.prior(male, "male"), self.genetics.prior(female, "female")
        for sire, dam in zip(*self._priors, strict=True):
            if int(np.count_nonzero(sire)) * int(np.count_nonzero(dam)) > MOST_STATES:
                raise ValueError(tr("Too much is only possible about these two to tell their odds."))

    @cached_property
    def hatches(self) -> tuple[Hatch, ...]:
        """The looks of the young that hatch, commonest first, at most `MOST_LOOKS` of them; shares sum to 1 or less.

        Where a gene sits on the sex chromosomes, males and females of a look are told apart.
        """
        found: list[Hatch] = [Hatch({}, 1.0, {})]
        for number, unit in enumerate(self.genetics.units):
            looks = list(self._of_unit(number, unit))
            found = [_both(one, other) for one, other in product(found, looks) if _agree(one, other)]
            found = sorted(found, key=_rarest)[: 4 * MOST_LOOKS]
        return tuple(one for one in found[:MOST_LOOKS] if one.share > _LEAST)

    def share(self, forms: Forms, sex: AnySex = "any") -> float:
        """The share of the young that hatch which look so."""
        able = _mean(*self._hits({}, "any"))
        return _mean(*self._hits(forms, sex)) / able if able > 0 else 0.0

    @cached_property
    def dots(self) -> tuple[int, ...]:
        """How many of 100 young have each look of `hatches`: see `dots_of`."""
        return dots_of([one.share for one in self.hatches])

    def at_least_one(self, forms: Forms, clutches: int, sex: AnySex = "any") -> tuple[float, ...]:
        """The chance of one such young at least in 1, 2 .. `clutches` laid clutches: [clutches].

        Clutch sizes vary, clutches and eggs are lost, and some males never sire, as the plan's species has it. A
        female that never lays has no clutch to count.
        """
        known = biology(self._plan.species)
        hits, weights = self._hits(forms, sex)
        sizes = np.arange(len(known.sizes))
        misses = (1 - hits * known.fertile * known.hatches)[:, None] ** sizes @ known.sizes
        # The shares of the sizes may add up to a last digit more than one.
        misses = np.minimum(misses, 1.0) * (1 - known.lost) + known.lost
        able = known.works["male"]
        return tuple(able * float(weights @ (1 - misses**n)) for n in range(1, clutches + 1))

    def _hits(self, forms: Forms, sex: AnySex) -> tuple[Floats, Floats]:
        """The chances that a fertile egg can hatch as such a young that the two may truly have, and their weights.

        Units are independent, so that their chances multiply; what comes to the same chance is told together.
        """
        # A gene that neither of them carries looks normal in all young.
        absent = any(form != NORMAL for gene, form in forms.items() if gene not in self.genetics.genes)
        share = 1.0
        if self.genetics.sex_unit is None and sex != "any":
            share = self.genetics.female_share if sex == "female" else 1 - self.genetics.female_share
        hits, weights = np.array([0.0 if absent else share]), np.ones(1)
        for number, unit in enumerate(self.genetics.units):
            wanted = unit.fits(forms, sex) & ~unit.lethal
            chances, shares = np.array(list(self._pairs(number, unit, wanted))).T
            hits, weights = _together(np.outer(hits, chances).ravel(), np.outer(weights, shares).ravel())
        return hits, weights

    def _pairs(self, number: int, unit: Unit, wanted: Flags) -> Iterator[tuple[float, float]]:
        """Per pair of true states of one unit, its chance of a wanted egg, and how likely the pair is."""
        sire, dam = (prior[number] for prior in self._priors)
        for s, d in product(np.flatnonzero(sire), np.flatnonzero(dam)):
            yield float(unit.cross(int(s), int(d))[wanted].sum()), float(sire[s] * dam[d])

    def _of_unit(self, number: int, unit: Unit) -> Iterator[Hatch]:
        """The looks as far as one unit has a say, with the genotypes behind each."""
        sire, dam = (prior[number] for prior in self._priors)
        young = np.zeros(unit.size)
        for s, d in product(np.flatnonzero(sire), np.flatnonzero(dam)):
            young += sire[s] * dam[d] * unit.cross(int(s), int(d))
        young[unit.lethal] = 0.0
        total = young.sum()
        by_look: dict[tuple[tuple[str, ...], AnySex], list[int]] = {}
        for genotype in np.flatnonzero(young > _LEAST * max(total, _LEAST)):
            sex: AnySex = (unit.sex[genotype] or "any") if unit.genes else "any"
            by_look.setdefault((unit.forms[genotype], sex), []).append(int(genotype))
        for (seen, sex), genotypes in by_look.items():
            share = float(young[genotypes].sum())
            forms = dict(zip(unit.genes, seen, strict=True))
            key = " ".join(unit.genes)
            hides: Carries = {key: {unit.text(g): float(young[g]) / share for g in genotypes}} if key else {}
            yield Hatch(forms, share / total, hides, sex)


def is_quick(plan: Plan, *carried: Carries) -> bool:
    """Whether odds of animals that carry this are there within a frame: no long set of linked genes is among it."""
    named = {gene for carries in carried for key in carries for gene in key.split(" ")}
    named |= {gene for want in plan.goal.want for gene in want.forms} | {one.id for one in plan.genes if one.lethal}
    alleles = {gene.id: len(gene.alleles) + 1 for gene in plan.genes}
    sets = ([alleles[gene] for gene in row.genes if gene in named] for row in plan.linkage)
    return all(prod(sizes) <= _QUICK_HAPLOTYPES for sizes in sets)


def _mean(hits: Floats, weights: Floats) -> float:
    return float(hits @ weights)


def _together(hits: Floats, weights: Floats) -> tuple[Floats, Floats]:
    """Equal chances as one, to 13 digits."""
    mantissas, exponents = np.frexp(hits)
    kept, where = np.unique(np.ldexp(mantissas.round(13), exponents), return_inverse=True)
    return kept, np.bincount(where.ravel(), weights=weights).astype(np.float64)


def _agree(one: Hatch, other: Hatch) -> bool:
    return "any" in (one.sex, other.sex) or one.sex == other.sex


def _both(one: Hatch, other: Hatch) -> Hatch:
    sex = other.sex if one.sex == "any" else one.sex
    return Hatch({**one.forms, **other.forms}, one.share * other.share, {**one.hides, **other.hides}, sex)


def _rarest(one: Hatch) -> tuple[float, int]:
    # Equal shares keep their order, whatever the last digit is.
    return (-round(one.share, 12), sum(form != NORMAL for form in one.forms.values()))

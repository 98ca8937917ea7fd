"""What an animal may carry, as chances over the genotypes of a unit."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import prod

import numpy as np

from core.genetics.locus import Locus
from core.genetics.notation import WILD, Genotype, hidden
from core.genetics.units import Floats, Unit
from core.plan.model import Carries, Sex

# The positions of some of a unit's loci, and the alleles on the two sides of what is written for them.
Part = tuple[tuple[int, ...], Genotype]


def unit_prior(unit: Unit, carries: Carries, sex: Sex) -> Floats:
    """Chances over the unit's genotypes for an animal of this sex: [size], sums to 1.

    Where the phase is not written, every pairing of the alleles into two haplotypes is equally likely; the entries
    of several genes are independent.
    """
    chances = np.zeros(unit.size)
    for choice in product(*_entries(unit, carries, sex)):
        ways = _ways(unit, [part for part, _ in choice])
        for way in ways:
            chances[way] += prod(weight for _, weight in choice) / len(ways)
    return chances


def _entries(unit: Unit, carries: Carries, sex: Sex) -> list[list[tuple[Part, float]]]:
    """Per locus, or once for a linked set written whole: the parts left open, each with its chance."""
    whole = carries.get(" ".join(unit.row)) if len(unit.row) > 1 else None
    if whole is not None:
        kept = [unit.row.index(gene) for gene in unit.genes]
        every = tuple(range(len(kept)))
        return [[((every, _only(pair, kept)), weight) for pair, weight in hidden(whole)]]
    return [_open_at(unit, k, carries, sex) for k in range(len(unit.loci))]


def _open_at(unit: Unit, k: int, carries: Carries, sex: Sex) -> list[tuple[Part, float]]:
    locus = unit.loci[k]
    different = unit.sexes is not None and sex == unit.sexes[1]
    if locus.gene is None:
        shared, other = locus.alleles
        return [(((k,), ((shared,), (other if different else shared,))), 1.0)]
    entry = carries.get(locus.gene, _wild_type(locus, one_copy=different))
    # A side with a second word names the chromosome too, which is the locus after this one.
    return [((tuple(range(k, k + len(pair[0]))), pair), weight) for pair, weight in hidden(entry)]


def _wild_type(locus: Locus, *, one_copy: bool) -> str:
    return f"{WILD}/{locus.absent}" if one_copy and locus.absent is not None else f"{WILD}/{WILD}"


def _only(pair: Genotype, kept: Sequence[int]) -> Genotype:
    one, two = pair
    return tuple(one[k] for k in kept), tuple(two[k] for k in kept)


def _ways(unit: Unit, parts: Sequence[Part]) -> list[int]:
    """Every way to lay the parts side by side that gives a genotype that can exist; repeats count as they come."""
    ways = []
    for turned in product((False, True), repeat=len(parts) - 1):
        # Turning every part at once changes nothing, so the first one stays as it is.
        found = _laid_out(unit, parts, (False, *turned))
        if found is not None:
            ways.append(found)
    return ways


def _laid_out(unit: Unit, parts: Sequence[Part], turned: Sequence[bool]) -> int | None:
    sides: tuple[dict[int, str], dict[int, str]] = {}, {}
    for (positions, pair), turn in zip(parts, turned, strict=True):
        for side, alleles in zip(sides, reversed(pair) if turn else pair, strict=True):
            for position, allele in zip(positions, alleles, strict=True):
                if side.setdefault(position, allele) != allele:
                    return None
    one, two = (tuple(side[k] for k in range(len(unit.loci))) for side in sides)
    return unit.find(one, two)

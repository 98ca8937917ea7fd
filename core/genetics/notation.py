"""How chances and genotypes are written in a plan."""

from __future__ import annotations

from collections.abc import Mapping

from core.plan.model import Chance

WILD = "+"
Haplotype = tuple[str, ...]
Genotype = tuple[Haplotype, Haplotype]


def chance(written: Chance) -> float:
    """A chance as a float: a number, or a fraction in a string such as "2/3"."""
    if not isinstance(written, str):
        return float(written)
    top, _, bottom = written.partition("/")
    return float(top) / float(bottom) if bottom else float(top)


def genotype(text: str) -> Genotype:
    """The two haplotypes of a written genotype: "a/+" or, with several loci a side, "a +/+ b"."""
    left, _, right = text.partition("/")
    return tuple(left.split()), tuple(right.split())


def hidden(entry: str | Mapping[str, Chance]) -> tuple[tuple[Genotype, float], ...]:
    """The genotypes an entry of `carries` leaves open, each with its chance; those of chance 0 are left out."""
    if isinstance(entry, str):
        return ((genotype(entry), 1.0),)
    chances = ((genotype(text), chance(written)) for text, written in entry.items())
    return tuple((pair, weight) for pair, weight in chances if weight > 0)

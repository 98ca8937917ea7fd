"""One place on a chromosome: its alleles, and what each pair of them looks like."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from core.genetics.notation import WILD
from core.plan.model import Gene

NORMAL = "normal"
AllelePair = tuple[str, str]


class Locus(msgspec.Struct, frozen=True):
    """A gene, or (`gene` None) the region of the sex chromosomes that decides the sex.

    `absent` is what stands for the gene on a chromosome that lacks it: the chromosome's own letter, as in "b/W".
    """

    gene: str | None
    alleles: tuple[str, ...]
    listed: Mapping[AllelePair, str]
    deadly: frozenset[AllelePair]
    absent: str | None = None

    def form(self, one: str, two: str) -> str:
        """The visible form of an allele pair in either order; a lone copy looks as two do unless listed."""
        found = self.listed.get((one, two))
        if found is not None:
            return found
        if self.absent is not None and (one == self.absent) != (two == self.absent):
            copy = two if one == self.absent else one
            return self.listed.get((copy, copy), NORMAL)
        return NORMAL

    def lethal(self, one: str, two: str) -> bool:
        """Whether an allele pair, in either order, never hatches; a lone copy only where listed on its own."""
        return (one, two) in self.deadly


def gene_locus(gene: Gene, absent: str | None = None) -> Locus:
    """The locus of a gene; `absent` is the letter of the chromosome that lacks it, if there is one."""
    alleles = (*gene.alleles, WILD) if absent is None else (*gene.alleles, WILD, absent)
    listed = {pair: form for text, form in gene.forms.items() for pair in _both_orders(text)}
    deadly = frozenset(pair for text in gene.lethal for pair in _both_orders(text))
    return Locus(gene.id, alleles, listed, deadly, absent)


def region_locus(chromosomes: tuple[str, str]) -> Locus:
    """The sex-determining region, its "alleles" being the chromosomes themselves, the shared one first."""
    return Locus(None, chromosomes, {}, frozenset())


def _both_orders(text: str) -> tuple[AllelePair, AllelePair]:
    one, _, two = text.partition("/")
    return (one, two), (two, one)

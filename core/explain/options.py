"""Everything an animal of one sex can be at one gene, as choices a breeder would name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from core.plan.genotypes import NORMAL, WILD, Pair, Table, mutants, ordered, written
from core.plan.model import Sex

Manner = Literal["recessive", "dominant", "incomplete", "series", "one copy", "hidden"]


@dataclass(frozen=True)
class Option:
    """One choice for a gene.

    `genotype` is what the plan holds. With `otherwise` the choice is a possible one: the animal has `genotype` with
    some chance, else `otherwise`. `copies` counts mutant copies; `form` is what shows; `chromosome` names the sex
    chromosome of the only copy where the choice settles it.
    """

    genotype: str
    form: str
    alleles: tuple[str, ...]
    otherwise: str = ""
    chromosome: str = ""

    @property
    def copies(self) -> int:
        """How many mutant copies it has."""
        return len(self.alleles)

    @property
    def is_normal(self) -> bool:
        """Whether it is the wild type, for sure."""
        return not self.alleles and not self.otherwise

    @property
    def is_visible(self) -> bool:
        """Whether something shows."""
        return self.form != NORMAL


def options_of(table: Table, sex: Sex) -> tuple[Option, ...]:
    """Give every choice for an animal of `sex`, normal first, lethal genotypes left out, possible ones last."""
    pairs = [pair for pair in table.pairs(sex) if pair not in table.lethal]
    pairs.sort(key=lambda pair: _place(table, pair))
    sure = [option for pair in pairs for option in _sure(table, pair, sex)]
    return (*sure, *(option for pair in pairs for option in _possible(table, pair)))


def manner_of(table: Table, sex: Sex) -> Manner:
    """Tell how the gene shows in an animal of `sex`."""
    if table.lone is not None and sex == table.mixed_sex:
        return "one copy"
    if len(table.alleles) > 2:
        return "series"
    mutant = table.alleles[1]
    one, two = table.form(ordered(mutant, WILD)), table.form(ordered(mutant, mutant))
    if one == NORMAL:
        return "hidden" if two == NORMAL else "recessive"
    return "dominant" if one == two else "incomplete"


def _place(table: Table, pair: Pair) -> tuple[int, list[int]]:
    """Normal, then one copy of each allele, then two, in the gene's own order of alleles."""
    found = mutants(pair)
    return len(found), sorted(table.alleles.index(allele) for allele in found)


def _sure(table: Table, pair: Pair, sex: Sex) -> Iterator[Option]:
    form, found = table.form(pair), mutants(pair)
    yield Option(_written(table, pair), form, found)
    if table.gene.placement != "both-sex-chromosomes" or sex != table.mixed_sex or pair[0] == pair[1]:
        return
    first, second = table.system[0], table.system[1]
    one, two = written(pair).split("/")
    yield Option(f"{one} {first}/{two} {second}", form, found, chromosome=first)
    yield Option(f"{two} {first}/{one} {second}", form, found, chromosome=second)


def _possible(table: Table, pair: Pair) -> Iterator[Option]:
    """An animal that may have one copy more than it shows."""
    found = mutants(pair)
    for allele in dict.fromkeys(found):
        kept = list(pair)
        kept[kept.index(allele)] = WILD
        less = ordered(*kept)
        if less not in table.lethal and table.form(less) == table.form(pair):
            yield Option(_written(table, pair), table.form(pair), found, otherwise=_written(table, less))


def _written(table: Table, pair: Pair) -> str:
    if len(mutants(pair)) == 2:
        return "/".join(sorted(pair, key=table.alleles.index))
    return written(pair)

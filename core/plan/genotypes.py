"""Genotypes as a plan writes them: what each gene allows in each sex, and what it looks like."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import combinations_with_replacement

import msgspec

from core.plan.faults import quote
from core.plan.model import Gene, Sex, SexSystem
from core.plan.sexes import sex_words
from core.text import tr

WILD = "+"
NORMAL = "normal"
# What stands for a gene on the chromosome that lacks it.
LONE = ("W", "Y")
SEXES: tuple[Sex, Sex] = ("male", "female")
# Two alleles in alphabetical order; in a one-copy sex an allele and the letter of the chromosome without the gene.
Pair = tuple[str, str]


class GenotypeError(ValueError):
    """Text that is no genotype here; the message says what would be."""


class Written(msgspec.Struct, frozen=True):
    """A genotype read: its alleles, and where chromosomes are named and matter, each allele with its chromosome."""

    pair: Pair
    phase: Pair | None = None


class Table(msgspec.Struct, frozen=True, dict=True):
    """One gene under one sex system."""

    gene: Gene
    system: SexSystem

    @cached_property
    def alleles(self) -> tuple[str, ...]:
        """Wild type and the mutant alleles."""
        return (WILD, *dict.fromkeys(self.gene.alleles))

    @property
    def mixed_sex(self) -> Sex | None:
        """The sex with two different sex chromosomes; None where temperature decides."""
        if self.system == "temperature":
            return None
        return "female" if self.system == "ZW" else "male"

    @property
    def lone(self) -> str | None:
        """The letter of the chromosome that lacks a gene placed on `sex-chromosome`."""
        if self.gene.placement != "sex-chromosome" or self.system == "temperature":
            return None
        return self.system[1]

    def read(self, text: str, sex: Sex) -> Written:
        """Read the genotype of an animal of `sex`. Raises GenotypeError."""
        if self.gene.placement == "both-sex-chromosomes" and " " in text:
            return self._read_phased(text, sex)
        pair = self.read_pair(text)
        if self.lone is None or (self.lone in pair) == (sex == self.mixed_sex):
            return Written(pair)
        copy = next(allele for allele in pair if allele != self.lone)
        number, example = (tr("one copy"), self.lone) if sex == self.mixed_sex else (tr("two copies"), WILD)
        message = tr(
            "a {sex} has {number} of {gene}, as in {example}",
            sex=sex_words(sex),
            number=number,
            gene=quote(self.gene.id),
            example=quote(f"{copy}/{example}"),
        )
        raise GenotypeError(message)

    def read_pair(self, text: str) -> Pair:
        """Read a genotype without chromosomes, of either sex, as `forms` and `lethal` hold it. Raises GenotypeError."""
        one, two = self._halves(text)
        lone = self.lone
        if lone is not None and (one == lone) != (two == lone):
            allele = two if one == lone else one
            if allele in self.alleles:
                return ordered(allele, lone)
        elif one in self.alleles and two in self.alleles:
            return ordered(one, two)
        raise self._no_genotype(text)

    def _read_phased(self, text: str, sex: Sex) -> Written:
        """Read "b X/+ Y": each half an allele and its chromosome, the two that `sex` has."""
        halves = [tuple(half.split(" ")) for half in self._halves(text)]
        if any(len(half) != 2 or half[0] not in self.alleles for half in halves):
            raise self._no_genotype(text)
        has = self.system if sex == self.mixed_sex else self.system[0] * 2
        if sorted(half[1] for half in halves) != sorted(has):
            message = tr(
                "{genotype} does not fit a {sex}, which has the chromosomes {one} and {other}",
                genotype=quote(text),
                sex=sex_words(sex),
                one=has[0],
                other=has[1],
            )
            raise GenotypeError(message)
        pair = ordered(halves[0][0], halves[1][0])
        same = pair[0] == pair[1] or has[0] == has[1]
        return Written(pair, None if same else ordered(*map(" ".join, halves)))

    def _halves(self, text: str) -> tuple[str, str]:
        one, slash, two = text.partition("/")
        if not slash or "/" in two:
            raise self._no_genotype(text)
        return one, two

    def _no_genotype(self, text: str) -> GenotypeError:
        known = quote(" ".join(self.alleles))[1:-1]
        return GenotypeError(
            tr(
                '{text} is no genotype of {id}: two of {known} with "/" between',
                text=quote(text),
                id=quote(self.gene.id),
                known=known,
            )
        )

    def pairs(self, sex: Sex) -> Iterator[Pair]:
        """Give every genotype, lethal ones too, that an animal of `sex` can have."""
        if self.lone is not None and sex == self.mixed_sex:
            return (ordered(allele, self.lone) for allele in self.alleles)
        return (ordered(*pair) for pair in combinations_with_replacement(self.alleles, 2))

    def wild(self, sex: Sex) -> Pair:
        """Give the genotype of an animal for which the gene is not named."""
        return ordered(WILD, self.lone if self.lone is not None and sex == self.mixed_sex else WILD)

    @cached_property
    def looks(self) -> dict[Pair, str]:
        """The form of each listed genotype; what cannot be read is left out."""
        return dict(self._readable(self.gene.forms.items()))

    @cached_property
    def lethal(self) -> frozenset[Pair]:
        """Genotypes that never hatch; what cannot be read is left out."""
        return frozenset(pair for pair, _ in self._readable((text, "") for text in self.gene.lethal))

    def _readable(self, rows: Iterable[tuple[str, str]]) -> Iterator[tuple[Pair, str]]:
        for text, value in rows:
            try:
                yield self.read_pair(text), value
            except GenotypeError:
                continue

    def form(self, pair: Pair) -> str:
        """Give what a genotype looks like; a lone copy looks as two of it do unless it is listed itself."""
        if pair not in self.looks and self.lone in pair:
            copy = next(allele for allele in pair if allele != self.lone)
            pair = (copy, copy)
        return self.looks.get(pair, NORMAL)

    @cached_property
    def shown(self) -> dict[Sex, frozenset[str]]:
        """The forms that some genotype shows, lethal ones aside, by sex."""
        return {sex: frozenset(self.form(pair) for pair in self.pairs(sex) if pair not in self.lethal) for sex in SEXES}


def ordered(one: str, two: str) -> Pair:
    """Give two parts of a genotype in the one order that makes equal genotypes equal."""
    return (one, two) if one <= two else (two, one)


def written(pair: Pair) -> str:
    """Write a genotype as plans do: mutant alleles first."""
    return "/".join(sorted(pair, key=lambda part: part == WILD or part in LONE))


def mutants(pair: Pair) -> tuple[str, ...]:
    """Give the mutant alleles of a genotype."""
    return tuple(part for part in pair if part != WILD and part not in LONE)

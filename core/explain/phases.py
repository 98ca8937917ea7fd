"""Linked sets: which alleles came from one parent together."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from core.explain.shares import exact
from core.plan.book import Book
from core.plan.genotypes import WILD
from core.plan.model import Carries, Chance

Entry = str | Mapping[str, Chance]
# Genes of one set whose sides are offered as choices; beyond that the ways to share them out are too many to list.
_MOST_CHOICES = 4
# Linked genes are autosomal: both sexes write the wild type alike.
_NORMAL = f"{WILD}/{WILD}"
_Sides = tuple[tuple[str, ...], tuple[str, ...]]


@dataclass(frozen=True)
class Phase:
    """One way to lay the mutant alleles on two sides; both are empty where that is not known."""

    genotype: str
    sides: tuple[tuple[str, ...], tuple[str, ...]] = ((), ())

    @property
    def is_known(self) -> bool:
        """Whether the sides are settled."""
        return bool(self.genotype)


UNKNOWN = Phase("")


@dataclass(frozen=True)
class PhaseRow:
    """The sides of one linked set: `genes` are those that an animal carries in two different alleles."""

    key: str
    genes: tuple[str, ...]
    options: tuple[Phase, ...]
    chosen: Phase | None
    as_written: str = ""


def phase_row(book: Book, key: str, entries: Mapping[str, Entry], whole: Entry | None) -> PhaseRow | None:
    """Give the choices for one set; None where fewer than two of its genes have two different alleles."""
    if isinstance(whole, Mapping):
        text = json.dumps(dict(whole), ensure_ascii=False)
        return PhaseRow(key, book.rows[key], (UNKNOWN,), None, as_written=text)
    pairs = [_pair(entries.get(gene, _NORMAL)) for gene in book.rows[key]]
    if any(pair is None for pair in pairs):
        return None
    sure = [pair for pair in pairs if pair is not None]
    mixed = [gene for gene, pair in zip(book.rows[key], sure, strict=True) if pair[0] != pair[1]]
    if len(mixed) < 2:
        return None
    options = [UNKNOWN] if len(mixed) > _MOST_CHOICES else [*_phases(book.rows[key], sure), UNKNOWN]
    chosen = UNKNOWN if whole is None else next((o for o in options if o.is_known and _same(o.genotype, whole)), None)
    return PhaseRow(key, tuple(mixed), tuple(options), chosen, as_written="" if chosen else str(whole))


def taken_apart(book: Book, key: str, carries: Mapping[str, Entry]) -> dict[str, str | dict[str, Chance]]:
    """Give what is written of a set's genes gene by gene; sides and what hangs together are lost."""
    whole = carries.get(key)
    if whole is None:
        return {gene: _kept(carries[gene]) for gene in book.rows[key] if gene in carries}
    weighted = [(whole, Fraction(1))] if isinstance(whole, str) else [(g, exact(c)) for g, c in whole.items()]
    return {gene: _of_gene(weighted, place) for place, gene in enumerate(book.rows[key])}


def joined(
    book: Book, key: str, carries: Carries, changed: Mapping[str, str | dict[str, Chance]]
) -> dict[str, str | dict[str, Chance]]:
    """Give a set's genes with some of them changed: whole where the sides still hold, else gene by gene."""
    entries = {**taken_apart(book, key, carries), **changed}
    kept = {other: entry for other, entry in carries.items() if other != key}
    whole = carries[key]
    fitted = _fitted(book.rows[key], whole, entries) if isinstance(whole, str) else None
    if fitted is not None:
        return {**kept, key: fitted}
    return {**kept, **{gene: entry for gene, entry in entries.items() if gene in changed or entry != _NORMAL}}


def _fitted(genes: tuple[str, ...], whole: str, entries: Mapping[str, Entry]) -> str | None:
    """The set with the sides it had, where two genes still need them and every gene's place in it is settled."""
    one, two = (half.split(" ") for half in whole.split("/"))
    mixed = 0
    for place, gene in enumerate(genes):
        pair = _pair(entries[gene])
        if pair is None or (pair[0] != pair[1] and {one[place], two[place]} != set(pair)):
            return None
        if pair[0] == pair[1]:
            one[place] = two[place] = pair[0]
        else:
            mixed += 1
    return f"{' '.join(one)}/{' '.join(two)}" if mixed > 1 else None


def _phases(genes: tuple[str, ...], pairs: list[tuple[str, str]]) -> list[Phase]:
    first = next(place for place, pair in enumerate(pairs) if pair[0] != pair[1])
    turns = [(False,) if place == first or pair[0] == pair[1] else (False, True) for place, pair in enumerate(pairs)]
    found = []
    for turned in product(*turns):
        laid = [(b, a) if turn else (a, b) for (a, b), turn in zip(pairs, turned, strict=True)]
        genotype = "/".join(" ".join(side) for side in zip(*laid, strict=True))
        found.append(Phase(genotype, _sides(genes, laid)))
    return found


def _sides(genes: tuple[str, ...], laid: list[tuple[str, str]]) -> _Sides:
    one = tuple(gene for gene, (a, b) in zip(genes, laid, strict=True) if a != WILD and a != b)
    two = tuple(gene for gene, (a, b) in zip(genes, laid, strict=True) if b != WILD and a != b)
    return one, two


def _same(one: str, two: str) -> bool:
    return sorted(one.split("/")) == sorted(two.split("/"))


def _pair(entry: Entry) -> tuple[str, str] | None:
    """The two alleles of a sure genotype, mutant ones first; None for a hidden one."""
    if not isinstance(entry, str):
        return None
    one, _, two = entry.partition("/")
    return (two, one) if one == WILD else (one, two)


def _of_gene(weighted: list[tuple[str, Fraction]], place: int) -> str | dict[str, Chance]:
    total: dict[str, Fraction] = {}
    for genotype, chance in weighted:
        alleles = [half.split(" ")[place] for half in genotype.split("/")]
        text = "/".join(sorted(alleles, key=lambda allele: (allele == WILD, allele)))
        total[text] = total.get(text, Fraction(0)) + chance
    if len(total) == 1:
        return next(iter(total))
    return {text: str(chance) for text, chance in total.items()}


def _kept(entry: Entry) -> str | dict[str, Chance]:
    return entry if isinstance(entry, str) else dict(entry)

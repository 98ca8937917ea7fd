"""What an animal carries: genotypes of its sex, hidden ones with chances, linked sets given whole."""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable

from core.plan.book import Book
from core.plan.chances import chance
from core.plan.faults import Faults, at_key, quote
from core.plan.genotypes import GenotypeError, Pair, Table
from core.plan.model import Carries, Chance, Sex
from core.text import tr

# How far chances may be from 1 in sum.
SUM_TOLERANCE = 1e-9


def check_carries(place: str, carries: Carries, sex: Sex, book: Book, faults: Faults) -> None:
    """Check every genotype that animals of `sex` are given, and that none is lethal."""
    named: set[str] = set()
    for key, entry in carries.items():
        here = at_key(place, key)
        genes = book.rows.get(key, (key,))
        if genes == (key,) and key not in book.tables:
            _report_key(here, key, book, faults)
            continue
        for gene in genes:
            if gene in named:
                faults.meaning(
                    here, tr("{gene} is given twice, singly and in a linked set", gene=quote(gene)), *book.row_needs()
                )
        named.update(genes)
        _check_entry(here, entry, _reader(genes, sex, book), _needs(genes, place, book), faults)
    _check_unnamed(place, named, sex, book, faults)


def check_sum(place: str, chances: dict[str, Chance], faults: Faults) -> None:
    """Check that chances sum to 1."""
    total = math.fsum(map(chance, chances.values()))
    if abs(total - 1) > SUM_TOLERANCE:
        faults.meaning(place, tr("the chances sum to {total}, not 1", total=f"{total:.10g}"))


def _report_key(here: str, key: str, book: Book, faults: Faults) -> None:
    if " " in key:
        message = tr(
            "no linkage row lists exactly these genes in this order{suggest}", suggest=faults.suggest(key, book.rows)
        )
        faults.meaning(here, message, *book.row_needs())
    else:
        faults.meaning(
            here,
            tr("no gene has the id {key}{suggest}", key=quote(key), suggest=faults.suggest(key, book.tables)),
            *book.id_needs(),
        )


def _needs(genes: tuple[str, ...], place: str, book: Book) -> tuple[str, ...]:
    sex = place.removesuffix(".carries") + ".sex"
    return (sex, *(need for gene in genes for need in book.gene_needs(gene)))


# Reads one genotype: its one spelling, so that equal ones are equal, and the alleles of each gene.
_Reader = Callable[[str], tuple[Hashable, list[tuple[Table, Pair]]]]


def _reader(genes: tuple[str, ...], sex: Sex, book: Book) -> _Reader:
    tables = [book.tables[gene] for gene in genes]

    def read_one(text: str) -> tuple[Hashable, list[tuple[Table, Pair]]]:
        written = tables[0].read(text, sex)
        return written, [(tables[0], written.pair)]

    def read_set(text: str) -> tuple[Hashable, list[tuple[Table, Pair]]]:
        halves = [half.split(" ") for half in text.split("/")]
        if len(halves) != 2 or any(len(half) != len(tables) for half in halves):
            example = "/".join([" ".join("+" * len(tables))] * 2)
            message = tr(
                "{genotype} must give each half one allele of every gene, as in {example}",
                genotype=quote(text),
                example=quote(example),
            )
            raise GenotypeError(message)
        pairs = [(table, table.read_pair(f"{one}/{two}")) for table, one, two in zip(tables, *halves, strict=True)]
        return tuple(sorted(map(tuple, halves))), pairs

    return read_one if len(tables) == 1 else read_set


def _check_entry(
    here: str, entry: str | dict[str, Chance], read: _Reader, needs: tuple[str, ...], faults: Faults
) -> None:
    seen: dict[Hashable, str] = {}
    for text in [entry] if isinstance(entry, str) else entry:
        place = here if isinstance(entry, str) else at_key(here, text)
        try:
            spelling, pairs = read(text)
        except GenotypeError as error:
            faults.meaning(place, str(error), *needs)
            continue
        if spelling in seen:
            faults.meaning(place, tr("is the same genotype as {seen}", seen=quote(seen[spelling])), *needs)
        seen.setdefault(spelling, text)
        for table, pair in pairs:
            if pair in table.lethal:
                faults.meaning(
                    place, tr("{pair} is lethal: no living animal has it", pair=quote("/".join(pair))), *needs
                )
    if not isinstance(entry, str):
        check_sum(here, entry, faults)


def _check_unnamed(place: str, named: set[str], sex: Sex, book: Book, faults: Faults) -> None:
    for gene, table in book.tables.items():
        wild = table.wild(sex)
        if gene not in named and wild in table.lethal:
            message = tr(
                "must name {gene}: left out it is {wild}, which is lethal", gene=quote(gene), wild=quote("/".join(wild))
            )
            faults.meaning(place, message, *_needs((gene,), place, book))

"""What an animal carries as one choice a gene, read from and put back into the plan's own notation.

Whatever no choice covers keeps standing as it is written until another choice is made for it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from core.explain.options import Manner, Option, manner_of, options_of
from core.explain.phases import PhaseRow, joined, phase_row, taken_apart
from core.explain.shares import exact, percent_of, written_share
from core.plan.book import Book
from core.plan.genotypes import WILD, GenotypeError, Table, written
from core.plan.model import Carries, Chance, Gene, Plan, Sex

Entry = str | Mapping[str, Chance]


@dataclass(frozen=True)
class GeneRow:
    """One gene of an animal: the choices there are, and the one made.

    `chosen` is None where the plan holds something that no choice covers: `as_written` then shows it. `percent` is
    the chance of a possible choice.
    """

    gene: Gene
    manner: Manner
    options: tuple[Option, ...]
    chosen: Option | None
    percent: float | None = None
    as_written: str = ""


def gene_rows(plan: Plan, carries: Carries, sex: Sex) -> tuple[GeneRow, ...]:
    """Give one row per gene of the plan, in its order."""
    book = Book(plan)
    entries = _by_gene(book, carries)
    return tuple(_row(book.tables[gene.id], entries.get(gene.id), sex) for gene in plan.genes)


def phase_rows(plan: Plan, carries: Carries) -> tuple[PhaseRow, ...]:
    """Give one row per linked set of which the animal carries two genes or more in one copy each."""
    book = Book(plan)
    entries = _by_gene(book, carries)
    found = (phase_row(book, key, entries, carries.get(key)) for key in book.rows)
    return tuple(row for row in found if row is not None)


def with_gene(
    plan: Plan, carries: Carries, sex: Sex, gene: str, option: Option, percent: float | None = None
) -> Carries:
    """Give `carries` with another choice for one gene; a possible one takes its chance in `percent`."""
    book = Book(plan)
    entry = _entry(option, percent)
    wild = written(book.tables[gene].wild(sex))
    row = next((key for key, genes in book.rows.items() if gene in genes and key in carries), None)
    if row is None:
        return _ordered(book, {**carries, gene: entry}, drop=(gene, wild))
    return _ordered(book, joined(book, row, carries, {gene: entry}), drop=(gene, wild))


def with_phase(plan: Plan, carries: Carries, row: PhaseRow, genotype: str) -> Carries:
    """Give `carries` with the alleles of a linked set on the given sides; empty: not known."""
    book = Book(plan)
    kept = {key: value for key, value in carries.items() if key != row.key and key not in book.rows[row.key]}
    if genotype:
        return _ordered(book, {**kept, row.key: genotype})
    apart = taken_apart(book, row.key, _by_gene(book, carries))
    wild = f"{WILD}/{WILD}"
    return _ordered(book, {**kept, **{gene: entry for gene, entry in apart.items() if entry != wild}})


def with_sex(plan: Plan, carries: Carries, sex: Sex) -> Carries:
    """Give `carries` for an animal of the other sex: what fits no genotype of `sex` becomes what looks most alike."""
    book = Book(plan)
    changed: Carries = {}
    for key, entry in carries.items():
        table = book.tables.get(key)
        changed[key] = entry if table is None else _for_sex(table, entry, sex)
    return changed


def _by_gene(book: Book, carries: Carries) -> dict[str, Entry]:
    """What is written of each gene by itself, linked sets taken apart."""
    entries: dict[str, Entry] = {}
    for key, entry in carries.items():
        if key in book.rows:
            entries.update(taken_apart(book, key, {key: entry}))
        else:
            entries[key] = entry
    return entries


def _row(table: Table, entry: Entry | None, sex: Sex) -> GeneRow:
    options = options_of(table, sex)
    manner = manner_of(table, sex)
    written_now = written(table.wild(sex)) if entry is None else entry
    chances = {text: exact(chance) for text, chance in _weighted(written_now) if exact(chance) > 0}
    for option in options:
        share = _share(table, option, chances, sex)
        if share is not None:
            return GeneRow(table.gene, manner, options, option, percent_of(share) if option.otherwise else None)
    return GeneRow(table.gene, manner, options, None, as_written=_text(written_now))


def _weighted(entry: Entry) -> list[tuple[str, Chance]]:
    return [(entry, 1)] if isinstance(entry, str) else list(entry.items())


def _share(table: Table, option: Option, chances: Mapping[str, Fraction], sex: Sex) -> Fraction | None:
    """The chance of the option's genotype where these chances are what the option stands for, else None."""
    wanted = [option.genotype, option.otherwise] if option.otherwise else [option.genotype]
    if len(chances) != len(wanted):
        return None
    try:
        found = {table.read(text, sex): chance for text, chance in chances.items()}
        shares = [found.get(table.read(text, sex)) for text in wanted]
    except GenotypeError:
        return None
    return None if None in shares else shares[0]


def _entry(option: Option, percent: float | None) -> str | dict[str, Chance]:
    if not option.otherwise:
        return option.genotype
    share, rest = written_share(50 if percent is None else percent)
    return {option.genotype: share, option.otherwise: rest}


def _ordered(book: Book, carries: Carries, drop: tuple[str, str] | None = None) -> Carries:
    """In the order of the plan's genes; the one that became wild type is left out, as a plan does."""
    place = {gene: i for i, gene in enumerate(reversed([*book.tables]))}
    kept = {key: entry for key, entry in carries.items() if drop is None or (key, entry) != drop}
    return dict(sorted(kept.items(), key=lambda item: place.get(item[0].split()[0], 0)))


def _for_sex(table: Table, entry: Entry, sex: Sex) -> str | dict[str, Chance]:
    if isinstance(entry, str):
        return _of_sex(table, entry, sex)
    total: dict[str, Fraction] = {}
    for text, chance in entry.items():
        turned = _of_sex(table, text, sex)
        total[turned] = total.get(turned, Fraction(0)) + exact(chance)
    if len(total) == 1:
        return next(iter(total))
    if [*total] == [*entry]:
        return dict(entry)
    return {text: str(chance) for text, chance in total.items()}


def _of_sex(table: Table, text: str, sex: Sex) -> str:
    """The genotype itself where it fits; else its allele once or twice, or without chromosomes."""
    try:
        table.read(text, sex)
    except GenotypeError:
        alleles = [half.split(" ")[0] for half in text.split("/")]
    else:
        return text
    if table.lone is None:
        return "/".join(alleles)
    mutant = next((allele for allele in alleles if allele in table.gene.alleles), None)
    if sex == table.mixed_sex:
        return f"{mutant or alleles[0]}/{table.lone}"
    return f"{mutant}/{mutant}" if mutant else "+/+"


def _text(entry: Entry) -> str:
    return entry if isinstance(entry, str) else json.dumps(dict(entry), ensure_ascii=False)

"""On which side of an animal's chromosomes its alleles lie, where that is known and two sides differ."""

from __future__ import annotations

from collections.abc import Callable

from core.plan.book import Book
from core.plan.genotypes import WILD, Table
from core.plan.model import Carries
from core.text import tr

# What an allele is called.
Name = Callable[[Table, str], str]


def sides_words(book: Book, carries: Carries, name: Name) -> tuple[str, ...]:
    """What animals that carry the same differ in: `apart`, `amel + hypo together`, `banana on Y`."""
    told = []
    for key, genotype in carries.items():
        if not isinstance(genotype, str):
            continue
        if key in book.rows:
            told.append(_linked(book, book.rows[key], genotype, name))
        elif key in book.tables:
            told.append(_on_chromosome(book.tables[key], genotype, name))
    return tuple(words for words in told if words)


def _linked(book: Book, genes: tuple[str, ...], genotype: str, name: Name) -> str:
    one, two = (half.split(" ") for half in genotype.split("/"))
    mixed = [place for place in range(len(genes)) if one[place] != two[place]]
    if len(mixed) < 2:
        return ""
    named = [
        [name(book.tables[genes[place]], side[place]) for place in mixed if side[place] != WILD] for side in (one, two)
    ]
    if not all(named):
        how = tr("together")
    elif len(mixed) == 2 and len(named[0]) == len(named[1]) == 1:
        how = tr("apart")
    else:
        return " | ".join(" + ".join(side) for side in named)
    # Where nothing else can be meant it goes without saying which genes.
    return how if len(mixed) == len(book.tables) else f"{' + '.join(named[0] + named[1])} {how}"


def _on_chromosome(table: Table, genotype: str, name: Name) -> str:
    """Where the one copy of a gene on both sex chromosomes lies in the sex that has two kinds of them."""
    halves = [half.split(" ") for half in genotype.split("/")]
    if table.gene.placement != "both-sex-chromosomes" or any(len(half) != 2 for half in halves):
        return ""
    (one, on_one), (two, on_two) = halves
    if on_one == on_two or (one == WILD) == (two == WILD):
        return ""
    allele, chromosome = (two, on_two) if one == WILD else (one, on_one)
    return tr("{what} on {chromosome}", what=name(table, allele), chromosome=chromosome)

"""What the letters in the grids stand for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.explain.animals import het_name
from core.explain.crosses import Cross
from core.explain.naming import YOUNG
from core.explain.numbers import PLAIN, Numbers, listed, share_of_100
from core.explain.shares import exact
from core.plan.book import Book
from core.plan.genotypes import Table
from core.plan.model import Plan
from core.text import tr


def legend(plan: Plan, found: Iterable[Cross], numbers: Numbers = PLAIN) -> tuple[str, ...]:
    """Sentences for the genes of these crosses: their letters, the sex chromosomes, genes that travel together."""
    genes = {gene for cross in found for grid in cross.grids for gene in grid.genes}
    book = Book(plan)
    tables = [book.tables[gene.id] for gene in plan.genes if gene.id in genes]
    if not tables:
        return ()
    return (_letters(tables), *_chromosomes(plan, tables), *_linked(plan, book, genes, numbers))


def _letters(tables: list[Table]) -> str:
    letters = [allele for table in tables for allele in table.gene.alleles]
    if len(letters) > 1 and len(set(letters)) == 1:
        return tr(
            "In each grid {letter} is the copy that the grid is named for, + is the normal copy. "
            "Each parent passes on one of its two.",
            letter=letters[0],
        )
    names = [het_name(table, allele) for table in tables for allele in table.gene.alleles]
    return tr(
        "{letters} are the {names} copies of a gene, + is the normal copy. Each parent passes on one of its two.",
        "{letters} is the {names} copy of a gene, + is the normal copy. Each parent passes on one of its two.",
        len(letters),
        letters=listed(letters),
        names=listed(names),
    )


def _chromosomes(plan: Plan, tables: list[Table]) -> Iterator[str]:
    lone = {"ZW": ("W", YOUNG["female"]), "XY": ("Y", YOUNG["male"])}.get(plan.species.sex_system)
    for table in tables:
        if lone and table.gene.placement == "sex-chromosome":
            yield tr(
                "{lone} is a sex chromosome without this gene: a young that gets it is a {young}.",
                lone=lone[0],
                young=lone[1],
            )
        elif lone and table.gene.placement == "both-sex-chromosomes":
            system = plan.species.sex_system
            yield tr(
                "{one} and {other} are the sex chromosomes: a young that gets {lone} is a {young}.",
                one=system[0],
                other=system[1],
                lone=lone[0],
                young=lone[1],
            )


def _linked(plan: Plan, book: Book, genes: set[str], numbers: Numbers) -> Iterator[str]:
    for row in plan.linkage:
        named = [gene for gene in row.genes if gene in genes]
        if len(named) < 2:
            continue
        names = listed([book.tables[gene].gene.name.lower() for gene in named])
        if len(row.genes) == 2:
            yield tr(
                "{names} lie on one chromosome, so what came from one parent is mostly passed on together: "
                "{apart} times it is not.",
                names=names,
                apart=share_of_100(float(exact(row.recombination[0])), numbers),
            )
        else:
            yield tr(
                "{names} lie on one chromosome, so what came from one parent is mostly passed on together.", names=names
            )

"""What genes and linkage rows must mean."""

from __future__ import annotations

from collections.abc import Iterable

from core.plan.book import Book, check_unique
from core.plan.faults import Faults, at, at_key, quote
from core.plan.genotypes import GenotypeError, Pair, Table
from core.plan.model import Gene, Linkage, Plan
from core.text import tr


def check_genes(plan: Plan, book: Book, faults: Faults) -> None:
    """Check ids, alleles, genotype tables, placement, and linkage rows."""
    check_unique((gene.id for gene in plan.genes), lambda i: f"genes[{i}].id", faults)
    for i, gene in enumerate(plan.genes):
        _check_gene(Table(gene, plan.species.sex_system), at("genes", i), faults)
    _check_placements(plan, faults)
    _check_linkage(plan, book, faults)


def _check_gene(table: Table, place: str, faults: Faults) -> None:
    gene = table.gene
    check_unique(gene.alleles, lambda i: f"{place}.alleles[{i}]", faults)
    forms, lethal = f"{place}.forms", f"{place}.lethal"
    _check_genotypes(table, place, [(text, at_key(forms, text)) for text in gene.forms], faults)
    _check_genotypes(table, place, [(text, at(lethal, i)) for i, text in enumerate(gene.lethal)], faults)
    if gene.placement == "both-sex-chromosomes" and gene.recombination is None:
        faults.meaning(f"{place}.recombination", tr("is missing; a gene on both sex chromosomes needs it"))
    if gene.placement != "both-sex-chromosomes" and gene.recombination is not None:
        needs = f"{place}.placement"
        faults.meaning(f"{place}.recombination", tr("belongs only to a gene on both sex chromosomes"), needs)


def _check_genotypes(table: Table, place: str, rows: Iterable[tuple[str, str]], faults: Faults) -> None:
    """Check that genotypes are of the gene's alleles, and that none is given twice, in either order."""
    needs = (f"{place}.id", f"{place}.alleles", f"{place}.placement", "species.sex_system")
    seen: dict[Pair, str] = {}
    for text, here in rows:
        try:
            pair = table.read_pair(text)
        except GenotypeError as error:
            faults.meaning(here, str(error), *needs)
            continue
        if pair in seen:
            faults.meaning(here, tr("is the same genotype as {seen}", seen=quote(seen[pair])), *needs)
        seen.setdefault(pair, text)


def _check_placements(plan: Plan, faults: Faults) -> None:
    first: Gene | None = None
    for i, gene in enumerate(plan.genes):
        if gene.placement == "autosome":
            continue
        here = f"genes[{i}].placement"
        if plan.species.sex_system == "temperature":
            message = tr("must be autosome: a species sexed by temperature has no sex chromosomes")
            faults.meaning(here, message, "species.sex_system")
        elif first is not None:
            faults.meaning(
                here, tr("must be autosome: {gene} already lies on the sex chromosomes", gene=quote(first.id))
            )
        first = first or gene


def _check_linkage(plan: Plan, book: Book, faults: Faults) -> None:
    row_of: dict[str, str] = {}
    for i, row in enumerate(plan.linkage):
        place = at("linkage", i)
        for j, gene in enumerate(row.genes):
            here = f"{place}.genes[{j}]"
            if gene in row_of:
                faults.meaning(
                    here, tr("{gene} is already {place}", gene=quote(gene), place=row_of[gene]), row_of[gene]
                )
            row_of.setdefault(gene, here)
            _check_linked(gene, here, book, faults)
        _check_fractions(row, place, faults)


def _check_linked(gene: str, here: str, book: Book, faults: Faults) -> None:
    if gene not in book.tables:
        message = tr("no gene has the id {gene}{suggest}", gene=quote(gene), suggest=faults.suggest(gene, book.tables))
        faults.meaning(here, message, *book.id_needs())
    elif book.tables[gene].gene.placement != "autosome":
        message = tr("{gene} lies on the sex chromosomes; only autosomal genes can be linked here", gene=quote(gene))
        faults.meaning(here, message, f"{book.places[gene]}.placement")


def _check_fractions(row: Linkage, place: str, faults: Faults) -> None:
    between = len(row.genes) - 1
    if len(row.recombination) != between:
        message = tr(
            "needs one number between neighbours, so {between} for {genes} genes", between=between, genes=between + 1
        )
        faults.meaning(f"{place}.recombination", message, f"{place}.genes")

"""Genotypes written anew where a gene came to lie elsewhere or sex is set in another way."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from core.plan.book import Book
from core.plan.chances import summed
from core.plan.genotypes import LONE, WILD, GenotypeError, Table
from core.plan.mapped import map_carries
from core.plan.model import Carries, Chance, Gene, Placement, Plan, Sex, SexSystem


def with_sex_system(plan: Plan, system: SexSystem) -> Plan:
    """Give the plan under another sex system; what no longer fits becomes what looks most alike.

    A gene on the sex chromosomes stays there, so the plan is faulty where temperature sets the sex.
    """
    share = plan.species.female_share if system == "temperature" else None
    species = replace(plan.species, sex_system=system, female_share=share)
    genes = tuple(_relisted(gene, system) for gene in plan.genes)
    moved = {gene.id for gene in genes if gene.placement != "autosome"}
    return _refitted(replace(plan, species=species, genes=genes), moved)


def with_placement(plan: Plan, index: int, placement: Placement) -> Plan:
    """Give the plan with one gene lying elsewhere; what no longer fits becomes what looks most alike."""
    # Half of all crosses over is as good as none in common: the person says what it really is.
    share = 0.5 if placement == "both-sex-chromosomes" else None
    gene = _relisted(replace(plan.genes[index], placement=placement, recombination=share), plan.species.sex_system)
    genes = (*plan.genes[:index], gene, *plan.genes[index + 1 :])
    return _refitted(replace(plan, genes=genes), {gene.id})


def refit_carries(plan: Plan, carries: Carries, sex: Sex, genes: Iterable[str]) -> Carries:
    """Give `carries` with the genotypes of some genes written so that they fit an animal of `sex`."""
    tables = Book(plan).tables
    return {
        key: _refit(tables[key], entry, sex) if key in genes and key in tables else entry
        for key, entry in carries.items()
    }


def _refitted(plan: Plan, genes: set[str]) -> Plan:
    def refit(carries: Carries, sex: Sex) -> Carries:
        return refit_carries(plan, carries, sex, genes)

    return map_carries(plan, refit)


def _relisted(gene: Gene, system: SexSystem) -> Gene:
    """The gene's tables without genotypes that there are no more, and one-copy ones under the right letter."""
    lone = Table(gene, system).lone
    forms = {_relettered(text, lone): form for text, form in gene.forms.items() if _is_there(text, lone)}
    lethal = tuple(_relettered(text, lone) for text in gene.lethal if _is_there(text, lone))
    return replace(gene, forms=forms, lethal=lethal)


def _is_there(text: str, lone: str | None) -> bool:
    return lone is not None or not any(half in LONE for half in text.split("/"))


def _relettered(text: str, lone: str | None) -> str:
    return "/".join(str(lone) if half in LONE else half for half in text.split("/"))


def _refit(table: Table, entry: str | dict[str, Chance], sex: Sex) -> str | dict[str, Chance]:
    if isinstance(entry, str):
        return _fitting(table, entry, sex)
    turned = summed((_fitting(table, text, sex), chance) for text, chance in entry.items())
    if len(turned) == 1:
        return next(iter(turned))
    return dict(entry) if [*turned] == [*entry] else turned


def _fitting(table: Table, text: str, sex: Sex) -> str:
    try:
        table.read(text, sex)
    except GenotypeError:
        pass
    else:
        return text
    halves = [half.split(" ")[0] for half in text.split("/")]
    known = [half for half in halves if half in table.alleles]
    mutant = next((allele for allele in known if allele != WILD), WILD)
    if table.lone is not None and sex == table.mixed_sex:
        return f"{mutant}/{table.lone}"
    # A lone copy shows what two do, so two keep the look.
    return "/".join(known) if len(known) == 2 else f"{mutant}/{mutant}"

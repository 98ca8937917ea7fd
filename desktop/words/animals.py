"""What an animal carries, in the trade's words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from fractions import Fraction

from core.plan.model import Carries, Chance, Gene, Plan

_ONE_COPY = {"W", "Y"}
_SEX_CHROMOSOMES = {"W", "X", "Y", "Z"}
_HETS = {2: "double het", 3: "triple het", 4: "quadruple het"}


def animal(plan: Plan, carries: Carries) -> str:
    """`lavender het amel`, `double het`, `amel 66 % het lavender`, `normal`."""
    visuals: list[str] = []
    hets: list[str] = []
    possible: list[str] = []
    for gene, genotypes in _by_gene(plan, carries):
        _sort_in(gene, genotypes, visuals, hets, possible)
    return " ".join([*visuals, *_het_words(plan, hets), *possible]) or "normal"


def form_words(plan: Plan, forms: Mapping[str, str]) -> str:
    """Visible forms together: `amel + lavender visual`; any animal for none."""
    names = {gene.id: gene.name.lower() for gene in plan.genes}
    shown = [form for form in forms.values() if form != "normal"]
    plain = [f"normal for {names.get(gene, gene)}" for gene, form in forms.items() if form == "normal"]
    visual = [f"{' + '.join(shown)} visual"] if shown else []
    return ", ".join([*visual, *plain]) or "animal"


def _by_gene(plan: Plan, carries: Carries) -> Iterator[tuple[Gene, dict[str, float]]]:
    genes = {gene.id: gene for gene in plan.genes}
    for key, value in carries.items():
        chances: Mapping[str, Chance] = {value: 1} if isinstance(value, str) else value
        for place, gene_id in enumerate(key.split()):
            gene = genes.get(gene_id)
            if gene is not None:
                yield gene, _of_one_gene(chances, place, len(key.split()))


def _of_one_gene(chances: Mapping[str, Chance], place: int, width: int) -> dict[str, float]:
    found: dict[str, float] = {}
    for genotype, chance in chances.items():
        strands = [strand.split() for strand in genotype.split("/")]
        alleles = [strand[place] if width > 1 else _allele(strand) for strand in strands]
        name = "/".join(alleles)
        found[name] = found.get(name, 0) + float(Fraction(str(chance)))
    return found


def _allele(strand: list[str]) -> str:
    """The allele of a strand that may also name its sex chromosome."""
    alleles = [part for part in strand if part not in _SEX_CHROMOSOMES]
    return alleles[0] if alleles else strand[0]


def _sort_in(
    gene: Gene, genotypes: Mapping[str, float], visuals: list[str], hets: list[str], possible: list[str]
) -> None:
    if len(genotypes) == 1:
        genotype = next(iter(genotypes))
        form = _form(gene, genotype)
        if form != "normal":
            visuals.append(form)
        elif _mutant(genotype):
            hets.append(_mutant_name(gene, genotype))
        return
    carriers = {name: chance for name, chance in genotypes.items() if _mutant(name)}
    # The trade cuts two thirds to 66.
    share = math.floor(sum(carriers.values()) * 100 + 1e-9)
    possible.extend(f"{share} % het {_mutant_name(gene, name)}" for name in list(carriers)[:1])


def _form(gene: Gene, genotype: str) -> str:
    first, _, second = genotype.partition("/")
    alleles = [first, second]
    for name in (f"{first}/{second}", f"{second}/{first}"):
        if name in gene.forms:
            return gene.forms[name]
    mutant = [allele for allele in alleles if allele not in _ONE_COPY]
    if len(mutant) == 1 and mutant[0] != "+":
        return gene.forms.get(f"{mutant[0]}/{mutant[0]}", "normal")
    return "normal"


def _mutant(genotype: str) -> str | None:
    return next((part for part in genotype.split("/") if part != "+" and part not in _SEX_CHROMOSOMES), None)


def _mutant_name(gene: Gene, genotype: str) -> str:
    mutant = _mutant(genotype)
    return gene.forms.get(f"{mutant}/{mutant}", gene.name.lower())


def _het_words(plan: Plan, hets: list[str]) -> list[str]:
    if not hets:
        return []
    several = _HETS.get(len(hets))
    if several and len(hets) == len(plan.genes):
        return [several]
    return [f"{several or 'het'} {' '.join(hets)}"]

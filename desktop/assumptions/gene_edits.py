"""Genes as their fields put them in: how one passes on, where it lies, its alleles and how genotypes look."""

from __future__ import annotations

from typing import Any, Literal

from msgspec.structs import replace

from core.plan import refit
from core.plan.genotypes import NORMAL, Pair, Table, mutants, written
from core.plan.limits import MOST_ALLELES
from core.plan.model import Gene, Plan
from core.plan.places import with_value
from core.plan.renames import rename_allele, rename_gene, reshape_gene
from core.text import tr
from desktop.forms.kinds import Refused
from desktop.words import genes as words
from desktop.words.forms import refused

Pattern = Literal["recessive", "dominant", "incomplete", "series", "none"]


def pattern_of(plan: Plan, index: int) -> Pattern:
    """How a gene's one and two copies show."""
    gene = plan.genes[index]
    if len(gene.alleles) > 1:
        return "series"
    one, two = _looks(plan, gene)
    if one == NORMAL:
        return "none" if two == NORMAL else "recessive"
    return "dominant" if one == two else "incomplete"


def with_pattern(plan: Plan, index: int, pattern: Pattern) -> Plan | Refused:
    """The plan with a gene passing on in another way; the names of its forms are kept as far as they go."""
    gene = plan.genes[index]
    now = pattern_of(plan, index)
    if pattern == now:
        return plan
    if pattern == "series":
        return with_allele(plan, index)
    if now == "series":
        return Refused(refused(words.PATTERN, words.TAKE_ALLELES_OUT))
    one, two = _looks(plan, gene)
    base = next((form for form in (one, two) if form != NORMAL), gene.name.lower() or gene.id)
    if now == "incomplete" and pattern == "recessive":
        base = two
    forms = dict(zip(("one", "two"), _PATTERNS[pattern](base), strict=True))
    allele = gene.alleles[0]
    listed = {f"{allele}/+": forms["one"], f"{allele}/{allele}": forms["two"]}
    kept = {text: form for text, form in gene.forms.items() if _is_other(plan, gene, text, allele)}
    return reshape_gene(plan, index, replace(gene, forms={**kept, **{k: v for k, v in listed.items() if v != NORMAL}}))


def _recessive(base: str) -> tuple[str, str]:
    return NORMAL, base


def _dominant(base: str) -> tuple[str, str]:
    return base, base


def _incomplete(base: str) -> tuple[str, str]:
    return base, tr("super {base}", base=base)


def _none(_base: str) -> tuple[str, str]:
    return NORMAL, NORMAL


_PATTERNS = {"recessive": _recessive, "dominant": _dominant, "incomplete": _incomplete, "none": _none}


def _is_other(plan: Plan, gene: Gene, text: str, allele: str) -> bool:
    pair = Table(gene, plan.species.sex_system).read_pair(text)
    return pair not in (_pair(allele, "+"), _pair(allele, allele))


def _pair(one: str, two: str) -> Pair:
    return (one, two) if one <= two else (two, one)


def _looks(plan: Plan, gene: Gene) -> tuple[str, str]:
    table = Table(gene, plan.species.sex_system)
    allele = gene.alleles[0]
    return table.form(_pair(allele, "+")), table.form(_pair(allele, allele))


def with_name(plan: Plan, index: int, name: str) -> Plan:
    """The plan with another name of a gene; forms that are called after it follow."""
    gene = plan.genes[index]
    old, new = gene.name.lower(), name.lower()
    if not old or not new:
        return with_value(plan, f"genes[{index}].name", name)
    forms = {text: _called(form, old, new) for text, form in gene.forms.items()}
    return reshape_gene(plan, index, replace(gene, name=name, forms=forms))


def _called(form: str, old: str, new: str) -> str:
    named = form in (old, tr("super {base}", base=old)) or form.startswith(f"{old} ")
    return form.replace(old, new, 1) if named else form


def with_id(plan: Plan, index: int, new: str) -> Plan | Refused:
    """The plan with another short name of a gene, wherever it is used."""
    if any(gene.id == new for i, gene in enumerate(plan.genes) if i != index):
        return Refused(refused(words.SHORT_NAME, tr("“{new}” is already taken", new=new)))
    return rename_gene(plan, index, new)


def with_placement(plan: Plan, index: int, placement: Any) -> Plan | Refused:
    """The plan with a gene lying elsewhere, and every animal's genotype written to fit."""
    gene = plan.genes[index]
    if placement != "autosome":
        if plan.species.sex_system == "temperature":
            return Refused(refused(words.PLACEMENT, words.NO_SEX_CHROMOSOMES))
        if any(gene.id in row.genes for row in plan.linkage):
            return Refused(refused(words.PLACEMENT, words.linked(gene.name)))
        other = next((one for one in plan.genes if one.placement != "autosome" and one is not gene), None)
        if other is not None:
            return Refused(refused(words.PLACEMENT, words.only_one(other.name)))
    return refit.with_placement(plan, index, placement)


def with_allele(plan: Plan, index: int) -> Plan:
    """The plan with one more allele of a gene; two copies of it look like nothing else."""
    gene = plan.genes[index]
    new = next((one for one in _LETTERS if one not in gene.alleles), f"a{len(gene.alleles) + 1}")
    form = f"{gene.name.lower() or gene.id} {new}"
    return with_value(
        plan,
        f"genes[{index}]",
        replace(gene, alleles=(*gene.alleles, new), forms={**gene.forms, f"{new}/{new}": form}),
    )


def can_add_allele(plan: Plan, index: int) -> bool:
    """Whether a gene may have one more."""
    return len(plan.genes[index].alleles) < MOST_ALLELES


def without_allele(plan: Plan, index: int, allele: str) -> Plan:
    """The plan without one allele; refused by the plan's own rules where an animal carries it."""
    gene = plan.genes[index]

    def stays(text: str) -> bool:
        return allele not in text.split("/")

    return with_value(
        plan,
        f"genes[{index}]",
        replace(
            gene,
            alleles=tuple(one for one in gene.alleles if one != allele),
            forms={text: form for text, form in gene.forms.items() if stays(text)},
            lethal=tuple(text for text in gene.lethal if stays(text)),
        ),
    )


def with_alleles(plan: Plan, index: int, change: tuple[str, str, str]) -> Plan | Refused:
    """The plan after a change of a gene's alleles: `add`, `remove` one, or `rename` one to another."""
    what, allele, new = change
    gene = plan.genes[index]
    if what == "add":
        return with_allele(plan, index)
    if what == "remove":
        return without_allele(plan, index, allele)
    if new in gene.alleles:
        return Refused(refused(words.ALLELES, tr("“{new}” is already taken", new=new)))
    if not words.is_allele(new):
        return Refused(refused(words.ALLELES, words.NO_ALLELE_NAME))
    return rename_allele(plan, index, allele, new)


def with_look(plan: Plan, index: int, change: tuple[Pair, str, bool]) -> Plan:
    """The plan after a change of one genotype of a gene: how it looks, and whether it never hatches."""
    pair, form, lethal = change
    gene = plan.genes[index]
    table = Table(gene, plan.species.sex_system)
    forms = {text: look for text, look in gene.forms.items() if table.read_pair(text) != pair}
    dead = [text for text in gene.lethal if table.read_pair(text) != pair]
    text = next((text for text in (*gene.forms, *gene.lethal) if table.read_pair(text) == pair), written(pair))
    alone = replace(gene, forms=forms)
    if form != Table(alone, plan.species.sex_system).form(pair):
        # In its old place, so that a file changes no more than it has to.
        kept = {key: form if table.read_pair(key) == pair else look for key, look in gene.forms.items()}
        forms = {**kept, text: form}
    if lethal:
        dead = [*gene.lethal] if pair in table.lethal else [*dead, text]
    return reshape_gene(plan, index, replace(gene, forms=forms, lethal=tuple(dead)))


def genotypes(plan: Plan, index: int) -> tuple[Pair, ...]:
    """Every genotype of a gene in either sex, fewest mutant copies first."""
    table = Table(plan.genes[index], plan.species.sex_system)
    pairs = dict.fromkeys((*table.pairs("male"), *table.pairs("female")))
    place = {allele: i for i, allele in enumerate(table.alleles)}
    return tuple(sorted(pairs, key=lambda pair: (len(mutants(pair)), sorted(place.get(part, 99) for part in pair))))


_LETTERS = "bcdefghijklmnopqrstuvwxyza"

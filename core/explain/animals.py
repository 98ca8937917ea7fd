"""What an animal carries, in the trade's words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

import msgspec

from core.explain.shares import exact
from core.explain.sides import sides_words
from core.plan.book import Book
from core.plan.genotypes import NORMAL, WILD, GenotypeError, Pair, Table, mutants, ordered
from core.plan.model import Carries, Chance, Plan
from core.text import tr

_HETS = {2: tr("double het"), 3: tr("triple het"), 4: tr("quadruple het")}
_NORMAL = tr("normal")
HET = tr("het")
_SURE = 1 - 1e-9
# A pair of alleles, without chromosomes, with its chance.
_Open = dict[Pair, float]


class _Parts(msgspec.Struct):
    """An animal's genes sorted by how the trade speaks of them."""

    visuals: dict[str, str] = msgspec.field(default_factory=dict)
    hets: list[str] = msgspec.field(default_factory=list)
    possible: list[str] = msgspec.field(default_factory=list)


def animal(plan: Plan, carries: Carries) -> str:
    """`lavender het amel`, `double het (apart)`, `amel 66 % het lavender`, `normal`: for the middle of a sentence."""
    sure, possible = _named(plan, carries)
    return " ".join([*sure, *possible]) or _NORMAL


def animal_title(plan: Plan, carries: Carries) -> str:
    """The same standing alone: `amel, 66 % het lavender`."""
    sure, possible = _named(plan, carries)
    return ", ".join([" ".join(sure), *possible] if sure else possible) or _NORMAL


def seen_and_hidden(plan: Plan, carries: Carries) -> tuple[str, str]:
    """What shows and what may be hidden: `amel` and `66 % het lavender`; `normal` or "" for nothing."""
    parts = _parts(Book(plan), carries)
    seen, hets = _combined(plan, parts.visuals), _het_words(plan, parts.hets)
    return " ".join(seen) or _NORMAL, ", ".join([*hets, *parts.possible])


def looks_words(plan: Plan, forms: Mapping[str, str]) -> str:
    """Visible forms under their trade name: `opal`; `normal` for none."""
    return " ".join(_combined(plan, {gene: form for gene, form in forms.items() if form != NORMAL})) or _NORMAL


def form_words(plan: Plan, forms: Mapping[str, str]) -> str:
    """Visible forms together: `amel + lavender visual`; any animal for none."""
    names = {gene.id: gene.name.lower() for gene in plan.genes}
    shown = [form for form in forms.values() if form != NORMAL]
    plain = [tr("normal for {gene}", gene=names.get(gene, gene)) for gene, form in forms.items() if form == NORMAL]
    visual = [tr("{shown} visual", shown=" + ".join(shown))] if shown else []
    return ", ".join([*visual, *plain]) or tr("animal")


def form_name(form: str) -> str:
    """A visible form by its name, and what shows nothing as `normal`."""
    return _NORMAL if form == NORMAL else form


def het_name(table: Table, allele: str) -> str:
    """What an allele is called where it does not show: by the form that one copy makes, else two; else by its gene."""
    for pair in (ordered(allele, WILD), (allele, allele)):
        form = table.form(pair)
        if form != NORMAL:
            return form
    return allele if len(table.gene.alleles) > 1 else table.gene.name.lower()


def _named(plan: Plan, carries: Carries) -> tuple[list[str], list[str]]:
    """The sure words in order, and what is only possible."""
    book = Book(plan)
    parts, sides = _parts(book, carries), sides_words(book, carries, het_name)
    told = [f"({', '.join(sides)})"] if sides else []
    return [*_combined(plan, parts.visuals), *_het_words(plan, parts.hets), *told], parts.possible


def _parts(book: Book, carries: Carries) -> _Parts:
    parts = _Parts()
    for table, genotypes in _by_gene(book, carries):
        _sort_in(table, genotypes, parts)
    return parts


def _by_gene(book: Book, carries: Carries) -> Iterator[tuple[Table, _Open]]:
    for key, value in carries.items():
        chances: Mapping[str, Chance] = {value: 1} if isinstance(value, str) else value
        genes = key.split(" ")
        for place, gene in enumerate(genes):
            if gene in book.tables:
                table = book.tables[gene]
                yield table, _of_one_gene(table, chances, place if len(genes) > 1 else 0)


def _of_one_gene(table: Table, chances: Mapping[str, Chance], place: int) -> _Open:
    found: _Open = {}
    for genotype, chance in chances.items():
        # In a linked set every half lists the alleles in turn; by itself it may add the name of the chromosome.
        alleles = [half.split(" ")[place] for half in genotype.split("/")]
        try:
            pair = table.read_pair("/".join(alleles))
        except (GenotypeError, IndexError):
            continue
        if exact(chance) > 0:
            found[pair] = found.get(pair, 0.0) + float(exact(chance))
    return found


def _sort_in(table: Table, genotypes: _Open, parts: _Parts) -> None:
    forms = {table.form(pair) for pair in genotypes}
    if len(forms) == 1 and NORMAL not in forms:
        parts.visuals[table.gene.id] = forms.pop()
        parts.possible.extend(_more_copies(table, genotypes))
        return
    if len(genotypes) == 1:
        parts.hets.extend(het_name(table, allele) for allele in mutants(next(iter(genotypes)))[:1])
        return
    carriers = {pair: chance for pair, chance in genotypes.items() if mutants(pair)}
    if carriers:
        names = tr(" or ").join(dict.fromkeys(het_name(table, mutants(pair)[0]) for pair in carriers))
        share = sum(carriers.values())
        # Of several alleles one is there for sure, and only which one is open.
        parts.possible.append(
            tr("het {names}", names=names)
            if share > _SURE
            else tr("{trade_share} % het {names}", trade_share=_trade_share(share), names=names)
        )


def _more_copies(table: Table, genotypes: _Open) -> list[str]:
    """What a visible animal may carry beyond what it shows: a second copy of what one copy shows alike."""
    two = [(pair, chance) for pair, chance in genotypes.items() if len(mutants(pair)) == 2]
    if len(genotypes) == 1:
        pair = next(iter(genotypes))
        less = [table.form(table.read_pair(f"{allele}/+")) for allele in mutants(pair)]
        return [tr("two copies")] if len(less) == 2 and table.form(pair) in less else []
    share = _trade_share(sum(chance for _, chance in two))
    return [tr("{share} % two copies", share=share)] if two else []


def _trade_share(share: float) -> int:
    """The trade cuts two thirds to 66."""
    return math.floor(share * 100 + 1e-9)


def _combined(plan: Plan, visuals: dict[str, str]) -> list[str]:
    """Forms seen together under their trade name, the largest combination first; the others in the plan's order."""
    left = {gene.id: visuals[gene.id] for gene in plan.genes if gene.id in visuals}
    names = []
    for combination in sorted(plan.combinations, key=lambda one: -len(one.forms)):
        asked = {gene: form for gene, form in combination.forms.items() if form != NORMAL}
        if len(asked) > 1 and all(left.get(gene) == form for gene, form in asked.items()):
            names.append(combination.name)
            left = {gene: form for gene, form in left.items() if gene not in asked}
    return [*names, *left.values()]


def _het_words(plan: Plan, hets: list[str]) -> list[str]:
    if not hets:
        return []
    several = _HETS.get(len(hets))
    if several and len(hets) == len(plan.genes):
        return [several]
    return [f"{several or HET} {' '.join(hets)}"]

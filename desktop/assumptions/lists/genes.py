"""Genes of every kind."""

from __future__ import annotations

from functools import partial
from itertools import count
from string import ascii_lowercase
from typing import Any

from msgspec.structs import replace

from core.plan.gene_notes import GeneNote, gene_notes, notes_of
from core.plan.model import Gene, Plan
from core.plan.presets import preset_of
from core.plan.removals import gene_users, without_gene
from core.text import tr
from desktop.assumptions.gene_edits import (
    pattern_of,
    with_alleles,
    with_id,
    with_look,
    with_name,
    with_pattern,
    with_placement,
)
from desktop.assumptions.ids import free_id
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.files.library import KeptLibrary
from desktop.forms.kinds import Id, Panel, Prose, Share, Words, fixed
from desktop.forms.table import Field, Form, Line
from desktop.words import assumptions as words
from desktop.words import genes as gene_words
from desktop.words.numbers import Numbers

_ONE = tr("a gene")


def _is_on_both(plan: Plan, index: int) -> bool:
    return plan.genes[index].placement == "both-sex-chromosomes"


def _is_known(plan: Plan, index: int) -> bool:
    return plan.genes[index].id in notes_of(plan)


FORMS = (
    Form(
        "",
        (
            Line(
                (
                    Field("genes[].name", tr("Name of the gene"), Words(empty=""), hint=tr("no name yet"),
                          put=with_name),
                    Field("genes[].pattern", gene_words.PATTERN, fixed(*gene_words.PATTERNS),
                          before=tr("is", "between a gene and how it passes on"),
                          put=with_pattern, get=pattern_of),
                ),
            ),
            Line((Field("genes[].placement", gene_words.PLACEMENT, fixed(*gene_words.PLACEMENTS),
                        before=tr("It lies on"),
                        put=with_placement),)),
            Line(
                (Field("genes[].recombination", tr("How often it crosses over"), Share(),
                       before=tr("It crosses over in"),
                       unit=tr("of 100 young, between it and what sets the sex")),),
                help=tr("0 to 50. At 50 it passes on as if it lay elsewhere."),
                when=_is_on_both,
            ),
        ),
    ),
    Form(
        tr("What each genotype looks like"),
        (Line((Field("genes[].forms", tr("How a genotype looks"), Panel("genotypes"), put=with_look,
                     covers=("genes[].lethal",)),), help=gene_words.GENOTYPE_NOTE),),
    ),
    Form(
        tr("Alleles"),
        (Line((Field("genes[].alleles", gene_words.ALLELES, Panel("alleles"), put=with_alleles),),
              help=gene_words.ALLELE_NOTE),),
    ),
    Form(tr("What is known"), (Line((Field("genes[].known", tr("What is known of it"), Panel("known")),)),),
         when=_is_known),
    Form(
        tr("Notes"),
        (Line((Field("genes[].note", tr("Note on the gene"), Prose(),
                     hint=tr("Where it was seen first, who breeds it …")),)),),
    ),
    Form(
        tr("In the file"),
        (Line((Field("genes[].id", gene_words.SHORT_NAME, Id(), before=tr("Short name"), put=with_id),),
              help=tr("Every genotype, condition and route follows.")),
         Line((Field("genes[].kept", tr("Keep this gene for other plans"), Panel("keep gene")),))),
    ),
)  # fmt: skip


def _title(plan: Plan, index: int, _numbers: Numbers) -> str:
    return plan.genes[index].name or plan.genes[index].id


def _note(plan: Plan, index: int, _numbers: Numbers) -> str:
    gene = plan.genes[index]
    said = dict(gene_words.PATTERNS)[pattern_of(plan, index)].partition(":")[0]
    return said if gene.placement == "autosome" else tr("{said}, on the sex chromosomes", said=said)


def _with(plan: Plan, name: str, forms: dict[str, str], alleles: tuple[str, ...], **more: Any) -> Plan:
    new = Gene(id=free_id("gene", (one.id for one in plan.genes)), name=name, alleles=alleles, forms=forms, **more)
    return replace(plan, genes=(*plan.genes, new))


def _add_recessive(plan: Plan) -> Plan:
    name, (a, *_) = _new_name(plan), _letters(plan)
    return _with(plan, name, {f"{a}/{a}": name.lower()}, (a,))


def _add_dominant(plan: Plan) -> Plan:
    name, a = _new_name(plan), _letters(plan)[0].upper()
    return _with(plan, name, {f"{a}/+": name.lower(), f"{a}/{a}": name.lower()}, (a,))


def _add_incomplete(plan: Plan) -> Plan:
    name, a = _new_name(plan), _letters(plan)[0].upper()
    return _with(plan, name, {f"{a}/+": name.lower(), f"{a}/{a}": tr("super {name}", name=name.lower())}, (a,))


def _add_series(plan: Plan) -> Plan:
    name, (a, b, *_) = _new_name(plan).lower(), _letters(plan)
    forms = {
        f"{one}/{other}": f"{name} {''.join(dict.fromkeys(one + other))}" for one, other in ((a, a), (a, b), (b, b))
    }
    return _with(plan, _new_name(plan), forms, (a, b))


def _add_sex_linked(plan: Plan) -> Plan:
    name, (a, *_) = _new_name(plan), _letters(plan)
    return _with(plan, name, {f"{a}/{a}": name.lower()}, (a,), placement="sex-chromosome")


def _letters(plan: Plan) -> list[str]:
    """Letters for alleles, those first that no other gene has: grids are read side by side."""
    taken = {allele.casefold() for gene in plan.genes for allele in gene.alleles}
    return sorted(ascii_lowercase, key=taken.__contains__)


def _new_name(plan: Plan) -> str:
    taken = {one.name for one in plan.genes}
    return next(name for n in count(1) if (name := tr("New gene {n}", n=n)) not in taken)


def _add_known(note: GeneNote, plan: Plan) -> Plan:
    """A gene as it is known; one whose way to pass on is not known starts as a recessive."""
    form = note.name.lower()
    mode = str(note.mode.value or "").casefold()
    if "incomplete" in mode:
        alleles, forms = ("A",), {"A/+": form, "A/A": tr("super {base}", base=form)}
    elif "dominant" in mode:
        alleles, forms = ("A",), {"A/+": form, "A/A": form}
    else:
        alleles, forms = ("a",), {"a/a": form}
    taken = {one.id for one in plan.genes}
    new = note.id if note.id not in taken else free_id(note.id, taken)
    gene = Gene(id=new, name=note.name, alleles=alleles, forms=forms, note=f"{note.mode.source}.")
    return replace(plan, genes=(*plan.genes, gene))


def _add_kept(gene: Gene, plan: Plan) -> Plan:
    return replace(plan, genes=(*plan.genes, gene))


def _adding(plan: Plan) -> tuple[Adding, ...]:
    preset = preset_of(plan.species.name)
    there = {id(note) for note in notes_of(plan).values()}
    known = [note for one in gene_notes() if preset and one.species == preset.id for note in one.genes]
    ways = [(tr("A recessive gene"), _add_recessive), (tr("A dominant gene"), _add_dominant),
            (tr("An incomplete dominant gene"), _add_incomplete), (tr("An allelic series"), _add_series)]  # fmt: skip
    if plan.species.sex_system != "temperature" and all(gene.placement == "autosome" for gene in plan.genes):
        ways.append((tr("A gene on the sex chromosome"), _add_sex_linked))
    step = words.added(_ONE)
    ids = {gene.id for gene in plan.genes}
    kept = [gene for gene in KeptLibrary().read().genes_of(plan.species.name) if gene.id not in ids]
    return (
        *(Adding(label, step, add) for label, add in ways),
        *(Adding(words.kept_as(gene.name or gene.id), step, partial(_add_kept, gene)) for gene in kept),
        *(
            Adding(tr("{name}, as known", name=note.name), step, partial(_add_known, note))
            for note in known
            if id(note) not in there
        ),
    )


def _remove(plan: Plan, index: int) -> Removal:
    gene = plan.genes[index]
    users = gene_users(plan, gene.id)
    asked_alone = all(set(row.forms) == {gene.id} for row in plan.goal.want)
    never = words.wanted_gene(gene.name) if asked_alone else ""
    also = words.used_gene(gene.name, words.users(plan, users)) if users.is_used else ""
    return Removal(without_gene(plan, gene.id), also, never)


def _entries(plan: Plan) -> int:
    return len(plan.genes)


GENES = Listing(
    place="genes",
    name=tr("Genes"),
    one=_ONE,
    empty=tr("There is no gene yet. Add the genes that your goal is about."),
    entries=_entries,
    title=_title,
    note=_note,
    adding=_adding,
    remove=_remove,
    forms=FORMS,
)

"""Genes that travel together on one chromosome."""

from __future__ import annotations

from core.plan.model import Gene, Linkage, Plan
from core.plan.relink import with_linkage
from core.text import tr
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.forms.kinds import Panel
from desktop.forms.table import Field, Form, Line
from desktop.words import assumptions as words
from desktop.words.numbers import Numbers


def _names(plan: Plan, index: int, _numbers: Numbers) -> str:
    names = {gene.id: gene.name or gene.id for gene in plan.genes}
    return " – ".join(names[gene] for gene in plan.linkage[index].genes)


def _set_note(plan: Plan, index: int, _numbers: Numbers) -> str:
    return tr("{genes} genes on one chromosome", genes=len(plan.linkage[index].genes))


def _free(plan: Plan) -> list[Gene]:
    linked = {gene for row in plan.linkage for gene in row.genes}
    return [gene for gene in plan.genes if gene.placement == "autosome" and gene.id not in linked]


def _add_set(plan: Plan) -> Plan:
    one, two, *_ = _free(plan)
    return with_linkage(plan, (*plan.linkage, Linkage(genes=(one.id, two.id), recombination=(0.1,))))


def _adding_set(plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("A linked set"), words.added(tr("a linked set")), _add_set),) if len(_free(plan)) > 1 else ()


def _remove_set(plan: Plan, index: int) -> Removal:
    return Removal(with_linkage(plan, (*plan.linkage[:index], *plan.linkage[index + 1 :])))


def _sets(plan: Plan) -> int:
    return len(plan.linkage)


def _put_set(plan: Plan, index: int, row: Linkage) -> Plan:
    return with_linkage(plan, (*plan.linkage[:index], row, *plan.linkage[index + 1 :]))


LINKED = Listing(
    place="linkage",
    name=tr("Linked genes"),
    one=tr("a linked set"),
    empty=tr("Every gene passes on by itself. Genes close together on one chromosome travel together: "
"add them as a set. It takes two genes on ordinary chromosomes."),
    entries=_sets,
    title=_names,
    note=_set_note,
    adding=_adding_set,
    remove=_remove_set,
    forms=(
        Form(
            tr("In order along the chromosome"),
            (
                Line(
                    (Field("linkage[].genes", tr("Linked genes"), Panel("linked"), put=_put_set,
                           covers=("linkage[].recombination",)),),
                    help=tr("0 %: they never part. 50 %: as if they lay apart. Which side an animal has them on is "
"said with the animal."),
                ),
            ),
        ),
    ),
)  # fmt: skip

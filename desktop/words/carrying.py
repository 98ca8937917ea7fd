"""The words of what an animal carries: every choice, and what a percentage means."""

from __future__ import annotations

from fractions import Fraction

from core.explain.carrying import GeneRow
from core.explain.options import Option
from core.explain.phases import Phase, PhaseRow
from core.explain.shares import exact, written_share
from core.plan.genotypes import Table
from core.plan.model import Gene, Plan, Sex
from core.plan.sexes import sex_words, sexed
from core.text import tr
from desktop.words.animals import HET, het_name
from desktop.words.numbers import Numbers, listed
from desktop.words.runs import Run, Runs, strong

AS_IN_THE_FILE = tr("as in the file")
PERCENT = "%"
_MANNERS = {
    "recessive": tr("recessive"),
    "dominant": tr("dominant"),
    "incomplete": tr("single and super form"),
    "series": tr("allelic series"),
    "hidden": tr("shows nothing by itself"),
}
_RAREST = 1000


def gene_note(plan: Plan, row: GeneRow, sex: Sex) -> str:
    """How a gene passes on, in a few words under its name."""
    system = plan.species.sex_system
    if row.gene.placement == "sex-chromosome":
        sexes = sex_words(sex, 2)
        own = tr("on {system}: ", system=system[0])
        return own + (
            tr("{sexes} carry one", sexes=sexes) if row.manner == "one copy" else tr("{sexes} carry two", sexes=sexes)
        )
    manner = _MANNERS.get(row.manner, "")
    return (
        tr("{manner}, on both sex chromosomes", manner=manner)
        if row.gene.placement == "both-sex-chromosomes"
        else manner
    )


def option_label(plan: Plan, row: GeneRow, option: Option) -> str:
    """A choice as its button says it."""
    table = Table(row.gene, plan.species.sex_system)
    label = _label(table, row, option)
    same = sum(_label(table, row, other) == label for other in row.options)
    if option.chromosome:
        return tr("{label}, on {chromosome}", label=label, chromosome=option.chromosome)
    if same > 1 and row.manner == "series":
        return f"{label} {option.genotype}"
    return label


def odds_label(plan: Plan, row: GeneRow, option: Option, percent: int) -> str:
    """A possible choice with its odds: `66 % het`."""
    what = _possible(Table(row.gene, plan.species.sex_system), row, option)
    return tr("{percent} % {what}", percent=percent, what=what)


def percent_name(row: GeneRow) -> str:
    """The accessible name of the percentage field."""
    return tr("How likely, in percent: {name}", name=row.gene.name)


def percent_text(percent: float, numbers: Numbers) -> str:
    """A percentage as the field holds it."""
    whole = round(percent)
    return numbers.whole(whole) if abs(percent - whole) < 1e-9 else numbers.decimal(percent, 2)


def not_a_percent(text: str) -> str:
    """Why a typed percentage is not taken."""
    return tr("“{text}” is no chance that says anything: type a number above 0 and below 100.", text=text)


def phase_title(plan: Plan, row: PhaseRow) -> str:
    """The genes of a linked set."""
    return listed([_gene(plan, gene).name for gene in row.genes])


def phase_note() -> str:
    """What the row of a linked set is about."""
    return tr("on one chromosome")


def phase_label(plan: Plan, row: PhaseRow, phase: Phase) -> str:
    """How the alleles came from the two parents."""
    if not phase.is_known:
        return tr("not known")
    one, two = phase.sides
    if not one or not two:
        return tr("together, from one parent")
    if len(row.genes) == 2 and len(one) == len(two) == 1:
        return tr("apart, one from each parent")
    sides = (" + ".join(_gene(plan, gene).name.lower() for gene in side) for side in (one, two))
    return " | ".join(sides)


def about_possible(row: GeneRow, plan: Plan, count: int, sex: Sex, numbers: Numbers) -> Runs:
    """What a possible het means for a group: a chance about each animal, drawn once, not about each young."""
    if row.chosen is None or not row.chosen.otherwise or row.percent is None:
        return ()
    share = exact(written_share(row.percent)[0])
    what = carried_name(plan, row)
    head = strong(
        tr("{percent_text} % is about the animal, not the clutch.", percent_text=percent_text(row.percent, numbers))
    )
    if count == 1:
        return (
            head,
            Run(
                tr(
                    " This {sex} either carries {what} or does not, the same in every clutch and season.",
                    sex=sex_words(sex),
                    what=what,
                )
            ),
        )
    either = tr(" Each of the {animals} either carries {what} or does not.", animals=sexed(count, sex), what=what)
    return (head, Run(f"{either} {_how_many(share, count)}; {_none(share, count, numbers)}."))


def carried_name(plan: Plan, row: GeneRow) -> str:
    """What a possible choice is about: `lavender`, or a second copy of what already shows."""
    option = row.chosen
    table = Table(row.gene, plan.species.sex_system)
    if option is None or not option.alleles:
        return row.gene.name.lower()
    if option.is_visible:
        return tr("a second copy of {form}", form=option.form)
    return het_name(table, option.alleles[0])


def _label(table: Table, row: GeneRow, option: Option) -> str:
    if option.is_normal:
        return tr("normal")
    several = len(row.gene.alleles) > 1
    if option.otherwise:
        return tr("possible {what}", what=_possible(table, row, option))
    if several:
        return _of_series(table, option)
    if row.manner == "one copy":
        return tr("visual") if option.is_visible else tr("carrier")
    names = {
        "recessive": (HET, tr("visual")),
        "dominant": (tr("one copy"), tr("two copies")),
        "incomplete": (tr("single"), tr("super")),
    }.get(row.manner, (tr("one copy"), tr("two copies")))
    return names[option.copies - 1]


def _possible(table: Table, row: GeneRow, option: Option) -> str:
    several = len(row.gene.alleles) > 1
    if option.is_visible:
        return option.genotype if several else tr("two copies")
    return tr("het {name}", name=het_name(table, option.alleles[0])) if several else HET


def _of_series(table: Table, option: Option) -> str:
    if option.is_visible:
        return option.form
    return tr("het {het_name}", het_name=het_name(table, option.alleles[0])) if option.copies == 1 else option.genotype


def _how_many(share: Fraction, count: int) -> str:
    likely = share * count
    return tr(
        "About {likely} of {count} do",
        "About {likely} of {count} does",
        round(likely),
        likely=max(round(likely), 1),
        count=count,
    )


def _none(share: Fraction, count: int, numbers: Numbers) -> str:
    one_of = 1 / (1 - share) ** count
    if one_of >= _RAREST:
        return tr("in fewer than 1 of {rarest} such groups none does", rarest=numbers.whole(_RAREST))
    if one_of.denominator == 1:
        return tr("in 1 of {one_of} such groups none does", one_of=numbers.whole(int(one_of)))
    if one_of < 2:
        return tr("in {one_of} of 100 such groups none does", one_of=numbers.whole(round(100 / one_of)))
    return tr("in about 1 of {one_of} such groups none does", one_of=numbers.whole(round(one_of)))


def _gene(plan: Plan, gene: str) -> Gene:
    return next(one for one in plan.genes if one.id == gene)

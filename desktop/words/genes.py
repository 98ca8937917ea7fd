"""Words for genes: how they pass on, where they lie, and their genotypes."""

from __future__ import annotations

from core.plan.gene_notes import GeneNote
from core.plan.genotypes import LONE, WILD, Pair, mutants
from core.text import tr

PATTERN, PLACEMENT, SHORT_NAME, ALLELES = (
    tr("How it passes on"),
    tr("Where it lies"),
    tr("Short name in the file"),
    tr("Alleles"),
)
PATTERNS = (
    ("recessive", tr("recessive: two copies show")),
    ("dominant", tr("dominant: one copy shows as two do")),
    ("incomplete", tr("incomplete dominant: a single and a super form")),
    ("series", tr("an allelic series: several alleles of one gene")),
    ("none", tr("nothing that shows by itself")),
)
PLACEMENTS = (
    ("autosome", tr("an ordinary chromosome")),
    ("sex-chromosome", tr("one sex chromosome: one sex has a single copy")),
    ("both-sex-chromosomes", tr("both sex chromosomes")),
)
TAKE_ALLELES_OUT = tr("take the other alleles out first")
NO_SEX_CHROMOSOMES = tr("a species sexed by temperature has no sex chromosomes")
NO_ALLELE_NAME = tr("an allele's name holds no space and no “/”, and is none of + - W X Y Z")
NEVER_HATCHES = tr("never hatches")
ADD_ALLELE, REMOVE_ALLELE = tr("Add an allele"), tr("Take it out")
GENOTYPE_NOTE = tr("Empty: as it would look by itself. A form of its own name can be wanted, named and priced.")
ALLELE_NOTE = tr("The normal allele is written +. Animals that carry one follow a change of its name.")


def linked(gene: str) -> str:
    """Why a linked gene stays where it is."""
    return tr(
        "{gene} is linked with other genes, and those lie on an ordinary chromosome: take it out of its set first",
        gene=gene,
    )


def only_one(other: str) -> str:
    """Why a second gene cannot lie on the sex chromosomes."""
    return tr("{other} lies on the sex chromosomes already, and one gene is the most", other=other)


def is_allele(text: str) -> bool:
    """Whether a text can name an allele."""
    fits = text not in ("", WILD, "-", "W", "X", "Y", "Z")
    return fits and "/" not in text and not any(map(str.isspace, text))


def genotype(pair: Pair, alleles: tuple[str, ...]) -> str:
    """A genotype in words: `No copy looks`, `One copy of t looks`, `t and f together look`."""
    found = tuple(sorted(mutants(pair), key=alleles.index))
    several = len(alleles) > 1
    lone = next((part for part in pair if part in LONE), "")
    end = tr(" (its only one, with {lone})", lone=lone) if lone else ""
    if not found:
        return tr("No copy{end} looks", end=end)
    if len(found) == 1:
        return (
            tr("One copy of {found}{end} looks", found=found[0], end=end)
            if several
            else tr("One copy{end} looks", end=end)
        )
    if found[0] != found[1]:
        return tr("{found} and {found_2} together look", found=found[0], found_2=found[1])
    return tr("Two copies of {found} look", found=found[0]) if several else tr("Two copies look")


def known(note: GeneNote) -> tuple[str, ...]:
    """What is known of a gene, each statement with its source."""
    said = []
    for label, value in ((tr("Passes on"), note.mode), (tr("Place"), note.locus)):
        if value.value is not None:
            trust = "" if value.fact else tr(" Not checked.")
            said.append(
                tr(
                    "{label}: {value}. Source: {source}.{trust}",
                    label=label,
                    value=value.value,
                    source=value.source.rstrip("."),
                    trust=trust,
                )
            )
    said += [tr("{text} Source: {source}.", text=one.text, source=one.source.rstrip(".")) for one in note.welfare]
    return tuple(said)

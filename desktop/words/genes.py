"""Words for genes: how they pass on, where they lie, and their genotypes."""

from __future__ import annotations

from core.plan.gene_notes import GeneNote
from core.plan.genotypes import LONE, WILD, Pair, mutants

PATTERN, PLACEMENT, SHORT_NAME, ALLELES = "How it passes on", "Where it lies", "Short name in the file", "Alleles"
PATTERNS = (
    ("recessive", "recessive: two copies show"),
    ("dominant", "dominant: one copy shows as two do"),
    ("incomplete", "incomplete dominant: a single and a super form"),
    ("series", "an allelic series: several alleles of one gene"),
    ("none", "nothing that shows by itself"),
)
PLACEMENTS = (
    ("autosome", "an ordinary chromosome"),
    ("sex-chromosome", "one sex chromosome: one sex has a single copy"),
    ("both-sex-chromosomes", "both sex chromosomes"),
)
TAKE_ALLELES_OUT = "take the other alleles out first"
NO_SEX_CHROMOSOMES = "a species sexed by temperature has no sex chromosomes"
NO_ALLELE_NAME = "an allele's name holds no space and no “/”, and is none of + - W X Y Z"
NEVER_HATCHES = "never hatches"
ADD_ALLELE, REMOVE_ALLELE = "Add an allele", "Take it out"
GENOTYPE_NOTE = "Empty: as it would look by itself. A form of its own name can be wanted, named and priced."
ALLELE_NOTE = "The normal allele is written +. Animals that carry one follow a change of its name."


def linked(gene: str) -> str:
    """Why a linked gene stays where it is."""
    return f"{gene} is linked with other genes, and those lie on an ordinary chromosome: take it out of its set first"


def only_one(other: str) -> str:
    """Why a second gene cannot lie on the sex chromosomes."""
    return f"{other} lies on the sex chromosomes already, and one gene is the most"


def is_allele(text: str) -> bool:
    """Whether a text can name an allele."""
    fits = text not in ("", WILD, "-", "W", "X", "Y", "Z")
    return fits and "/" not in text and not any(map(str.isspace, text))


def genotype(pair: Pair, alleles: tuple[str, ...]) -> str:
    """A genotype in words: `No copy looks`, `One copy of t looks`, `t and f together look`."""
    found = tuple(sorted(mutants(pair), key=alleles.index))
    several = len(alleles) > 1
    lone = next((part for part in pair if part in LONE), "")
    end = f" (its only one, with {lone})" if lone else ""
    if not found:
        return f"No copy{end} looks"
    if len(found) == 1:
        return f"One copy of {found[0]}{end} looks" if several else f"One copy{end} looks"
    if found[0] != found[1]:
        return f"{found[0]} and {found[1]} together look"
    return f"Two copies of {found[0]} look" if several else "Two copies look"


def known(note: GeneNote) -> tuple[str, ...]:
    """What is known of a gene, each statement with its source."""
    said = []
    for label, value in (("Passes on", note.mode), ("Place", note.locus)):
        if value.value is not None:
            trust = "" if value.fact else " Not checked."
            said.append(f"{label}: {value.value}. Source: {value.source.rstrip('.')}.{trust}")
    said += [f"{one.text} Source: {one.source.rstrip('.')}." for one in note.welfare]
    return tuple(said)

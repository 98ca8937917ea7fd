"""Cautions on genes: lethal genotypes, and health problems that are documented."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from core.advice.caution import Caution, caution_key
from core.advice.wording import share as share_of
from core.explain.naming import pairing_words
from core.explain.numbers import Numbers, laid_words, listed
from core.plan.book import Book
from core.plan.chances import chance
from core.plan.gene_notes import GeneNote, notes_of
from core.plan.genotypes import NORMAL, SEXES, Table, mutants
from core.plan.model import Animal, Carries, Gene, Group, Held, Owned, Plan, Route, Want
from core.routes.per_egg import lethal_by_pairing, lethal_genes_by_pairing
from core.routes.problem import Problem
from core.text import tr

# Rounding of products of chances leaves less than this.
_NOTHING = 1e-12


def lethal_cautions(problem: Problem, numbers: Numbers) -> Iterator[Caution]:
    """Pairings of which some fertile eggs cannot hatch."""
    plan, (_, eggs) = problem.plan, laid_words(problem.plan)
    words = {pairing.id: pairing_words(pairing) for pairing in problem.route.pairings}
    several = {one.id for one in problem.route.pairings if len(one.males) * len(one.females) > 1}
    blamed = lethal_genes_by_pairing(problem)
    live = tr("hatch") if plan.species.young == "eggs" else tr("live")
    spent = tr("laid") if plan.species.young == "eggs" else tr("carried")
    for pairing, share in lethal_by_pairing(problem).items():
        if share is not None and share > _NOTHING:
            about = _about(share, numbers, most=pairing in several)
            genes = listed([gene.name or gene.id for gene in plan.genes if gene.id in blamed[pairing]])
            yield Caution(
                key=caution_key("lethal", problem.route.id, pairing),
                kind="lethal",
                route=problem.route.id,
                short=tr("{about} {eggs} cannot {live}", about=about, eggs=eggs, live=live),
                sentence=tr(
                    "{about} {fertile} of {words} cannot {live}: they get a lethal genotype ({genes}).",
                    about=about,
                    fertile=_fertile(plan),
                    words=words[pairing],
                    live=live,
                    genes=genes,
                ),
                why=tr(
                    "They are {spent} and paid for, and lost. Pairing a carrier to an animal without the gene "
                    "avoids it.",
                    spent=spent,
                ),
            )


def health_cautions(plan: Plan, route: Route) -> Iterator[Caution]:
    """Genes of the route's animals with a documented health problem."""
    notes = notes_of(plan)
    for gene in plan.genes:
        note = notes.get(gene.id)
        if note and note.welfare and any(_may_carry(plan, group, gene) for group in route.groups):
            yield _health(note, route)


def goal_health_cautions(plan: Plan) -> Iterator[Caution]:
    """Goal animals that would have two copies of a gene with a documented health problem, or show it."""
    notes = notes_of(plan)
    tables = Book(plan).tables
    for gene in plan.genes:
        note = notes.get(gene.id)
        rows = [row for row in plan.goal.want if gene.id in row.forms]
        if note and note.welfare and any(_shows(tables[gene.id], row) for row in rows):
            two = all(_two_copies(tables[gene.id], row) for row in rows)
            yield _health_of_goal(gene, note, two=two)


def _fertile(plan: Plan) -> str:
    return tr("fertile eggs") if plan.species.young == "eggs" else tr("young")


def _about(share: float, numbers: Numbers, *, most: bool) -> str:
    """`1 of 4`, `About 7.5 % of the`; `Up to 1 of 4` where it hangs on which of several groups breed."""
    near = Fraction(share).limit_denominator(16)
    if abs(near - share) < _NOTHING:
        part = tr("{numerator} of {denominator}", numerator=near.numerator, denominator=near.denominator)
        return tr("Up to {part}", part=part) if most else part
    told = share_of(share, numbers)
    return tr("Up to {share_of} of the", share_of=told) if most else tr("About {share_of} of the", share_of=told)


def _health(note: GeneNote, route: Route) -> Caution:
    return Caution(
        key=caution_key("health", route.id, note.id),
        kind="health",
        route=route.id,
        short=tr("{name}: health problem", name=note.name),
        sentence=tr("{name} comes with a documented health problem.", name=note.name),
        why=_why(note),
        source="; ".join(welfare.source for welfare in note.welfare),
    )


def _health_of_goal(gene: Gene, note: GeneNote, *, two: bool) -> Caution:
    have = tr("would have two copies of") if two else tr("would show")
    return Caution(
        key=caution_key("health of the goal", gene.id),
        kind="health of the goal",
        route=None,
        short=tr("Goal shows {name}", name=note.name),
        sentence=tr(
            "The animals you want {have} {name}, which comes with a documented health problem.",
            have=have,
            name=note.name,
        ),
        why=_why(note),
        source="; ".join(welfare.source for welfare in note.welfare),
    )


def _why(note: GeneNote) -> str:
    return " ".join((*(welfare.text for welfare in note.welfare), tr("Ask a reptile vet before you breed it.")))


def _shows(table: Table, row: Want) -> bool:
    return row.forms[table.gene.id] != NORMAL and any(mutants(pair) for pair in _pairs(table, row))


def _two_copies(table: Table, row: Want) -> bool:
    """Whether every genotype that looks as the row asks has two mutant copies."""
    return all(len(mutants(pair)) == 2 for pair in _pairs(table, row))


def _pairs(table: Table, row: Want) -> Iterator[tuple[str, str]]:
    sexes = SEXES if row.sex == "any" else (row.sex,)
    asked = row.forms[table.gene.id]
    return (
        pair for sex in sexes for pair in table.pairs(sex) if table.form(pair) == asked and pair not in table.lethal
    )


def _may_carry(plan: Plan, group: Group, gene: Gene) -> bool:
    if isinstance(group, Held):
        return False
    mine = {animal.id: animal for animal in plan.my_animals}
    if isinstance(group, Owned) and group.animals:
        return any(_mine_may_carry(mine, animal, gene) for animal in group.animals)
    return _carries(group.carries or {}, gene)


def _mine_may_carry(mine: Mapping[str, Animal], name: str, gene: Gene) -> bool:
    """Whether an animal of mine, or an ancestor of it, is said to carry the gene."""
    waiting, seen = [name], set[str]()
    while waiting:
        current = waiting.pop()
        if current in seen:
            continue
        seen.add(current)
        animal = mine[current]
        if _carries(animal.carries, gene) or animal.forms.get(gene.id, "normal") != "normal":
            return True
        waiting += [parent for parent in (animal.sire, animal.dam) if parent is not None]
    return False


def _carries(carries: Carries, gene: Gene) -> bool:
    """Whether any genotype said to be possible has a mutant allele of the gene."""
    for key, value in carries.items():
        genes = key.split(" ")
        if gene.id in genes:
            place = genes.index(gene.id) if len(genes) > 1 else 0
            written = [value] if isinstance(value, str) else [one for one, share in value.items() if chance(share) > 0]
            if any(half.split(" ")[place] in gene.alleles for one in written for half in one.split("/")):
                return True
    return False

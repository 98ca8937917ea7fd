"""The words of my animals: what is believed of them, their pedigree, what one more clutch would tell."""

from __future__ import annotations

from core.explain.animals import animal_title, het_name
from core.explain.numbers import is_live
from core.plan.book import Book
from core.plan.model import Animal, Plan
from core.plan.sexes import sex_words
from core.season.believed import Believed, GeneBelief
from core.season.learned import Change
from core.season.telling import Telling
from core.text import tr
from desktop.words.numbers import Numbers, listed, percent

EDIT_ANIMALS = tr("Change my animals")
ANIMALS_NAME = tr("My animals and what they may carry")
PEDIGREE = tr("Pedigree")
WITH = tr("with", "What one more clutch would tell, with a mate")
NO_MATE = tr("There is no animal of the other sex among yours to breed it to.")
AFTER_NORMAL = tr("The chance that it carries the gene, after so many more young that are all normal for it")
YOUNG_HEAD = tr("normal young")
# So many normal young cannot be.
NOT_POSSIBLE = "–"
_SURE = 1e-9


def name_of(animal: Animal) -> str:
    """What an animal is called."""
    return animal.name or animal.id


def named(plan: Plan, id_: str) -> str:
    """The same, by its id."""
    return next((name_of(one) for one in plan.my_animals if one.id == id_), id_)


def short(plan: Plan, one: Believed) -> str:
    """One line: its sex, and what it is taken for."""
    return f"{sex_words(one.animal.sex)}, {animal_title(plan, one.carries)}"


def beliefs_of(plan: Plan, one: Believed, numbers: Numbers) -> tuple[str, ...]:
    """A sentence a gene that is carried or in question; none for what it simply shows."""
    return tuple(text for belief in one.genes if (text := belief_words(plan, belief, numbers)))


def belief_words(plan: Plan, belief: GeneBelief, numbers: Numbers) -> str:
    """`66 % → 20 % het coal after 4 normal young`, `proven het coal`."""
    het = tr("het {het}", het=_het(plan, belief.gene))
    if belief.state == "shows":
        return ""
    if belief.state == "carries":
        return het
    if belief.state == "proven":
        return tr("proven {het} (was {share})", het=het, share=_share(belief.before, numbers))
    if belief.state == "cleared":
        return tr("not {het} (was {share})", het=het, share=_share(belief.before, numbers))
    if abs(belief.before - belief.now) < 0.0005:
        return f"{_share(belief.now, numbers)} {het}"
    after = tr(" after {n} normal young", " after {n} normal young", belief.normal_young) if belief.normal_young else ""
    return f"{_share(belief.before, numbers)} → {_share(belief.now, numbers)} {het}{after}"


def change_words(plan: Plan, change: Change, numbers: Numbers) -> str:
    """`Hazel: 66 % → 20 % het coal`."""
    share = f"{_share(change.before, numbers)} → {_share(change.after, numbers)}"
    sure = tr(", proven") if change.after > 1 - 1e-9 else ""
    return tr(
        "{animal}: {share} het {het}{sure}",
        animal=named(plan, change.animal),
        share=share,
        het=_het(plan, change.gene),
        sure=sure,
    )


def tells(plan: Plan, told: Telling, animal: Animal, mate: Animal, numbers: Numbers) -> str:
    """What one more clutch may settle."""
    het = _het(plan, told.gene)
    chance = percent(told.clutch, numbers)
    clutch = tr("A litter") if is_live(plan) else tr("A clutch")
    after = told.sire_shown if animal.sex == "male" else told.dam_shown
    if told.clutch > 0 and after < 1 - _SURE:
        return tr(
            "{clutch} with {mate} shows a visual {het} in {chance}; one such young would leave {animal} at {share}, as "
            "{mate} may give it that look alone.",
            clutch=clutch,
            mate=name_of(mate),
            het=het,
            chance=chance,
            animal=name_of(animal),
            share=_share(after, numbers),
        )
    return tr(
        "{clutch} with {mate} shows a visual {het} in {chance}; that would prove {animal} het {het}.",
        clutch=clutch,
        mate=name_of(mate),
        het=het,
        chance=chance,
        animal=name_of(animal),
    )


def het_of(plan: Plan, gene: str) -> str:
    """`het coal`."""
    return tr("het {het}", het=_het(plan, gene))


def tells_row(told: Telling, animal: Animal, young: int, numbers: Numbers) -> str:
    """The chance that it carries the gene after so many normal young."""
    chances = told.sire if animal.sex == "male" else told.dam
    if told.visual[young] > 1 - _SURE:
        return NOT_POSSIBLE
    return _share(float(chances[young]), numbers)


def pedigree_told(plan: Plan, animal: Animal) -> str:
    """The pedigree picture for those who do not see it."""
    if animal.sire is None or animal.dam is None:
        parents = tr("its parents are not in this plan")
    else:
        parents = tr("from {sire} and {dam}", sire=named(plan, animal.sire), dam=named(plan, animal.dam))
    young = [name_of(one) for one in plan.my_animals if animal.id in (one.sire, one.dam)]
    after = tr("; parent of {young}", young=listed(young)) if young else ""
    return f"{name_of(animal)}, {sex_words(animal.sex)}, {parents}{after}."


def _share(chance: float, numbers: Numbers) -> str:
    # The trade cuts two thirds to 66.
    cut = int(chance * 100 + 1e-9)
    if 0 < chance < 0.01:
        return tr("under 1 %")
    return f"{numbers.whole(cut)} %"


def _het(plan: Plan, gene: str) -> str:
    table = Book(plan).tables[gene]
    alleles = table.gene.alleles
    # Of a series it is not known which allele it would be.
    return het_name(table, alleles[0]) if len(alleles) == 1 else table.gene.name.lower()

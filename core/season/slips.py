"""Where records cannot be: which single slip in writing them down would explain it."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from core.genetics.beliefs import ImpossibleEvidence, is_possible
from core.genetics.evidence import herd
from core.plan.model import Animal, ClutchRecord, Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr

# Beyond so many other parents nobody would look through the list.
_MOST_PARENTS = 6
_ROLES: dict[Sex, str] = {"male": tr("sire"), "female": tr("dam")}

# Booth and others 2011 found young without a father in a boa; sperm kept over seasons is told from memory.
UNUSUAL = tr(
    "Where none of these fits: in some species a female can keep sperm of an earlier male, and "
    "a few have had young without a male (Booth and others 2011, Biology Letters, doi "
    "10.1098/rsbl.2010.0793)."
)


def likely_slips(plan: Plan, error: ImpossibleEvidence) -> tuple[str, ...]:
    """Sentences on every single change to the record or animal at fault that makes the records possible."""
    kind, number = error.where
    if kind == "clutch_records":
        return (*_clutch_slips(plan, number), UNUSUAL)
    return tuple(_animal_slips(plan, number))


def _clutch_slips(plan: Plan, number: int) -> Iterator[str]:
    record = plan.clutch_records[number]
    parents: tuple[tuple[str, str, Sex], ...] = (("sire", record.sire, "male"), ("dam", record.dam, "female"))
    for role, now, sex in parents:
        others = [one for one in plan.my_animals if one.sex == sex and one.id != now]
        fits = [
            one for one in others if is_possible(_with(plan, number, msgspec.structs.replace(record, **{role: one.id})))
        ]
        if fits:
            yield tr(
                "It could be if the {role} was {others}, not {name}.",
                role=_ROLES[sex],
                others=_or([_name(one) for one in fits]),
                name=_name_of(plan, now),
            )
    for place, row in enumerate(record.young):
        if row.sex != "any" and is_possible(_with(plan, number, _row(record, place, sex="any"))):
            yield tr(
                "It could be if {n} young were sexed wrongly ({sex}).",
                "It could be if {n} young was sexed wrongly ({sex}).",
                row.count,
                sex=sex_words(row.sex),
            )
        for gene, form in row.forms.items():
            kept = {other: seen for other, seen in row.forms.items() if other != gene}
            if is_possible(_with(plan, number, _row(record, place, forms=kept))):
                yield tr(
                    "It could be if {n} young taken for {form} were something else.",
                    "It could be if {n} young taken for {form} was something else.",
                    row.count,
                    form=form,
                )


def _animal_slips(plan: Plan, number: int) -> Iterator[str]:
    animal = plan.my_animals[number]
    for gene, form in animal.forms.items():
        kept = {other: seen for other, seen in animal.forms.items() if other != gene}
        if is_possible(_with_animal(plan, number, msgspec.structs.replace(animal, forms=kept))):
            yield tr("It could be if {name} was taken for {form} and is something else.", name=_name(animal), form=form)
    if animal.sire is not None and animal.dam is not None:
        parents: tuple[tuple[str, str, Sex], ...] = (("sire", animal.sire, "male"), ("dam", animal.dam, "female"))
        for role, now, sex in parents:
            others = [one for one in plan.my_animals if one.sex == sex and one.id not in (now, animal.id)]
            fits = [one for one in others if _other_parent(plan, number, role, one)]
            if fits:
                yield tr(
                    "It could be if its {role} was {others}, not {name}.",
                    role=_ROLES[sex],
                    others=_or([_name(one) for one in fits]),
                    name=_name_of(plan, now),
                )


def _other_parent(plan: Plan, number: int, role: str, parent: Animal) -> bool:
    """Whether the animal could be this one's young; its own descendants cannot be asked."""
    try:
        return is_possible(
            _with_animal(plan, number, msgspec.structs.replace(plan.my_animals[number], **{role: parent.id}))
        )
    except ValueError:
        return False


def _with(plan: Plan, number: int, record: ClutchRecord) -> Plan:
    records = tuple(record if i == number else one for i, one in enumerate(plan.clutch_records[: number + 1]))
    return msgspec.structs.replace(plan, clutch_records=records)


def _with_animal(plan: Plan, number: int, animal: Animal) -> Plan:
    """The plan up to this animal; how those look that come after it has no say, as it may be at fault itself."""
    animals = tuple(animal if i == number else one for i, one in enumerate(plan.my_animals))
    known = herd(msgspec.structs.replace(plan, my_animals=animals))
    last = known.place[animal.id]
    animals = tuple(one if known.place[one.id] <= last else msgspec.structs.replace(one, forms={}) for one in animals)
    return msgspec.structs.replace(plan, my_animals=animals, clutch_records=())


def _row(record: ClutchRecord, place: int, **change: object) -> ClutchRecord:
    rows = tuple(msgspec.structs.replace(row, **change) if i == place else row for i, row in enumerate(record.young))
    return msgspec.structs.replace(record, young=rows)


def _name_of(plan: Plan, name: str) -> str:
    return next((_name(one) for one in plan.my_animals if one.id == name), name)


def _name(animal: Animal) -> str:
    return animal.name or animal.id


def _or(names: list[str]) -> str:
    shown = names[:_MOST_PARENTS]
    last = shown.pop() if len(names) == len(shown) else tr("another")
    return tr("{shown} or {last}", shown=", ".join(shown), last=last) if shown else last

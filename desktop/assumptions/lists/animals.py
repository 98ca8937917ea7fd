"""My animals: what each is, whose young it is, what it carries and what was seen of it."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from core.explain.carrying import with_sex
from core.plan.model import Animal, Plan
from core.plan.places import with_value
from core.plan.removals import animal_users
from core.plan.renames import rename_animal
from core.plan.sexes import sex_words
from core.text import tr
from desktop.assumptions.ids import free_id
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.forms.kinds import Id, Panel, Words, fixed
from desktop.forms.table import Field, Form, Line
from desktop.words import assumptions as words
from desktop.words.animals import of_mine
from desktop.words.goal import SEX_WORDS
from desktop.words.numbers import Numbers

_ONE = tr("an animal of mine")


def _with_sex(plan: Plan, row: int, sex: Any) -> Plan:
    animal = plan.my_animals[row]
    changed = replace(animal, sex=sex, carries=with_sex(plan, animal.carries, sex))
    return with_value(plan, f"my_animals[{row}]", changed)


def _with_parents(plan: Plan, row: int, parents: tuple[str, str] | None) -> Plan:
    """With parents an animal inherits; what it was said to carry goes."""
    animal = plan.my_animals[row]
    sire, dam = parents or (None, None)
    carries = animal.carries if parents is None else {}
    return with_value(plan, f"my_animals[{row}]", replace(animal, sire=sire, dam=dam, carries=carries))


def _has_no_parents(plan: Plan, row: int) -> bool:
    return plan.my_animals[row].sire is None


FORMS = (
    Form(
        "",
        (
            Line(
                (
                    Field("my_animals[].name", tr("Name"), Words(empty=""), before=tr("Called"),
                          hint=tr("no name yet")),
                    Field("my_animals[].sex", tr("Sex"), fixed(*((sex, SEX_WORDS[sex]) for sex in ("male", "female"))),
                          before=tr("a", "a male"),
                          put=_with_sex),
                ),
            ),
            Line(
                (Field("my_animals[].sire", tr("Sire and dam"), Panel("parents"), put=_with_parents,
                       covers=("my_animals[].dam",)),),
                help=tr("With both parents known here, what it carries follows from them and from every clutch "
"recorded."),
            ),
        ),
    ),
    Form(
        tr("What it carries"),
        (Line((Field("my_animals[].carries", tr("What it carries"), Panel("carries")),)),),
        when=_has_no_parents,
    ),
    Form(
        tr("What was seen of it"),
        (Line((Field("my_animals[].forms", tr("How it looks"), Panel("forms")),),
              help=tr("What it looks like tells what it can carry. Leave “any” where nobody has looked.")),),
    ),
    Form(
        tr("In the file"),
        (Line((Field("my_animals[].id", tr("Short name in the file"), Id(), before=tr("Short name"),
                     put=rename_animal),),
              help=tr("Routes, clutch records and its young go by it; all of them follow.")),),
    ),
)  # fmt: skip


def _title(plan: Plan, row: int, _numbers: Numbers) -> str:
    animal = plan.my_animals[row]
    return animal.name or animal.id


def _note(plan: Plan, row: int, _numbers: Numbers) -> str:
    animal = plan.my_animals[row]
    if animal.sire is not None and animal.dam is not None:
        names = {one.id: one.name or one.id for one in plan.my_animals}
        sire, dam = names.get(animal.sire, animal.sire), names.get(animal.dam, animal.dam)
        return tr("{sex}, from {sire} × {dam}", sex=sex_words(animal.sex), sire=sire, dam=dam)
    return f"{sex_words(animal.sex)}, {of_mine(plan, animal)}"


def _add(plan: Plan) -> Plan:
    new = Animal(id=free_id("mine", (one.id for one in plan.my_animals)), sex="female")
    return replace(plan, my_animals=(*plan.my_animals, new))


def _adding(_plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("An animal"), words.added(_ONE), _add),)


def _remove(plan: Plan, row: int) -> Removal:
    # Beliefs take time to load, which a look at the list should not cost.
    from core.season.orphans import without_parent

    animal = plan.my_animals[row]
    users = animal_users(plan, animal.id)
    also = words.used_animal(animal.name or animal.id, words.users(plan, users)) if users.is_used else ""
    return Removal(without_parent(plan, animal.id), also)


def _entries(plan: Plan) -> int:
    return len(plan.my_animals)


MINE = Listing(
    place="my_animals",
    name=tr("My animals"),
    one=_ONE,
    empty=tr("None of your animals is here yet. Add one, or paste a whole list."),
    entries=_entries,
    title=_title,
    note=_note,
    adding=_adding,
    remove=_remove,
    forms=FORMS,
    pasted="mine",
)

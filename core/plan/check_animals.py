"""What animals for sale, my animals and their clutch records must mean."""

from __future__ import annotations

from core.plan.book import Book, check_unique
from core.plan.check_carries import check_carries
from core.plan.faults import Faults, at, quote
from core.plan.model import Animal, Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr


def check_animals(plan: Plan, book: Book, faults: Faults) -> None:
    """Check ids, genotypes, parents and what was seen."""
    check_unique((offer.id for offer in plan.for_sale), lambda i: f"for_sale[{i}].id", faults)
    for i, offer in enumerate(plan.for_sale):
        check_carries(f"for_sale[{i}].carries", offer.carries, offer.sex, book, faults)
    check_unique((animal.id for animal in plan.my_animals), lambda i: f"my_animals[{i}].id", faults)
    herd = Herd(plan)
    for i, animal in enumerate(plan.my_animals):
        _check_animal(animal, at("my_animals", i), book, herd, faults)
    _check_ancestors(plan, faults)
    for i, record in enumerate(plan.clutch_records):
        place = at("clutch_records", i)
        herd.check(record.sire, "male", f"{place}.sire", faults)
        herd.check(record.dam, "female", f"{place}.dam", faults)
        for j, young in enumerate(record.young):
            book.check_forms(f"{place}.young[{j}].forms", young.forms, young.sex, faults)


class Herd:
    """My animals looked up by id; of doubled ids the first counts."""

    def __init__(self, plan: Plan) -> None:
        self._index = {animal.id: i for i, animal in reversed([*enumerate(plan.my_animals)])}
        self._animals = plan.my_animals

    def check(self, name: str, sex: Sex, place: str, faults: Faults, *needs: str) -> None:
        """Check that an id names one of my animals, of the sex that its place asks for."""
        i = self._index.get(name)
        if i is None:
            known = tuple(f"my_animals[{j}].id" for j in range(len(self._animals))) or ("my_animals",)
            faults.meaning(
                place,
                tr("my_animals lists no {name}{suggest}", name=quote(name), suggest=faults.suggest(name, self._index)),
                *known,
            )
        elif self._animals[i].sex != sex:
            message = tr(
                "must be {sex}, yet {name} is {other}",
                sex=sex_words(sex),
                name=quote(name),
                other=sex_words(self._animals[i].sex),
            )
            faults.meaning(place, message, f"my_animals[{i}].sex", f"my_animals[{i}].id", *needs)


def _check_animal(animal: Animal, place: str, book: Book, herd: Herd, faults: Faults) -> None:
    if animal.sire is not None:
        herd.check(animal.sire, "male", f"{place}.sire", faults)
    if animal.dam is not None:
        herd.check(animal.dam, "female", f"{place}.dam", faults)
    if (animal.sire is None) != (animal.dam is None):
        missing, given = ("sire", "dam") if animal.sire is None else ("dam", "sire")
        message = tr("is missing: sire and dam come together or not at all")
        faults.meaning(f"{place}.{missing}", message, f"{place}.{given}")
    if animal.sire is None and animal.dam is None:
        check_carries(f"{place}.carries", animal.carries, animal.sex, book, faults)
    elif animal.carries:
        message = tr("must be left out: an animal with sire and dam inherits its genes")
        faults.meaning(f"{place}.carries", message, f"{place}.sire", f"{place}.dam")
    book.check_forms(f"{place}.forms", animal.forms, animal.sex, faults)


def _check_ancestors(plan: Plan, faults: Faults) -> None:
    """Find animals that descend from themselves, one fault for each way round that is found."""
    parents = {animal.id: [p for p in (animal.sire, animal.dam) if p is not None] for animal in plan.my_animals}
    places = {animal.id: at("my_animals", i) for i, animal in reversed([*enumerate(plan.my_animals)])}
    done: set[str] = set()
    for start in parents:
        line = [start]
        while line:
            young = line[-1]
            parent = next((p for p in parents[young] if p in parents and p not in done), None)
            if parent is None:
                done.add(line.pop())
            elif parent in line:
                way = (f"{places[one]}.{key}" for one in line[line.index(parent) :] for key in ("id", "sire", "dam"))
                faults.meaning(places[parent], tr("{parent} is its own ancestor", parent=quote(parent)), *way)
                done.update(line)
                line.clear()
            else:
                line.append(parent)

"""Settled lines become rows of what is for sale, or animals of mine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from core.paste.parts import Line
from core.plan.model import Animal, ForSale, Plan


def add_for_sale(plan: Plan, lines: Iterable[Line]) -> Plan:
    """Give the plan with a row for each settled line; the others are left where they are."""
    ids = _free_ids("sale", {row.id for row in plan.for_sale})
    rows = [_row(line, next(ids)) for line in lines if line.settled]
    return replace(plan, for_sale=(*plan.for_sale, *rows))


def add_my_animals(plan: Plan, lines: Iterable[Line]) -> Plan:
    """Give the plan with an animal for each one that the settled lines count."""
    ids = _free_ids("mine", {animal.id for animal in plan.my_animals})
    settled = [line for line in lines if line.settled]
    animals = [_animal(line, next(ids)) for line in settled for _ in range(line.quantity)]
    return replace(plan, my_animals=(*plan.my_animals, *animals))


def _free_ids(stem: str, taken: set[str]) -> Iterator[str]:
    number = 0
    while True:
        number += 1
        if f"{stem}-{number}" not in taken:
            yield f"{stem}-{number}"


def _row(line: Line, new: str) -> ForSale:
    if line.sex is None or line.carries is None or line.price is None:
        raise ValueError(f"{line.text!r} is not settled for a sale")
    price = int(line.price) if line.price == int(line.price) else line.price
    return ForSale(
        id=new,
        sex=line.sex,
        carries=line.carries,
        price=price,
        label=line.label,
        ready_in=line.ready_in,
        quantity=line.quantity,
    )


def _animal(line: Line, new: str) -> Animal:
    if line.sex is None or line.carries is None:
        raise ValueError(f"{line.text!r} is not settled")
    return Animal(id=new, sex=line.sex, name=line.label, carries=line.carries)

"""What can be bought."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from core.explain.carrying import with_sex
from core.plan.model import ForSale, Plan
from core.plan.places import with_value
from core.plan.sexes import sex_words
from core.text import tr
from desktop.assumptions.ids import free_id
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.forms.kinds import Choice, Id, Money, Panel, Whole, Words
from desktop.forms.table import Field, Form, Line
from desktop.words import assumptions as words
from desktop.words.animals import animal_title
from desktop.words.numbers import Numbers, in_currency, price

_ONE = tr("an animal for sale")


def _with_sex(plan: Plan, row: int, sex: Any) -> Plan:
    offer = plan.for_sale[row]
    return with_value(plan, f"for_sale[{row}]", replace(offer, sex=sex, carries=with_sex(plan, offer.carries, sex)))


def _sexes(plan: Plan, row: int) -> tuple[tuple[Any, str], ...]:
    """`4 females at`, `1 male at`: in as many words as there are animals."""
    many = plan.for_sale[row].quantity
    return ("male", sex_words("male", many)), ("female", sex_words("female", many))


FORMS = (
    Form(
        "",
        (
            Line((Field("for_sale[].label", tr("What the list calls it"), Words(empty=""), before=tr("Called"),
                        hint=tr("no name of its own")),)),
            Line(
                (
                    Field("for_sale[].quantity", tr("How many there are"), Whole()),
                    Field("for_sale[].sex", tr("Sex"), Choice(_sexes), put=_with_sex),
                    Field("for_sale[].price", tr("Price of each"), Money(), before=tr("at"),
                          unit=tr("{currency} each")),
                ),
            ),
            Line(
                (Field("for_sale[].ready_in", tr("Seasons until it can breed"), Whole(), before=tr("Breeder-size in"),
                       unit=tr("season|seasons")),),
                help=tr("0: it can breed in the season it is bought."),
            ),
        ),
    ),
    Form(tr("What it carries"), (Line((Field("for_sale[].carries", tr("What it carries"), Panel("carries")),)),)),
    Form(tr("In the file"),
         (Line((Field("for_sale[].id", tr("Short name in the file"), Id(), before=tr("Short name")),)),)),
)  # fmt: skip


def _title(plan: Plan, row: int, _numbers: Numbers) -> str:
    offer = plan.for_sale[row]
    return offer.label or animal_title(plan, offer.carries)


def _note(plan: Plan, row: int, numbers: Numbers) -> str:
    offer = plan.for_sale[row]
    told = f"{words.sexed(offer.sex, offer.quantity)}, {in_currency(price(offer.price, numbers), plan)}"
    # Without a name of its own it is called by what it carries already.
    return f"{told}, {animal_title(plan, offer.carries)}" if offer.label else told


def _add(plan: Plan) -> Plan:
    new = ForSale(id=free_id("sale", (one.id for one in plan.for_sale)), sex="female", carries={}, price=0)
    return replace(plan, for_sale=(*plan.for_sale, new))


def _adding(_plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("An animal"), words.added(_ONE), _add),)


def _remove(plan: Plan, row: int) -> Removal:
    return Removal(replace(plan, for_sale=(*plan.for_sale[:row], *plan.for_sale[row + 1 :])))


def _entries(plan: Plan) -> int:
    return len(plan.for_sale)


SALE = Listing(
    place="for_sale",
    name=tr("What is for sale"),
    one=_ONE,
    empty=tr("Nothing is for sale yet. Add an animal, or paste a whole list."),
    entries=_entries,
    title=_title,
    note=_note,
    adding=_adding,
    remove=_remove,
    forms=FORMS,
    pasted="for sale",
    weighed=True,
)

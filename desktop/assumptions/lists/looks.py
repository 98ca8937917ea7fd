"""Lists about how animals look: trade names, prices of surplus young, and what is wanted."""

from __future__ import annotations

from msgspec.structs import replace

from core.plan.model import Combination, Forms, Plan, SurplusPrice
from core.plan.sexes import sex_words
from core.text import tr
from desktop.assumptions.listing import Adding, Listing, Removal
from desktop.forms.goal_fields import COUNT, SEX, with_row, without_row
from desktop.forms.kinds import Money, Panel, Words, fixed
from desktop.forms.table import Field, Form, Line
from desktop.words import assumptions as words
from desktop.words import goal as goal_words
from desktop.words.animals import form_words
from desktop.words.numbers import Numbers, in_currency, price

_ANY_SEX = fixed(("any", tr("either sex")), ("male", sex_words("male", 2)), ("female", sex_words("female", 2)))


def _first_look(plan: Plan) -> Forms:
    """What the goal asks for first: a look that is there."""
    return dict(plan.goal.want[0].forms)


def _name(plan: Plan, row: int, _numbers: Numbers) -> str:
    return plan.combinations[row].name


def _named_look(plan: Plan, row: int, _numbers: Numbers) -> str:
    return form_words(plan, plan.combinations[row].forms)


def _add_name(plan: Plan) -> Plan:
    new = Combination(name=tr("new name"), forms=_first_look(plan))
    return replace(plan, combinations=(*plan.combinations, new))


def _adding_name(_plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("A trade name"), words.added(tr("a trade name")), _add_name),)


def _remove_name(plan: Plan, row: int) -> Removal:
    return Removal(replace(plan, combinations=(*plan.combinations[:row], *plan.combinations[row + 1 :])))


def _names(plan: Plan) -> int:
    return len(plan.combinations)


COMBINATIONS = Listing(
    place="combinations",
    name=tr("Combinations"),
    one=tr("a trade name"),
    empty=tr("No combination has a name of its own yet. A trade name stands for forms that are seen together."),
    entries=_names,
    title=_name,
    note=_named_look,
    adding=_adding_name,
    remove=_remove_name,
    forms=(
        Form("", (Line((Field("combinations[].name", tr("Trade name"), Words(), before=tr("Called")),)),)),
        Form(
            tr("Forms seen together"),
            (Line((Field("combinations[].forms", tr("Forms seen together"), Panel("plain forms")),)),),
        ),
    ),
)


def _priced(plan: Plan, row: int, numbers: Numbers) -> str:
    return in_currency(price(plan.costs.surplus[row].price, numbers), plan)


def _priced_look(plan: Plan, row: int, _numbers: Numbers) -> str:
    surplus = plan.costs.surplus[row]
    sex = {"any": tr("either sex"), "male": sex_words("male", 2), "female": sex_words("female", 2)}[surplus.sex]
    return f"{words.young_like(form_words(plan, surplus.forms), surplus.forms)}, {sex}"


def _add_price(plan: Plan) -> Plan:
    # The first row that fits counts, so one for any young stays last.
    surplus = (*plan.costs.surplus, SurplusPrice(price=0))
    return replace(plan, costs=replace(plan.costs, surplus=surplus))


def _adding_price(_plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("A price"), words.added(tr("a surplus price")), _add_price),)


def _remove_price(plan: Plan, row: int) -> Removal:
    surplus = (*plan.costs.surplus[:row], *plan.costs.surplus[row + 1 :])
    return Removal(replace(plan, costs=replace(plan.costs, surplus=surplus)))


def _prices(plan: Plan) -> int:
    return len(plan.costs.surplus)


SURPLUS = Listing(
    place="costs.surplus",
    name=tr("Surplus prices"),
    one=tr("a surplus price"),
    empty=tr("Surplus young bring nothing yet. Add what a young that you do not keep could be sold for."),
    entries=_prices,
    title=_priced,
    note=_priced_look,
    adding=_adding_price,
    remove=_remove_price,
    ordered=True,
    forms=(
        Form(
            "",
            (
                Line(
                    (
                        Field("costs.surplus[].price", tr("Price of a surplus young"), Money(), before=tr("Worth"),
                              unit="{currency}"),
                        Field("costs.surplus[].sex", tr("Sex of the young"), _ANY_SEX, before=tr("each, for")),
                    ),
                    help=tr("A young is worth the first price in the list that it fits, and nothing if it fits none."),
                ),
            ),
        ),
        Form(tr("Which young"), (Line((Field("costs.surplus[].forms", tr("Which young"), Panel("forms")),)),)),
    ),
)  # fmt: skip


def _wanted(plan: Plan, row: int, numbers: Numbers) -> str:
    return goal_words.row_text(plan, plan.goal.want[row], numbers)


def _wanted_note(plan: Plan, row: int, _numbers: Numbers) -> str:
    return words.FILLED_FIRST if row == 0 and len(plan.goal.want) > 1 else ""


def _adding_row(_plan: Plan) -> tuple[Adding, ...]:
    return (Adding(tr("Another animal"), goal_words.ADD_STEP, with_row),)


def _remove_row(plan: Plan, row: int) -> Removal:
    never = words.LAST_WANTED if len(plan.goal.want) == 1 else ""
    return Removal(without_row(plan, row), never=never)


def _rows(plan: Plan) -> int:
    return len(plan.goal.want)


WANTED = Listing(
    place="goal.want",
    name=tr("Animals you want"),
    one=tr("an animal wanted"),
    empty="",
    entries=_rows,
    title=_wanted,
    note=_wanted_note,
    adding=_adding_row,
    remove=_remove_row,
    ordered=True,
    forms=(
        Form("", (Line((COUNT, SEX), help=tr("A young counts for the first row that it fits and that is not full.")),)),
        Form(tr("How they look"), (Line((Field("goal.want[].forms", goal_words.FORMS_NAME, Panel("forms")),)),)),
    ),
)  # fmt: skip

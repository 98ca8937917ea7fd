"""The comparison as it goes to paper: everything that stands on it, as text and pictures; no Qt."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import msgspec

from core.advice.caution import Caution
from core.advice.standing import HYGIENE, LAW, ODDS, VET
from core.counter.card import clutch_words
from core.explain.numbers import Numbers, is_live, percent, sum_of_money
from core.plan.model import Plan
from core.routes.prepare import biology
from core.text import tr
from desktop.exports.tables import Table
from desktop.findings import Finding, Verdict
from desktop.panels.charts.series import Picture
from desktop.panels.routes.columns import CAUTIONS, CHANCE, COLUMNS, WITH_BUDGET, Column, head
from desktop.words import exports as words
from desktop.words.answer import answer
from desktop.words.charts import by_eggs
from desktop.words.goal import as_text
from desktop.words.runs import plain

# Columns of the page, by their heads in the list; what a page has no room for stands in the table as a file.
_ON_PAGE = (tr("Route"), tr("Set aside"), tr("Up front"), tr("With"), tr("By season"), tr("Eggs"), tr("Surplus young"))


class RouteRow(msgspec.Struct, frozen=True):
    """A route's row: the number of its mark, its figures, and whether it is the cheapest or out of date."""

    mark: int
    cells: tuple[str, ...]
    is_cheapest: bool


class ComparisonSheet(msgspec.Struct, frozen=True, eq=False):
    """What stands on the page, from top to bottom."""

    title: str
    date: str
    goal: str
    head: str
    lead: str
    heads: tuple[str, ...]
    rows: tuple[RouteRow, ...]
    money: Picture
    by_eggs: str
    eggs: Picture
    notes: tuple[str, ...]
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    promise: str
    always: tuple[str, ...]


def route_table(plan: Plan, found: Sequence[Finding], cautions: Callable[[Finding], str], numbers: Numbers) -> Table:
    """Every column of the route list, also those there is no room for on screen."""
    kept = [column for column in COLUMNS if column is not WITH_BUDGET or plan.goal.budget is not None]
    heads = tuple(head(plan, column, numbers) for column in kept)
    rows = tuple(
        tuple(cautions(one) if column is CAUTIONS else _cell(plan, one, column, numbers) for column in kept)
        for one in found
    )
    return Table(heads, rows)


def comparison_sheet(
    plan: Plan,
    found: tuple[Finding, ...],
    decided: Verdict,
    pictures: tuple[Picture, Picture],
    cautions: Sequence[Caution],
    numbers: Numbers,
    date: str,
) -> ComparisonSheet:
    """The page for the routes in `found`, in that order; `date`: today, as the reader writes it."""
    said = answer(plan, found, decided, numbers)
    columns = [column for column in COLUMNS if column.head in _ON_PAGE or column is CHANCE]
    money, eggs = pictures
    return ComparisonSheet(
        title=plan.title or words.UNNAMED,
        date=date,
        goal=f"{as_text(plan, numbers)}.",
        head=plain(said.head),
        lead=said.lead,
        heads=tuple(head(plan, column, numbers) for column in columns),
        rows=tuple(
            RouteRow(
                one.mark,
                tuple(_on_page(plan, one, column, numbers) for column in columns),
                one.id == decided.winner,
            )
            for one in found
        ),
        money=money,
        by_eggs=by_eggs(plan),
        eggs=eggs,
        notes=tuple(dict.fromkeys((*money.notes, *eggs.notes))),
        assumptions=assumptions(plan, numbers),
        cautions=tuple(dict.fromkeys(f"{one.sentence}" for one in cautions)),
        promise=ODDS.sentence,
        always=(LAW.sentence, VET.sentence, HYGIENE.sentence),
    )


def assumptions(plan: Plan, numbers: Numbers) -> tuple[str, ...]:
    """What the figures rest on, a sentence each."""
    known, costs, matures = biology(plan.species), plan.costs, plan.species.matures
    kept = percent(known.reaches, numbers)
    laid, lives = (words.PER_BORN, words.PER_LIVING) if is_live(plan) else (words.PER_EGG, words.PER_YOUNG)
    money = (
        (costs.setup, words.SETUP), (costs.keep_adult, words.KEEP_ADULT), (costs.keep_young, words.KEEP_YOUNG),
        (costs.per_egg, laid), (costs.per_young, lives),
    )  # fmt: skip
    told = ", ".join(f"{text} {sum_of_money(float(sum_), numbers)}" for sum_, text in money if sum_)
    return (
        f"{plan.species.name}. {clutch_words(plan, numbers)}",
        words.females(percent(known.lays * known.works["female"], numbers)),
        words.growing(matures.male, matures.female, kept),
        words.costs(told, plan.currency) if told else words.NO_COSTS,
        *([words.first_line(plan.notes)] if plan.notes.strip() else []),
    )


def _on_page(plan: Plan, one: Finding, column: Column, numbers: Numbers) -> str:
    """As in the list, where what is over the budget is in words beside its colour."""
    text = column.text(plan, one, numbers)
    note = column.note(plan, one, numbers) if column.note is not None and column.note_left else ""
    return f"{note} {text}" if note else text


def _cell(plan: Plan, one: Finding, column: Column, numbers: Numbers) -> str:
    text = column.text(plan, one, numbers)
    note = column.note(plan, one, numbers) if column.note is not None else ""
    return f"{text} ({note})" if note else text

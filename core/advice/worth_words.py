"""Worth paying in words: what a lot is called, whether to buy it, and what stands against it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from core.advice.worth import Reason, Worth
from core.advice.worth_lots import Lot
from core.advice.worth_options import Option
from core.explain.animals import animal_title
from core.explain.naming import id_words
from core.explain.numbers import Numbers, of_100, price, sum_of_money
from core.plan.chances import chance
from core.plan.model import Plan

# Sums from here on are told whole.
_WHOLE_FROM = 100
_UNPRICED: dict[Reason, str] = {
    "only": "yes, nothing else gets there",
    "late": "yes, at any price",
    "dearer": "no, not even as a gift",
    "never": "no, no plan with it gets there",
    "untried": "not tried",
}


def lot_words(plan: Plan, lot: Lot) -> str:
    """What the list calls it, else what it carries: `Double het female`."""
    if lot.label:
        return lot.label
    title = animal_title(plan, lot.carries)
    return f"{title[:1].upper()}{title[1:]} {lot.sex}"


def option_words(plan: Plan, lots: Sequence[Lot], option: Option, *, quoted: bool = False) -> str:
    """A plan by its name: `Double hets`, `Double hets, with Lavender male as sire`, `buying the finished animal`."""
    if option.origin == "outright":
        return finished_words(plan)
    name = f"“{option.route.name}”" if quoted else option.route.name
    if option.swap is None:
        return name
    group, place = option.swap
    return f"{name}, with {lot_words(plan, lots[place])} as {id_words(group)}"


def finished_words(plan: Plan) -> str:
    """Buying what is wanted ready-made."""
    one = sum(row.count for row in plan.goal.want) == 1
    return "buying the finished animal" if one else "buying the finished animals"


def most_words(row: Worth, numbers: Numbers) -> str:
    """The most to pay for one, rounded down so that it stays within; `110 to 130` where simulated; nothing for none."""
    if row.span is not None:
        low, high = (paying(end, numbers) for end in row.span)
        return low if low == high else f"{low} to {high}"
    return "" if row.most is None else paying(row.most, numbers)


def paying(value: float, numbers: Numbers) -> str:
    """A price to pay at most: whole, or with cents where they matter."""
    return price(_down(value), numbers)


def verdict_words(row: Worth, numbers: Numbers) -> str:
    """Whether to buy it at what is asked, in a few words: `yes, 89 under what it is worth to you`."""
    if row.useless and row.most is None:
        return "only for another goal"
    if row.most is None:
        return _UNPRICED.get(row.reason, "")
    if row.verdict == "close":
        return "too close to call"
    apart = _down(row.most) - row.lot.asked
    if abs(apart) < 0.005:
        return "yes, just what it is worth to you"
    sum_ = price(abs(apart), numbers)
    return f"yes, {sum_} under what it is worth to you" if apart > 0 else f"no, {sum_} over what it is worth to you"


def reason_words(plan: Plan, lots: Sequence[Lot], row: Worth, numbers: Numbers) -> str:
    """Why, in one or two sentences, with the best other plan by its name and sum."""
    name = lot_words(plan, row.lot)
    if row.useless and row.most is None:
        return f"{name} carries nothing of what you want here."
    if row.reason == "never":
        return f"No plan that was tried with it reaches {_goal_words(plan)}."
    if row.reason == "untried":
        return f"{name} fits into no plan that was compared."
    if row.reason == "only":
        return f"Only plans with it reach {_goal_words(plan)}, so nothing here bounds its price. A budget would."
    with_it = _with_it(plan, lots, row, numbers)
    if row.reason == "late":
        return f"{with_it} {_goal_words(plan, capital=True)} are there before it has to be paid for."
    if row.reason == "budget":
        above = most_words(row, numbers)
        return f"{with_it} No other plan reaches {_goal_words(plan)}; above {above} your budget is too small."
    against = f"{_capital(_other(plan, lots, row))} takes {sum_of_money(row.limit or 0, numbers)}"
    if row.reason == "dearer":
        return f"{with_it} {against}, less than that even without its price."
    each = "each " if row.many > 1 else ""
    return f"{with_it} {against}: above {most_words(row, numbers)} {each}it is cheaper."


def _with_it(plan: Plan, lots: Sequence[Lot], row: Worth, numbers: Numbers) -> str:
    assert row.plan is not None
    bought = f", buying {row.many} of them," if row.many > 1 else ""
    sum_ = sum_of_money(row.money or 0, numbers)
    return f"The best plan with it{bought} is {option_words(plan, lots, row.plan, quoted=True)}: set aside {sum_}."


def _other(plan: Plan, lots: Sequence[Lot], row: Worth) -> str:
    return option_words(plan, lots, row.other, quoted=True) if row.other else "the budget"


def _goal_words(plan: Plan, *, capital: bool = False) -> str:
    people = f"{of_100(chance(plan.goal.chance))} of 100"
    seasons = plan.goal.seasons
    words = f"the goal for {people} within {seasons} {'season' if seasons == 1 else 'seasons'}"
    return f"{people} people" if capital else words


def _down(value: float) -> float:
    return math.floor(value + 1e-6) if value >= _WHOLE_FROM else math.floor(value * 100 + 1e-6) / 100


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

"""Worth paying in words: what a lot is called, whether to buy it, and what stands against it."""

from __future__ import annotations

from collections.abc import Sequence

from core.advice.worth import Reason, Worth
from core.advice.worth_lots import Lot
from core.advice.worth_options import Option
from core.explain.animals import animal_title
from core.explain.naming import id_words
from core.explain.numbers import Numbers, asked_of_100, price, sum_of_money, told_below
from core.plan.chances import chance
from core.plan.model import Plan
from core.plan.sexes import sex_words
from core.text import tr

_UNPRICED: dict[Reason, str] = {
    "only": tr("yes, nothing else gets there"),
    "late": tr("any price: not paid for by then"),
    "dearer": tr("no, not even as a gift"),
    "never": tr("no, no plan with it gets there"),
    "untried": tr("not tried"),
}


def lot_words(plan: Plan, lot: Lot) -> str:
    """What the list calls it, with its sex where both are called so; else what it carries: `Double het female`."""
    if lot.label:
        both = any(one.label == lot.label and one.sex != lot.sex for one in plan.for_sale)
        return tr("{label} ({sex})", label=lot.label, sex=sex_words(lot.sex)) if both else lot.label
    title = animal_title(plan, lot.carries)
    return f"{title[:1].upper()}{title[1:]} {sex_words(lot.sex)}"


def option_words(plan: Plan, lots: Sequence[Lot], option: Option, *, quoted: bool = False) -> str:
    """A plan by its name: `Double hets`, `Double hets, with Lavender male as sire`, `buying the finished animal`."""
    if option.origin == "outright":
        return finished_words(plan)
    name = f"“{option.route.called}”" if quoted else option.route.called
    if option.swap is None:
        return name
    group, place = option.swap
    return tr(
        "{name}, with {lot_words} as {group}", name=name, lot_words=lot_words(plan, lots[place]), group=id_words(group)
    )


def finished_words(plan: Plan) -> str:
    """Buying what is wanted ready-made."""
    one = sum(row.count for row in plan.goal.want) == 1
    return tr("buying the finished animal") if one else tr("buying the finished animals")


def most_words(row: Worth, numbers: Numbers) -> str:
    """The most to pay for one, rounded down so that it stays within; `110 to 130` where simulated; nothing for none."""
    if row.span is not None:
        low, high = (paying(end, numbers) for end in row.span)
        return low if low == high else tr("{low} to {high}", low=low, high=high)
    return "" if row.most is None else paying(row.most, numbers)


def paying(value: float, numbers: Numbers) -> str:
    """A price to pay at most: whole, or with cents where they matter."""
    return price(told_below(value), numbers)


def verdict_words(row: Worth, numbers: Numbers) -> str:
    """Whether to buy it at what is asked, in a few words: `yes, 89 under what it is worth to you`."""
    if row.useless and row.most is None:
        return tr("only for another goal")
    if row.most is None:
        return _UNPRICED.get(row.reason, "")
    if row.verdict == "close":
        return tr("too close to call")
    apart = told_below(row.most) - row.lot.asked
    if abs(apart) < 0.005:
        return tr("yes, just what it is worth to you")
    sum_ = price(abs(apart), numbers)
    return (
        tr("yes, {sum} under what it is worth to you", sum=sum_)
        if apart > 0
        else tr("no, {sum} over what it is worth to you", sum=sum_)
    )


def reason_words(plan: Plan, lots: Sequence[Lot], row: Worth, numbers: Numbers) -> str:
    """Why, in one or two sentences, with the best other plan by its name and sum."""
    name = lot_words(plan, row.lot)
    if row.useless and row.most is None:
        return tr("{name} carries nothing of what you want here.", name=name)
    if row.reason == "never":
        return tr("No plan that was tried with it reaches {goal_words}.", goal_words=_goal_words(plan, numbers))
    if row.reason == "untried":
        return tr("{name} fits into no plan that was compared.", name=name)
    if row.reason == "only":
        return tr(
            "Only plans with it reach {goal_words}, so nothing here bounds its price. A budget would.",
            goal_words=_goal_words(plan, numbers),
        )
    with_it = _with_it(plan, lots, row, numbers)
    if row.reason == "late":
        return tr(
            "{with_it} {goal_words} are there before it has to be paid for.",
            with_it=with_it,
            goal_words=_goal_words(plan, numbers, capital=True),
        )
    if row.reason == "budget":
        above = most_words(row, numbers)
        return tr(
            "{with_it} No other plan reaches {goal_words}; above {above} your budget is too small.",
            with_it=with_it,
            goal_words=_goal_words(plan, numbers),
            above=above,
        )
    against = tr(
        "{other} takes {limit}", other=_capital(_other(plan, lots, row)), limit=sum_of_money(row.limit or 0, numbers)
    )
    if row.reason == "dearer":
        return tr("{with_it} {against}, less than that even without its price.", with_it=with_it, against=against)
    each = tr("each ") if row.many > 1 else ""
    return tr(
        "{with_it} {against}: above {most_words} {each}it is cheaper.",
        with_it=with_it,
        against=against,
        most_words=most_words(row, numbers),
        each=each,
    )


def _with_it(plan: Plan, lots: Sequence[Lot], row: Worth, numbers: Numbers) -> str:
    assert row.plan is not None
    bought = tr(", buying {many} of them,", many=row.many) if row.many > 1 else ""
    sum_ = sum_of_money(row.money or 0, numbers)
    return tr(
        "The best plan with it{bought} is {option_words}: set aside {sum}.",
        bought=bought,
        option_words=option_words(plan, lots, row.plan, quoted=True),
        sum=sum_,
    )


def _other(plan: Plan, lots: Sequence[Lot], row: Worth) -> str:
    return option_words(plan, lots, row.other, quoted=True) if row.other else tr("the budget")


def _goal_words(plan: Plan, numbers: Numbers, *, capital: bool = False) -> str:
    people = tr("{of_100} of 100", of_100=asked_of_100(chance(plan.goal.chance), numbers))
    seasons = plan.goal.seasons
    words = tr(
        "the goal for {people} within {n} seasons", "the goal for {people} within {n} season", seasons, people=people
    )
    return tr("{people} people", people=people) if capital else words


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

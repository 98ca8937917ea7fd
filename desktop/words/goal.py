"""The goal as one sentence."""

from __future__ import annotations

from core.plan.model import Plan, Want
from core.text import tr
from desktop.words.animals import form_words
from desktop.words.numbers import Numbers, asked_of_100, price
from desktop.words.runs import Run, Runs, strong

I_WANT, SURE_WITHIN, FOR_AT_MOST, ANY_SUM = tr("I want"), tr("% sure, within"), tr("for at most"), tr("any sum")
SEX_WORDS = {"any": tr("any sex"), "female": tr("female"), "male": tr("male")}
SEX_NAME, FORMS_NAME = tr("Which sex you want"), tr("How they look")
NOT_KNOWN = tr("not known")
IN_SEASON_1, LATER = tr("in season 1; the price changes by"), tr("% each season after.")
AND = tr("and")
ADD_ROW, ADD_STEP, LEAVE_OUT_STEP = tr("And another…"), tr("want another animal"), tr("leave out an animal wanted")

_SEX = {"male": (tr("male "), tr("males ")), "female": (tr("female "), tr("females ")), "any": ("", "")}


def goal_sentence(plan: Plan, numbers: Numbers) -> Runs:
    """`I want 1 female amel + lavender visual, 80 % sure, within 7 seasons, for at most 1,800 USD`."""
    goal = plan.goal
    runs = [Run(tr("I want "))]
    for place, want in enumerate(goal.want):
        runs += [Run(tr(" and "))] if place else []
        runs += _wanted(plan, want, numbers)
    runs += [Run(", "), strong(_sure(float_chance(goal.chance), numbers)), Run(tr(" % sure, within "))]
    runs += [strong(numbers.whole(goal.seasons)), Run(tr(" seasons", " season", goal.seasons))]
    if goal.budget is not None:
        runs += [Run(tr(", for at most ")), strong(price(goal.budget, numbers)), Run(f" {plan.currency}".rstrip())]
    return tuple(runs)


def bought(plan: Plan) -> str:
    """What stands before the price of the finished animals; it is for all of them."""
    return tr("Bought finished they cost together", "Bought finished it costs", how_many(plan))


def how_many(plan: Plan) -> int:
    """How many animals are wanted."""
    return sum(want.count for want in plan.goal.want)


def asked(plan: Plan, numbers: Numbers) -> str:
    """The chance that was asked for, as the goal has it: `80 %`, `99.9 %`."""
    return tr("{number} %", number=_sure(float_chance(plan.goal.chance), numbers))


def as_text(plan: Plan, numbers: Numbers) -> str:
    """The sentence without its emphasis."""
    return "".join(run.text for run in goal_sentence(plan, numbers))


def row_text(plan: Plan, want: Want, numbers: Numbers) -> str:
    """One row of the goal: `1 female amel visual`."""
    return "".join(run.text for run in _wanted(plan, want, numbers))


def row_words(plan: Plan, want: Want) -> str:
    """How the animals of one row look."""
    return form_words(plan, want.forms)


def wanted_words(plan: Plan, numbers: Numbers) -> str:
    """What is wanted: the first row without its count and sex, and any further rows whole."""
    first, *others = plan.goal.want
    further = ("".join(run.text for run in _wanted(plan, want, numbers)) for want in others)
    return tr(" and ").join([form_words(plan, first.forms), *further])


def seasons_word(seasons: int) -> str:
    """The word behind the number of seasons."""
    return tr("seasons,", "season,", seasons)


def float_chance(chance: float | str) -> float:
    """A chance of the plan as a number."""
    if isinstance(chance, str):
        top, _, bottom = chance.partition("/")
        return float(top) / float(bottom or 1)
    return float(chance)


def _wanted(plan: Plan, want: Want, numbers: Numbers) -> list[Run]:
    one, many = _SEX[want.sex]
    sex = one if want.count == 1 else many
    shown = [strong(numbers.whole(want.count)), Run(" "), strong(f"{sex}{form_words(plan, want.forms)}")]
    return shown if sex else [*shown, Run(tr(" of any sex"))]


def _sure(chance: float, numbers: Numbers) -> str:
    return asked_of_100(chance, numbers)

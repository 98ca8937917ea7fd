"""The goal's fields: one row a field, for the goal line and for the page of plan assumptions."""

from __future__ import annotations

from core.plan.model import Plan, Want
from core.plan.places import value_at, with_value
from core.text import tr
from desktop.forms.kinds import Money, Panel, Share, Whole, fixed
from desktop.forms.table import Field
from desktop.words import goal as words

COUNT = Field("goal.want[].count", tr("How many animals you want"), Whole())
SEX = Field(
    "goal.want[].sex",
    words.SEX_NAME,
    fixed(*((sex, words.SEX_WORDS[sex]) for sex in ("any", "female", "male"))),
)
FORMS = Field("goal.want[].forms", words.FORMS_NAME, Panel("forms"))
SURE = Field("goal.chance", tr("How sure you want to be, in percent"), Share())
SEASONS = Field("goal.seasons", tr("Within how many seasons"), Whole())
BUDGET = Field("goal.budget", tr("The most money you have; empty for no limit"), Money(empty=words.ANY_SUM))
HOUSING = Field(
    "goal.housing", tr("The most animals you can house; empty for no limit"), Whole(empty=tr("any number of"))
)
OUTRIGHT = Field("goal.outright_price", tr("What they cost bought finished"), Money(empty=words.NOT_KNOWN))
CHANGE = Field("goal.outright_change", tr("How that price changes each season, in percent"), Share())


def with_row(plan: Plan) -> Plan:
    """The plan with one more row wanted, like the last one."""
    last = plan.goal.want[-1]
    return with_value(plan, "goal.want", (*plan.goal.want, Want(forms=last.forms, sex=last.sex)))


def without_row(plan: Plan, row: int) -> Plan:
    """The plan with one row wanted less."""
    want = value_at(plan, "goal.want")
    return with_value(plan, "goal.want", (*want[:row], *want[row + 1 :]))

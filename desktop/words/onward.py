"""The words of what next: the ways on from today, best first, and when to stop."""

from __future__ import annotations

from collections.abc import Sequence

from core.explain.animals import animal_title
from core.explain.numbers import is_live
from core.plan.model import Plan
from core.season.next_steps import NextStep
from core.season.stopping import MOST_YOUNG
from core.text import tr
from desktop.words.carry_on import GO
from desktop.words.goal import asked, how_many
from desktop.words.my_animals import named
from desktop.words.numbers import Numbers, listed, of_100, percent, sum_of_money

NEXT_HEAD = tr("From today, with")
WAYS, RULES = tr("Ways on, best first"), tr("When to stop")
RULES_PLAYED = tr("This route is simulated; when to stop is only worked out for routes that are answered exactly.")
WAY, NEEDS, BY_SEASON, NO_SEASON = tr("Way"), tr("still to set aside"), tr("by season"), "–"
RULE_NOTE = tr("Each rule was found by adding so many normal young to the records and working both ways out anew.")


def no_rules(plan: Plan, in_doubt: Sequence[str]) -> str:
    """Why nobody is to be moved on: nothing is open, or going on costs nothing even if it stays so."""
    if not in_doubt:
        return tr("Nothing is in doubt about your females that a few more normal young by your males would settle.")
    return tr(
        "Even after {most} more normal young, going on with {names} would be no worse than without.",
        most=MOST_YOUNG,
        names=listed([named(plan, female) for female in in_doubt]),
    )


def way_words(plan: Plan, step: NextStep) -> str:
    """A way on."""
    if step.way == "carry on":
        return tr("Carry on as planned")
    if step.way == "drop":
        return tr("Go on without {about}", about=named(plan, step.about))
    if step.way == "buy":
        wanted = how_many(plan)
        return tr("Buy the finished animals", "Buy the finished animal", wanted)
    offer = next((one for one in plan.for_sale if one.id == step.about), None)
    label = offer.label or animal_title(plan, offer.carries) if offer else step.about
    return tr("Add a male ({label})", label=label)


def way_needs(step: NextStep, numbers: Numbers) -> str:
    """The money still to set aside, or that it does not get there."""
    return tr("does not get there") if step.to_goal is None else sum_of_money(step.to_goal.money, numbers)


def chance_head(plan: Plan) -> str:
    """The head over the chances of the ways."""
    return tr("chance by season {seasons}", seasons=plan.goal.seasons)


def best_way(plan: Plan, steps: Sequence[NextStep], numbers: Numbers) -> str:
    """The first of the ways as a sentence."""
    best = steps[0]
    way = way_words(plan, best)
    if best.to_goal is None:
        goal = asked(plan, numbers)
        return tr(
            "No way on reaches {goal}. Closest: {way}, {chance}.",
            goal=goal,
            way=way,
            chance=percent(best.chance, numbers),
        )
    money = sum_of_money(best.to_goal.money, numbers)
    people = of_100(best.to_goal.chance)
    return tr(
        "{way}: set aside {money} from today. That is enough for {people} of 100, by season {season}.",
        way=way,
        money=money,
        people=people,
        season=best.to_goal.season,
    )


def begun(plan: Plan) -> str:
    """That a season of the plan has its clutches already, though all of them count as still to come; else empty."""
    last = max((record.season for record in plan.clutch_records), default=0)
    if last < 1:
        return ""
    seasons = tr("all {n} seasons count", "the one season counts", plan.goal.seasons)
    return tr(
        "{clutch} of season {last} is recorded, yet {seasons} as still to come here: “{go}” begins the plan after it.",
        clutch=tr("A litter") if is_live(plan) else tr("A clutch"),
        last=last,
        seasons=seasons,
        go=GO,
    )

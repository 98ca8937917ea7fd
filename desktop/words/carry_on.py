"""The words of carrying on from here: what has gone by, which young were kept, and what it does."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan.chances import chance
from core.plan.model import Held, Plan
from core.plan.sexes import sex_words
from core.text import tr
from desktop.words.labels import spent_apart
from desktop.words.numbers import Numbers, in_currency, listed, sum_of_money

SPENT_NAME, PASSED_NAME = tr("Money spent since the plan began"), tr("Seasons gone by")
HELD_HEAD = tr("Young held back so far")
NO_HELD = tr("This route holds no young back.")
GO = tr("Carry on from here")
GOES = tr(
    "What was bought becomes yours, with what is believed of it; the plan begins anew today. "
    "You can undo it like any other change."
)
CARRY_HEAD = tr("Carry on with")
NO_SEASONS_LEFT = tr("There must be seasons left to carry on in: the goal has only one.")
NO_SUM = tr("Money is a number that is not negative.")
ONE_MORE_KEPT, ONE_LESS_KEPT = tr("Add one"), tr("One less")
KEPT_A, FROM_SEASON, BY, CALLED, NO_NAME = (
    tr("one,"),
    tr("of season"),
    tr("by"),
    tr("called"),
    tr("no name yet"),
)
KEPT_LOOK, KEPT_SEASON, KEPT_SIRE, KEPT_DAM, KEPT_NAME = (
    tr("How the young looks"), tr("Season it is from"), tr("Its sire"), tr("Its dam"), tr("Its name"),
)  # fmt: skip
STEP_CARRIED = tr("carrying on from here")


def carried(names: Sequence[str], seasons: int) -> str:
    """Who becomes mine, and how long is left."""
    left = tr("{n} seasons are left.", "{n} season is left.", seasons)
    if not names:
        return tr("No further animal becomes yours by it. {left}", left=_cap(left))
    become = tr("become", "becomes", len(names))
    return tr("{names} {become} yours. {left}", names=listed(list(names)), become=become, left=_cap(left))


def carried_on(route: str, told: str, after: Plan, numbers: Numbers) -> str:
    """That it was done, and what stands differently now; `told`: who became mine, and how long is left."""
    done = tr("Carried on with “{route}”.", route=route)
    return " ".join(filter(None, (done, told, spent_apart(after, numbers))))


def held_words(held: Held, many: int) -> str:
    """A hold group and how many of its places are taken."""
    return tr("{id}: {many} of {count}, {sex}", id=held.id, many=many, count=held.count, sex=sex_words(held.sex))


def gone_by(seasons: int) -> str:
    """What stands between the seasons gone by and their cost."""
    return tr("seasons have gone by, and they cost", "season has gone by, and it cost", seasons)


def spent_unit(plan: Plan) -> str:
    """What stands after the money spent."""
    return f"{plan.currency}."


def spent_guess(guess: float | None, seasons: int, plan: Plan, numbers: Numbers) -> str:
    """What the plan expected to be spent by now."""
    if guess is None:
        return ""
    return tr(
        "On average the route costs {guess} by the end of season {seasons}.",
        guess=in_currency(sum_of_money(guess, numbers), plan),
        seasons=seasons,
    )


def goes(plan: Plan, *, kept: bool) -> str:
    """What carrying on does, and what a plan that begins today cannot know; `kept`: whether any young are."""
    told = [GOES]
    many = sum(row.count for row in plan.goal.want)
    if many > 1:
        told.append(tr("The goal still asks for all {n} animals: take off those that you have.", n=many))
    if kept and chance(plan.species.reaches_breeding) < 1:
        told.append(tr("Young kept so far are taken to grow up and breed for sure."))
    return " ".join(told)


def cannot(reason: str) -> str:
    """Why it is not possible to carry on like this."""
    return f"{_cap(reason.rstrip('.'))}."


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]

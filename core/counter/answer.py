"""What is said at the counter of two animals: a row for each look, and the chances of the look aimed at."""

from __future__ import annotations

from dataclasses import dataclass

from core.counter.card import Parent, Row, look_rows
from core.counter.pair import Hatch, Pair
from core.plan.genotypes import NORMAL
from core.plan.model import AnySex, Forms, Plan

CLUTCHES = 4


@dataclass(frozen=True)
class Goal:
    """A look aimed at; genes that are not named may look as they like."""

    forms: Forms
    sex: AnySex = "any"


@dataclass(frozen=True)
class Answer:
    """`rows` and `looks` go together, the commonest first; `chances`: one at least in 1, 2 .. `CLUTCHES` clutches."""

    rows: tuple[Row, ...]
    looks: tuple[Hatch, ...]
    goal: Goal
    chances: tuple[float, ...]


def answer(plan: Plan, male: Parent, female: Parent, goal: Goal | None = None) -> Answer:
    """What the two give. Without a goal the plan's own counts where it can come, else the rarest look that shows.

    Raises ValueError where too much is only possible.
    """
    pair = Pair(plan, male.carries, female.carries)
    aim = goal or _goal_of(plan, pair)
    return Answer(
        rows=look_rows(plan, pair, aim.forms, aim.sex),
        looks=pair.hatches,
        goal=aim,
        chances=pair.at_least_one(aim.forms, CLUTCHES, aim.sex),
    )


def goals(plan: Plan) -> tuple[Goal, ...]:
    """Looks to choose from: what the plan wants, its combinations, and every form by itself."""
    named = [
        *(want.forms for want in plan.goal.want),
        *(one.forms for one in plan.combinations),
        *({gene.id: form} for gene in plan.genes for form in dict.fromkeys(gene.forms.values())),
    ]
    shown = [{gene: form for gene, form in forms.items() if form != NORMAL} for forms in named]
    found: list[Goal] = []
    for forms in shown:
        if forms and Goal(forms) not in found:
            found.append(Goal(forms))
    return tuple(found)


def _goal_of(plan: Plan, pair: Pair) -> Goal:
    for want in plan.goal.want:
        if pair.share(want.forms) > 0:
            return Goal(want.forms)
    shown = [one for one in pair.hatches if any(form != NORMAL for form in one.forms.values())]
    rarest = min(shown or pair.hatches, key=_share, default=None)
    return Goal({}) if rarest is None else Goal(rarest.forms, rarest.sex)


def _share(one: Hatch) -> float:
    return one.share

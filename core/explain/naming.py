"""Who and what a sentence is about, in the plan's own names."""

from __future__ import annotations

from core.explain.animals import form_words
from core.genetics.young import Condition
from core.plan.model import Group, Pairing, Plan, Sex
from core.plan.sexes import sex_words
from core.routes.calendar import Animal
from core.routes.problem import Problem
from core.text import tr

YOUNG: dict[Sex, str] = {"female": tr("daughter"), "male": tr("son")}


def id_words(name: str) -> str:
    """An id as it is read: `double-hets` is `double hets`."""
    return name.replace("-", " ").replace("_", " ")


def pairing_words(pairing: Pairing) -> str:
    """`sire × daughters`, of the groups that come first."""
    return f"{id_words(pairing.males[0])} × {id_words(pairing.females[0])}"


def member_words(problem: Problem, who: Animal) -> str:
    """One animal of a group: by its own name, as `one of the dams`, or by its sex where it is alone."""
    herd, group = problem.herds[who.herd], problem.route.groups[who.herd]
    if herd.named:
        return _own_name(problem.plan, problem.named[herd.named[who.place]])
    return tr("one of the {id}", id=id_words(group.id)) if herd.count > 1 else tr("the {sex}", sex=sex_words(herd.sex))


def group_words(group: Group) -> str:
    """A group by its name."""
    return id_words(group.id)


def condition_words(plan: Plan, condition: Condition) -> str:
    """`female amel + lavender visual`, `amel visual`, `any female`."""
    if not condition.forms:
        return {"female": tr("any female"), "male": tr("any male"), "any": tr("any young")}[condition.sex]
    words = form_words(plan, condition.forms)
    return words if condition.sex == "any" else f"{sex_words(condition.sex)} {words}"


def _own_name(plan: Plan, name: str) -> str:
    return next((own.name or own.id for own in plan.my_animals if own.id == name), name)

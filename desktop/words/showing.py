"""Words for choosing how an animal is to look."""

from __future__ import annotations

from core.explain.animals import form_name
from core.explain.showing import FormRow
from core.plan.model import Combination, Forms, Plan
from core.text import tr
from desktop.words.animals import form_words

COMBINATIONS, COMBINATIONS_NOTE = tr("Trade names"), tr("forms seen together")
ANY = tr("any")
ANY_NOTE = tr("any: how it looks there does not count")
NO_GENES = tr("This plan has no genes yet: add them in Plan assumptions.")
NO_COMBINATION = tr("none of these")
DONE, LEAVE_OUT = tr("Done"), tr("Leave these out")
# More trade names than this are too many to look through as choices.
MOST_COMBINATIONS = 30


def option_labels(row: FormRow) -> tuple[str, ...]:
    """The choices of one gene: any, then its forms."""
    return (ANY, *map(form_name, row.forms))


def combination_labels(combinations: tuple[Combination, ...]) -> tuple[str, ...]:
    """The trade names to choose from."""
    return (NO_COMBINATION, *(one.name for one in combinations))


def condition(plan: Plan, forms: Forms) -> str:
    """How the animals look, with a trade name where there is one: `opal (amel + lavender visual)`."""
    said = form_words(plan, forms)
    name = next((one.name for one in plan.combinations if one.forms == forms and forms), None)
    return f"{name} ({said})" if name else said

"""What an animal carries, in the trade's words; the words themselves are shared with every explanation."""

from __future__ import annotations

from core.explain.animals import HET, animal, animal_title, form_words, het_name
from core.plan.model import Animal, Plan
from core.text import tr

__all__ = ["HET", "animal", "animal_title", "form_words", "het_name", "of_mine"]


def of_mine(plan: Plan, one: Animal) -> str:
    """What an animal of mine was said to carry when it came, and that its young may have told more since."""
    what = animal_title(plan, one.carries)
    parents = {(pair.sire, pair.dam) for pair in plan.clutch_records} | {(own.sire, own.dam) for own in plan.my_animals}
    has_young = any(one.id in pair for pair in parents)
    is_open = any(not isinstance(entry, str) for entry in one.carries.values())
    return tr("{what} before its young", what=what) if has_young and is_open else what

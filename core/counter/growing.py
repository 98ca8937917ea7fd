"""When animals for sale and their young can breed: a season is a year."""

from __future__ import annotations

from core.explain.numbers import counted
from core.plan.model import Plan, Sex


def breeds_in(plan: Plan, sex: Sex, year: int) -> int:
    """The year in which a hatchling of `year` can first breed."""
    return year + (plan.species.matures.male if sex == "male" else plan.species.matures.female)


def pair_words(year: int, ready_in: int) -> str:
    """When the pair can breed: `This pair can breed in 2031.`; `ready_in`: seasons until the later one is grown."""
    if not ready_in:
        return "This pair can breed this year."
    return f"This pair can breed in {year + ready_in}, after {counted(ready_in, 'season', 'seasons')} of growing."


def hatchling_words(plan: Plan, year: int) -> str:
    """When a hatchling of that year can breed."""
    males, females = breeds_in(plan, "male", year), breeds_in(plan, "female", year)
    if males == females:
        return f"A hatchling of {year} can breed in {males}."
    return f"A male hatched in {year} can breed in {males}, a female in {females}."

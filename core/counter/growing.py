"""When animals for sale and their young can breed: a season is a year."""

from __future__ import annotations

from core.explain.numbers import is_live
from core.plan.model import Plan, Sex
from core.text import tr


def breeds_in(plan: Plan, sex: Sex, year: int) -> int:
    """The year in which a hatchling of `year` can first breed."""
    return year + (plan.species.matures.male if sex == "male" else plan.species.matures.female)


def pair_words(year: int, ready_in: int) -> str:
    """When the pair can breed: `This pair can breed in 2031.`; `ready_in`: seasons until the later one is grown."""
    if not ready_in:
        return tr("This pair can breed this year.")
    return tr(
        "This pair can breed in {year}, after {n} seasons of growing.",
        "This pair can breed in {year}, after {n} season of growing.",
        ready_in,
        year=year + ready_in,
    )


def hatchling_words(plan: Plan, year: int) -> str:
    """When a hatchling of that year can breed."""
    males, females = breeds_in(plan, "male", year), breeds_in(plan, "female", year)
    if is_live(plan):
        return _born(year, males, females)
    if males == females:
        return tr("A hatchling of {year} can breed in {males}.", year=year, males=males)
    return tr(
        "A male hatched in {year} can breed in {males}, a female in {females}.", year=year, males=males, females=females
    )


def _born(year: int, males: int, females: int) -> str:
    if males == females:
        return tr("Young born in {year} can breed in {males}.", year=year, males=males)
    return tr(
        "A male born in {year} can breed in {males}, a female in {females}.", year=year, males=males, females=females
    )

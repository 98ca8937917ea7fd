"""A caution on risks that a plan leaves out: its chances are then a ceiling."""

from __future__ import annotations

from collections.abc import Iterator

from core.advice.caution import Caution, caution_key
from core.explain.numbers import listed
from core.plan.chances import chance
from core.plan.model import Held, Plan
from core.text import tr


def ideal_cautions(plan: Plan) -> Iterator[Caution]:
    """One caution for the whole plan, naming each risk that stands at its ideal value."""
    left_out = list(ideal_risks(plan))
    if left_out:
        yield Caution(
            key=caution_key("ideal risks"),
            kind="ideal risks",
            route=None,
            short=tr("Chances are a ceiling"),
            sentence=tr("The plan counts on it that {left_out}. Its chances are a ceiling.", left_out=listed(left_out)),
            why=tr(
                "Each of these is at its ideal value in the plan's assumptions. Real ones lower the chance "
                "and raise the money; put in what you know from your own animals."
            ),
        )


def ideal_risks(plan: Plan) -> Iterator[str]:
    """What goes without saying in this plan, in words; losses of young held back only where a route holds back."""
    species = plan.species
    if chance(species.lays) == 1:
        yield tr("every female lays every season")
    if chance(species.clutch_lost) == 0:
        yield tr("no clutch is lost")
    if chance(species.fertile) == 1 and species.young == "eggs":
        yield tr("there are no slugs")
    elif chance(species.fertile) == 1:
        yield tr("there are no unfertilised young")
    if chance(species.hatches) == 1:
        yield tr("every fertile egg hatches") if species.young == "eggs" else tr("every young is born alive")
    if chance(species.breeds.male) == 1 and chance(species.breeds.female) == 1:
        yield tr("every animal breeds")
    elif chance(species.breeds.male) == 1:
        yield tr("every male breeds")
    elif chance(species.breeds.female) == 1:
        yield tr("every female breeds")
    holds = any(isinstance(group, Held) for route in plan.routes for group in route.groups)
    if holds and chance(species.reaches_breeding) == 1:
        yield tr("no young held back is lost")

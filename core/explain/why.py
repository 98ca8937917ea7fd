"""Everything that explains one route's chance, worked out together."""

from __future__ import annotations

from collections.abc import Generator
from dataclasses import dataclass

from core.explain.crosses import Cross, Parent, crosses, fruitless, unused
from core.explain.filled import filled
from core.explain.fractions import fraction_text, share_words
from core.explain.ladder import Known, Ladder, ladder_steps, truth_steps
from core.explain.legend import legend
from core.explain.misses import Misses, all_miss
from core.explain.numbers import PLAIN, Numbers
from core.explain.people import People, people
from core.explain.trap import Trap, traps
from core.explain.truths import Truth, applying, with_truths
from core.plan.model import Plan, Route
from core.routes.prepare import prepare
from core.routes.result import RouteResult
from core.text import tr


@dataclass(frozen=True, eq=False)
class Why:
    """One route's chance by a season: the crosses, the textbook's arithmetic, the trap, the ladder and the people.

    idle: pairings in which nobody ever breeds; fruitless: those that give nothing of use. `crosses` is empty where
    nothing is bred.
    """

    season: int
    crosses: tuple[Cross, ...]
    idle: tuple[str, ...]
    fruitless: tuple[str, ...]
    legend: tuple[str, ...]
    misses: tuple[Misses, ...]
    traps: tuple[Trap, ...]
    ladder: Ladder
    people: People


def why_steps(
    plan: Plan,
    route: Route,
    result: RouteResult,
    season: int,
    *,
    from_end: bool = False,
    known: Known | None = None,
    numbers: Numbers = PLAIN,
) -> Generator[float, None, Why]:
    """Explain a route at its counts as drawn by the end of a season; yields the share of the work done.

    result: its answer. known: as for `ladder_steps`. numbers: how to write.
    Raises what `prepare` raises.
    """
    found: Known = {} if known is None else known
    ladder = yield from ladder_steps(plan, route, result, from_end=from_end, known=found)
    one = frozenset[Truth]({"genotypes"})
    textbook, true = with_truths(plan, route, ()), with_truths(plan, route, one)
    if one & applying(plan, route) and one not in found:
        found[one] = yield from truth_steps(plan, route, one)
    right = found[one & applying(plan, route)][0][season - 1]
    problem = prepare(plan, route, crowded=True)
    bred = crosses(problem, true)
    return Why(
        season=season,
        crosses=bred,
        idle=unused(problem, filled(problem)),
        fruitless=fruitless(true, bred),
        legend=legend(plan, bred, numbers),
        misses=all_miss(textbook, season, numbers) if bred else (),
        traps=traps(true, textbook, season, float(right), float(ladder.textbook[season - 1]), numbers),
        ladder=ladder,
        people=people(ladder, season),
    )


def season_to_explain(plan: Plan, route: Route) -> int:
    """The season a ladder is about at first: the horizon, or the last one bred in where the route then buys."""
    if route.pairings and route.buy_outright is not None and route.buy_outright > 1:
        return route.buy_outright - 1
    return plan.goal.seasons


def cross_title(cross: Cross) -> str:
    """`sire × daughters: amel + lavender visual`, and whether that is to be held back."""
    back = tr(", to hold back") if cross.purpose == "hold" else ""
    return f"{cross.words}: {cross.wanted}{back}"


def product_text(cross: Cross, numbers: Numbers = PLAIN) -> str:
    """`1/2 × 1/4 = 1/8`."""
    factors = [fraction_text(factor.chance, numbers) for factor in cross.factors] or ["1"]
    result = fraction_text(cross.per_egg, numbers)
    return result if len(factors) == 1 else f"{' × '.join(factors)} = {result}"


def factor_words(cross: Cross) -> str:
    """`amel × lavender × female`: what the fractions of the product stand for."""
    return " × ".join(factor.words for factor in cross.factors) or tr("any")


def average_sentence(cross: Cross, numbers: Numbers = PLAIN) -> str:
    """What the textbook writes where parents may or may not carry what is needed; empty where they surely do."""
    unsure = [parent for parent in (cross.sire, cross.dam) if not parent.is_sure]
    if not unsure:
        return ""
    who = _if_it_carries(unsure[0]) if len(unsure) == 1 else _if_both_carry(cross)
    return tr(
        "{who}. Averaged over all of them, the textbook writes {fraction_text} for each.",
        who=who,
        fraction_text=fraction_text(cross.average, numbers),
    )


def _if_it_carries(parent: Parent) -> str:
    words, chance = parent.words, share_words(parent.chance)
    if parent.alone:
        return tr(
            "That is if {words} carries what is needed, which has a chance of {chance}", words=words, chance=chance
        )
    return tr(
        "That is if {words} carries all that the grids show, which has a chance of {chance}; with less it gives fewer",
        words=words,
        chance=chance,
    )


def _if_both_carry(cross: Cross) -> str:
    sire, dam = cross.sire.words, cross.dam.words
    chances = tr(" and ").join(share_words(parent.chance) for parent in (cross.sire, cross.dam))
    if cross.sire.alone and cross.dam.alone:
        return tr(
            "That is if both {sire} and {dam} carry what is needed: chances of {chances}",
            sire=sire,
            dam=dam,
            chances=chances,
        )
    return tr(
        "That is if both {sire} and {dam} carry all that the grids show: chances of {chances}; with less they give "
        "fewer",
        sire=sire,
        dam=dam,
        chances=chances,
    )


def nothing_bred_sentence(route: Route) -> str:
    """What stands in place of the crosses where no pair ever breeds."""
    if route.buy_outright is not None:
        bought = tr("the finished animals are bought in season {buy_outright}", buy_outright=route.buy_outright)
        return tr("Nothing is bred: {bought}, so nothing is left to chance.", bought=bought)
    return tr("No male and female are ever breeder-size together on this route, so nothing is bred.")

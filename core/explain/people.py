"""One hundred people who try it: how many reach the goal, and why the others miss."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from core.explain.ladder import Ladder
from core.explain.numbers import listed, of_100
from core.explain.truths import Truth
from core.text import tr

Cause = Truth | Literal["luck", "never"]

_CAUSES: dict[Cause, str] = {
    "luck": tr("plain bad luck with the young"),
    "never": tr("it cannot give what is wanted by then"),
    "genotypes": tr("animals that did not carry what was needed"),
    "sizes": tr("small clutches"),
    "laying": tr("females that did not lay"),
    "losses": tr("clutches, eggs or young lost"),
    "breeders": tr("animals that never bred"),
    "holding": tr("too few of the right young to hold back, or young lost"),
    "waiting": tr("out of time, after growing"),
}


@dataclass(frozen=True)
class People:
    """Out of 100: `reached`, and the others by cause, largest first; `small` causes cost less than one of them."""

    reached: int
    missed: tuple[tuple[Cause, int], ...]
    small: tuple[Cause, ...]


def people(ladder: Ladder, season: int) -> People:
    """The hundred people by the end of a season, their misses shared out in the ladder's order.

    A rung that adds to the chance takes its part from all causes alike.
    """
    reached = of_100(ladder.told(season))
    textbook = float(ladder.textbook[season - 1])
    costs: dict[Cause, float] = {"luck" if textbook or reached else "never": 1 - textbook}
    costs |= {rung.truth: -rung.points(season) / 100 for rung in ladder.rungs if rung.applies}
    costs = {cause: cost for cause, cost in costs.items() if cost > 1e-12}
    if not costs and reached < 100:
        costs = {"luck": 1.0}
    shares = _whole(costs, 100 - reached)
    missed = sorted(((cause, many) for cause, many in shares.items() if many), key=lambda one: -one[1])
    return People(reached, tuple(missed), tuple(cause for cause, many in shares.items() if not many))


def cause_words(cause: Cause) -> str:
    """What made someone miss, as a list names it."""
    return _CAUSES[cause]


def people_sentence(found: People) -> str:
    """`About 62 of 100 people who try this reach the goal.`; what the plan leaves out may still go wrong."""
    if found.reached == 100:
        return tr("As the plan has it, 100 of 100 people who try this reach the goal.")
    if found.reached == 0:
        return tr("As the plan has it, none of 100 people who try this reaches the goal.")
    return tr(
        "About {n} of 100 people who try this reach the goal.",
        "About {n} of 100 people who try this reaches the goal.",
        found.reached,
    )


def small_sentence(found: People) -> str:
    """What costs less than one person in 100; empty where nothing does."""
    if not found.small:
        return ""
    names = listed([cause_words(cause) for cause in found.small])
    each = tr("each cost") if len(found.small) > 1 else tr("costs") if found.small == ("luck",) else tr("cost")
    return tr("{causes} {each} less than 1 person in 100 here.", causes=names[0].upper() + names[1:], each=each)


def _whole(costs: dict[Cause, float], people_left: int) -> dict[Cause, int]:
    """Costs in whole people that add up, by largest remainders."""
    total = sum(costs.values())
    if not total:
        return dict.fromkeys(costs, 0)
    exact = {cause: cost / total * people_left for cause, cost in costs.items()}
    found = {cause: int(share) for cause, share in exact.items()}
    by_rest = sorted(exact, key=lambda cause: found[cause] - exact[cause])
    for cause in by_rest[: people_left - sum(found.values())]:
        found[cause] += 1
    return found

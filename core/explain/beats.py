"""Two routes side by side: by the same kinds of money, and what decides between them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from core.explain.ladder import Ladder
from core.explain.money import KINDS, Kind, Spending
from core.explain.numbers import (
    WHOLE_FROM,
    Numbers,
    asked_of_100,
    least_told,
    more_by,
    price,
    told_parts,
    told_sum,
    trimmed,
)
from core.explain.rungs import in_100
from core.explain.truths import Truth
from core.routes.result import ToGoal
from core.text import tr

KIND_WORDS: dict[Kind, str] = {"buying": tr("Buying"), "keeping": tr("Keeping"), "young": tr("Eggs and young")}
_KIND_REASONS: dict[Kind, str] = {
    "buying": tr("buying animals"),
    "keeping": tr("keeping animals"),
    "young": tr("eggs and young"),
}
_TRUTH_REASONS: dict[Truth, str] = {
    "genotypes": tr("what its animals truly carry"),
    "sizes": tr("clutches that turn out small"),
    "laying": tr("females that do not lay"),
    "losses": tr("clutches, eggs or young that are lost"),
    "breeders": tr("animals that never breed"),
    "holding": tr("too few of the right young to hold back, and young that are lost"),
    "waiting": tr("seasons spent waiting for young to mature"),
}
# Chances within a point of each other do not decide anything.
_POINT = 1.0
# Decimals of a chance in 100.
_FINEST = 4


@dataclass(frozen=True, eq=False)
class Contender:
    """One route at one set of counts. span: the least and most money that the noise of a simulation allows."""

    name: str
    ladder: Ladder
    spending: Spending
    to_goal: ToGoal | None
    span: tuple[float, float] | None = None
    noise: float = 0.0

    def chance(self, season: int) -> float:
        """Its chance by the end of a season."""
        return float(self.ladder.real[season - 1])


@dataclass(frozen=True)
class Line:
    """One figure of both routes, and by how much the first is higher."""

    words: str
    first: float
    second: float

    @property
    def difference(self) -> float:
        """How much higher the first is."""
        return self.first - self.second


def money_lines(first: Contender, second: Contender, season: int) -> tuple[Line, ...]:
    """Average spending by the end of a season by kind, and all of it."""
    paid = [[float(one.spending.kinds[kind][season - 1]) for kind in KINDS] for one in (first, second)]
    one, other = _told(paid)
    kinds = [Line(KIND_WORDS[kind], *pair) for kind, pair in zip(KINDS, zip(one, other, strict=True), strict=True)]
    return (*kinds, Line(tr("Together"), sum(one), sum(other)))


def season_lines(first: Contender, second: Contender) -> tuple[Line, ...]:
    """Average spending season by season."""
    seasons = range(1, len(first.spending.total) + 1)
    told = _told([[one.spending.in_season(s) for s in seasons] for one in (first, second)])
    return tuple(Line(tr("Season {s}", s=s), *pair) for s, pair in zip(seasons, zip(*told, strict=True), strict=True))


def _told(paid: list[list[float]]) -> list[list[float]]:
    """Two routes' parts as they are told: as finely as the larger of them, and so that they add up."""
    whole = max(map(sum, paid)) >= WHOLE_FROM
    return [told_parts(parts, whole=whole) for parts in paid]


def decisive_sentence(first: Contender, second: Contender, goal: float, season: int, numbers: Numbers) -> str:
    """The one difference that decides; `goal`: the chance asked for, within so many seasons."""
    if first.to_goal is not None and second.to_goal is not None:
        return _by_money(first, second, season, numbers)
    if first.to_goal is None and second.to_goal is None:
        return _closer(first, second, season)
    winner, loser = (first, second) if first.to_goal is not None else (second, first)
    head = tr(
        "{winner} beats {loser}: within {seasons} only it is {in_100} sure, with {against}.",
        winner=_name(winner),
        loser=_name(loser),
        seasons=_seasons(season),
        in_100=tr("{number} in 100", number=asked_of_100(goal, numbers)),
        against=_on_either_side(winner.chance(season), goal, loser.chance(season), numbers),
    )
    return f"{head} {_advantage(winner, loser, season)}".strip()


def _by_money(first: Contender, second: Contender, season: int, numbers: Numbers) -> str:
    winner, loser = sorted((first, second), key=_order)
    cheap, dear = winner.to_goal, loser.to_goal
    if cheap is None or dear is None:
        raise ValueError("both must reach the goal")
    if _overlap(winner, loser):
        return tr(
            "Too close to call: the noise of the simulation is larger than what {names} differ by.",
            names=_names(first, second),
        )
    if told_sum(dear.money) == told_sum(cheap.money):
        return _as_cheap(first, second, dear.season - cheap.season, winner if cheap.season < dear.season else loser)
    head = tr(
        "{winner} beats {loser}: {saved} less to set aside.",
        winner=_name(winner),
        loser=_name(loser),
        saved=more_by(dear.money, cheap.money, numbers),
    )
    kind, less = max(_savings(winner, loser, season), key=lambda one: one[1])
    if less >= least_told(dear.money):
        return tr(
            "{head} Its largest saving is {kind_reasons}: {less} less on average.",
            head=head,
            kind_reasons=_KIND_REASONS[kind],
            less=price(round(less) if dear.money >= WHOLE_FROM else less, numbers),
        )
    reason = _advantage(winner, loser, season)
    return (
        f"{head} {reason}"
        if reason
        else tr("{head} It spends no less on average, but it has fewer costly bad runs.", head=head)
    )


def _as_cheap(first: Contender, second: Contender, seasons: int, sooner: Contender) -> str:
    """Both cost what is told as the same sum."""
    if not seasons:
        return tr("{names} come to the same: neither beats the other.", names=_names(first, second))
    return tr(
        "{names} cost the same; {name} gets there {seasons} sooner.",
        names=_names(first, second),
        name=_name(sooner),
        seasons=_seasons(abs(seasons)),
    )


def _closer(first: Contender, second: Contender, season: int) -> str:
    """Neither is as sure as was asked for."""
    winner, loser = sorted((first, second), key=lambda one: -one.chance(season))
    if winner.chance(season) == 0 and winner.ladder.runs is None and loser.ladder.runs is None:
        return tr(
            "Neither {first} nor {second} can give what is wanted within {seasons}.",
            first=_name(first),
            second=_name(second),
            seasons=_seasons(season),
        )
    ahead = 100 * (winner.chance(season) - loser.chance(season))
    if ahead < max(_POINT, 100 * (winner.noise + loser.noise)):
        return tr(
            "{names} are about equally likely to get there: neither beats the other.", names=_names(first, second)
        )
    head = tr(
        "{winner} comes closer than {loser}: {against}.",
        winner=_name(winner),
        loser=_name(loser),
        against=_against(winner, loser, season),
    )
    return f"{head} {_advantage(winner, loser, season)}".strip()


def _against(winner: Contender, loser: Contender, season: int) -> str:
    return tr("{more} against {less}", more=in_100(winner.chance(season)), less=in_100(loser.chance(season)))


def _on_either_side(winner: float, goal: float, loser: float, numbers: Numbers) -> str:
    """Both chances as people, or as finely as it takes to see that only the first is enough."""
    told = [in_100(winner), in_100(loser)]
    if told[1] == in_100(goal):
        places = next((few for few in range(1, _FINEST) if _floor(loser, few) < _floor(goal, few)), _FINEST)
        told = [
            tr("{number} in 100", number=trimmed(_floor(chance, places), places, numbers)) for chance in (winner, loser)
        ]
    return tr("{more} against {less}", more=told[0], less=told[1])


def _floor(chance: float, places: int) -> float:
    return math.floor(100 * chance * 10.0**places + 1e-6) / 10.0**places


def _advantage(winner: Contender, loser: Contender, season: int) -> str:
    """The largest step of the ladder in the winner's favour; empty where none is worth a point."""
    textbook = 100 * float(winner.ladder.textbook[season - 1] - loser.ladder.textbook[season - 1])
    points, truth = max(_gains(winner, loser, season), key=lambda one: one[0])
    if max(points, textbook) < _POINT:
        return ""
    if textbook >= points:
        part = tr("the textbook's part, more young or better odds for each")
        return tr("What decides it is {part}: {textbook} of 100 people.", part=part, textbook=round(textbook))
    cost = -loser.ladder.rung(truth).points(season)
    own = max(-winner.ladder.rung(truth).points(season), 0.0)
    if round(cost) < 1:
        return _gain(winner, loser, truth, season)
    beside = tr("nobody") if own < 0.5 else f"{round(own)}"
    share = tr(
        "that costs {loser} {cost} of 100 people, and {winner} {beside}",
        loser=_name(loser),
        cost=round(cost),
        winner=_name(winner),
        beside=beside,
    )
    return tr("What decides it is {truth_reasons}: {share}.", truth_reasons=_TRUTH_REASONS[truth], share=share)


def _gain(winner: Contender, loser: Contender, truth: Truth, season: int) -> str:
    """A step that costs the loser nothing, but helps the winner more."""
    more, beside = (one.ladder.rung(truth).points(season) for one in (winner, loser))
    share = tr(
        "that gives {winner} {more} of 100 people more, and {loser} {beside}",
        winner=_name(winner),
        more=round(more),
        loser=_name(loser),
        beside=tr("nobody") if round(beside) < 1 else f"{round(beside)}",
    )
    return tr("What decides it is {truth_reasons}: {share}.", truth_reasons=_TRUTH_REASONS[truth], share=share)


def _gains(winner: Contender, loser: Contender, season: int) -> Iterator[tuple[float, Truth]]:
    for rung in winner.ladder.rungs:
        yield rung.points(season) - loser.ladder.rung(rung.truth).points(season), rung.truth


def _savings(winner: Contender, loser: Contender, season: int) -> Iterator[tuple[Kind, float]]:
    for kind, line in zip(KINDS, money_lines(loser, winner, season), strict=False):
        yield kind, line.difference


def _order(one: Contender) -> tuple[float, int]:
    return (one.to_goal.money, one.to_goal.season) if one.to_goal else (float("inf"), 0)


def _overlap(winner: Contender, loser: Contender) -> bool:
    if winner.span is None and loser.span is None:
        return False
    high = winner.span[1] if winner.span else _order(winner)[0]
    low = loser.span[0] if loser.span else _order(loser)[0]
    return low <= high


def _name(one: Contender) -> str:
    """Names of routes hold commas, so they are set off."""
    return f"“{one.name}”"


def _names(first: Contender, second: Contender) -> str:
    return tr("{first} and {second}", first=_name(first), second=_name(second))


def _seasons(count: int) -> str:
    return tr("{n} seasons", "1 season", count)

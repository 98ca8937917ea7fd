"""The trap of possible hets: each animal is one or the other for life, never the average of both."""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.explain.coins import Chain, by_hand
from core.explain.doubtful import Doubtful
from core.explain.fractions import as_fraction, chances_words, decimal_text, share_words
from core.explain.naming import group_words, member_words
from core.explain.numbers import PLAIN, Numbers, listed
from core.plan.model import Held
from core.plan.sexes import sex_words
from core.routes.calendar import Animal
from core.routes.problem import Problem
from core.text import tr

# More animals than this are not told one by one.
_MOST_ANIMALS = 12
# Chances with more parts than this are told out of 100.
_MOST_PARTS = 256
_SAME = 1e-9


@dataclass(frozen=True)
class Carriers:
    """One line: so many of the animals carry what is needed, and the chance of that."""

    carriers: int
    words: str
    chance: float
    share: str


@dataclass(frozen=True)
class Trap:
    """One group of `count` animals that may or may not carry what is needed.

    lines: by number of carriers, none first. none: what it means when none carries. right: the arithmetic of one
    true genotype each, empty where it is not that simple. wrong: what the shortcuts give instead.
    """

    title: str
    lead: str
    count: int
    lines: tuple[Carriers, ...]
    none: str
    right: tuple[str, ...]
    wrong: tuple[str, ...]


def traps(
    problem: Problem, textbook: Problem, season: int, right: float, averaged: float, numbers: Numbers = PLAIN
) -> tuple[Trap, ...]:
    """A trap for each group whose animals may or may not give the first goal row, in the route's order.

    problem: the route with one true genotype per animal and no other truth; textbook: with none at all. right and
    averaged: their chances by the season.
    """
    found: list[Trap] = []
    for herd in problem.herds:
        group = Doubtful(problem, herd, season)
        if group.is_split:
            # One arithmetic covers all groups, so it is told once.
            chain = Chain() if found else by_hand(problem, textbook, season, right, numbers)
            found.append(_trap(group, chain, (right, averaged), numbers, is_first=not found))
    return tuple(found)


def _trap(group: Doubtful, chain: Chain, chances: tuple[float, float], numbers: Numbers, *, is_first: bool) -> Trap:
    right, averaged = (decimal_text(chance, numbers) for chance in chances)
    what, spread, many = group.needed(), group.spread(), group.herd.count
    return Trap(
        title=_title(group, what),
        lead=_lead(many, group),
        count=many,
        lines=_lines(many, spread, what),
        none=_none(group, spread),
        right=_right(chain, right) if is_first else (),
        wrong=(*chain.counted, tr("Averaging gives {decimal_text}.", decimal_text=averaged)) if is_first else (),
    )


def _title(group: Doubtful, what: str) -> str:
    if group.is_even:
        return tr(
            "The trap: {who}, {each}{chance_words} {what}",
            who=_who(group),
            each=tr("each ") if group.herd.count > 1 else "",
            chance_words=tr("with {chances} to carry", chances=_chances(group.carrier)),
            what=what,
        )
    names = [member_words(group.problem, Animal(group.herd.index, place)) for place in range(group.herd.count)]
    told = [_odds_words(name, share) for name, share in zip(names, group.odds, strict=True)]
    return tr("The trap: who carries {what}? {told}", what=what, told=listed(told))


def _odds_words(name: str, share: float) -> str:
    """`Juniper with 2 chances in 3`: of one among others that are as likely, more or less, to carry it."""
    if share > 1 - _SAME:
        return tr("{name} for sure", name=name)
    if share < _SAME:
        return tr("{name} not at all", name=name)
    return tr("{name} with {chances}", name=name, chances=_chances(share))


def _right(chain: Chain, right: str) -> tuple[str, ...]:
    return chain.right or (
        tr("With one true genotype for each animal, the chance is {decimal_text}.", decimal_text=right),
    )


def _who(group: Doubtful) -> str:
    herd, drawn = group.herd, group.problem.route.groups[group.herd.index]
    if herd.count == 1:
        one = tr("one {sex} ({group_words})", sex=sex_words(herd.sex), group_words=group_words(drawn))
        return member_words(group.problem, Animal(herd.index, 0)) if herd.named else one
    if isinstance(drawn, Held):
        sons = tr("{n} sons", "{n} son", herd.count)
        return tr("{n} daughters", "{n} daughter", herd.count) if herd.sex == "female" else sons
    return f"{herd.count} {group_words(drawn)}"


def _chances(share: float) -> str:
    """`1 chance in 2`, or out of 100 where the fraction has long parts."""
    found = as_fraction(share)
    if found is None or found.denominator > 64:
        return chances_words(share)
    return tr(
        "{n} chances in {denominator}",
        "{n} chance in {denominator}",
        found.numerator,
        denominator=found.denominator,
    )


def _lead(many: int, group: Doubtful) -> str:
    if many == 1:
        hangs = tr(": everything hangs on that one throw") if group.is_only_way else ""
        return tr("It is a coin, thrown once and kept for life{hangs}.", hangs=hangs)
    if not group.is_even:
        return tr("What is open of one is a coin, thrown once and kept for life:")
    coin = tr("Each one is a coin, thrown once and kept for life:")
    expected = many * group.carrier
    carriers = round(expected)
    if abs(expected - carriers) > _SAME or not 0 < carriers < many:
        return coin
    rest = tr("{n} normals", "{n} normal", many - carriers)
    return tr(
        "They are not “{n} hets and {rest}”. {coin}",
        "They are not “{n} het and {rest}”. {coin}",
        carriers,
        rest=rest,
        coin=coin,
    )


def _lines(many: int, spread: list[float], what: str) -> tuple[Carriers, ...]:
    if many > _MOST_ANIMALS:
        return ()
    some = [tr("{n} carry it", "{n} carries it", k) for k in range(1, many)]
    words = [tr("none carries it"), *some, tr("both carry it") if many == 2 else tr("all {many} carry it", many=many)]
    if many == 1:
        words = [tr("does not carry {what}", what=what), tr("carries {what}", what=what)]
    parts = _parts(spread)
    return tuple(
        Carriers(
            k,
            words[k],
            chance,
            tr("{chance} in {parts}", chance=round(chance * parts), parts=parts) if parts else share_words(chance),
        )
        for k, chance in enumerate(spread)
    )


def _parts(spread: list[float]) -> int:
    """Into how many equal parts all chances divide, where these are few enough to be read; else 0."""
    found = [as_fraction(chance) for chance in spread]
    parts = math.lcm(*(one.denominator if one else _MOST_PARTS + 1 for one in found))
    return parts if parts <= _MOST_PARTS else 0


def _none(group: Doubtful, spread: list[float]) -> str:
    if not group.is_stuck:
        return ""
    when, whose = (tr("none carries it"), tr("their")) if group.herd.count > 1 else (tr("it does not"), tr("its"))
    if not group.is_only_way:
        return tr(
            "When {when}, no number of {whose} own young helps. That is so for {share_words} who try it.",
            when=when,
            whose=whose,
            share_words=share_words(spread[0]),
        )
    return tr(
        "When {when}, no number of young helps. That is {share_words} of those who try it.",
        when=when,
        share_words=share_words(spread[0]),
    )

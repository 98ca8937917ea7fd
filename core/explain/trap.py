"""The trap of possible hets: each animal is one or the other for life, never the average of both."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from core.explain.averaged import Carried, members
from core.explain.coins import Chain, by_hand
from core.explain.crosses import per_egg
from core.explain.filled import carried_by, season_matings
from core.explain.fractions import as_fraction, chances_words, decimal_text, share_words
from core.explain.naming import group_words, member_words
from core.explain.numbers import PLAIN, Numbers, listed
from core.plan.genotypes import NORMAL
from core.plan.model import Held
from core.plan.sexes import sex_words
from core.routes.calendar import Animal, Mating
from core.routes.problem import Genotype, Herd, Problem
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
        group = _Group(problem, herd, season)
        if group.is_split:
            # One arithmetic covers all groups, so it is told once.
            chain = Chain() if found else by_hand(problem, textbook, season, right, numbers)
            found.append(_trap(group, chain, (right, averaged), numbers, is_first=not found))
    return tuple(found)


class _Group:
    """What the animals of one herd can give with the best of their mates up to a season."""

    def __init__(self, problem: Problem, herd: Herd, season: int) -> None:
        self.problem, self.herd = problem, herd
        self.condition = problem.conditions[0]
        self._mates: dict[Animal, Carried] = {}
        self._known: dict[Genotype, float] = {}
        # Whether nothing else gives the wanted.
        self.is_only_way = True
        for now in range(1, min(season, problem.breeding_seasons) + 1):
            for mating in season_matings(problem, now):
                mate, own = (mating.female, mating.male) if herd.sex == "male" else (mating.male, mating.female)
                if own.herd == herd.index:
                    self._mates[mate] = carried_by(problem, mate)
                elif self.is_only_way and herd.index not in (mating.male.herd, mating.female.herd):
                    self.is_only_way = not self._can_give(mating)

    @cached_property
    def shares(self) -> dict[float, float]:
        """Chances an egg, the lowest first, with the share of the animals that give them."""
        total: dict[float, float] = {}
        every = members(self.problem, self.herd)
        for carried in every:
            for genotype, share in carried.items():
                best = self._best(genotype)
                total[best] = total.get(best, 0.0) + share / len(every)
        return dict(sorted(total.items()))

    @property
    def is_split(self) -> bool:
        """Whether some of its animals may give what others cannot."""
        # What too many named animals carry together is never listed, so there is no spread to tell.
        listed = not (self.herd.named and self.problem.crowded)
        return listed and bool(self._mates) and len(self.shares) > 1

    @property
    def is_stuck(self) -> bool:
        """Whether an animal that does not carry what is needed can never give the wanted."""
        return 0 in self.shares

    @property
    def carrier(self) -> float:
        """The chance that an animal carries what is needed."""
        return sum(share for chance, share in self.shares.items() if self._is_carrier(chance))

    def spread(self) -> list[float]:
        """The chance of 0, 1, 2 … carriers; named animals as they are believed to be together."""
        herd, n, c = self.herd, self.herd.count, self.carrier
        if not herd.named:
            return [math.comb(n, k) * c**k * (1 - c) ** (n - k) for k in range(n + 1)]
        spread = [0.0] * (n + 1)
        for genotypes, chance in self.problem.together:
            spread[sum(self._is_carrier(self._best(genotypes[place])) for place in herd.named)] += chance
        return spread

    def needed(self) -> str:
        """What the carriers have and the others lack, by the forms that are wanted."""
        units = self.problem.judge.genetics.units
        kinds: dict[bool, list[set[int]]] = {side: [set() for _ in units] for side in (False, True)}
        for carried in members(self.problem, self.herd):
            for genotype in carried:
                for own, seen in zip(genotype, kinds[self._is_carrier(self._best(genotype))], strict=True):
                    seen.add(own)
        genes = [
            gene
            for unit, lacking, having in zip(units, kinds[False], kinds[True], strict=True)
            if lacking != having
            for gene in unit.genes
            if self.condition.forms.get(gene, NORMAL) != NORMAL
        ]
        return listed([self.condition.forms[gene] for gene in genes]) or tr("what is needed")

    def _can_give(self, mating: Mating) -> bool:
        sires, dams = carried_by(self.problem, mating.male), carried_by(self.problem, mating.female)
        return any(per_egg(self.problem, sire, dam, self.condition) > 0 for sire in sires for dam in dams)

    def _is_carrier(self, chance: float) -> bool:
        """Whether so much an egg counts as carrying: anything beside nothing, else only the best."""
        return chance > 0 if self.is_stuck else chance == max(self.shares)

    def _best(self, genotype: Genotype) -> float:
        if genotype not in self._known:
            male = self.herd.sex == "male"
            others = {other for carried in self._mates.values() for other in carried}
            pairs = ((genotype, other) if male else (other, genotype) for other in others)
            chances = (per_egg(self.problem, *pair, self.condition) for pair in pairs)
            self._known[genotype] = round(max(chances, default=0.0), 12)
        return self._known[genotype]


def _trap(group: _Group, chain: Chain, chances: tuple[float, float], numbers: Numbers, *, is_first: bool) -> Trap:
    right, averaged = (decimal_text(chance, numbers) for chance in chances)
    what, spread, many = group.needed(), group.spread(), group.herd.count
    each = tr("each ") if many > 1 else ""
    return Trap(
        title=tr(
            "The trap: {who}, {each}{chance_words} {what}",
            who=_who(group),
            each=each,
            chance_words=_chance_words(group.carrier),
            what=what,
        ),
        lead=_lead(many, group),
        count=many,
        lines=_lines(many, spread, what),
        none=_none(group, spread),
        right=_right(chain, right) if is_first else (),
        wrong=(*chain.counted, tr("Averaging gives {decimal_text}.", decimal_text=averaged)) if is_first else (),
    )


def _right(chain: Chain, right: str) -> tuple[str, ...]:
    return chain.right or (
        tr("With one true genotype for each animal, the chance is {decimal_text}.", decimal_text=right),
    )


def _who(group: _Group) -> str:
    herd, drawn = group.herd, group.problem.route.groups[group.herd.index]
    if herd.count == 1:
        one = tr("one {sex} ({group_words})", sex=sex_words(herd.sex), group_words=group_words(drawn))
        return member_words(group.problem, Animal(herd.index, 0)) if herd.named else one
    if isinstance(drawn, Held):
        sons = tr("{n} sons", "{n} son", herd.count)
        return tr("{n} daughters", "{n} daughter", herd.count) if herd.sex == "female" else sons
    return f"{herd.count} {group_words(drawn)}"


def _chance_words(share: float) -> str:
    """`with 1 chance in 2 to carry`, or out of 100 where the fraction has long parts."""
    found = as_fraction(share)
    if found is None or found.denominator > 64:
        return tr("with {chances} to carry", chances=chances_words(share))
    return tr(
        "with {n} chances in {denominator} to carry",
        "with {n} chance in {denominator} to carry",
        found.numerator,
        denominator=found.denominator,
    )


def _lead(many: int, group: _Group) -> str:
    if many == 1:
        hangs = tr(": everything hangs on that one throw") if group.is_only_way else ""
        return tr("It is a coin, thrown once and kept for life{hangs}.", hangs=hangs)
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


def _none(group: _Group, spread: list[float]) -> str:
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

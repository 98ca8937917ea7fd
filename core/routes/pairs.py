"""Pairs for the shapes of a new route: who fits, and who with whom costs least until every row of a goal is likely."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Literal

from core.plan.model import Forms, Plan, Sex
from core.routes.lists import Candidate, Lists
from core.routes.worth import Guess, Worth

Shape = Literal["straight", "young together", "daughters back", "finished male", "breed then buy", "buy", "empty"]
# An animal of the lists as each row of the goal sees it.
Seen = tuple[Candidate, ...]
Fits = Callable[[Seen], bool]
# Places held for daughters.
DAUGHTERS = 4
# Pairs that are weighed for a first proposal: the cheapest of each sex.
_MOST_WEIGHED = 24


@dataclass(frozen=True, eq=False)
class Pair:
    """A sire and a dam, what they are guessed to take, and which daughters of theirs are held back first."""

    sire: Candidate
    dam: Candidate
    guess: Guess
    pick: Forms


class Pairs:
    """The animals of a plan for some rows of its goal, each read by its own lists."""

    def __init__(self, plan: Plan, rows: Sequence[Lists]) -> None:
        self._rows, self._worth, self._matures = rows, Worth(plan), plan.species.matures
        self._by_key = [{one.key: one for one in row.candidates} for row in rows]

    def fitting(self, shape: Shape) -> tuple[tuple[Seen, ...], tuple[Seen, ...]]:
        """Who may be the sire, and who a dam, the cheapest first."""
        sire: Fits = self._may_carry
        dam: Fits = self._may_carry
        if shape == "young together":
            sire = dam = self._shows_some
        elif shape == "daughters back":
            sire, dam = self._carries_unseen, self._shows_some
        elif shape == "finished male":
            sire = self._is_wanted
        return self._of("male", sire), self._of("female", dam)

    def best(self, shape: Shape, sires: Sequence[Seen], dams: Sequence[Seen]) -> Pair:
        """The pair that takes least by a guess, for the row that takes most of it."""
        few = (_distinct(ones)[:_MOST_WEIGHED] for ones in (sires, dams))
        weighed = (self._hardest(shape, sire, dam) for sire, dam in product(*few))
        guess, row, sire, dam = min(weighed, key=_money)
        return Pair(sire[0], dam[0], guess, self._pick(shape, self._rows[row], sire[row], dam[row]))

    def guess(self, shape: Shape, sire: Seen, dam: Seen) -> Guess:
        """What a pair is guessed to take, for the row that takes most of it."""
        return self._hardest(shape, sire, dam)[0]

    def _hardest(self, shape: Shape, sire: Seen, dam: Seen) -> tuple[Guess, int, Seen, Seen]:
        each = ((self._guess(shape, row, sire[n], dam[n]), n, sire, dam) for n, row in enumerate(self._rows))
        return max(each, key=_money)

    def _of(self, sex: Sex, fits: Fits) -> tuple[Seen, ...]:
        everywhere = (tuple(one[key] for one in self._by_key) for key in self._by_key[0] if self._known(key))
        able = (seen for seen in everywhere if seen[0].sex == sex and fits(seen))
        return tuple(sorted(able, key=_price))

    def _known(self, key: str) -> bool:
        """Whether every row has an answer for it."""
        return all(key in one for one in self._by_key)

    def _may_carry(self, seen: Seen) -> bool:
        return all(one.may_carry >= row.genes for one, row in zip(seen, self._rows, strict=True))

    def _is_wanted(self, seen: Seen) -> bool:
        return any(row.genes and one.shows >= row.genes for one, row in zip(seen, self._rows, strict=True))

    def _shows_all(self, seen: Seen) -> bool:
        return all(one.shows >= row.genes for one, row in zip(seen, self._rows, strict=True))

    def _carries_unseen(self, seen: Seen) -> bool:
        carries = all(one.carries >= row.genes for one, row in zip(seen, self._rows, strict=True))
        return carries and not self._shows_all(seen)

    def _shows_some(self, seen: Seen) -> bool:
        return any(one.shows for one in seen) and not self._shows_all(seen)

    def _guess(self, shape: Shape, row: Lists, sire: Candidate, dam: Candidate) -> Guess:
        worth, matures, wanted = self._worth, self._matures, row.want.count
        if shape in ("straight", "breed then buy", "finished male"):
            most, per_egg = worth.most_females(dam.most), row.per_egg(sire.prior, dam.prior)
            return worth.guess(per_egg, sire.price, dam.price, most, wanted=wanted)
        if shape == "young together" and not sire.shows | dam.shows >= row.genes:
            return Guess(math.inf, 1)
        daughter = row.held(sire.prior, dam.prior, "female", self._pick(shape, row, sire, dam))
        son = row.held(sire.prior, dam.prior, "male", {}) if shape == "young together" else sire.prior
        if daughter is None or son is None:
            return Guess(math.inf, 1)
        starts_in = matures.female if shape == "daughters back" else max(matures.male, matures.female)
        price, per_egg = sire.price + dam.price, row.per_egg(son, daughter)
        found = worth.guess(per_egg, price, 0.0, DAUGHTERS, wanted=wanted, starts_in=starts_in)
        return Guess(found.money, 1)

    def _pick(self, shape: Shape, row: Lists, sire: Candidate, dam: Candidate) -> Forms:
        """Which daughters are held back first: those that already show what their dam shows."""
        if shape != "daughters back":
            return {}
        can = row.can_show(sire.prior, dam.prior, "female")
        return {gene: form for gene, form in can.items() if gene in dam.shows}


def _distinct(ones: Sequence[Seen]) -> list[Seen]:
    """Of animals that carry the same, the cheapest: the others can be chosen, but need no weighing."""
    found: dict[tuple[bytes, ...], Seen] = {}
    for seen in ones:
        found.setdefault(tuple(part.tobytes() for one in seen for part in one.prior), seen)
    return [*found.values()]


def _price(seen: Seen) -> float:
    return seen[0].price


def _money(weighed: tuple[Guess, int, Seen, Seen]) -> float:
    return weighed[0].money

"""One route of the space before it is drawn: who, how many, when."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass, field, replace
from typing import Literal

from core.plan.model import Forms, Matures
from core.search.found import Way

# Whom young held back are put to.
Mate = Literal["sire", "brothers", "second male"]
# Whom daughters and granddaughters are put to.
Mates = tuple[Mate, Mate]
# Routes with the same way and the same animals are one recipe: of these only the cheapest is told.
Recipe = tuple[Way, int | None, int | None, int | None, int | None, Mates | None]


_TWO: tuple[Way, ...] = ("back", "together")


@dataclass(frozen=True)
class Candidate:
    """A route at all counts of its scale.

    sire, dams, other, second: places among the kinds of the stock (other: a second kind of dams, `others` of them;
    second: a second male). counts: tried on the dams or, where young are held back, on the daughters. many: sires or,
    where young are held back, dams. goes: the last season of the dams. pick: which young are held back, `later` of the
    generation after; mates: whom both are put to. buy: the season in which the finished animals are bought.
    """

    way: Way
    sire: int | None = None
    dams: int | None = None
    other: int | None = None
    second: int | None = None
    counts: tuple[int, ...] = (1,)
    many: int = 1
    others: int = 0
    goes: int | None = None
    pick: Forms = field(default_factory=dict)
    later: Forms = field(default_factory=dict)
    mates: Mates | None = None
    buy: int | None = None

    @property
    def recipe(self) -> Recipe:
        """The way and the animals."""
        return self.way, self.sire, self.dams, self.other, self.second, self.mates

    @property
    def key(self) -> Hashable:
        """All that tells it from others."""
        when = self.counts, self.many, self.others, self.goes, self.buy
        return self.recipe, when, tuple(sorted(self.pick.items())), tuple(sorted(self.later.items()))


def grown(matures: Matures, bred: int, mate: Mate) -> int:
    """The first season in which young of a season can breed with such a mate."""
    return bred + (max(matures.male, matures.female) if mate == "brothers" else matures.female)


@dataclass(frozen=True)
class Bounded:
    """A candidate with what is proven of it before it is worked out.

    money: it takes no less. season: the first in which it can reach the goal's chance. next_paid: where only its
    founders have bred by then, what is surely paid by the end of the next season with any young, else `money`.
    """

    money: float
    season: int
    next_paid: float
    candidate: Candidate


def plainer(one: Candidate) -> Iterator[Candidate]:
    """The same animals in plainer ways: straight together, or for a generation less."""
    for dams in {one.dams, one.other} - {None}:
        yield replace(one, way="straight", dams=dams, other=None, second=None, mates=None)
    if one.mates is not None:
        two = replace(one, mates=None)
        yield replace(two, way="second male")
        yield from (replace(two, way=way, second=None) for way in _TWO)

"""The animals a search may use: one kind for all that are alike in everything the goal can see."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from math import prod

import numpy as np
from numpy.typing import NDArray

from core.genetics.beliefs import ImpossibleEvidence, beliefs
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.elimination import TooEntangled
from core.genetics.units import Floats
from core.plan.genotypes import NORMAL
from core.plan.model import Animal, Bought, ForSale, Owned, Plan, Season, Sex

# More kinds of a sex are more pairs than a search gets through; the cheapest are kept, and the rest is told.
MOST_KINDS = 24
# Of one kind, or of two together, in one route.
MOST_FEMALES, MOST_MALES = 8, 2
_DIGITS = 12
# What one kind may be at most; and numbers for all pairs of what those of each sex may be, in every season.
MOST_STATES, MOST_PAIRED = 4_096, 12_000_000
Places = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Kind:
    """One kind of animal that can be had: an offer, or animals of mine that go together.

    states, weights: genotypes one may have, numbered over all units, each with its chance; of several animals of mine
    together, what any of them may have. most: how many there are; of mine always all. cheaper: one alike that costs no
    more, and of which there are not enough for every route; this one is only needed beside it, or for more than it.
    """

    source: ForSale | tuple[Animal, ...]
    sex: Sex
    price: float
    ready_in: int
    most: int
    states: Places
    weights: Floats
    cheaper: Kind | None = None

    @property
    def spared(self) -> int:
        """Up to so many of a cheaper kind do as well."""
        return self.cheaper.most if self.cheaper else 0

    @property
    def mine(self) -> bool:
        """Whether these are mine."""
        return not isinstance(self.source, ForSale)

    def comes(self, breeds: Season) -> Season:
        """The last season to buy it in for it to breed in that season: nobody is kept for a mate that still grows."""
        return 1 if self.mine else max(1, breeds - self.ready_in)

    def group(self, name: str, count: int, *, season: Season = 1, until: Season | None = None) -> Bought | Owned:
        """A group of a route of these animals."""
        if isinstance(self.source, ForSale):
            return Bought(
                id=name, sex=self.sex, count=count, carries=self.source.carries, price=self.source.price,
                ready_in=self.source.ready_in, season=season, until=until,
            )  # fmt: skip
        animals = tuple(one.id for one in self.source)
        return Owned(id=name, sex=self.sex, animals=animals, season=season, until=until)


class Stock:
    """The kinds of a plan by sex, with the genetics that the goal can see; `left_out`: kinds too many to look at."""

    def __init__(self, plan: Plan, *, merged: bool = True) -> None:
        """Read the lists; `merged`: of animals alike keep the cheapest only."""
        self.plan = plan
        every = compile_genetics(plan.genes, plan.linkage, plan.species)
        self.genetics: Genetics = every.restrict({gene for row in plan.goal.want for gene in row.forms})
        # The goal may see no gene at all: there is one state then.
        self.sizes = (1, *(unit.size for unit in self.genetics.units))
        self.left_out = 0
        kinds = [*self._mine(), *self._for_sale(merged=merged)]
        self.males = self._few(one for one in kinds if one.sex == "male")
        self.females = self._few(one for one in kinds if one.sex == "female")
        self._keep_to_room()

    def _few(self, kinds: Iterable[Kind]) -> tuple[Kind, ...]:
        able = sorted(kinds, key=lambda kind: kind.price)
        if len(able) > MOST_KINDS:
            self.left_out += len(able) - MOST_KINDS
            able = sorted(able, key=lambda kind: not self._of_use(kind))[:MOST_KINDS]
        return tuple(able)

    def _for_sale(self, *, merged: bool) -> list[Kind]:
        kept: list[Kind] = []
        for offer in sorted(self.plan.for_sale, key=_asked):
            if offer.quantity < 1:
                continue
            prior = self.genetics.prior(offer.carries, offer.sex)
            if self._is_vague(prior):
                continue
            states, weights = self._flat(prior)
            kind = Kind(offer, offer.sex, float(offer.price), offer.ready_in, offer.quantity, states, weights)
            # A seller's list may have a line for each of them.
            same = next(
                (place for place, one in enumerate(kept) if _alike(one, kind) and one.price == kind.price), None
            )
            if same is not None:
                kept[same] = replace(kept[same], most=kept[same].most + kind.most)
            elif not merged:
                kept.append(kind)
            elif not spare(kind, alike := [one for one in kept if _alike(one, kind)]):
                kept.append(replace(kind, cheaper=alike[-1] if alike else None))
        return kept

    def _mine(self) -> list[Kind]:
        if not self.plan.my_animals:
            return []
        try:
            known = beliefs(self.plan, self.genetics)
        except (ImpossibleEvidence, TooEntangled):
            # Told where the animals are listed; here it only means that nothing can be built on them.
            return []
        listed = [one for one in self.plan.my_animals if one.id in known and not self._is_vague(known[one.id])]
        alone = [_own((one,), *self._flat(known[one.id])) for one in listed]
        return [*alone, *self._together([one for one in alone if one.sex == "female" and self._of_use(one)])]

    def _together(self, females: Sequence[Kind]) -> list[Kind]:
        """All my females that carry something of use, as one more kind."""
        if not 1 < len(females) <= self.plan.species.females_per_male:
            return []
        animals = tuple(animal for one in females if not isinstance(one.source, ForSale) for animal in one.source)
        states = np.unique(np.concatenate([one.states for one in females]))
        return [_own(animals, states, np.full(len(states), 1 / len(states)))]

    def _of_use(self, kind: Kind) -> bool:
        """Whether it may show or carry anything of what is wanted."""
        wanted = {(gene, form) for row in self.plan.goal.want for gene, form in row.forms.items() if form != NORMAL}
        for unit, own in zip(self.genetics.units, self.parts(kind.states), strict=True):
            made_of = {
                allele
                for gene, form in wanted
                if gene in unit.genes
                for g in np.nonzero(unit.fits({gene: form}))[0]
                for haplotype in unit.genotypes[g]
                for allele in haplotype
            }
            wild = {"+", "-", "W", "X", "Y", "Z"}
            if any(made_of - wild & {a for h in unit.genotypes[g] for a in h} - wild for g in own):
                return True
        return False

    def _is_vague(self, prior: Sequence[Floats]) -> bool:
        """Whether it may be too many things at once to be looked at; it is counted as left out."""
        vague = prod(int(np.count_nonzero(one)) for one in prior) > MOST_STATES
        self.left_out += vague
        return vague

    def _keep_to_room(self) -> None:
        """Leaves out those that may be most things, while all pairs of what the others may be are too many."""
        while True:
            males, females = (sum(len(one.states) for one in kinds) for kinds in (self.males, self.females))
            if males * females * (self.plan.goal.seasons + 1) <= MOST_PAIRED:
                return
            vague = max((*self.males, *self.females), key=_things)
            self.males = tuple(one for one in self.males if one is not vague)
            self.females = tuple(one for one in self.females if one is not vague)
            self.left_out += 1

    def parts(self, states: Places | np.intp) -> Sequence[Places]:
        """The genotype that each of these states, or the one, has in each unit."""
        return np.unravel_index(np.asarray(states), self.sizes)[1:]

    def _flat(self, prior: Sequence[Floats]) -> tuple[Places, Floats]:
        every = [np.ones(1), *prior]
        own = [np.nonzero(one)[0] for one in every]
        weights = reduce(np.multiply.outer, [one[able] for one, able in zip(every, own, strict=True)]).ravel()
        states = np.ravel_multi_index(np.meshgrid(*own, indexing="ij"), self.sizes).ravel()
        return states.astype(np.intp), weights


def spare(kind: Kind, others: Sequence[Kind]) -> bool:
    """Whether a kind is never needed beside others that are alike in all the goal can see, and no dearer.

    Putting one of them for it in any route changes no chance, no season and no egg, only prices, and none upwards; so
    the money set aside does not rise. A route has females of two kinds at most, and males of one.
    """
    if kind.sex == "male":
        return any(one.most >= min(kind.most, MOST_MALES) for one in others)
    enough = any(one.most >= MOST_FEMALES for one in others)
    return enough or sum(one.most >= kind.most for one in others) > 1


def _alike(one: Kind, other: Kind) -> bool:
    alike = one.sex == other.sex and one.ready_in == other.ready_in and np.array_equal(one.states, other.states)
    return alike and bool((one.weights.round(_DIGITS) == other.weights.round(_DIGITS)).all())


def _own(animals: tuple[Animal, ...], states: Places, weights: Floats) -> Kind:
    return Kind(animals, animals[0].sex, 0.0, 0, len(animals), states, weights)


def _things(kind: Kind) -> int:
    return len(kind.states)


def _asked(offer: ForSale) -> float:
    return offer.price

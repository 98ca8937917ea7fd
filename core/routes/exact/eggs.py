"""From a pair to the generating functions of its eggs, clutches and seasons, at a set of probe points.

A probe point gives every egg and every live young a weight. At weight 1 the functions are chances; at roots of unity
they are the transform of a distribution of money or of eggs; a step of 1e-20 off the real axis yields an exact
expectation in the imaginary part (complex-step differentiation).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.routes.exact.algebra import Complex, GoalAlgebra, raised
from core.routes.problem import Biology, Genotype, Problem
from core.routes.result import Floats

_STEP = 1e-20


@dataclass(frozen=True, eq=False)
class Probe:
    """Weights at each point: of an egg, of a live young, and of each unit that the young would bring when sold."""

    egg: Complex
    young: Complex
    sale: Complex

    @property
    def points(self) -> int:
        """How many points there are."""
        return len(self.egg)


_ONE = np.ones(1, dtype=complex)
# A single point at which every weight is 1: chances as they are.
CHANCES = Probe(_ONE, _ONE, 0 * _ONE)


def expectation_probe() -> Probe:
    """Four points: the chances themselves, then expectations of eggs, of young and of what all young would bring."""
    steps = np.zeros((3, 4), dtype=complex)
    steps[0, 1] = steps[1, 2] = steps[2, 3] = 1j * _STEP
    return Probe(1 + steps[0], 1 + steps[1], steps[2])


def expectations(values: Complex) -> Floats:
    """What `expectation_probe` yields: [..., 4] into [..., 4] real: chance, then eggs, young and sales on it."""
    out: Floats = values.imag / _STEP
    out[..., 0] = values.real[..., 0]
    return out


def lattice_probe(length: int, per_egg: int, per_young: int) -> Probe:
    """The lower half of the roots of unity for lattice sums below `length`: eggs and young weigh whole steps."""
    k = np.arange(length // 2 + 1)
    roots = np.exp(-2j * np.pi * np.arange(length) / length)
    egg, young = roots[k * per_egg % length], roots[k * per_young % length]
    return Probe(egg, young, np.zeros(len(k), dtype=complex))


@dataclass(frozen=True)
class Pair:
    """What an egg of a working pair can be: (condition bits, chance an egg, sale price), and all live together."""

    young: tuple[tuple[int, float, float], ...]
    live: float


def pair_model(problem: Problem, sire: Genotype, dam: Genotype) -> Pair:
    """The young of a pair by condition bits, eggs lost counted (a whole clutch lost is not)."""
    hatch = problem.biology.fertile * problem.biology.hatches
    masks = sorted(problem.masks(sire, dam).items())
    young = tuple((mask, hatch * weight, problem.price(mask)) for mask, weight in masks if weight > 0)
    return Pair(young, sum(weight for _, weight, _ in young))


@dataclass(frozen=True, eq=False)
class EggWeights:
    """One egg of a pair at every point: a miss, a hit of each row looked at, and anything at all."""

    miss: Complex
    hits: tuple[Complex, ...]
    any: Complex


def egg_weights(pair: Pair, rows: Sequence[int], probe: Probe) -> EggWeights:
    """Weights of one egg; `rows` are the goal rows (condition bits) in which it is counted as a hit."""
    live = probe.egg * probe.young
    chances = [0.0] * (len(rows) + 1)
    sales = [0.0] * (len(rows) + 1)
    for mask, chance, price in pair.young:
        row = next((i for i, bit in enumerate(rows) if mask >> bit & 1), len(rows))
        chances[row] += chance
        sales[row] += chance * price
    *hits, missed = (live * (chance + sale * probe.sale) for chance, sale in zip(chances, sales, strict=True))
    miss = missed + probe.egg * (1 - pair.live)
    return EggWeights(miss, tuple(hits), miss + sum(hits))


@dataclass(frozen=True, eq=False)
class SeasonWeights:
    """One female's season at every point: with no row filled [states, points], and with anything allowed [points]."""

    alive: Complex
    allowed: Complex


class Laying:
    """Season weights of a working female for a way of looking at the goal, at one set of points."""

    def __init__(self, biology: Biology, algebra: GoalAlgebra, rows: Sequence[int], probe: Probe) -> None:
        self.algebra, self.rows, self.probe = algebra, tuple(rows), probe
        self._biology = biology
        self._lost = self.clutch_total(probe.egg)
        self._at_least = np.cumsum(biology.sizes[::-1])[::-1][1:]

    def season(self, pair: Pair | None) -> SeasonWeights:
        """The season of a female with this pair's eggs; None: her male does not work, so that all eggs are slugs."""
        one = self.algebra.one(self.probe.points)
        if pair is None:
            slugs = self._season_total(self._lost)
            return SeasonWeights(one * slugs, slugs)
        eggs = egg_weights(pair, self.rows, self.probe)
        lost = self._biology.lost
        allowed = self._season_total((1 - lost) * self.clutch_total(eggs.any) + lost * self._lost)
        clutch = (1 - lost) * self._clutch(eggs) + one * (lost * self._lost)
        lays, clutches = self._biology.lays, self._biology.clutches
        return SeasonWeights(lays * self.algebra.power(clutch, clutches) + (1 - lays) * one, allowed)

    def ending(self, pair: Pair) -> tuple[Complex, EggWeights]:
        """Sum over the eggs of a season, each weighted by all before it with no row filled, itself left out.

        Returned with the weights of one egg: what happens at that egg is multiplied in by the caller.
        """
        eggs = egg_weights(pair, self.rows, self.probe)
        lost = self._biology.lost
        one = self.algebra.one(self.probe.points)
        within = np.zeros_like(one)
        for at_least in self._at_least[::-1]:
            within = self.algebra.lay(within, eggs.miss, eggs.hits) + at_least * one
        clutch = (1 - lost) * self._clutch(eggs) + one * (lost * self._lost)
        before, total = one, np.zeros_like(one)
        for _ in range(self._biology.clutches):
            total = total + before
            before = self.algebra.multiply(before, clutch)
        return self._biology.lays * (1 - lost) * self.algebra.multiply(total, within), eggs

    def clutch_total(self, egg: Complex) -> Complex:
        """The generating function of the clutch size at these egg weights: [points]."""
        sizes = self._biology.sizes
        least = int(np.nonzero(sizes)[0][0])
        total = np.full(len(egg), sizes[-1], dtype=complex)
        for chance in sizes[least:-1][::-1]:
            total = total * egg + chance
        return total * raised(egg, least) if least else total

    def _season_total(self, clutch: Complex) -> Complex:
        lays = self._biology.lays
        return lays * raised(clutch, self._biology.clutches) + (1 - lays)

    def _clutch(self, eggs: EggWeights) -> Complex:
        """A clutch that is not lost, with no row filled: [states, points]."""
        if self.algebra.size == 1:
            return self.clutch_total(eggs.miss)[None]
        one = self.algebra.one(self.probe.points)
        total = self._biology.sizes[-1] * one
        for chance in self._biology.sizes[:-1][::-1]:
            total = self.algebra.lay(total, eggs.miss, eggs.hits) + chance * one
        return total

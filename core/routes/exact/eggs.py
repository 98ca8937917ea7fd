"""From a pair to the generating functions of its eggs and clutches, at a set of probe points.

A probe point gives every egg and every live young a weight. At weight 1 the functions are chances; at roots of unity
they are the transform of a distribution of money or of eggs; a step of 1e-20 off the real axis yields an exact
expectation in the imaginary part (complex-step differentiation).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache, reduce

import numpy as np

from core.routes.exact.algebra import EXPECTING, Complex, raised
from core.routes.exact.lattice import Lattice, fast_length
from core.routes.problem import Genotype, Problem
from core.routes.result import Floats

_STEP = 1e-20


@dataclass(frozen=True, eq=False)
class Probe:
    """Weights at each point: of an egg, of a live young, and of each unit that the young would bring when sold.

    roots: where money is told on a grid, the roots of unity that its points are powers of, and the money of a step.
    keep: the points at which the keep of held animals and their number are told as expectations.
    """

    egg: Complex
    young: Complex
    sale: Complex
    roots: Complex | None = None
    step: float = 1.0
    # Which root of unity the first point is, where sums of money are told.
    first: int = 0
    keep: tuple[Complex, Complex] | None = None

    @cached_property
    def points(self) -> int:
        """How many points there are."""
        return len(self.egg)

    @property
    def before_money(self) -> int:
        """How many points there are besides those that tell money."""
        return self.points

    @property
    def before_eggs(self) -> int:
        """How many points there are before those that tell eggs or money."""
        return self.points

    @cached_property
    def live(self) -> Complex:
        """The weight of an egg that hatches: [points]."""
        return self.egg * self.young

    @cached_property
    def tells_sales(self) -> int:
        """How many of the first points there are up to the last that tells what young would bring."""
        telling = np.flatnonzero(self.sale)
        return int(telling[-1]) + 1 if telling.size else 0

    @cached_property
    def _lost(self) -> dict[bytes, Complex]:
        return {}

    def lost_clutch(self, sizes: Floats) -> Complex:
        """What a clutch of these sizes weighs of which no egg hatches: [points]."""
        key = sizes.tobytes()
        if key not in self._lost:
            self._lost[key] = clutch_total(sizes, self.egg)
        return self._lost[key]

    def cut(self, first: int, last: int) -> Probe:
        """The points from `first` to before `last`."""
        own = slice(first, last)
        return Probe(self.egg[own], self.young[own], self.sale[own], self.roots, self.step, self.first + first)

    @property
    def tells_keep(self) -> bool:
        """Whether the keep of held animals makes a difference."""
        return self.roots is not None or self.keep is not None

    def keeping(self, money: float, animals: int) -> Complex:
        """The weight of keeping so many held animals in a season for this much, to the nearest step: [points]."""
        if self.roots is not None:
            places = np.arange(self.first, self.first + self.points)
            return self.roots[places * round(money / self.step) % len(self.roots)]
        if self.keep is not None:
            return 1 + money * self.keep[0] + animals * self.keep[1]
        return np.ones(self.points, dtype=complex)


_ONE = np.ones(1, dtype=complex)
# A single point at which every weight is 1: chances as they are.
CHANCES = Probe(_ONE, _ONE, 0 * _ONE)

_STEPS = 1j * _STEP * np.eye(EXPECTING)
# Chances as they are, then expectations: of eggs, young, what all young would bring, held animals' keep and number.
EXPECTATIONS = Probe(1 + _STEPS[1], 1 + _STEPS[2], _STEPS[3], keep=(_STEPS[4], _STEPS[5]))


def expectations(values: Complex) -> Floats:
    """What `EXPECTATIONS` yields: [..., points], of which those are the first, into real numbers, the chance first."""
    values = values[..., : EXPECTATIONS.points]
    out: Floats = values.imag / _STEP
    out[..., 0] = values.real[..., 0]
    return out


@lru_cache(maxsize=8)
def _roots(length: int) -> Complex:
    """All roots of unity of a length, which most routes of a plan share."""
    roots: Complex = np.exp(-2j * np.pi * np.arange(length) / length)
    roots.flags.writeable = False
    return roots


def egg_probe(length: int) -> Probe:
    """The lower half of the roots of unity for counts of eggs below `length`."""
    eggs = _roots(length)[: length // 2 + 1]
    return Probe(eggs, np.ones_like(eggs), np.zeros_like(eggs))


def money_probe(lattice: Lattice) -> Probe:
    """The lower half of the roots of unity for sums of money on a lattice."""
    length, per_egg, per_young = lattice.length, lattice.per_egg, lattice.per_young
    k = np.arange(length // 2 + 1)
    roots = _roots(length)
    egg, young = roots[k * per_egg % length], roots[k * per_young % length]
    return Probe(egg, young, np.zeros(len(k), dtype=complex), roots, lattice.step)


@dataclass(frozen=True, eq=False)
class Joined(Probe):
    """Three probes side by side, so that one pass answers everything: expectations, eggs and money in this order."""

    parts: tuple[Probe, ...] = ()
    eggs_length: int = 0

    @property
    def tells_keep(self) -> bool:
        """Whether the keep of held animals makes a difference."""
        return True

    @property
    def before_money(self) -> int:
        """How many points there are besides those that tell money."""
        return self.points - self.parts[-1].points

    @property
    def before_eggs(self) -> int:
        """How many points there are before those that tell eggs or money."""
        return self.parts[0].points

    @property
    def eggs(self) -> Probe:
        """The points that tell eggs."""
        return self.parts[1]

    def keeping(self, money: float, animals: int) -> Complex:
        """The weight of keeping so many held animals in a season for this much: [points]."""
        return np.concatenate([part.keeping(money, animals) for part in self.parts])

    def where(self, part: Probe) -> slice:
        """The points of one of the probes."""
        place = next(i for i, own in enumerate(self.parts) if own is part)
        first = sum(own.points for own in self.parts[:place])
        return slice(first, first + part.points)


# Probes of so many points, and not more, are remembered: 1 MB each.
_MOST_REMEMBERED = 10_000


def joined(most_eggs: int, lattice: Lattice) -> Joined:
    """Expectations, eggs up to the most that can be laid, and money on a lattice."""
    length = fast_length(most_eggs + 1)
    return _remembered(length, lattice) if length + lattice.length <= 2 * _MOST_REMEMBERED else _joined(length, lattice)


def _joined(length: int, lattice: Lattice) -> Joined:
    return _side_by_side((EXPECTATIONS, egg_probe(length), money_probe(lattice)), length)


# Routes of a plan share their probe, and what follows from it alone.
_remembered = lru_cache(maxsize=8)(_joined)


def pieces(whole: Joined, many: int) -> Iterator[Joined]:
    """The same in so many pieces, each with the expectations, which also tell what is likely enough to be followed."""
    _, eggs, money = whole.parts
    cuts = [[part.points * n // many for n in range(many + 1)] for part in (eggs, money)]
    for n in range(many):
        own = (part.cut(cut[n], cut[n + 1]) for part, cut in zip((eggs, money), cuts, strict=True))
        yield _side_by_side((EXPECTATIONS, *own), whole.eggs_length)


def _side_by_side(parts: tuple[Probe, ...], length: int) -> Joined:
    egg, young, sale = (
        np.concatenate(each) for each in zip(*((own.egg, own.young, own.sale) for own in parts), strict=True)
    )
    return Joined(egg, young, sale, parts=parts, eggs_length=length)


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
    """One egg of a pair at every point: changing nothing, taking each step of the counts, and anything at all."""

    miss: Complex
    steps: tuple[Complex, ...]

    @cached_property
    def any(self) -> Complex:
        """An egg of which anything may become: [points]."""
        return reduce(np.add, self.steps, self.miss)


# Which step of the counts a young takes, by its condition bits; None: it changes nothing that is looked at.
Step = Callable[[int], int | None]


def egg_weights(pair: Pair, step_of: Step, steps: int, probe: Probe) -> EggWeights:
    """Weights of one egg that takes one of `steps` steps or none."""
    live, told = probe.live, slice(0, probe.tells_sales)
    chances, sales = [0.0] * (steps + 1), [0.0] * (steps + 1)
    for mask, chance, price in pair.young:
        step = step_of(mask)
        place = steps if step is None else step
        chances[place] += chance
        sales[place] += chance * price
    sold = live[told] * probe.sale[told]
    weights = []
    for chance, sale in zip(chances, sales, strict=True):
        weights.append(live * chance)
        weights[-1][told] += sale * sold
    *taken, miss = weights
    miss += probe.egg * (1 - pair.live)
    return EggWeights(miss, tuple(taken))


def first_row(rows: Sequence[int]) -> Step:
    """Steps by goal row: the place in `rows` of the first one that a young fits."""

    def step_of(mask: int) -> int | None:
        return next((i for i, row in enumerate(rows) if mask >> row & 1), None)

    return step_of


def clutch_total(sizes: Floats, egg: Complex) -> Complex:
    """The generating function of the clutch size at these egg weights: [points]."""
    least = int(np.nonzero(sizes)[0][0])
    total = np.full(len(egg), sizes[-1], dtype=complex)
    for chance in sizes[least:-1][::-1].tolist():
        total *= egg
        total += chance
    if least:
        total *= raised(egg, least)
    return total

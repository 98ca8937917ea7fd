"""A working female's season: her clutches, egg by egg, at a set of probe points."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra, raised
from core.routes.exact.eggs import EggWeights, Pair, Probe, Step, clutch_total, egg_weights
from core.routes.problem import Biology
from core.routes.result import Floats


@dataclass(frozen=True, eq=False)
class SeasonWeights:
    """One female's season: that fell out of no count, [states, points], and with anything allowed, [points]."""

    alive: Complex
    allowed: Complex


class Laying:
    """Season weights of a working female for a way of counting her young, at one set of points."""

    def __init__(
        self, biology: Biology, algebra: CountAlgebra, step_of: Step, probe: Probe, lost: Complex | None = None
    ) -> None:
        """`lost`: what a lost clutch weighs, where that is known."""
        self.algebra, self.step_of, self.probe = algebra, step_of, probe
        self.lost = probe.lost_clutch(biology.sizes) if lost is None else lost
        self._biology = biology
        self._some: dict[tuple[int, int], Laying] = {}

    @cached_property
    def _at_least(self) -> Floats:
        """The chance of a clutch of at least 1, 2, .. eggs."""
        sums: Floats = self._biology.sizes[::-1].cumsum()[::-1][1:]
        return sums

    def at(self, points: slice) -> Laying:
        """The same at some of the points."""
        key = points.start, points.stop
        if key == (0, self.probe.points):
            return self
        if key not in self._some:
            probe, lost = self.probe.cut(*key), self.lost[points]
            self._some[key] = Laying(self._biology, self.algebra, self.step_of, probe, lost)
        return self._some[key]

    @property
    def effort(self) -> int:
        """How many numbers a season takes, about."""
        clutches = self._biology.clutches.bit_length() * self.algebra.effort
        return self.probe.points * self.algebra.size * (len(self._biology.sizes) * (self.algebra.steps + 1) + clutches)

    def weights(self, pair: Pair) -> EggWeights:
        """One egg of this pair."""
        return egg_weights(pair, self.step_of, self.algebra.steps, self.probe)

    def fruitless(self, pair: Pair | None) -> bool:
        """Whether no egg of such a female counts."""
        return pair is None or all(self.step_of(mask) is None for mask, _, _ in pair.young)

    def season(self, pair: Pair | None) -> SeasonWeights:
        """The season of a female with this pair's eggs; None: her male does not work, so that all eggs are slugs."""
        if self.fruitless(pair):
            allowed = self.allowed(pair)
            return SeasonWeights(self._uncounted(allowed), allowed)
        assert pair is not None
        eggs = self.weights(pair)
        alive = self._biology.lays * self.algebra.power(self._clutch(eggs), self._biology.clutches)
        alive[0] += 1 - self._biology.lays
        return SeasonWeights(alive, self._allowed(eggs))

    def _uncounted(self, weight: Complex) -> Complex:
        """The element of what counts nothing: [states, points]."""
        return weight[None] if self.algebra.size == 1 else self.algebra.one(self.probe.points) * weight

    def allowed(self, pair: Pair | None) -> Complex:
        """The season of such a female with anything allowed, and nothing else: [points]."""
        return self._season_total(self.lost) if pair is None else self._allowed(self.weights(pair))

    def _allowed(self, eggs: EggWeights) -> Complex:
        lost = self._biology.lost
        return self._season_total((1 - lost) * clutch_total(self._biology.sizes, eggs.any) + lost * self.lost)

    def ending(self, pair: Pair) -> tuple[Complex, EggWeights]:
        """Sum over the eggs of a season, each weighted by all before it that fell out of no count, itself left out.

        Returned with the weights of one egg: what happens at that egg is multiplied in by the caller.
        """
        eggs = self.weights(pair)
        within = self._laid(self._at_least, eggs)
        within *= self._biology.lays * (1 - self._biology.lost)
        if self._biology.clutches == 1:
            return within, eggs
        clutch = self._clutch(eggs)
        before = self.algebra.one(self.probe.points)
        total = np.zeros_like(before)
        for _ in range(self._biology.clutches):
            total = total + before
            before = self.algebra.multiply(before, clutch)
        return self.algebra.multiply(total, within), eggs

    def _season_total(self, clutch: Complex) -> Complex:
        lays = self._biology.lays
        return lays * raised(clutch, self._biology.clutches) + (1 - lays)

    def clutch(self, pair: Pair) -> Complex:
        """A clutch, lost or not, that fell out of no count: [states, points]."""
        return self._clutch(self.weights(pair))

    def _clutch(self, eggs: EggWeights) -> Complex:
        total, lost = self._laid(self._biology.sizes, eggs), self._biology.lost
        total *= 1 - lost
        total[0] += lost * self.lost
        return total

    def _laid(self, chances: Floats, eggs: EggWeights) -> Complex:
        """Sum over numbers of eggs that fell out of no count, each with its chance: [states, points]."""
        if self.algebra.size == 1 and len(chances):
            return clutch_total(chances, eggs.miss)[None]
        total = np.zeros((self.algebra.size, self.probe.points), dtype=complex)
        for chance in chances[::-1].tolist():
            total = self.algebra.lay(total, eggs.miss, eggs.steps)
            total[0] += chance
        return total

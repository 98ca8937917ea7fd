"""Animals that breed together, season by season.

Given the true states of the males a female ever meets, she is independent of all others; females that share males
form a cluster, clusters are independent.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product

from core.routes.exact.algebra import Complex

# What an animal may be: (genotype number, chance); the rest to 1 does not work at all.
States = tuple[tuple[int, float], ...]
# A male's true state: his genotype number, or None where he does not work.
MaleState = int | None
# The true state of a female's male, season by season; a word where she is not bred.
Mates = tuple[MaleState | str, ...]
NOT_BRED = -1


@dataclass(frozen=True)
class Raised:
    """A held female whose keep and fitness to breed are followed with her: money paid for her per breeding season.

    reaches: the chance that she is fit; else she is only kept as long as `unfit` says. None: she is not there.
    """

    reaches: float
    fit: tuple[float | None, ...]
    unfit: tuple[float | None, ...]


@dataclass(frozen=True)
class Female:
    """A female: what she may be, and per breeding season the number of her male in the cluster, or NOT_BRED."""

    states: States
    males: tuple[int, ...]
    raised: Raised | None = None

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # Looked up again and again.
        return hash((self.states, self.males, self.raised))


@dataclass(frozen=True)
class Cluster:
    """Males and the females that share them; `places` say where a female stands in the laying order."""

    males: tuple[States, ...]
    females: tuple[Female, ...]
    places: tuple[Hashable, ...] = field(compare=False)

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # Looked up again and again, and made of many parts.
        return hash((self.males, self.females))


@dataclass(frozen=True, eq=False)
class Seasons:
    """Products over seasons, [seasons + 1, states, points].

    `alive[s]`: no row filled through season s. `open[s]`: none filled through s - 1, season s with anything allowed.
    """

    alive: Complex
    open: Complex


def male_states(males: Sequence[States]) -> list[tuple[tuple[MaleState, ...], float]]:
    """Every combination of the males' true states that can be, with its chance."""
    each: list[list[tuple[MaleState, float]]] = []
    for states in males:
        idle = 1 - sum(weight for _, weight in states)
        each.append([*states, *([(None, idle)] if idle > 1e-15 else [])])
    return [(tuple(s for s, _ in choice), math.prod(w for _, w in choice)) for choice in product(*each)]


def mates(males: tuple[int, ...], states: tuple[MaleState, ...]) -> Mates:
    """The true state of a female's male, season by season; a word where she is not bred."""
    return tuple(["not bred" if male == NOT_BRED else states[male] for male in males])

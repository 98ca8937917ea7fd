"""Exact answers where goal rows overlap and nothing is held back.

A young that fits several rows counts for the first that is not full, so what an egg does depends on those before it,
and clutches can no longer be multiplied in any order. Instead the true states of all animals are taken one by one,
and the goal's counts are followed egg by egg in the order of laying.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Generator, Iterator
from functools import cache, cached_property

import numpy as np

from core.progress import finished
from core.routes.calendar import fixed_costs, founders_present
from core.routes.exact.algebra import Complex, CountAlgebra, raised
from core.routes.exact.eggs import EXPECTATIONS, EggWeights, Joined, Pair, Probe, clutch_total, egg_weights
from core.routes.exact.ending import AtEgg
from core.routes.exact.founding import FounderWorld, Telling, count_worlds, founder_worlds
from core.routes.exact.limits import MOST_ORDERED, MOST_WORLDS, OutOfReach
from core.routes.exact.looks import Rows
from core.routes.exact.ordered_goal import OrderedGoal
from core.routes.exact.plain import NEGLIGIBLE, Extras, Totals, Workshop, most_laid
from core.routes.exact.schedule import founder_schedule
from core.routes.problem import Problem
from core.routes.result import Floats

# A pair's number in its world, and the chance that the female works; male None: all eggs are slugs.
Mated = tuple[int | None, int, float]

# Every step of an egg takes as long as so many numbers more.
_AT_EACH = 30_000


class OrderedRoute:
    """One route without hold-backs at one set of counts, its goal rows followed together in the order of laying."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self.problem, self.shop = problem, workshop
        self.signature = founder_schedule(problem, workshop.sorts)
        if count_worlds(problem, workshop.kinds, self.signature, Telling(steady=True)) > MOST_WORLDS:
            raise OutOfReach("the animals can be in too many states together")
        self.fixed, self.present = fixed_costs(problem), founders_present(problem)
        self.eggs_bound, self.keep_bound = most_laid(problem, self.signature), 0.0
        every = tuple(range(len(problem.wanted)))
        self.looks: list[tuple[Rows, int]] = [(every, 1)]
        self._check()

    def afresh(self, shop: Workshop) -> OrderedRoute:
        """The same route at other points."""
        other = copy.copy(self)
        other.shop = shop
        return other

    @cached_property
    def _goal(self) -> CountAlgebra:
        return self.shop.kept("ordered goal", lambda: OrderedGoal(self.problem.wanted))

    @cached_property
    def _worlds(self) -> tuple[FounderWorld, ...]:
        return tuple(founder_worlds(self.problem, self.shop.kinds, self.signature, Telling(steady=True)))

    def most_eggs(self, _probe: Joined) -> int:
        """The most eggs that can be laid: those of all seasons that are not surely left out, the goal being met."""
        left = self.totals((), EXPECTATIONS).alive[:-1, 0].real
        return most_laid(self.problem, self.signature[: int((left > NEGLIGIBLE).sum())])

    def totals(self, _rows: Rows, probe: Probe) -> Totals:
        """The generating functions season by season, with the goal not met."""
        return finished(self._told(probe))

    def steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works the totals out step by step, and what is expected."""
        yield from self._told(EXPECTATIONS)
        yield from self._told(probe)
        yield from self._short()

    def egg_steps(self, probe: Joined) -> Generator[None, None, None]:
        """Works out step by step what happens at every egg."""
        yield from self._filled_at(probe.eggs)

    def _told(self, probe: Probe) -> Generator[None, None, Totals]:
        return self.shop.kept_in_steps(("totals", self.signature, probe), lambda: self._tell(probe))

    def _tell(self, probe: Probe) -> Generator[None, None, Totals]:
        alive = np.zeros((len(self.signature) + 1, probe.points), dtype=complex)
        unfilled = np.zeros_like(alive)
        for world, run in self._runs(probe):
            for season, (counts, allowed) in enumerate(run):
                yield
                alive[season] += world.chance * self._goal.total(counts)
                unfilled[season] += world.chance * allowed
        return Totals(alive, unfilled)

    def _check(self) -> None:
        """Raises OutOfReach where following every egg would take too long."""
        biology, goal = self.problem.biology, self._goal
        eggs = sum(map(len, self.signature)) * biology.clutches * len(biology.sizes)
        if len(self._worlds) * eggs * goal.steps * (goal.size * self.eggs_bound + _AT_EACH) > MOST_ORDERED:
            raise OutOfReach("too many eggs to be followed one by one")

    def lacking(self, row: int, _probe: Joined) -> Floats:
        """Expected number of young that this row still lacks at the end of each season, 0 once the goal is met."""
        left: Floats = finished(self._short())[row]
        return left

    def _short(self) -> Generator[None, None, Floats]:
        return self.shop.kept_in_steps(("short", self.signature), self._fall_short)

    def _fall_short(self) -> Generator[None, None, Floats]:
        """What every row lacks: [rows, breeding seasons + 1]."""
        short = np.array(self.problem.wanted)[:, None] - np.array(self._goal.states).T
        left = np.zeros((len(short), len(self.signature) + 1))
        for world, run in self._runs(EXPECTATIONS):
            for season, (counts, _) in enumerate(run):
                yield
                left[:, season] += world.chance * (short @ counts[:, 0].real)
        return left

    def extras(self, _probe: Joined) -> Extras:
        """Nothing is held."""
        return Extras(*(np.zeros(len(self.signature)) for _ in range(4)))

    def endings(self, _rows: Rows, _probe: Joined, part: Probe, _at_egg: AtEgg) -> Complex:
        """The egg that meets the goal, by season: [breeding seasons, points]."""
        return finished(self._filled_at(part))

    def _filled_at(self, part: Probe) -> Generator[None, None, Complex]:
        key = "endings", self.signature, part
        return self.shop.kept_in_steps(key, lambda: self._at_eggs(part, self._filled))

    def counted_worth(self, row: int, _probe: Joined) -> Floats:
        """What the young that count for a row would have brought, by season: [breeding seasons]."""

        @cache
        def counting(wanted: int) -> list[int]:
            """The states in which a young that fits these rows counts for this one."""
            return [i for i, state in enumerate(self._goal.states) if self._row(state, wanted) == row]

        def worth(before: Complex, _egg: EggWeights, pair: Pair) -> Complex:
            total = np.zeros(before.shape[-1], dtype=complex)
            for mask, chance, price in pair.young:
                counts = counting(mask & (1 << len(self.problem.wanted)) - 1)
                total += before[counts].sum(axis=0) * chance * price
            return total

        return finished(self._at_eggs(EXPECTATIONS, worth))[:, 0].real

    def _row(self, state: tuple[int, ...], wanted: int) -> int | None:
        rows = enumerate(zip(state, self.problem.wanted, strict=True))
        return next((row for row, (count, full) in rows if wanted >> row & 1 and count < full), None)

    def _filled(self, before: Complex, egg: EggWeights, _pair: Pair) -> Complex:
        return self._goal.total(before) * egg.any - self._goal.total(self._goal.lay(before, egg.miss, egg.steps))

    def _runs(self, probe: Probe) -> Iterator[tuple[FounderWorld, Iterator[tuple[Complex, Complex]]]]:
        """Per world and season 0.., the goal's counts at its end, and all weight of a season with anything allowed."""
        laying = self.shop.kept(("ordered", probe), lambda: _Laying(self.problem, self.shop, self._goal, probe))
        for world in self._worlds:
            yield world, self._run(world, laying, probe)

    def _run(self, world: FounderWorld, laying: _Laying, probe: Probe) -> Iterator[tuple[Complex, Complex]]:
        counts = self._goal.one(probe.points)
        yield counts, np.ones(probe.points, dtype=complex)
        for mated in self._mated(world):
            allowed = self._goal.total(counts)
            for pair in mated:
                allowed = allowed * laying.allowed(pair)
                counts = laying.season(counts, pair)
            yield counts, allowed

    def _at_eggs(self, probe: Probe, at_egg: InOrder) -> Generator[None, None, Complex]:
        """Sum over all eggs of each season of what happens there."""
        laying = self.shop.kept(("ordered", probe), lambda: _Laying(self.problem, self.shop, self._goal, probe))
        found = np.zeros((len(self.signature), probe.points), dtype=complex)
        for world in self._worlds:
            counts = self._goal.one(probe.points)
            for season, mated in enumerate(self._mated(world)):
                for pair in mated:
                    yield
                    found[season] += world.chance * laying.at_eggs(counts, pair, at_egg)
                    counts = laying.season(counts, pair)
        return found

    def _mated(self, world: FounderWorld) -> Iterator[list[Mated]]:
        for pairs in self.signature:
            mated: list[Mated] = []
            for mating in pairs:
                male, female = world.states[mating.male], world.states[mating.female]
                if female:
                    mated.append((male[0][0] if male else None, *female[0]))
            yield mated


# What happens at one egg: from all that came before it in its clutch, and the egg's own weights.
InOrder = Callable[[Complex, EggWeights, Pair], Complex]


class _Laying:
    """Seasons of one female as they change the goal's counts, at one set of points."""

    def __init__(self, problem: Problem, shop: Workshop, goal: CountAlgebra, probe: Probe) -> None:
        self._biology, self._pairs, self._goal, self._probe = problem.biology, shop.kinds.pairs, goal, probe
        self._wanted = (1 << len(problem.wanted)) - 1
        self._eggs: dict[tuple[int, int], EggWeights] = {}
        self._lost = clutch_total(problem.biology.sizes, probe.egg)
        self._at_least = np.cumsum(problem.biology.sizes[::-1])[::-1][1:]

    def season(self, counts: Complex, pair: Mated) -> Complex:
        """The goal's counts after a female's season."""
        laid = counts
        for _ in range(self._biology.clutches):
            laid = self._clutch(laid, pair)
        lays = pair[2] * self._biology.lays
        return lays * laid + (1 - lays) * counts

    def allowed(self, pair: Mated) -> Complex:
        """The weight of a female's season, whatever it does for the goal: [points]."""
        clutch = self._lost
        if pair[0] is not None:
            lost = self._biology.lost
            clutch = (1 - lost) * clutch_total(self._biology.sizes, self._egg(pair).any) + lost * self._lost
        lays = pair[2] * self._biology.lays
        return lays * raised(clutch, self._biology.clutches) + (1 - lays)

    def at_eggs(self, counts: Complex, pair: Mated, at_egg: InOrder) -> Complex:
        """Sum over a female's eggs of a season of what happens at each: [points]."""
        total = np.zeros(self._probe.points, dtype=complex)
        if pair[0] is None:
            return total
        egg = self._egg(pair)
        for _ in range(self._biology.clutches):
            within = np.zeros_like(counts)
            for at_least in self._at_least[::-1]:
                within = self._goal.lay(within, egg.miss, egg.steps) + at_least * counts
            total = total + (1 - self._biology.lost) * at_egg(within, egg, self._pairs[pair[0], pair[1]])
            counts = self._clutch(counts, pair)
        total *= pair[2] * self._biology.lays
        return total

    def _clutch(self, counts: Complex, pair: Mated) -> Complex:
        if pair[0] is None:
            slugs: Complex = counts * self._lost
            return slugs
        egg, sizes, lost = self._egg(pair), self._biology.sizes, self._biology.lost
        laid = sizes[-1] * counts
        for chance in sizes[:-1][::-1]:
            laid = self._goal.lay(laid, egg.miss, egg.steps) + chance * counts
        told: Complex = (1 - lost) * laid + lost * self._lost * counts
        return told

    def _egg(self, pair: Mated) -> EggWeights:
        male, female, _ = pair
        assert male is not None
        if (male, female) not in self._eggs:
            weights = egg_weights(self._pairs[male, female], self._step_of, self._goal.steps, self._probe)
            self._eggs[male, female] = weights
        return self._eggs[male, female]

    def _step_of(self, mask: int) -> int | None:
        wanted = mask & self._wanted
        return wanted - 1 if wanted else None

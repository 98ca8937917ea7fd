"""What clusters breed season by season, and the chance that none of their eggs fills the goal.

A female has one true state in all her seasons, so her seasons are multiplied first and averaged over her states after.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Hashable, Mapping, Sequence

import numpy as np

from core.routes.exact.algebra import Complex, CountAlgebra
from core.routes.exact.clusters import Cluster, Female, MaleState, Mates, Raised, Seasons, States, male_states, mates
from core.routes.exact.eggs import Pair
from core.routes.exact.laying import Laying, SeasonWeights
from core.routes.exact.limits import Room

# The chance of some true states of males, and each female with those of her mates.
_Way = tuple[float, list[tuple[Female, Mates]]]
# More alike females than this are no set of counts that share their parts.
MANY = 12


class Breeding:
    """Works out clusters for one way of looking at the goal at one set of points; keeps what repeats."""

    def __init__(self, laying: Laying, pairs: Mapping[tuple[int, int], Pair], seasons: int, room: Room) -> None:
        self.laying, self.pairs, self.seasons, self.room = laying, pairs, seasons, room
        # The states of the goal rows looked at.
        self.algebra: CountAlgebra = laying.algebra
        self._season: dict[tuple[int, MaleState], SeasonWeights] = {}
        self._paths: dict[tuple[States, Mates, Raised | None, int], Seasons] = {}
        self._alike: dict[tuple[States, Mates, Raised | None, int, int], Seasons] = {}
        self._clusters: dict[tuple[Cluster, int | None], Seasons] = {}
        self._met: dict[tuple[tuple[States, ...], tuple[Female, ...]], tuple[list[_Way], list[_Way]]] = {}
        self._fruitless: dict[tuple[States, Mates], bool] = {}
        self._kept: dict[Hashable, Complex] = {}

    def kept(self, key: Hashable, work_out: Callable[[], Complex]) -> Complex:
        """An element worked out once and kept under a key."""
        if key not in self._kept:
            self._kept[key] = work_out()
            self.room.keep(self._kept[key].size)
        return self._kept[key]

    def nothing(self) -> Seasons:
        """Of no animals at all."""
        one = np.repeat(self.algebra.one(self.laying.probe.points)[None], self.seasons + 1, axis=0)
        return Seasons(one, one)

    def together(self, clusters: Sequence[Cluster], told: int | None = None) -> Seasons:
        """All clusters of a route together.

        told: where at all but so many first points only what differs between `open` and `alive` is asked for, that the
        goal is met in a season: `open` may then be the difference there, and `alive` not be told at all. Where males
        do not give what counts, both say the same, and neither is worked out.
        """
        if len(clusters) == 1:
            return self.cluster(clusters[0], told)
        total: Seasons | None = None
        # What others breed multiplies what one cluster leaves open, so that has to be told at all points.
        for cluster, times in Counter(clusters).items():
            seasons = self.power(self.cluster(cluster), times)
            total = seasons if total is None else self.both(total, seasons)
        return self.nothing() if total is None else total

    def both(self, a: Seasons, b: Seasons) -> Seasons:
        """Two independent parts together."""
        times = 1 if a.open is a.alive and b.open is b.alive else 2
        self.room.take(times * a.alive.size * self.algebra.effort)
        alive = self.algebra.multiply(a.alive, b.alive)
        if a.open is a.alive and b.open is b.alive:
            return Seasons(alive, alive)
        return Seasons(alive, self.algebra.multiply(a.open, b.open))

    def power(self, seasons: Seasons, times: int) -> Seasons:
        """So many alike parts together."""
        if times == 1:
            return seasons
        self.room.take(2 * times.bit_length() * seasons.alive.size * self.algebra.effort)
        alive = self.algebra.power(seasons.alive, times)
        return Seasons(alive, alive if seasons.open is seasons.alive else self.algebra.power(seasons.open, times))

    def cluster(self, cluster: Cluster, told: int | None = None) -> Seasons:
        """One cluster, averaged over the true states of its males."""
        key = cluster, told
        found = self._clusters.get(key)
        if found is None:
            found = self._clusters[key] = self._averaged(cluster, told)
            self.room.keep(found.alive.size + found.open.size)
        return found

    def _averaged(self, cluster: Cluster, told: int | None) -> Seasons:
        counted = Counter(cluster.females)
        fruitful, idle = self.ways(cluster.males, tuple(counted))
        times, points = tuple(counted.values()), self.laying.probe.points
        if told is not None and told < points:
            return self._differing(fruitful, idle, times, told)
        every = [*fruitful, *idle]
        if len(every) == 1 and every[0][0] == 1:
            return self._of_each(every[0][1], times, points)
        total: Seasons | None = None
        for weight, each in every:
            total = _with_part(total, weight, self._of_each(each, times, points))
        assert total is not None
        return total

    def _differing(self, fruitful: Sequence[_Way], idle: Sequence[_Way], times: Sequence[int], told: int) -> Seasons:
        """Both at the first points; beyond them only what differs, as the second of the two."""
        few, total, points = slice(0, told), None, self.laying.probe.points
        for weight, every in fruitful:
            own = self._of_each(every, times, points)
            differing = own.open - own.alive
            differing[..., few] = own.open[..., few]
            differing *= weight
            alive = weight * own.alive[..., few]
            total = Seasons(alive, differing) if total is None else Seasons(total.alive + alive, total.open + differing)
        if total is None:
            shape = self.seasons + 1, self.algebra.size
            total = Seasons(np.zeros((*shape, told), dtype=complex), np.zeros((*shape, points), dtype=complex))
        for weight, every in idle:
            own = self._of_each(every, times, told)
            np.add(total.alive, weight * own.alive, out=total.alive)
            total.open[..., few] += weight * own.open
        return total

    def ways(self, males: tuple[States, ...], females: tuple[Female, ...]) -> tuple[list[_Way], list[_Way]]:
        """The true states of males with those of each female's mates: where some egg counts, and where none does.

        Counts that differ only in how many females are alike share them.
        """
        key = males, females
        if key not in self._met:
            fruitful: list[_Way] = []
            idle: list[_Way] = []
            for states, weight in male_states(males):
                every = [(female, mates(female.males, states)) for female in females]
                fruitless = all(self.fruitless(female.states, met) for female, met in every)
                (idle if fruitless else fruitful).append((weight, every))
            self._met[key] = fruitful, idle
        return self._met[key]

    def _of_each(self, every: Sequence[tuple[Female, Mates]], times: Sequence[int], points: int) -> Seasons:
        """So many females of each kind together, at the first points."""
        total: Seasons | None = None
        for (female, met), many in zip(every, times, strict=True):
            seasons = self.alike(female.states, met, female.raised, many, points)
            total = seasons if total is None else self.both(total, seasons)
        assert total is not None
        return total

    def alike(self, own: States, mates: Mates, raised: Raised | None, times: int, points: int) -> Seasons:
        """So many females that may be the same and have the same males season by season, at the first points."""
        if times == 1:
            return self.path(own, mates, raised, points)
        if times > MANY:
            # A chain of so many would keep every link.
            return self.power(self.path(own, mates, raised, points), times)
        key = own, mates, raised, times, points
        if key not in self._alike:
            one = self.path(own, mates, raised, points)
            self.room.keep(2 * one.alive.size)
            self._alike[key] = self.both(self.alike(own, mates, raised, times - 1, points), one)
        return self._alike[key]

    def path(self, own: States, mates: Mates, raised: Raised | None, points: int | None = None) -> Seasons:
        """One female, averaged over her true states, given the true states of her males season by season.

        points: so many of the first, else all.
        """
        many = self.laying.probe.points if points is None else points
        key = own, mates, raised, many
        found = self._paths.get(key)
        if found is None:
            if raised is None:
                found = self._path(own, mates, many)
            else:
                found = self._raised(self.path(own, mates, None, many), raised)
            self._paths[key] = found
            self.room.keep(2 * found.alive.size)
        return found

    def _raised(self, grown: Seasons, raised: Raised) -> Seasons:
        """The same female with her keep paid, fit to breed or not."""
        self.room.take(grown.alive.size)
        some = slice(0, grown.alive.shape[-1])
        fit = self.kept_alive(raised)[..., some]
        unfit = (1 - raised.reaches) * self.keep(raised.unfit)[..., some]
        alive = grown.alive * fit
        alive[:, 0] += unfit[:, 0]
        if grown.open is grown.alive:
            return Seasons(alive, alive)
        unfilled = grown.open * fit
        unfilled[:, 0] += unfit[:, 0]
        return Seasons(alive, unfilled)

    def kept_alive(self, raised: Raised) -> Complex:
        """That she is fit to breed, with her keep paid: [seasons + 1, 1, points]."""
        return self.kept(("alive", raised), lambda: raised.reaches * self.keep(raised.fit))

    def keep(self, costs: tuple[float | None, ...]) -> Complex:
        """What one animal costs, by what is paid for it each season: [seasons + 1, 1, points]."""
        probe = self.laying.probe
        paid = np.ones((self.seasons + 1, 1, probe.points), dtype=complex)
        if probe.tells_keep:
            for season, money in enumerate(costs, start=1):
                paid[season] = paid[season - 1] if money is None else paid[season - 1] * self._keeping(money)
        return paid

    def _keeping(self, money: float) -> Complex:
        return self.kept(("keeping", money), lambda: self.laying.probe.keeping(money, 1))

    def _path(self, own: States, mates: Mates, points: int) -> Seasons:
        shape = self.seasons + 1, self.algebra.size, points
        self.room.take(2 * math.prod(shape) * self.algebra.effort * max(len(own), 1))
        fruitless = self.fruitless(own, mates)
        alive = np.zeros(shape, dtype=complex) if not own else np.empty(shape, dtype=complex)
        unfilled = alive if fruitless else np.zeros_like(alive)
        for place, (state, weight) in enumerate(own):
            so_far = weight * self.algebra.one(points)
            _put(alive[0], so_far, place)
            for season, mate in enumerate(mates, start=1):
                weights = None if isinstance(mate, str) else self.season(state, mate)
                if not fruitless:
                    _put_product(unfilled[season], so_far, None if weights is None else weights.allowed[:points], place)
                if weights is not None:
                    so_far = self.algebra.multiply(so_far, weights.alive[:, :points])
                _put(alive[season], so_far, place)
        idle = 1 - sum(weight for _, weight in own)
        alive[:, 0] += idle
        if not fruitless:
            unfilled[:, 0] += idle
            unfilled[0] = alive[0]
        return Seasons(alive, unfilled)

    def fruitless(self, own: States, mates: Mates) -> bool:
        """Whether no egg that a female may lay with these males counts."""
        found = self._fruitless.get((own, mates))
        if found is None:
            each = [mate for mate in dict.fromkeys(mates) if not isinstance(mate, str)]
            pairs = (None if mate is None else self.pairs[mate, state] for mate in each for state, _ in own)
            found = all(map(self.laying.fruitless, pairs))
            self._fruitless[own, mates] = found
        return found

    def allowed(self, female: int, male: MaleState, points: slice | None = None) -> Complex:
        """The season of such a female with anything allowed, and nothing else, at some of the points: [points]."""
        where = points or slice(0, self.laying.probe.points)
        found = self._season.get((female, male))
        if found is not None:
            return found.allowed[where]
        pair = None if male is None else self.pairs[male, female]
        key = "allowed", female, male, where.start, where.stop
        return self.kept(key, lambda: self.laying.at(where).allowed(pair))

    def season(self, female: int, male: MaleState) -> SeasonWeights:
        """The season of a working female of this genotype with this male."""
        found = self._season.get((female, male))
        if found is None:
            self.room.take(self.laying.effort)
            found = self.laying.season(None if male is None else self.pairs[male, female])
            self._season[female, male] = found
            self.room.keep(found.alive.size + found.allowed.size)
        return found


def _put(out: Complex, element: Complex, place: int) -> None:
    """Adds the element at a place of a sum, of which the first is put."""
    if place:
        out += element
    else:
        out[...] = element


def _put_product(out: Complex, element: Complex, weight: Complex | None, place: int) -> None:
    """The same for an element times a weight at every point, if there is one."""
    if weight is None:
        _put(out, element, place)
    elif place:
        out += element * weight
    else:
        np.multiply(element, weight, out=out)


def _with_part(total: Seasons | None, weight: float, own: Seasons) -> Seasons:
    """A sum with one more part, in place."""
    alive = weight * own.alive
    unfilled = alive if own.open is own.alive else weight * own.open
    if total is None:
        return Seasons(alive, unfilled)
    np.add(total.alive, alive, out=total.alive)
    if total.open is not total.alive:
        np.add(total.open, unfilled, out=total.open)
    return total

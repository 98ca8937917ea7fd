"""That the goal is met, season by season: from generating functions back to chances and sums of money."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby, islice

import numpy as np

from core.routes.exact.algebra import Complex
from core.routes.exact.eggs import Joined, Probe
from core.routes.exact.lattice import Lattice
from core.routes.exact.plain import ROUNDING, PlainRoute, Totals
from core.routes.exact.reach import ExactRoute
from core.routes.result import Floats

# Numbers that are brought back from transforms at once, where that need not be all.
AT_ONCE = 50_000


def unmet(route: ExactRoute, probe: Probe) -> Totals:
    """The generating functions of "not all rows are full", by inclusion and exclusion over the rows."""
    return route.shop.kept(("unmet", route.signature, probe), lambda: _work_out_unmet(route, probe))


def _work_out_unmet(route: ExactRoute, probe: Probe) -> Totals:
    found: Totals | None = None
    for rows, sign in route.looks:
        totals = route.totals(rows, probe)
        if sign != 1:
            totals = Totals(sign * totals.alive, sign * totals.open)
        found = totals if found is None else Totals(found.alive + totals.alive, found.open + totals.open)
    assert found is not None
    route.shop.room.keep(found.alive.size + found.open.size)
    return found


@dataclass(frozen=True, eq=False)
class Ends:
    """How a route ends, its fixed costs left out; the same for counts that breed alike.

    chance: [breeding seasons], met by the end of each; met: per breeding season [lattice], and in that season with
    so many steps paid; left: [lattice], not met at all, where the route then buys outright.
    """

    chance: Floats
    met: Iterable[Floats]
    left: Floats | None


def end_together(routes: Sequence[ExactRoute], lattice: Lattice, probe: Joined) -> Generator[None, None, None]:
    """Works out step by step how a route ends at all its counts, for `answer` to find."""
    alike = list({route.signature: route for route in routes}.values())
    for route, ends in zip(alike, (yield from ends_of(alike, lattice, probe)), strict=True):
        route.shop.keep(("ends", route.signature), ends)


def is_ended(route: ExactRoute) -> bool:
    """Whether that has been worked out, for a count that breeds alike."""
    return route.shop.knows(("ends", route.signature))


def ends_of(routes: Sequence[ExactRoute], lattice: Lattice, probe: Joined) -> Generator[None, None, list[Ends]]:
    """How each of these ends."""
    met = yield from _met_together([_Met(route, lattice, probe) for route in routes], lattice)
    money, found = probe.where(probe.parts[-1]), []
    for route, own in zip(routes, met, strict=True):
        alive = unmet(route, probe).alive
        left = None if route.problem.outright is None else running(alive[-1, money], lattice.length)
        found.append(Ends(1 - alive[1:, 0].real, own, left))
    return found


class _Met:
    """The transforms of what is paid on meeting the goal in each season, as the difference of two."""

    def __init__(self, route: ExactRoute, lattice: Lattice, probe: Joined) -> None:
        totals, money = unmet(route, probe), probe.where(probe.parts[-1])
        self._open = totals.open[1:, money]
        self._alive = totals.alive[1:, money] if totals.alive.shape[-1] > money.start else None
        # The first point tells the whole; what never happens need not be transformed.
        happens = (np.abs(totals.met(slice(money.start, money.start + 1))[:, 0]) > ROUNDING).tolist()
        self.seasons, strides = len(happens), [1] * len(happens)
        if isinstance(route, PlainRoute):
            # What is paid by the end of the first seasons takes less than the whole length.
            strides = lattice.strides(accumulate(map(len, route.signature)))
        self.strides = [stride if own else 0 for own, stride in zip(happens, strides, strict=True)]

    def runs(self, most: Callable[[int], int]) -> Iterator[tuple[int, slice]]:
        """Seasons in a row that take the same part of the length: by how much that is divided, and which.

        most: how many at the most, by that.
        """
        first = 0
        for stride, same in groupby(self.strides):
            last = first + len(list(same))
            while stride and first < last:
                yield stride, slice(first, min(last, first + most(stride)))
                first += most(stride)
            first = last

    def put(self, seasons: slice, stride: int, out: Complex) -> None:
        """Puts some seasons into rows, at every so manyeth point."""
        if self._alive is None:
            out[...] = self._open[seasons, ::stride]
        else:
            np.subtract(self._open[seasons, ::stride], self._alive[seasons, ::stride], out=out)


def _met_together(every: Sequence[_Met], lattice: Lattice) -> Generator[None, None, list[list[Floats]]]:
    """Back from transforms, season by season: [lattice], or as much of it as is needed."""
    found = [[np.zeros(1)] * met.seasons for met in every]

    def most(stride: int) -> int:
        return max(1, AT_ONCE * stride // lattice.length)

    by_stride: dict[int, list[tuple[int, slice]]] = {}
    for place, met in enumerate(every):
        for stride, seasons in met.runs(most):
            by_stride.setdefault(stride, []).append((place, seasons))
    for stride, runs in by_stride.items():
        while runs:
            some = _first(runs, most(stride))
            _bring_back(every, some, stride, lattice.length // stride, found)
            runs = runs[len(some) :]
            yield
    return found


def _first(runs: Sequence[tuple[int, slice]], most: int) -> Sequence[tuple[int, slice]]:
    """So many of the first runs that they have no more seasons than this, but one at least."""
    ends = list(accumulate(seasons.stop - seasons.start for _, seasons in runs))
    return runs[: max(1, bisect_right(ends, most))]


def _bring_back(
    every: Sequence[_Met], runs: Sequence[tuple[int, slice]], stride: int, length: int, found: list[list[Floats]]
) -> None:
    rows = sum(seasons.stop - seasons.start for _, seasons in runs)
    transform, first = np.empty((rows, length // 2 + 1), dtype=complex), 0
    for place, seasons in runs:
        last = first + seasons.stop - seasons.start
        every[place].put(seasons, stride, transform[first:last])
        first = last
    sums = iter(_summed(transform, length))
    for place, seasons in runs:
        found[place][seasons] = islice(sums, seasons.stop - seasons.start)


def running(transform: Complex, length: int) -> Floats:
    """Running sums of what a transform stands for."""
    # The first point tells the whole; what never happens need not be transformed.
    seasons = np.abs(transform[..., 0]) > ROUNDING
    if not seasons.all():
        sums = np.zeros((*transform.shape[:-1], length))
        sums[seasons] = running(transform[seasons], length) if seasons.any() else 0.0
        return sums
    return _summed(transform, length)


def _summed(transform: Complex, length: int) -> Floats:
    mass = np.fft.irfft(transform, length)
    np.maximum(mass, 0, out=mass)
    return running_sums(mass)


# So many numbers are summed by a product with a triangle of ones, which is faster than one by one.
_BLOCK = 8
_TRIANGLE = np.triu(np.ones((_BLOCK, _BLOCK)))


def running_sums(numbers: Floats) -> Floats:
    """Running sums along the last axis, block by block; the numbers themselves are lost."""
    if numbers.shape[-1] % _BLOCK:
        return np.cumsum(numbers, axis=-1, out=numbers)
    blocks = numbers.reshape(*numbers.shape[:-1], numbers.shape[-1] // _BLOCK, _BLOCK)
    before = (blocks @ _TRIANGLE[:, -1]).cumsum(axis=-1)
    blocks[..., 1:, 0] += before[..., :-1]
    sums: Floats = (blocks @ _TRIANGLE).reshape(numbers.shape)
    return sums

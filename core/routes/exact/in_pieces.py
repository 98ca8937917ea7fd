"""An exact answer in pieces: at a part of the probe points at a time, so that less has to be kept at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Generator, Iterator, Sequence

import numpy as np

from core.progress import Long
from core.routes.answer import Answer, Expectations, Expected, untold
from core.routes.exact.algebra import Complex
from core.routes.exact.eggs import EXPECTATIONS, Joined, Probe, joined, pieces
from core.routes.exact.lattice import Lattice
from core.routes.exact.limits import MOST_IN_ALL, MOST_IN_ALL_HELD, MOST_LEFT, OutOfReach, OutOfRoom
from core.routes.exact.met import Ends, running, unmet
from core.routes.exact.plain import Workshop
from core.routes.exact.reach import STEPWISE, ExactRoute, exact_routes, pieces_needed, workshop
from core.routes.exact.solve import answer_of, egg_curve, egg_transform, expected, lays_to_the_goal, told
from core.routes.exact.sparse import Sparse
from core.routes.problem import Problem
from core.routes.result import Floats

# At least so many pieces: all at once was too much.
_FEWEST = 4
# So many numbers are worked out in some seconds.
_MANY = 1_000_000_000
# A piece with fewer points than this is not cut any more.
_LEAST = 32


def counts_in_pieces(
    problems: Sequence[Problem],
    drawn: int,
    lattice_of: Callable[[Sequence[ExactRoute]], Lattice],
    *,
    bare: bool = False,
) -> Generator[float, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts; yields the share done. Raises OutOfReach. bare: of chances and money alone.

    For whoever has tried all at once, where it is looked at whether there are too many nurseries to follow. Nothing is
    kept from one piece to the next but who breeds with whom: it takes a little longer than all at once.
    """
    shop = workshop(problems[drawn])
    routes = exact_routes(problems, shop)
    lattice = lattice_of(routes)
    most_eggs = max(route.eggs_bound for route in routes)
    many = max(_FEWEST, *(pieces_needed(problem, most_eggs, lattice) for problem in problems))
    whole = joined(0 if bare else most_eggs, lattice)
    work = _Work(shop, MOST_IN_ALL_HELD if problems[drawn].holds else MOST_IN_ALL, len(routes) * _own(whole))
    left = len(routes) * problems[drawn].breeding_seasons * whole.points
    # What all counts share is worked out once, unless what they leave behind together is too much.
    together = [routes] if left <= MOST_LEFT else [[route] for route in routes]
    answers: list[Answer] = []
    expectations: list[Expected] = []
    try:
        for some in together:
            told = [_Told(route, whole, bare) for route in some]
            for n, piece in enumerate(pieces(whole, many)):
                share = (len(answers) + len(some) * n / many) / len(routes)
                work.begin()
                for own in told:
                    yield from work.of(own, piece, share)
            for own in told:
                answers.append(own.answer(lattice))
                if not bare:
                    expectations.append(own.expected())
                yield len(answers) / len(routes)
    finally:
        work.forget()
    return answers, untold if bare else expectations.__getitem__


class _Work:
    """Pieces worked out one by one; what is kept from one count to the next gives way where there is no room left."""

    def __init__(self, shop: Workshop, most: int, points: int) -> None:
        self._shop, self._most, self._used = shop, most, 0
        self._fresh = False
        self._every, self._done = points, 0
        # The most points that a piece may have, as far as is known.
        self._points = math.inf

    def begin(self) -> None:
        """Forgets all that was kept. Raises OutOfReach where what is left would take too long."""
        self._used += self._shop.room.effort
        self.forget()
        self._shop, self._fresh = self._shop.afresh(), True
        if self._used > self._most * max(self._done / self._every, 0.1):
            raise OutOfReach("too many numbers for an exact answer")

    def forget(self) -> None:
        """Lets go of all that was kept."""
        self._shop.forget()

    def of(self, told: _Told, piece: Joined, share: float) -> Generator[float, None, None]:
        """Works a piece out for one set of counts, in halves where it is too large; share: done before it."""
        while piece.points <= self._points:
            yield share
            fresh = self._fresh
            if (yield from self._is_done(told, piece, share)):
                self._done += _own(piece)
                return
            self.begin()
            if fresh:
                self._points = piece.points / 2 + EXPECTATIONS.points
        if piece.points <= _LEAST:
            raise OutOfReach("too many numbers for an exact answer")
        for half in pieces(piece, 2):
            self.begin()
            yield from self.of(told, half, share)

    def _is_done(self, told: _Told, piece: Joined, share: float) -> Generator[float, None, bool]:
        self._shop.room.rest()
        self._fresh = False
        try:
            for _ in told.add(self._shop, piece):
                is_long = self._used + self._shop.room.effort > _MANY and self._done < self._every / 3
                yield Long(share) if is_long else share
        except OutOfRoom:
            return False
        return True


class _Told:
    """What the pieces said of one set of counts; `bare`: of chances and money alone."""

    def __init__(self, route: ExactRoute, whole: Joined, bare: bool) -> None:
        self._route, self._whole, self._bare = route, whole, bare
        self._expected: Expected | None = None
        self._still: Floats = np.zeros(0)
        self._most = 0
        money, seasons = whole.parts[-1].points, route.problem.breeding_seasons
        self._met: Complex = np.zeros((seasons, money), dtype=complex)
        self._left: Complex | None = None if route.problem.outright is None else np.zeros(money, dtype=complex)
        self._eggs: Complex = np.zeros((seasons, 0), dtype=complex)
        self._laid: Complex | None = None

    def add(self, shop: Workshop, piece: Joined) -> Iterator[None]:
        """Works one piece out step by step, and keeps its sums."""
        route = self._route.afresh(shop)
        if isinstance(route, STEPWISE):
            yield from route.steps(piece)
        totals = unmet(route, piece)
        if not self._still.size:
            self._begin(route, piece)
        if self._most and piece.eggs.points:
            here = _place(piece.eggs)
            if self._laid is not None:
                self._laid[:, here] = totals.open[:, piece.where(piece.eggs)]
            if isinstance(route, STEPWISE):
                yield from route.egg_steps(piece)
            self._eggs[:, here] = egg_transform(route, piece)
        here, money = _place(piece.parts[-1]), piece.where(piece.parts[-1])
        self._met[:, here] = totals.met(money)
        if self._left is not None:
            self._left[here] = totals.alive[-1, money]

    def _begin(self, route: ExactRoute, piece: Joined) -> None:
        """What every piece could tell; where there is no room for it, the next one has to."""
        if not self._bare:
            self._expected = expected(route, piece)
            self._most = route.most_eggs(piece)
        if self._most:
            seasons, points = len(self._met), self._whole.eggs.points
            self._eggs = np.zeros((seasons, points), dtype=complex)
            if lays_to_the_goal(route):
                self._laid = np.zeros((seasons + 1, points), dtype=complex)
        self._still = unmet(route, piece).alive[1:, 0].real.copy()

    def answer(self, lattice: Lattice) -> Answer:
        """All of them together; the transforms give way to what they stand for."""
        route, length = self._route, self._whole.eggs_length
        ends = Ends(1 - self._still, (running(met, lattice.length) for met in self._met), self._bought(lattice))
        eggs = np.zeros((route.problem.horizon, 1))
        if self._most:
            eggs = egg_curve(route.problem, self._most, length, self._eggs, self._laid)
        found = told(answer_of(route, lattice, ends, untold if self._bare else Sparse(eggs).whole))
        self._met = self._eggs = np.zeros((0, 0), dtype=complex)
        self._left = self._laid = None
        return found

    def _bought(self, lattice: Lattice) -> Floats | None:
        return None if self._left is None else running(self._left, lattice.length)

    def expected(self) -> Expected:
        """The expectations."""
        assert self._expected is not None
        return self._expected


def _own(piece: Joined) -> int:
    """How many points no other piece has."""
    return piece.points - EXPECTATIONS.points


def _place(part: Probe) -> slice:
    """Where the points of a part of a probe stand among all of its kind."""
    return slice(part.first, part.first + part.points)

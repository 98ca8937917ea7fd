"""An exact answer in pieces: at a part of the probe points at a time, so that less has to be kept at once."""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence

import numpy as np

from core.routes.answer import Answer, Expectations, Expected
from core.routes.exact.algebra import Complex
from core.routes.exact.eggs import Joined, joined, pieces
from core.routes.exact.holding import HoldingRoute
from core.routes.exact.lattice import Lattice
from core.routes.exact.plain import Totals
from core.routes.exact.reach import ExactRoute, check_at_once, exact_route, workshop
from core.routes.exact.solve import answer_of, egg_curve, egg_transform, ends_of, expected, unmet
from core.routes.problem import Problem
from core.routes.result import Floats

# So many pieces: more take more turns of the same steps than they save.
_PIECES = 4


def counts_in_pieces(
    problems: Sequence[Problem], drawn: int, lattice_of: Callable[[Sequence[ExactRoute]], Lattice]
) -> Generator[float, None, tuple[list[Answer], Expectations]]:
    """Answers for every set of counts; yields the share done. Raises OutOfReach.

    Nothing is kept from one piece to the next: it takes a little longer than all at once.
    """
    shop = workshop(problems[drawn])
    routes = [exact_route(problem, shop) for problem in problems]
    lattice = lattice_of(routes)
    whole = joined(max(route.eggs_bound for route in routes), lattice)
    told = [_Told() for _ in problems]
    for n, piece in enumerate(pieces(whole, _PIECES)):
        shop = workshop(problems[drawn])
        for problem in problems:
            check_at_once(problem, piece)
        for place, (problem, own) in enumerate(zip(problems, told, strict=True)):
            yield (n + place / len(problems)) / _PIECES
            own.add(exact_route(problem, shop), piece)
    answers = [own.answer(route, lattice, whole.eggs_length) for own, route in zip(told, routes, strict=True)]
    return answers, [own.expected() for own in told].__getitem__


class _Told:
    """What the pieces said of one set of counts."""

    def __init__(self) -> None:
        self._expected: Expected | None = None
        self._still: Floats = np.zeros(0)
        self._most = 0
        self._alive: list[Complex] = []
        self._open: list[Complex] = []
        self._eggs: list[Complex] = []
        self._laid: list[Complex] = []

    def add(self, route: ExactRoute, piece: Joined) -> None:
        """Works one piece out, and keeps its sums."""
        if isinstance(route, HoldingRoute):
            route.check()
        totals, money = unmet(route, piece), piece.where(piece.parts[-1])
        if self._expected is None:
            self._expected = expected(route, piece)
            self._still, self._most = totals.alive[1:, 0].real.copy(), route.most_eggs(piece)
        self._alive.append(totals.alive[:, money].copy())
        self._open.append(totals.open[:, money].copy())
        if self._most:
            self._eggs.append(egg_transform(route, piece))
            self._laid.append(totals.open[:, piece.where(piece.eggs)].copy())

    def answer(self, route: ExactRoute, lattice: Lattice, length: int) -> Answer:
        """All of them together."""
        money = Totals(np.concatenate(self._alive, axis=1), np.concatenate(self._open, axis=1))
        ends = ends_of(route.problem, lattice, self._still, money)
        eggs = np.zeros((route.problem.horizon, 1))
        if self._most:
            transform = np.concatenate(self._eggs, axis=1)
            eggs = egg_curve(route, self._most, length, transform, lambda: np.concatenate(self._laid, axis=1))
        return answer_of(route, lattice, ends, lambda: eggs)

    def expected(self) -> Expected:
        """The expectations, which every piece could tell."""
        assert self._expected is not None
        return self._expected

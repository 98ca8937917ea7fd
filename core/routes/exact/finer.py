"""Money told once more, on a finer grid, where the goal is met for much less than could be paid at most."""

from __future__ import annotations

import math
from collections.abc import Generator, Sequence
from contextlib import suppress
from dataclasses import replace

import numpy as np

from core.routes.another import another
from core.routes.answer import Answer, Expectations
from core.routes.assemble import SAME
from core.routes.exact.limits import OutOfReach
from core.routes.problem import Problem

# The most that a step of the money may be of the largest sum that is told.
_MOST_STEP = 0.001


def told_finer(problems: Sequence[Problem], drawn: int, answers: Sequence[Answer]) -> list[Problem] | None:
    """The problems with the most that is told to be paid for the goal; None where the grid is fine enough for that."""
    told = [answer for place, answer in enumerate(answers) if place == drawn or not answer.beaten]
    if not any(map(_is_coarse, told)):
        return None
    return [
        another(problem, most_told=_most(answer)) if not answer.beaten else problem
        for problem, answer in zip(problems, answers, strict=True)
    ]


def _is_coarse(answer: Answer) -> bool:
    """Whether all that is told is told of sums too small for the grid's step."""
    curve, grid = answer.by_money[-1], answer.grid
    before = math.ceil(1 / _MOST_STEP - grid.least / grid.step - 1e-6) - 1
    return before >= 0 and float(curve[-1]) - float(curve[min(before, grid.size - 1)]) <= SAME < curve[-1]


def _most(answer: Answer) -> float:
    """The largest sum that is told and a step more, as sums are rounded."""
    curve, grid = answer.by_money[-1], answer.grid
    rises = np.flatnonzero(np.diff(curve, prepend=0.0) > SAME)
    largest = grid.money(int(rises[-1]) if rises.size else grid.size - 1)
    return largest + grid.step


def told_again(
    answers: list[Answer], work: Generator[float, None, tuple[list[Answer], Expectations]]
) -> Generator[float, None, list[Answer]]:
    """The answers with their money as the work tells it; as it was where that is out of reach."""
    with suppress(OutOfReach):
        while True:
            try:
                next(work)
            except StopIteration as end:
                return [_with_money_of(one, other) for one, other in zip(answers, end.value[0], strict=True)]
            yield 1.0
    return answers


def _with_money_of(answer: Answer, other: Answer) -> Answer:
    return replace(answer, grid=other.grid, money=other.money)

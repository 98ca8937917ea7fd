"""What was worked out as it is told: each route with its sentence, under a name of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import msgspec

from core.plan.chances import chance
from core.plan.model import Plan
from core.search.drawing import Drawing
from core.search.found import Point, Proposal
from core.search.reasons import why, why_point
from core.search.telling import told_apart
from core.search.working import Worked


class Proposals:
    """Told many times over while the search goes on: the same is the same value each time."""

    def __init__(self, plan: Plan, drawing: Drawing) -> None:
        self._plan, self._drawing = plan, drawing
        self._known: dict[tuple[str, str | Point], Proposal] = {}
        self._apart: dict[tuple[int, str], Proposal] = {}

    def of(
        self, chosen: Sequence[Worked], worked: Mapping[str, Worked], points: Sequence[Point]
    ) -> tuple[tuple[Proposal, ...], tuple[Proposal, ...]]:
        """The chosen ones, beside the first of them; and those that further points stand for, beside the point."""
        ids = {one.route.id for one in chosen}
        # A route may stand for several: for the goal's own chance before any other.
        ordered = sorted(points, key=self._of_another_chance)
        further = {point.route: point for point in reversed(ordered) if point.route not in ids}
        every = [self._chosen(one, chosen[0]) for one in chosen]
        every += [self._for_point(worked[route], point) for route, point in reversed(further.items())]
        names = told_apart([one.route for one in every])
        told = [self._named(one, name) for one, name in zip(every, names, strict=True)]
        return tuple(told[: len(chosen)]), tuple(told[len(chosen) :])

    def _of_another_chance(self, point: Point) -> bool:
        return point.chance != chance(self._plan.goal.chance)

    def _chosen(self, one: Worked, best: Worked) -> Proposal:
        key = one.route.id, best.route.id
        if key not in self._known:
            beside = best.candidate, best.drawn[1]
            self._known[key] = self._told(one, why(self._plan, self._drawing, one.candidate, one.drawn[1], beside))
        return self._known[key]

    def _for_point(self, one: Worked, point: Point) -> Proposal:
        key = one.route.id, point
        if key not in self._known:
            self._known[key] = self._told(one, why_point(self._plan, self._drawing, one.candidate, point))
        return self._known[key]

    def _told(self, one: Worked, sentence: str) -> Proposal:
        route, result = one.drawn
        return Proposal(one.candidate.way, route, sentence, result)

    def _named(self, one: Proposal, name: str) -> Proposal:
        if name == one.route.name:
            return one
        key = id(one), name
        if key not in self._apart:
            self._apart[key] = replace(one, route=msgspec.structs.replace(one.route, name=name))
        return self._apart[key]

"""What a season's step of the chain depends on besides the weights."""

from __future__ import annotations

from collections.abc import Sequence

from core.routes.exact.brood import last_hold
from core.routes.exact.chain.fates import Look
from core.routes.exact.chain.shares import Season
from core.routes.problem import Herd, Problem


class Seasons:
    """The seasons of a route with these held herds."""

    def __init__(self, problem: Problem, herds: Sequence[Herd]) -> None:
        self._problem, self._herds = problem, herds

    def of(self, looks: Sequence[Look], season: int, ranks: Sequence[int] | None = None) -> Season:
        """A season for what is looked at; ranks: up to how many fit ones of each herd are told apart, if said."""
        (course, _), (_, last) = looks[0], looks[-1]
        most, matures = tuple(ranks or self._ranks(looks, season)), self._problem.biology.matures
        alone = any(variant.animal is not None for _, variant in looks)
        fit = [course.fit(herd, season) for herd in range(len(self._herds))]
        return Season(
            counts=tuple(herd.count for herd in self._herds),
            closed=tuple(self.closed(season)),
            least=tuple(least for least, _ in fit),
            bound=tuple(most for _, most in fit),
            members=tuple(len(course.members.get(herd, ())) for herd in range(len(self._herds))),
            ranks=most,
            alike=tuple(
                tuple(range(herd.count + 1))
                if alone or place in course.members
                else course.alike(herd, own, herd.count, slice(season + matures[herd.sex] - 1, last.season))
                for place, (herd, own) in enumerate(zip(self._herds, most, strict=True))
            ),
            risky=self._problem.biology.reaches < 1,
        )

    def closed(self, season: int) -> list[bool]:
        """Which herds hold no young of that season any more."""
        return [season > last_hold(self._problem, herd) for herd in self._herds]

    def _ranks(self, looks: Sequence[Look], season: int) -> list[int]:
        """Up to how many fit ones of each herd are told apart, of those held in a season."""
        (course, _), (_, last) = looks[0], looks[-1]
        alone = any(variant.animal is not None for _, variant in looks)
        # What is not due by the last season looked at is alike, whatever its rank.
        return [
            0
            if season + self._problem.biology.matures[herd.sex] > last.season
            else course.ranks(place, herd, alone=alone)
            for place, herd in enumerate(self._herds)
        ]

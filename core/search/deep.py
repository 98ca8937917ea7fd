"""Routes of three generations: daughters, and then granddaughters, to their sire, their brothers or a second male.

They are played, and nothing cheap bounds their chance well: the most promising of each way are tried, with no claim on
the rest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from operator import itemgetter

from core.plan.model import Forms, Plan
from core.search.candidate import Candidate, Mate, Mates, grown
from core.search.descent import Descent, of_kind
from core.search.founders import meet, paid_for
from core.search.lineage import Table, picks
from core.search.odds import Odds
from core.search.stock import Stock

# Tried at most; of them by the same mates; and the places for daughters and for granddaughters.
MOST_DEEP, MOST_ALIKE = 12, 3
PLACES = (2, 4)
_WHOM: tuple[Mate, ...] = ("sire", "brothers", "second male")
_NOTHING: tuple[float, tuple[Forms, Forms]] = (0.0, ({}, {}))
# The first seasons in which founders, daughters and granddaughters breed.
Starts = tuple[int, int, int]


class Deep:
    """The most promising candidates of three generations."""

    def __init__(self, plan: Plan, stock: Stock, odds: Sequence[Odds]) -> None:
        self._plan, self._stock = plan, stock
        self._tables = [Table(one) for one in odds]
        self._seconds = [of_kind(one) for one in stock.males]
        every = picks(plan)
        # Granddaughters by a condition that asks no less than that for daughters.
        self._picks = [(one, later) for one in every for later in every if one.items() <= later.items()]

    def candidates(self, limit: float) -> Iterator[Candidate | None]:
        """Those that promise most for what their founders cost, which is less than `limit`; None in between."""
        ranked: list[tuple[float, Candidate]] = []
        if all(table.is_small for table in self._tables):
            for m, f in product(range(len(self._stock.males)), range(len(self._stock.females))):
                yield None
                ranked += self._of_pair(m, f, limit)
        alike: dict[Mates | None, int] = {}
        chosen = []
        for _, one in sorted(ranked, key=itemgetter(0)):
            alike[one.mates] = alike.get(one.mates, 0) + 1
            if alike[one.mates] <= MOST_ALIKE:
                chosen.append(one)
        yield from chosen[:MOST_DEEP]

    def _of_pair(self, m: int, f: int, limit: float) -> Iterator[tuple[float, Candidate]]:
        """What a pair may be the founders of, each with what it costs for what it promises."""
        sire, dam = self._stock.males[m], self._stock.females[f]
        if dam.mine and dam.most > 1:
            return
        descents = [Descent(table, sire, dam) for table in self._tables]
        for mates in product(_WHOM, _WHOM):
            starts = self._starts(meet(sire, dam), mates)
            counts = self._places(starts[-1], mates)
            seconds = [n for n in range(len(self._seconds)) if n != m] if "second male" in mates else [None]
            # The dams leave at once, or when their young are grown.
            for second, goes in product(seconds if counts else (), sorted({starts[0], starts[1] - 1})):
                one = Candidate("three generations", m, f, second=second, counts=counts, goes=goes, mates=mates)
                paid = self._paid(one, starts)
                promise, (pick, later) = self._best(descents, one, starts) if paid < limit else _NOTHING
                if promise:
                    yield paid / promise, replace(one, pick=pick, later=later)

    def _best(self, descents: Sequence[Descent], one: Candidate, starts: Starts) -> tuple[float, tuple[Forms, Forms]]:
        """What young are best held back by, and what that promises for the worst row."""
        assert one.goes is not None
        assert one.mates is not None
        second = None if one.second is None else self._seconds[one.second]
        first, middle, last = starts
        seasons, best = (one.goes - first + 1, last - middle), _NOTHING
        for held in self._picks:
            promise = min(each.promise(held, one.mates, second, seasons) for each in descents)
            if promise > best[0]:
                best = promise, held
        return best

    def _starts(self, first: int, mates: Mates) -> Starts:
        matures, (by, then) = self._plan.species.matures, mates
        middle = grown(matures, first, by)
        return first, middle, grown(matures, middle, then)

    def _places(self, last: int, mates: Mates) -> tuple[int, ...]:
        """For how many daughters, and as many granddaughters, there are seasons, males and room."""
        if last > self._plan.goal.seasons:
            return ()
        # Both generations may be there at once, beside the males they are put to.
        males = len({*mates} - {"brothers"}) + mates.count("brothers")
        house, load = self._plan.goal.housing, self._plan.species.females_per_male
        return tuple(n for n in PLACES if n <= load and (house is None or 2 * n + males <= house))

    def _paid(self, one: Candidate, starts: Starts) -> float:
        """What the founders cost until the last generation breeds."""
        assert one.sire is not None
        assert one.dams is not None
        assert one.goes is not None
        assert one.mates is not None
        (first, middle, last), (by, then) = starts, one.mates
        leaves = last if then == "sire" else last - 1 if by == "sire" else one.goes
        paid = paid_for(self._plan, self._stock.males[one.sire], first)[leaves - 1]
        paid += paid_for(self._plan, self._stock.females[one.dams], first)[one.goes - 1]
        if one.second is not None:
            breeds = middle if by == "second male" else last
            paid += paid_for(self._plan, self._stock.males[one.second], breeds)[last - 1]
        return float(paid)

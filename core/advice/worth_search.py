"""What animals are worth against every plan of the search's space, and not only against what is listed.

With money L for the best plan without a lot, a plan that buys n of it, at p each, takes at least its bound B, and at
another price q at least B + n (q - p): it bears no more than p + (L - B) / n. So plans are worked out in that order
until none that is left can bear more. A price hangs on no evaluation: what was worked out for one lot, at the prices as
they are, tells what it bears of every other.
"""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import replace
from operator import attrgetter

from core.advice.worth import WorthPaying, of_use, worth_steps
from core.advice.worth_lots import Market
from core.advice.worth_money import goals_of, least
from core.advice.worth_options import Option, options
from core.advice.worth_trying import Trying
from core.plan.model import ForSale, Held, Plan
from core.progress import part_of
from core.routes.evaluate import engine_steps
from core.routes.unanswerable import UNANSWERABLE
from core.search.candidate import Candidate
from core.search.find import Search
from core.search.stock import MOST_KINDS, Kind
from core.search.working import Working, coarse

# Plans worked out for a lot; that any was left out, to end in time, is told.
MOST_TRIED = 150
_CENT = 0.005
_PLAIN = ("straight", "then buy")


def searched_worth_steps(plan: Plan) -> Generator[float, None, WorthPaying]:
    """As `worth_steps`, with the search's whole space among the plans; yields the share of the work done."""
    market = Market(plan)
    work = Trying(plan, market)
    useful = sorted({market.stands_for(place) for place in of_use(plan, market.lots)})
    block = max(len(useful), 1)
    many = block + 3.0
    listed = list(options(plan))
    for done, option in enumerate(listed):
        yield from part_of(part_of(work.attempt(option), done, len(listed)), 0, many)
    left_out = False
    try:
        pricing = Pricing(plan, work)
    except UNANSWERABLE:
        # Animals that may be too many things at once: no plan can be built on them.
        pass
    else:
        yield from part_of(pricing.cheapest(None), 1, many)
        places = [*useful, *(place for place in pricing.bought() if place not in useful)]
        for done, place in enumerate(places):
            yield from part_of(part_of(pricing.price(place), done, len(places)), 2 / block, many / block)
        left_out = pricing.left_out
    answered = yield from part_of(worth_steps(plan, work=work), many - 1, many)
    return replace(answered, left_out=answered.left_out or left_out)


class Pricing:
    """The space of one plan with what each candidate takes at least; `left_out`: whether any was, to end in time."""

    def __init__(self, plan: Plan, work: Trying) -> None:
        few = all(sum(one.sex == sex for one in plan.for_sale) <= MOST_KINDS for sex in ("male", "female"))
        # A dearer animal of the same kind has a price of its own.
        self._search = Search(plan, merged=not few)
        self._working, self._coarse = Working(plan), coarse(plan)
        self._work, self._budget = work, plan.goal.budget
        self._places = {lot.offer.id: place for place, lot in enumerate(work.market.lots) if lot.offer}
        every = (one for family in self._search.space.families() for one in family if one is not None)
        # The bound first, then the order made.
        self._pool = sorted((one.money, key, one.candidate) for key, one in enumerate(every))
        self._known: set[int] = set()
        self.left_out = self._search.stock.left_out > 0

    def cheapest(self, without: int | None) -> Generator[float, None, float]:
        """The least money of any plan without a lot; infinite where none reaches the goal."""
        done, best = 0, self._best(without)
        for bound, key, candidate in self._pool:
            if bound > best:
                break
            if key in self._known or any(place == without for place, _, _ in self._bought(bound, candidate)):
                continue
            if done == MOST_TRIED:
                self.left_out = True
                break
            yield from part_of(self._try(key, candidate, best), done, MOST_TRIED)
            done, best = done + 1, self._best(without)
        return best

    def price(self, place: int) -> Generator[float, None, None]:
        """Works out what bears the highest price of a lot."""
        limit = yield from part_of(self.cheapest(place), 0, 2)
        if math.isinf(limit):
            if self._budget is None:
                return
            limit = float(self._budget)
        done, asked = 0, self._work.market.lots[place].asked
        for price, key, many, candidate in sorted(self._bearing(place, limit, asked), reverse=True):
            if price < 0 or price <= self._borne(place, limit) + _CENT:
                return
            if key in self._known:
                continue
            if done == MOST_TRIED:
                self.left_out = True
                return
            trial = self._try(key, candidate, limit + many * asked)
            yield from part_of(part_of(trial, done, MOST_TRIED), 1, 2)
            done += 1

    def bought(self) -> list[int]:
        """The lots of the best plan: also one that carries nothing of use may be a mate that is worth its price."""
        best = min(self._work.tried, key=attrgetter("rank"), default=None)
        return [] if best is None or best.money is None else sorted(best.stakes)

    def _best(self, without: int | None) -> float:
        return min((one.rank for one in self._work.tried if without not in one.stakes), default=math.inf)

    def _borne(self, place: int, limit: float) -> float:
        buying = (one for one in self._work.tried if place in one.stakes)
        return max((one.most(place, limit, self._work.goals.usual)[0] for one in buying), default=-math.inf)

    def _bearing(self, place: int, limit: float, asked: float) -> Iterator[tuple[float, int, int, Candidate]]:
        """The candidates that buy a lot, with the price that each bears at most, and how many it buys at most."""
        for bound, key, candidate in self._pool:
            every = [(many, at) for its, many, at in self._bought(bound, candidate) if its == place]
            if every:
                yield max(asked + (limit - at) / many for many, at in every), key, max(every)[0], candidate

    def _bought(self, bound: float, one: Candidate) -> Iterator[tuple[int, int, float]]:
        """The lots a candidate buys: place, how many, and what it takes at least with so many of them."""
        stock, sire, dams = self._search.stock, one.sire, one.dams
        if sire is None or dams is None:
            return
        plain = one.way in _PLAIN
        yield from self._lot(stock.males[sire], one.many if plain else 1, bound)
        for number in one.counts if plain else (one.many,):
            yield from self._lot(
                stock.females[dams], number, self._search.space.at_count(one, number) if plain else bound
            )
        if one.other is not None:
            yield from self._lot(stock.females[one.other], one.others, bound)
        if one.second is not None:
            # Where the goal may be met before he comes, nothing bounds what he may cost.
            yield from self._lot(stock.males[one.second], 1, bound)

    def _lot(self, kind: Kind, many: int, bound: float) -> Iterator[tuple[int, int, float]]:
        if isinstance(kind.source, ForSale):
            yield self._places[kind.source.id], many, bound

    def _try(self, key: int, candidate: Candidate, limit: float) -> Generator[float, None, None]:
        """Works one candidate out; one that is played only where it may take no more than `limit`."""
        self._known.add(key)
        option = Option(self._search.drawn(candidate, f"found-{key}"), "found")
        holds = any(isinstance(group, Held) for group in option.route.groups)
        if holds and self._working.in_vain(option.route, candidate.way):
            return
        try:
            said = yield from engine_steps(self._coarse, option.route, self._work.market.genetics, bare=True)
        except UNANSWERABLE:
            return
        if said.played is None:
            # What holds young back in vain is no plan to compare.
            if not holds or math.isfinite(least(said.scaled, goals_of(self._coarse).usual)[0]):
                self._work.take(option, said)
        elif least(said.scaled, goals_of(self._coarse).low)[0] <= limit:
            yield from self._work.attempt(option)

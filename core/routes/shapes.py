"""New routes in shapes that breeders know, filled from what is for sale and what I own."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count
from typing import Literal

from core.plan.model import Bought, ForSale, Group, Held, Owned, Pairing, Plan, Route, Sex
from core.routes.lists import Candidate, Lists
from core.routes.pairs import DAUGHTERS, Pair, Pairs, Seen, Shape

SHAPES: tuple[Shape, ...] = (
    "straight", "young together", "daughters back", "finished male", "breed then buy", "buy", "empty",
)  # fmt: skip
Lack = Literal["no goal", "nothing listed", "no male", "no female", "no pair", "no price", "too few seasons"]
_SONS = 2


@dataclass(frozen=True, eq=False)
class Role:
    """A place in a shape, the animals that fit it (cheapest first), and the one in it."""

    id: Literal["sire", "dams"]
    sex: Sex
    fits: tuple[Candidate, ...]
    chosen: Candidate | None


@dataclass(frozen=True, eq=False)
class Proposal:
    """A shape with its roles filled; `route` has no name yet, and is None where something is lacking.

    left: the rows of the goal, by place, that these animals cannot give, where no others give all of them.
    """

    shape: Shape
    roles: tuple[Role, ...] = ()
    route: Route | None = None
    lack: Lack | None = None
    left: tuple[int, ...] = ()

    def chosen(self, role: str) -> Candidate | None:
        """Who is in a role."""
        return next((one.chosen for one in self.roles if one.id == role), None)


class Shapes:
    """The shapes for one plan."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._rows = tuple(Lists(plan, row) for row in range(len(plan.goal.want)))
        self._pairs = Pairs(plan, self._rows)

    def propose(self, shape: Shape, picks: Mapping[str, str] | None = None) -> Proposal:
        """Fill a shape, keeping the animals in `picks` (role to key) and choosing the others as well as can be."""
        if shape == "empty":
            return Proposal(shape, route=self._route())
        if shape == "buy":
            return self._outright()
        if self._plan.goal.outright_price is None and shape == "breed then buy":
            return Proposal(shape, lack="no price")
        if not any(row.genes for row in self._rows):
            return Proposal(shape, lack="no goal")
        if not self._rows[0].candidates:
            return Proposal(shape, lack="nothing listed")
        if (lack := self._too_short(shape)) is not None:
            return Proposal(shape, lack=lack)
        return self._bred(shape, picks or {})

    def _outright(self) -> Proposal:
        if self._plan.goal.outright_price is None:
            return Proposal("buy", lack="no price")
        return Proposal("buy", route=self._route(buy_outright=1))

    def _too_short(self, shape: Shape) -> Lack | None:
        goal, matures = self._plan.goal, self._plan.species.matures
        waits = {
            "young together": max(matures.male, matures.female),
            "daughters back": matures.female,
            "breed then buy": 1,
        }
        return "too few seasons" if goal.seasons < 1 + waits.get(shape, 0) else None

    def _bred(self, shape: Shape, picks: Mapping[str, str]) -> Proposal:
        """A pair for every row of the goal; where there is none, one for the first row that has one."""
        whole = self._for(shape, picks, self._pairs)
        if whole.route is not None or len(self._rows) == 1:
            return whole
        for place, row in enumerate(self._rows):
            one = self._for(shape, picks, Pairs(self._plan, (row,)))
            if one.route is not None:
                return replace(one, left=tuple(n for n in range(len(self._rows)) if n != place))
        return whole

    def _for(self, shape: Shape, picks: Mapping[str, str], pairs: Pairs) -> Proposal:
        sires, dams = pairs.fitting(shape)
        if not sires or not dams:
            return Proposal(shape, _roles(sires, dams), lack="no male" if not sires else "no female")
        pair = pairs.best(shape, _kept(sires, picks.get("sire")), _kept(dams, picks.get("dams")))
        if math.isinf(pair.guess.money):
            return Proposal(shape, _roles(sires, dams, pair), lack="no pair")
        return Proposal(shape, _roles(sires, dams, pair), self._drawn(shape, pair))

    def _drawn(self, shape: Shape, pair: Pair) -> Route:
        season = 1 + max(pair.sire.ready_in, pair.dam.ready_in)
        if shape == "young together":
            return self._young_together(pair, season)
        if shape == "daughters back":
            return self._daughters_back(pair, season)
        buy, females = None, pair.guess.females
        if shape == "breed then buy":
            females = 1
            buy = max(2, math.ceil(self._plan.goal.seasons / 2))
        groups = (_group("sire", pair.sire, 1, season), _group("dams", pair.dam, females, season))
        return self._route(groups, (Pairing(id="first", males=("sire",), females=("dams",)),), buy_outright=buy)

    def _young_together(self, pair: Pair, season: int) -> Route:
        groups: tuple[Group, ...] = (
            _group("sire", pair.sire, 1, season, until=season),
            _group("dams", pair.dam, 1, season, until=season),
            Held(id="sons", sex="male", count=_SONS, source=("first",), pick=({},)),
            Held(id="daughters", sex="female", count=DAUGHTERS, source=("first",), pick=({},)),
        )
        later = Pairing(id="together", males=("sons",), females=("daughters",))
        return self._route(groups, (_once(season), later))

    def _daughters_back(self, pair: Pair, season: int) -> Route:
        held = Held(id="daughters", sex="female", count=DAUGHTERS, source=("first",), pick=(pair.pick,))
        sire, dams = _group("sire", pair.sire, 1, season), _group("dams", pair.dam, 1, season, until=season)
        later = Pairing(id="back", males=("sire",), females=("daughters",))
        return self._route((sire, dams, held), (_once(season), later))

    def _route(
        self, groups: tuple[Group, ...] = (), pairings: tuple[Pairing, ...] = (), buy_outright: int | None = None
    ) -> Route:
        return Route(
            id=free_id("route", {route.id for route in self._plan.routes}), name="", groups=groups, pairings=pairings,
            buy_outright=buy_outright,
        )  # fmt: skip


def free_id(stem: str, taken: set[str]) -> str:
    """Give the first of `stem-1`, `stem-2`, … that is not taken."""
    return next(name for number in count(1) if (name := f"{stem}-{number}") not in taken)


def _roles(sires: Sequence[Seen], dams: Sequence[Seen], pair: Pair | None = None) -> tuple[Role, Role]:
    return (
        Role("sire", "male", tuple(one[0] for one in sires), pair.sire if pair else None),
        Role("dams", "female", tuple(one[0] for one in dams), pair.dam if pair else None),
    )


def _kept(ones: tuple[Seen, ...], key: str | None) -> tuple[Seen, ...]:
    return tuple(one for one in ones if one[0].key == key) or ones


def _once(season: int) -> Pairing:
    return Pairing(id="first", males=("sire",), females=("dams",), seasons=(season, season))


def _group(name: str, one: Candidate, number: int, breeds: int, until: int | None = None) -> Bought | Owned:
    """Who is bought comes when the mate is grown."""
    source = one.source
    if isinstance(source, ForSale):
        return Bought(
            id=name, sex=source.sex, count=number, carries=source.carries, price=source.price, ready_in=source.ready_in,
            season=breeds - source.ready_in, until=until,
        )  # fmt: skip
    return Owned(id=name, sex=source.sex, animals=(source.id,), until=until)

"""New routes in shapes that breeders know, filled from what is for sale and what I own."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import count, product
from typing import Literal

from core.plan.model import Bought, Forms, ForSale, Group, Held, Owned, Pairing, Plan, Route, Sex
from core.routes.lists import Candidate, Lists
from core.routes.worth import Guess, Worth

Shape = Literal["straight", "young together", "daughters back", "finished male", "breed then buy", "buy", "empty"]
SHAPES: tuple[Shape, ...] = (
    "straight", "young together", "daughters back", "finished male", "breed then buy", "buy", "empty",
)  # fmt: skip
Lack = Literal["no goal", "nothing listed", "no male", "no female", "no pair", "no price", "too few seasons"]
# Pairs that are weighed for a first proposal: the cheapest of each sex.
_MOST_WEIGHED = 24
_SONS, _DAUGHTERS = 2, 4


@dataclass(frozen=True, eq=False)
class Role:
    """A place in a shape, the animals that fit it (cheapest first), and the one in it."""

    id: Literal["sire", "dams"]
    sex: Sex
    fits: tuple[Candidate, ...]
    chosen: Candidate | None


@dataclass(frozen=True, eq=False)
class Proposal:
    """A shape with its roles filled; `route` has no name yet, and is None where something is lacking."""

    shape: Shape
    roles: tuple[Role, ...] = ()
    route: Route | None = None
    lack: Lack | None = None

    def chosen(self, role: str) -> Candidate | None:
        """Who is in a role."""
        return next((one.chosen for one in self.roles if one.id == role), None)


class Shapes:
    """The shapes for one plan."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._lists = Lists(plan)
        self._worth = Worth(plan)

    def propose(self, shape: Shape, picks: Mapping[str, str] | None = None) -> Proposal:
        """Fill a shape, keeping the animals in `picks` (role to key) and choosing the others as well as can be."""
        if shape == "empty":
            return Proposal(shape, route=self._route())
        if shape == "buy":
            return self._outright()
        if self._plan.goal.outright_price is None and shape == "breed then buy":
            return Proposal(shape, lack="no price")
        if not self._genes:
            return Proposal(shape, lack="no goal")
        if not self._lists.candidates:
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
        fits_sire, fits_dams = self._fitting(shape)
        sires, dams = self._lists.of("male", fits_sire), self._lists.of("female", fits_dams)
        if not sires or not dams:
            roles = (Role("sire", "male", sires, None), Role("dams", "female", dams, None))
            return Proposal(shape, roles, lack="no male" if not sires else "no female")
        sire, dam, guess = self._best(shape, _kept(sires, picks.get("sire")), _kept(dams, picks.get("dams")))
        roles = (Role("sire", "male", sires, sire), Role("dams", "female", dams, dam))
        if math.isinf(guess.money):
            return Proposal(shape, roles, lack="no pair")
        return Proposal(shape, roles, self._drawn(shape, sire, dam, guess.females))

    def _fitting(self, shape: Shape) -> tuple[Callable[[Candidate], bool], Callable[[Candidate], bool]]:
        """Who may be the sire, and who a dam."""
        genes = self._genes
        if shape == "young together":
            return _shows_some(genes), _shows_some(genes)
        if shape == "daughters back":
            return lambda one: one.carries >= genes and not one.shows >= genes, _shows_some(genes)
        if shape == "finished male":
            return lambda one: one.shows >= genes, lambda one: one.may_carry >= genes
        return lambda one: one.may_carry >= genes, lambda one: one.may_carry >= genes

    @cached_property
    def _genes(self) -> frozenset[str]:
        return self._lists.genes

    def _best(
        self, shape: Shape, sires: tuple[Candidate, ...], dams: tuple[Candidate, ...]
    ) -> tuple[Candidate, Candidate, Guess]:
        weighed = [
            (self._guess(shape, sire, dam), sire, dam)
            for sire, dam in product(_distinct(sires)[:_MOST_WEIGHED], _distinct(dams)[:_MOST_WEIGHED])
        ]
        guess, sire, dam = min(weighed, key=lambda one: one[0].money)
        return sire, dam, guess

    def _guess(self, shape: Shape, sire: Candidate, dam: Candidate) -> Guess:
        lists, worth, matures = self._lists, self._worth, self._plan.species.matures
        if shape in ("straight", "breed then buy", "finished male"):
            most = worth.most_females(dam.most)
            return worth.guess(lists.per_egg(sire.prior, dam.prior), sire.price, dam.price, most)
        if shape == "young together" and not sire.shows | dam.shows >= self._genes:
            return Guess(math.inf, 1)
        daughter = lists.held(sire.prior, dam.prior, "female", self._pick(shape, sire, dam))
        son = lists.held(sire.prior, dam.prior, "male", {}) if shape == "young together" else sire.prior
        if daughter is None or son is None:
            return Guess(math.inf, 1)
        starts_in = matures.female if shape == "daughters back" else max(matures.male, matures.female)
        price = sire.price + dam.price
        found = worth.guess(lists.per_egg(son, daughter), price, 0.0, _DAUGHTERS, starts_in=starts_in)
        return Guess(found.money, 1)

    def _pick(self, shape: Shape, sire: Candidate, dam: Candidate) -> Forms:
        """Which daughters are held back first: those that already show what their dam shows."""
        if shape != "daughters back":
            return {}
        can = self._lists.can_show(sire.prior, dam.prior, "female")
        return {gene: form for gene, form in can.items() if gene in dam.shows}

    def _drawn(self, shape: Shape, sire: Candidate, dam: Candidate, females: int) -> Route:
        if shape == "young together":
            return self._young_together(sire, dam)
        if shape == "daughters back":
            return self._daughters_back(sire, dam)
        buy = None
        if shape == "breed then buy":
            females = 1
            buy = max(2, math.ceil(self._plan.goal.seasons / 2))
        groups = (_group("sire", sire, 1), _group("dams", dam, females))
        return self._route(groups, (Pairing(id="first", males=("sire",), females=("dams",)),), buy_outright=buy)

    def _young_together(self, sire: Candidate, dam: Candidate) -> Route:
        season = _first_season(sire, dam)
        groups: tuple[Group, ...] = (
            _group("sire", sire, 1, until=season),
            _group("dams", dam, 1, until=season),
            Held(id="sons", sex="male", count=_SONS, source=("first",), pick=({},)),
            Held(id="daughters", sex="female", count=_DAUGHTERS, source=("first",), pick=({},)),
        )
        later = Pairing(id="together", males=("sons",), females=("daughters",))
        return self._route(groups, (_once(season), later))

    def _daughters_back(self, sire: Candidate, dam: Candidate) -> Route:
        pick, season = self._pick("daughters back", sire, dam), _first_season(sire, dam)
        held = Held(id="daughters", sex="female", count=_DAUGHTERS, source=("first",), pick=(pick,))
        groups: tuple[Group, ...] = (_group("sire", sire, 1), _group("dams", dam, 1, until=season), held)
        later = Pairing(id="back", males=("sire",), females=("daughters",))
        return self._route(groups, (_once(season), later))

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


def _shows_some(genes: frozenset[str]) -> Callable[[Candidate], bool]:
    return lambda one: bool(one.shows) and not one.shows >= genes


def _kept(candidates: tuple[Candidate, ...], key: str | None) -> tuple[Candidate, ...]:
    return tuple(one for one in candidates if one.key == key) or candidates


def _distinct(candidates: tuple[Candidate, ...]) -> list[Candidate]:
    """Of animals that carry the same, the cheapest: the others can be chosen, but need no weighing."""
    found: dict[tuple[bytes, ...], Candidate] = {}
    for one in candidates:
        found.setdefault(tuple(part.tobytes() for part in one.prior), one)
    return [*found.values()]


def _first_season(sire: Candidate, dam: Candidate) -> int:
    """The first season in which both are breeder-size."""
    return 1 + max(sire.ready_in, dam.ready_in)


def _once(season: int) -> Pairing:
    return Pairing(id="first", males=("sire",), females=("dams",), seasons=(season, season))


def _group(name: str, one: Candidate, number: int, until: int | None = None) -> Bought | Owned:
    source = one.source
    if isinstance(source, ForSale):
        return Bought(
            id=name, sex=source.sex, count=number, carries=source.carries, price=source.price, ready_in=source.ready_in,
            until=until,
        )  # fmt: skip
    return Owned(id=name, sex=source.sex, animals=(source.id,), until=until)

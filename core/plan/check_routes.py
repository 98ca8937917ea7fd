"""What routes must mean: groups that can be there, pairings of groups that exist, counts that can be tried."""

from __future__ import annotations

from core.plan.book import Book, check_unique
from core.plan.check_animals import Herd
from core.plan.check_carries import check_carries
from core.plan.faults import Faults, at, quote
from core.plan.model import Bought, Group, Held, Owned, Pairing, Plan, Route, Scale, Sex
from core.plan.sexes import sex_words
from core.text import tr


def check_routes(plan: Plan, book: Book, faults: Faults) -> None:
    """Check ids, groups, pairings, scale and buying outright of every route."""
    check_unique((route.id for route in plan.routes), lambda i: f"routes[{i}].id", faults)
    herd = Herd(plan)
    for i, route in enumerate(plan.routes):
        place = at("routes", i)
        _check_outright(plan, route, f"{place}.buy_outright", faults)
        _check_ids(route, place, faults)
        check = _RouteCheck(route, place, book, herd, faults)
        for j, group in enumerate(route.groups):
            check.group(group, f"{place}.groups[{j}]")
        for j, pairing in enumerate(route.pairings):
            check.pairing(pairing, f"{place}.pairings[{j}]")
        if route.scale is not None:
            check.scale(route.scale, f"{place}.scale")
        _check_animals_once(route, place, faults)


def _check_outright(plan: Plan, route: Route, place: str, faults: Faults) -> None:
    if route.buy_outright is None:
        return
    if route.buy_outright > plan.goal.seasons:
        message = tr("must be at most {seasons}, the seasons of the goal", seasons=plan.goal.seasons)
        faults.meaning(place, message, "goal.seasons")
    if plan.goal.outright_price is None:
        faults.meaning(place, tr("needs goal.outright_price, which is not given"), "goal.outright_price")


def _check_ids(route: Route, place: str, faults: Faults) -> None:
    check_unique((group.id for group in route.groups), lambda i: f"{place}.groups[{i}].id", faults)
    check_unique((pairing.id for pairing in route.pairings), lambda i: f"{place}.pairings[{i}].id", faults)


class _RouteCheck:
    """Checks the parts of one route against each other and against the plan's genes and animals."""

    def __init__(self, route: Route, place: str, book: Book, herd: Herd, faults: Faults) -> None:
        self._groups = {group.id: (i, group) for i, group in reversed([*enumerate(route.groups)])}
        self._pairings = {pairing.id: pairing for pairing in reversed(route.pairings)}
        self._route = route
        self._place = place
        self._book = book
        self._herd = herd
        self._faults = faults

    def group(self, group: Group, place: str) -> None:
        """Check one group."""
        match group:
            case Bought():
                check_carries(f"{place}.carries", group.carries, group.sex, self._book, self._faults)
                self._check_stay(group, place)
            case Owned():
                self._check_owned(group, place)
                self._check_stay(group, place)
            case Held():
                self._check_held(group, place)

    def _check_stay(self, group: Bought | Owned, place: str) -> None:
        if group.until is not None and group.until < group.season:
            message = tr("must not be before the group's arrival in season {season}", season=group.season)
            self._faults.meaning(f"{place}.until", message, f"{place}.season")

    def _check_owned(self, group: Owned, place: str) -> None:
        if group.animals is None:
            for key, value in (("count", group.count), ("carries", group.carries)):
                if value is None:
                    self._faults.meaning(
                        f"{place}.{key}", tr("is missing; an own group has count and carries, or animals")
                    )
        else:
            for key, value in (("count", group.count), ("carries", group.carries)):
                if value is not None:
                    self._faults.meaning(f"{place}.{key}", tr("must be left out: the group names its animals"))
            check_unique(group.animals, lambda i: f"{place}.animals[{i}]", self._faults)
            for i, name in enumerate(group.animals):
                self._herd.check(name, group.sex, f"{place}.animals[{i}]", self._faults, f"{place}.sex")
        if group.carries is not None:
            check_carries(f"{place}.carries", group.carries, group.sex, self._book, self._faults)

    def _check_held(self, group: Held, place: str) -> None:
        check_unique(group.source, lambda i: f"{place}.from[{i}]", self._faults)
        for i, name in enumerate(group.source):
            if name not in self._pairings:
                message = tr(
                    "this route has no pairing {name}{suggest}",
                    name=quote(name),
                    suggest=self._faults.suggest(name, self._pairings),
                )
                self._faults.meaning(f"{place}.from[{i}]", message, *self._pairing_needs())
        for i, forms in enumerate(group.pick):
            self._book.check_forms(f"{place}.pick[{i}]", forms, group.sex, self._faults)

    def pairing(self, pairing: Pairing, place: str) -> None:
        """Check one pairing."""
        self._check_groups(pairing.males, "male", f"{place}.males")
        self._check_groups(pairing.females, "female", f"{place}.females")
        first, last = pairing.seasons
        if first is not None and last is not None and first > last:
            self._faults.meaning(
                f"{place}.seasons",
                tr("the first season, {first}, must not be after the last, {last}", first=first, last=last),
            )

    def _check_groups(self, names: tuple[str, ...], sex: Sex | None, place: str) -> None:
        check_unique(names, lambda i: f"{place}[{i}]", self._faults)
        for i, name in enumerate(names):
            index, group = self._groups.get(name, (0, None))
            if group is None:
                message = tr(
                    "this route has no group {name}{suggest}",
                    name=quote(name),
                    suggest=self._faults.suggest(name, self._groups),
                )
                self._faults.meaning(at(place, i), message, *self._group_needs())
            elif sex is not None and group.sex != sex:
                message = tr(
                    "must be a group of {sexes}, yet {name} is {other}",
                    sexes=sex_words(sex, 2),
                    name=quote(name),
                    other=sex_words(group.sex),
                )
                needs = (f"{self._place}.groups[{index}].{key}" for key in ("id", "sex", "origin"))
                self._faults.meaning(at(place, i), message, *needs)

    def scale(self, scale: Scale, place: str) -> None:
        """Check which counts are tried on which groups."""
        self._check_groups(scale.groups, None, f"{place}.groups")
        for i, name in enumerate(scale.groups):
            index, group = self._groups.get(name, (0, None))
            if isinstance(group, Owned) and group.animals is not None:
                message = tr("{name} names its animals, so its count cannot be varied", name=quote(name))
                self._faults.meaning(f"{place}.groups[{i}]", message, f"{self._place}.groups[{index}]")
        seen: dict[int, int] = {}
        for i, count in enumerate(scale.counts):
            if count in seen:
                self._faults.meaning(
                    f"{place}.counts[{i}]",
                    tr("{count} is already {place}.counts[{seen}]", count=count, place=place, seen=seen[count]),
                )
            seen.setdefault(count, i)

    def _group_needs(self) -> tuple[str, ...]:
        groups = (f"{self._place}.groups[{i}]" for i in range(len(self._route.groups)))
        return tuple(f"{group}.{key}" for group in groups for key in ("id", "origin")) or (f"{self._place}.groups",)

    def _pairing_needs(self) -> tuple[str, ...]:
        pairings = (f"{self._place}.pairings[{i}].id" for i in range(len(self._route.pairings)))
        return tuple(pairings) or (f"{self._place}.pairings",)


def _check_animals_once(route: Route, place: str, faults: Faults) -> None:
    """Check that no animal of mine is in two groups of a route at once."""
    stays: dict[str, list[tuple[int, Owned]]] = {}
    for i, group in enumerate(route.groups):
        for j, name in enumerate(dict.fromkeys(group.animals or ()) if isinstance(group, Owned) else ()):
            assert isinstance(group, Owned)
            for other_index, other in stays.setdefault(name, []):
                if _overlap(group, other):
                    message = tr(
                        "{name} is already in {place}.groups[{index}] at that time",
                        name=quote(name),
                        place=place,
                        index=other_index,
                    )
                    needs = (f"{place}.groups[{k}].{key}" for k in (i, other_index) for key in ("season", "until"))
                    faults.meaning(f"{place}.groups[{i}].animals[{j}]", message, *needs)
                    break
            stays[name].append((i, group))


def _overlap(one: Owned, other: Owned) -> bool:
    one_starts_in_time = other.until is None or one.season <= other.until
    return one_starts_in_time and (one.until is None or other.season <= one.until)

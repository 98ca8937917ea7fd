"""From a candidate to a route of the plan."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import count

from core.plan.model import Group, Held, Pairing, Plan, Route, Scale
from core.search.candidate import Candidate, Mate, grown
from core.search.founders import meet
from core.search.stock import Kind, Stock

# The group of a mate that is bought.
_MATES: dict[Mate, str] = {"sire": "sire", "second male": "second-male"}


class Drawing:
    """Draws candidates of one plan's stock."""

    def __init__(self, plan: Plan, stock: Stock) -> None:
        self._matures = plan.species.matures
        self._stock = stock

    def route(self, one: Candidate, name: str, title: str) -> Route:
        """The whole route, with the last of its counts drawn, and all of them to be tried."""
        if one.way == "outright":
            return Route(id=name, name=title, buy_outright=1)
        groups, pairings = self._straight(one) if one.way in ("straight", "then buy") else self._held(one)
        return Route(
            id=name, name=title, groups=groups, pairings=pairings, buy_outright=one.buy, scale=_scale(one, groups)
        )

    def kinds(self, one: Candidate) -> tuple[Kind, Kind]:
        """The sire and the dams of a candidate that breeds."""
        assert one.sire is not None
        assert one.dams is not None
        return self._stock.males[one.sire], self._stock.females[one.dams]

    def kind_of(self, place: int, sex: str) -> Kind:
        """A kind of the stock."""
        return (self._stock.males if sex == "male" else self._stock.females)[place]

    def first(self, one: Candidate) -> int:
        """The first season in which sire and dams are both breeder-size."""
        return meet(*self.kinds(one))

    def _straight(self, one: Candidate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        (sire, dams), first = self.kinds(one), self.first(one)
        groups: list[Group] = [dams.group("dams", one.counts[-1], season=dams.comes(first))]
        if one.other is not None:
            other = self._stock.females[one.other]
            groups.append(other.group("other-dams", one.others, season=other.comes(meet(sire, other))))
            first = min(first, meet(sire, other))
        females = tuple(group.id for group in groups)
        groups.insert(0, sire.group("sire", one.many, season=sire.comes(first)))
        return tuple(groups), (Pairing(id="first", males=("sire",), females=females),)

    def _held(self, one: Candidate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        if one.way == "son":
            return self._son(one)
        if one.mates is not None:
            return self._three(one, *one.mates)
        groups = self._founders(one, until=None if one.way == "back" else one.goes)
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, one.goes))
        if one.way == "together":
            groups.append(Held(id="sons", sex="male", count=1, source=("first",), pick=(one.pick,)))
        groups.append(Held(id="daughters", sex="female", count=one.counts[-1], source=("first",), pick=(one.pick,)))
        if one.second is not None:
            groups.append(self._second(one, self.first(one) + self._matures.female))
        males = {"back": "sire", "second male": "second-male", "together": "sons"}[one.way]
        return tuple(groups), (
            first,
            Pairing(id="back" if males == "sire" else "later", males=(males,), females=("daughters",)),
        )

    def _founders(self, one: Candidate, *, until: int | None) -> list[Group]:
        """Sire and dams where young are held back; until: when he leaves."""
        (sire, dams), first = self.kinds(one), self.first(one)
        return [
            sire.group("sire", 1, season=sire.comes(first), until=until),
            dams.group("dams", one.many, season=dams.comes(first), until=one.goes),
        ]

    def _second(self, one: Candidate, breeds: int, until: int | None = None) -> Group:
        assert one.second is not None
        kind = self._stock.males[one.second]
        return kind.group("second-male", 1, season=kind.comes(breeds), until=until)

    def _three(self, one: Candidate, by: Mate, then: Mate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        """Three generations: daughters, and whom nobody needs any more, leave when their own young are grown."""
        middle = grown(self._matures, self.first(one), by)
        last = grown(self._matures, middle, then)
        groups = self._founders(one, until=None if then == "sire" else last - 1 if by == "sire" else one.goes)
        if by == "second male":
            groups.append(self._second(one, middle, None if then == by else last - 1))
        elif then == "second male":
            groups.append(self._second(one, last))
        young = (
            ("daughters", "sons", "first", one.pick, last - 1),
            ("granddaughters", "grandsons", "later", one.later, None),
        )
        for mate, (females, males, source, pick, until) in zip((by, then), young, strict=True):
            held = partial(Held, source=(source,), pick=(pick,), until=until)
            if mate == "brothers":
                groups.append(held(id=males, sex="male", count=1))
            groups.append(held(id=females, sex="female", count=one.counts[-1]))
        return tuple(groups), (
            Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, one.goes)),
            Pairing(id="later", males=("sons" if by == "brothers" else _MATES[by],), females=("daughters",)),
            Pairing(
                id="last", males=("grandsons" if then == "brothers" else _MATES[then],), females=("granddaughters",)
            ),
        )

    def _son(self, one: Candidate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        groups, start = self._founders(one, until=None), self.first(one) + self._matures.male
        groups.append(Held(id="son", sex="male", count=1, source=("first",), pick=(one.pick,)))
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, start - 1))
        later = Pairing(id="later", males=("son", "sire"), females=("dams",), seasons=(start, None))
        return tuple(groups), (first, later)


def _scale(one: Candidate, groups: tuple[Group, ...]) -> Scale | None:
    """The counts to try, where there is a choice; else as drawn, which takes a scale of one where dams are bought."""
    if one.mates is not None:
        return Scale(groups=("daughters", "granddaughters"), counts=one.counts)
    scaled = "dams" if one.way in ("straight", "then buy", "son") else "daughters"
    group = next(group for group in groups if group.id == scaled)
    if getattr(group, "animals", None):
        return None
    return Scale(groups=(scaled,), counts=one.counts)


def free_names(plan: Plan) -> Iterator[str]:
    """Names for drawn routes that no route of the plan has."""
    taken = {route.id for route in plan.routes}
    return (name for number in count(1) if (name := f"found-{number}") not in taken)

"""From a candidate to a route of the plan."""

from __future__ import annotations

from core.plan.model import Group, Held, Pairing, Plan, Route, Scale
from core.search.candidate import Candidate
from core.search.stock import Kind, Stock


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
        sire, dams = self.kinds(one)
        return 1 + max(sire.ready_in, dams.ready_in)

    def _straight(self, one: Candidate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        sire, dams = self.kinds(one)
        groups: list[Group] = [sire.group("sire", one.many), dams.group("dams", one.counts[-1])]
        females = ["dams"]
        if one.other is not None:
            groups.append(self._stock.females[one.other].group("other-dams", one.others))
            females.append("other-dams")
        return tuple(groups), (Pairing(id="first", males=("sire",), females=tuple(females)),)

    def _held(self, one: Candidate) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        sire, dams = self.kinds(one)
        stays = one.way in ("back", "son", "back twice")
        groups: list[Group] = [
            sire.group("sire", 1, until=None if stays else one.goes),
            dams.group("dams", one.many, until=one.goes),
        ]
        if one.way == "son":
            return self._son(one, groups)
        if one.way == "back twice":
            return self._twice(one, groups)
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, one.goes))
        if one.way == "together":
            groups.append(Held(id="sons", sex="male", count=1, source=("first",), pick=(one.pick,)))
        groups.append(Held(id="daughters", sex="female", count=one.counts[-1], source=("first",), pick=(one.pick,)))
        if one.second is not None:
            kind = self._stock.males[one.second]
            arrives = max(1, self.first(one) + self._matures.female - kind.ready_in)
            groups.append(kind.group("second-male", 1, season=arrives))
        males = {"back": "sire", "second male": "second-male", "together": "sons"}[one.way]
        return tuple(groups), (
            first,
            Pairing(id="back" if males == "sire" else "later", males=(males,), females=("daughters",)),
        )

    def _twice(self, one: Candidate, groups: list[Group]) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        """Daughters leave when their own are grown."""
        grown = self.first(one) + 2 * self._matures.female
        many = one.counts[-1]
        groups += [
            Held(id="daughters", sex="female", count=many, source=("first",), pick=(one.pick,), until=grown - 1),
            Held(id="granddaughters", sex="female", count=many, source=("back",), pick=(one.later,)),
        ]
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, one.goes))
        back = Pairing(id="back", males=("sire",), females=("daughters",))
        return tuple(groups), (first, back, Pairing(id="last", males=("sire",), females=("granddaughters",)))

    def _son(self, one: Candidate, groups: list[Group]) -> tuple[tuple[Group, ...], tuple[Pairing, ...]]:
        start = self.first(one) + self._matures.male
        groups.append(Held(id="son", sex="male", count=1, source=("first",), pick=(one.pick,)))
        first = Pairing(id="first", males=("sire",), females=("dams",), seasons=(None, start - 1))
        later = Pairing(id="later", males=("son", "sire"), females=("dams",), seasons=(start, None))
        return tuple(groups), (first, later)


def _scale(one: Candidate, groups: tuple[Group, ...]) -> Scale | None:
    """The counts to try, where there is a choice; else as drawn, which takes a scale of one where dams are bought."""
    if one.way == "back twice":
        return Scale(groups=("daughters", "granddaughters"), counts=one.counts)
    scaled = "dams" if one.way in ("straight", "then buy", "son") else "daughters"
    group = next(group for group in groups if group.id == scaled)
    if getattr(group, "animals", None):
        return None
    return Scale(groups=(scaled,), counts=one.counts)

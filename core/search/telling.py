"""What a found route is called, and why it is there."""

from __future__ import annotations

from core.explain.animals import animal, form_words
from core.plan.limits import LONGEST_NAME
from core.plan.model import Forms, ForSale, Plan
from core.routes.result import RouteResult
from core.search.candidate import Candidate
from core.search.drawing import Drawing
from core.search.stock import Kind
from core.text import tr

_TAILS = {
    "straight": "", "then buy": tr(", then buy"), "back": tr(", daughters back"),
    "second male": tr(", daughters to {second}"),
    "together": tr(", young together"), "son": tr(", his son takes over"), "three generations": tr(", granddaughters"),
}  # fmt: skip
_ONE = {1: tr("one"), 2: tr("two"), 3: tr("three"), 4: tr("four")}


def title(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    """A plain name: who is bred with whom, and what becomes of the young."""
    if one.way == "outright":
        return tr("Buy the finished animal")
    sire, dams = drawing.kinds(one)
    names = [_short(plan, sire), _short(plan, dams)]
    if one.other is not None:
        names[1] += tr(" and {short}", short=_short(plan, drawing.kind_of(one.other, "female")))
    second = "" if one.second is None else _short(plan, drawing.kind_of(one.second, "male"))
    whole = " × ".join(names) + _TAILS[one.way].format(second=second)
    return f"{whole[:1].upper()}{whole[1:LONGEST_NAME]}"


def why(plan: Plan, drawing: Drawing, one: Candidate, result: RouteResult, best: RouteResult) -> str:
    """One sentence: what it does, and what speaks for it beside the cheapest so far."""
    start = _what(plan, drawing, one)
    if result.to_goal is None:
        return tr("{start}; it comes close, but not all the way.", start=start)
    if result is best or best.to_goal is None:
        return tr("{start}: the least money of all that was tried.", start=start)
    if result.to_goal.season < best.to_goal.season:
        return tr("{start}; it gets there sooner than the cheapest.", start=start)
    if result.up_front < best.up_front:
        return tr("{start}; it takes less money up front than the cheapest.", start=start)
    if result.chance_by_season[-1] > best.chance_by_season[-1]:
        return tr("{start}; it is surer in the end than the cheapest.", start=start)
    return f"{start}."


def _what(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    if one.way == "outright":
        return tr("Pays for the finished animal and has it now")
    held = _held(plan, one.pick)
    dams = _ONE.get(one.many, str(one.many))
    if one.way == "three generations":
        return tr(
            "Holds back {held}, then {later}, all of them for their sire",
            held=held,
            later=_held(plan, one.later, tr("granddaughters")),
        )
    if one.way == "back":
        return tr("Holds back {held} and puts them to their sire{leave}", held=held, leave=_leave(one))
    if one.way == "second male":
        assert one.second is not None
        male = _short(plan, drawing.kind_of(one.second, "male"))
        return tr("Holds back {held} and buys a second male, {male}, only when they are grown", held=held, male=male)
    if one.way == "together":
        return tr("Holds back {held} and a son and breeds them together", held=held)
    if one.way == "son":
        whom = tr("{dams} dams", "one dam", one.many, dams=dams)
        return tr("Holds back a better son, who takes over from his sire with {whom}", whom=whom)
    return _bred(one)


def _bred(one: Candidate) -> str:
    if one.way == "then buy":
        seasons = tr("{n} seasons", "one season", (one.buy or 2) - 1)
        return tr("Breeds for {seasons} and buys the finished animal if there is none", seasons=seasons)
    if one.many == 2:
        return tr("Breeds from the start with two males, so that more females are served")
    if one.other is not None:
        return tr("Breeds from the start, with two kinds of females")
    return tr("Breeds from the start, with nothing held back")


def _held(plan: Plan, pick: Forms, young: str = tr("daughters")) -> str:
    shown = form_words(plan, pick) if pick else ""
    return f"{shown} {young}" if shown else young


def _leave(one: Candidate) -> str:
    return "" if one.goes is None else tr("; their dams leave early")


def _short(plan: Plan, kind: Kind) -> str:
    if isinstance(kind.source, ForSale):
        return animal(plan, kind.source.carries)
    return tr(" and ").join(one.name or one.id for one in kind.source)

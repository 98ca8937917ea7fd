"""What a found route is called, and why it is there."""

from __future__ import annotations

from core.explain.animals import animal, form_words
from core.plan.limits import LONGEST_NAME
from core.plan.model import Forms, ForSale, Plan
from core.routes.result import RouteResult
from core.search.candidate import Candidate
from core.search.drawing import Drawing
from core.search.stock import Kind

_TAILS = {
    "straight": "", "then buy": ", then buy", "back": ", daughters back", "second male": ", daughters to {second}",
    "together": ", young together", "son": ", his son takes over", "back twice": ", granddaughters back",
}  # fmt: skip
_ONE = {1: "one", 2: "two", 3: "three", 4: "four"}


def title(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    """A plain name: who is bred with whom, and what becomes of the young."""
    if one.way == "outright":
        return "Buy the finished animal"
    sire, dams = drawing.kinds(one)
    names = [_short(plan, sire), _short(plan, dams)]
    if one.other is not None:
        names[1] += f" and {_short(plan, drawing.kind_of(one.other, 'female'))}"
    second = "" if one.second is None else _short(plan, drawing.kind_of(one.second, "male"))
    whole = " × ".join(names) + _TAILS[one.way].format(second=second)
    return f"{whole[:1].upper()}{whole[1:LONGEST_NAME]}"


def why(plan: Plan, drawing: Drawing, one: Candidate, result: RouteResult, best: RouteResult) -> str:
    """One sentence: what it does, and what speaks for it beside the cheapest so far."""
    start = _what(plan, drawing, one)
    if result.to_goal is None:
        return f"{start}; it comes close, but not all the way."
    if result is best or best.to_goal is None:
        return f"{start}: the least money of all that was tried."
    if result.to_goal.season < best.to_goal.season:
        return f"{start}; it gets there sooner than the cheapest."
    if result.up_front < best.up_front:
        return f"{start}; it takes less money up front than the cheapest."
    if result.chance_by_season[-1] > best.chance_by_season[-1]:
        return f"{start}; it is surer in the end than the cheapest."
    return f"{start}."


def _what(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    if one.way == "outright":
        return "Pays for the finished animal and has it now"
    held = _held(plan, one.pick)
    dams = _ONE.get(one.many, str(one.many))
    if one.way == "back twice":
        return f"Holds back {held}, then {_held(plan, one.later, 'granddaughters')}, all of them for their sire"
    if one.way == "back":
        return f"Holds back {held} and puts them to their sire{_leave(one)}"
    if one.way == "second male":
        assert one.second is not None
        male = _short(plan, drawing.kind_of(one.second, "male"))
        return f"Holds back {held} and buys a second male, {male}, only when they are grown"
    if one.way == "together":
        return f"Holds back {held} and a son and breeds them together"
    if one.way == "son":
        whom = "one dam" if one.many == 1 else f"{dams} dams"
        return f"Holds back a better son, who takes over from his sire with {whom}"
    return _bred(one)


def _bred(one: Candidate) -> str:
    if one.way == "then buy":
        seasons = "season" if one.buy == 2 else f"{(one.buy or 2) - 1} seasons"
        return f"Breeds for {'one season' if one.buy == 2 else seasons} and buys the finished animal if there is none"
    if one.many == 2:
        return "Breeds from the start with two males, so that more females are served"
    if one.other is not None:
        return "Breeds from the start, with two kinds of females"
    return "Breeds from the start, with nothing held back"


def _held(plan: Plan, pick: Forms, young: str = "daughters") -> str:
    shown = form_words(plan, pick) if pick else ""
    return f"{shown} {young}" if shown else young


def _leave(one: Candidate) -> str:
    return "" if one.goes is None else "; their dams leave early"


def _short(plan: Plan, kind: Kind) -> str:
    if isinstance(kind.source, ForSale):
        return animal(plan, kind.source.carries)
    return " and ".join(one.name or one.id for one in kind.source)

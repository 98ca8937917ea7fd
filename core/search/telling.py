"""What a found route is called, and why it is there."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from core.explain.animals import animal, form_words
from core.explain.numbers import in_words, short_group
from core.plan.limits import LONGEST_NAME
from core.plan.model import Forms, ForSale, Held, Owned, Plan, Route, Sex
from core.search.candidate import Candidate, Mate
from core.search.drawing import Drawing
from core.search.stock import Kind
from core.text import tr

_ONE = {1: tr("one"), 2: tr("two"), 3: tr("three"), 4: tr("four")}
_DAUGHTERS, _GRANDDAUGHTERS = tr("daughters"), tr("granddaughters")


def title(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    """A plain name: who is bred with whom, and what becomes of the young."""
    if one.way == "outright":
        return tr("Buy the finished animals", "Buy the finished animal", wanted(plan))
    sire, dams = drawing.kinds(one)
    names = [_short(plan, sire), _short(plan, dams)]
    if one.other is not None:
        names[1] += tr(" and {short}", short=_short(plan, drawing.kind_of(one.other, "female")))
    whole = " × ".join(names) + _tail(plan, drawing, one)
    return f"{whole[:1].upper()}{whole[1:LONGEST_NAME]}"


def told_apart(routes: Sequence[Route]) -> list[str]:
    """Their names; where they are the same with numbers, and with seasons: `Het × visual (1.2, three held back)`."""
    names = [one.name for one in routes]
    for detail in (_numbers, _numbers_and_seasons):
        many = Counter(names)
        names = [
            _with(one.name, detail(one)) if many[name] > 1 else name for one, name in zip(routes, names, strict=True)
        ]
    return [_again(name, names[:place].count(name)) for place, name in enumerate(names)]


def _with(name: str, detail: str) -> str:
    return f"{name[: LONGEST_NAME - len(detail) - 3]} ({detail})"


def _again(name: str, before: int) -> str:
    """What is called as one before it, and does almost the same: a number more."""
    number = f" {before + 1}" if before else ""
    return f"{name[: LONGEST_NAME - len(number)]}{number}"


def _numbers(route: Route) -> str:
    held = sum(one.count for one in route.groups if isinstance(one, Held))
    group = short_group(*(founders(route, sex) for sex in ("male", "female")))
    return tr("{group}, {many} held back", group=group, many=in_words(held)) if held else group


def _numbers_and_seasons(route: Route) -> str:
    dams = next((one for one in route.groups if one.id == "dams"), None)
    parts = [_numbers(route)]
    if dams is not None and dams.until is not None:
        parts.append(tr("dams until season {n}", n=dams.until))
    if route.buy_outright is not None:
        parts.append(tr("bought in season {n}", n=route.buy_outright))
    return ", ".join(parts)


def wanted(plan: Plan) -> int:
    """How many animals the goal asks for."""
    return sum(row.count for row in plan.goal.want)


def founders(route: Route, sex: Sex) -> int:
    """How many animals of a sex are there without being bred for it."""
    groups = (one for one in route.groups if one.sex == sex and not isinstance(one, Held))
    return sum(len(one.animals) if isinstance(one, Owned) and one.animals else one.count or 0 for one in groups)


def _tail(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    if one.mates is not None:
        return _three(_second(plan, drawing, one), *one.mates)
    young = _held(plan, one.pick, _DAUGHTERS)
    if one.way == "back":
        return tr(", {daughters} back", daughters=young)
    if one.way == "second male":
        return tr(", {daughters} to {second}", daughters=young, second=_second(plan, drawing, one))
    if one.way == "together":
        return tr(", {young} together", young=_held(plan, one.pick, tr("young")))
    if one.way == "son":
        return tr(", {son} takes over", son=_held(plan, one.pick, tr("son")))
    return tr(", then buy") if one.way == "then buy" else ""


def _three(second: str, by: Mate, then: Mate) -> str:
    if by == then:
        return {
            "sire": tr(", daughters and granddaughters back"),
            "brothers": tr(", young together twice"),
            "second male": tr(", daughters and granddaughters to {second}", second=second),
        }[by]
    daughters = {
        "sire": tr(", daughters back"),
        "brothers": tr(", young together"),
        "second male": tr(", daughters to {second}", second=second),
    }[by]
    granddaughters = {
        "sire": tr(", granddaughters back"),
        "brothers": tr(", then their young together"),
        "second male": tr(", granddaughters to {second}", second=second),
    }[then]
    return daughters + granddaughters


def what(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    """What is done, as the beginning of a sentence."""
    if one.way == "outright":
        return tr(
            "Pays for the finished animals and has them now",
            "Pays for the finished animal and has it now",
            wanted(plan),
        )
    if one.mates is not None:
        return _what_three(plan, drawing, one, *one.mates)
    held = _held(plan, one.pick, _DAUGHTERS)
    if one.way == "back":
        return tr("Holds back {held} and puts them to their sire{leave}", held=held, leave=_leave(one))
    if one.way == "second male":
        second = _second(plan, drawing, one)
        return tr(
            "Holds back {held} and has a second male, {male}, for them once they are grown", held=held, male=second
        )
    if one.way == "together":
        return tr("Holds back {held} and a son and breeds them together", held=held)
    if one.way == "son":
        whom = tr("{dams} dams", "one dam", one.many, dams=_ONE.get(one.many, str(one.many)))
        son = _held(plan, one.pick, tr("son"))
        return tr("Holds back a better {son}, who takes over from his sire with {whom}", son=son, whom=whom)
    return _bred(plan, drawing, one)


def _what_three(plan: Plan, drawing: Drawing, one: Candidate, by: Mate, then: Mate) -> str:
    second = tr("a second male, {male}", male=_second(plan, drawing, one))
    whom = {"sire": tr("their sire"), "brothers": tr("a brother"), "second male": second}
    whom_then = {"sire": tr("the first sire"), "brothers": tr("a brother of theirs"), "second male": second}
    return tr(
        "Holds back {held} for {whom}, then {later} for {whom_then}",
        held=_held(plan, one.pick, _DAUGHTERS),
        whom=whom[by],
        later=_held(plan, one.later, _GRANDDAUGHTERS),
        whom_then=tr("him, too") if by == then != "brothers" else whom_then[then],
    )


def _bred(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    if one.way == "then buy":
        seasons = tr("{n} seasons", "one season", (one.buy or 2) - drawing.first(one))
        return tr(
            "Breeds for {seasons} and buys the finished animals if they are not there",
            "Breeds for {seasons} and buys the finished animal if there is none",
            wanted(plan),
            seasons=seasons,
        )
    if one.many == 2:
        return tr("Breeds from the start with two males, so that more females are served")
    if one.other is not None:
        return tr("Breeds from the start, with two kinds of females")
    return _waits(drawing, one) or tr("Breeds from the start, with nothing held back")


def _waits(drawing: Drawing, one: Candidate) -> str:
    """Where one side has to grow, and the other is bought when it has; empty elsewhere."""
    sire, dams = drawing.kinds(one)
    first = drawing.first(one)
    if dams.comes(first) > 1:
        return tr("Lets the male grow, buys females when he has, and breeds them with nothing held back")
    if sire.comes(first) > 1:
        return tr("Lets the females grow, buys a male when they have, and breeds them with nothing held back")
    return ""


def _held(plan: Plan, pick: Forms, young: str) -> str:
    shown = form_words(plan, pick) if pick else ""
    return f"{shown} {young}" if shown else young


def _leave(one: Candidate) -> str:
    return "" if one.goes is None else tr("; their dams leave early")


def _second(plan: Plan, drawing: Drawing, one: Candidate) -> str:
    return "" if one.second is None else _short(plan, drawing.kind_of(one.second, "male"))


def _short(plan: Plan, kind: Kind) -> str:
    if isinstance(kind.source, ForSale):
        return _offered(plan, kind.source)
    return tr(" and ").join(one.name or one.id for one in kind.source)


def _offered(plan: Plan, offer: ForSale) -> str:
    """What it carries, as the trade says it; what the list calls it where that says the same of something else."""
    told = animal(plan, offer.carries)
    others = (one for one in plan.for_sale if one.sex == offer.sex and one.carries != offer.carries)
    return (offer.label or offer.id) if any(animal(plan, one.carries) == told for one in others) else told

"""What matters most in words: values of assumptions, both ends of a bar, and where the winner changes."""

from __future__ import annotations

from core.advice.matters import Effect, Figures, Flip, Reply, chance_at
from core.advice.matters_ranges import Assumption, Standing
from core.advice.wording import share
from core.explain.numbers import Numbers, of_100, sum_of_money
from core.plan.model import Plan
from core.plan.sexes import sexed
from core.text import tr

AS_PLANNED = tr("as planned")
_STANDING: dict[Standing, str] = {
    "common practice": tr("Common practice, without a source."),
    "your own records": tr("Your own records."),
    "what the word can mean": tr("What the word can mean."),
    "your own range": tr("Your own range."),
}
_LAID = {"eggs": (tr("egg"), tr("eggs")), "live": (tr("young"), tr("young"))}


def value_words(plan: Plan, assumption: Assumption, value: float, numbers: Numbers) -> str:
    """A value with its unit: `9 eggs`, `65 %`, `20 % less`, `as planned`, `3 seasons`."""
    unit = assumption.unit
    if unit == "chance":
        # Of possible hets the trade cuts two thirds to 66.
        shown = of_100(value) / 100 if assumption.standing == "what the word can mean" else value
        return share(shown, numbers)
    if unit == "times":
        apart = round(abs(value - 1) * 100, 6)
        if not apart:
            return AS_PLANNED
        off = share(apart / 100, numbers)
        return tr("{off} less", off=off) if value < 1 else tr("{off} more", off=off)
    if unit == "laid":
        one, many = _LAID[plan.species.young]
        return f"{_decimal(value, numbers)} {one if value == 1 else many}"
    count = round(value)
    if unit == "seasons":
        return tr("{n} seasons", "{n} season", count)
    return tr("{n} clutches", "{n} clutch", count) if unit == "clutches" else sexed(count, "female")


def money_words(figures: Figures | None, count: int | None, numbers: Numbers) -> str:
    """The money to set aside, or how near a route gets with the animals it has now: `out of reach, 71 in 100`."""
    if figures is None:
        return tr("no answer")
    if figures.money is None:
        return tr("out of reach, {of_100} in 100", of_100=of_100(chance_at(figures, count)))
    return sum_of_money(figures.money, numbers)


def end_words(plan: Plan, effect: Effect, reply: Reply, route: str, count: int | None, numbers: Numbers) -> str:
    """One end of a bar: `9 eggs: 1,617`."""
    value = value_words(plan, effect.assumption, reply.value, numbers)
    return f"{value}: {money_words(reply.routes.get(route), count, numbers)}"


def flip_words(plan: Plan, assumption: Assumption, flip: Flip, numbers: Numbers) -> str:
    """Where the winner changes: `At 6.4 eggs or fewer, “Pied sire” is cheapest: set aside 2,697.`

    Where the far end has yet another, that is told, too: `At 93 %, … At 80 %, “Buy it” is cheapest.` Where it is
    the same there, but not all the way: `On the way to 80 % the cheapest changes more than once.`
    """
    where = _where(plan, assumption, flip, numbers)
    if flip.winner is None:
        said = tr("{where}, no route reaches the goal.", where=where)
    else:
        said = tr(
            "{where}, “{route_name}” is cheapest: set aside {sum}.",
            where=where,
            route_name=route_name(plan, flip.winner),
            sum=sum_of_money(flip.money or 0, numbers),
        )
    if flip.stays:
        return said
    end = value_words(plan, assumption, _far_end(assumption, flip), numbers)
    if flip.far == flip.winner:
        return tr("{said} On the way to {end} the cheapest changes more than once.", said=said, end=end)
    if flip.far is None:
        return tr("{said} At {end}, no route reaches the goal.", said=said, end=end)
    return tr("{said} At {end}, “{name}” is cheapest.", said=said, end=end, name=route_name(plan, flip.far))


def flip_short(plan: Plan, assumption: Assumption, flip: Flip, numbers: Numbers) -> str:
    """The same for a list: `At 6.4 eggs or fewer: Pied sire, double hets`; `At 93 %: Ash sire; at 80 %: Buy it`.

    `At 66 %: Pied sire, on and off to 50 %` where others come in between.
    """
    where, winner = _where(plan, assumption, flip, numbers), _winner_words(plan, flip.winner)
    if flip.stays:
        return f"{where}: {winner}"
    end = value_words(plan, assumption, _far_end(assumption, flip), numbers)
    if flip.far == flip.winner:
        return tr("{where}: {winner}, on and off to {end}", where=where, winner=winner, end=end)
    return tr(
        "{where}: {winner}; at {end}: {far}", where=where, winner=winner, end=end, far=_winner_words(plan, flip.far)
    )


def _winner_words(plan: Plan, winner: str | None) -> str:
    return tr("no route") if winner is None else route_name(plan, winner)


def _far_end(assumption: Assumption, flip: Flip) -> float:
    return assumption.low if flip.side == "below" else assumption.high


def route_name(plan: Plan, id_: str) -> str:
    """A route by its name."""
    return next((route.called for route in plan.routes if route.id == id_), id_)


def range_words(plan: Plan, assumption: Assumption, numbers: Numbers) -> str:
    """The range and what it stands on: `9 eggs to 15 eggs. Common practice, without a source. A quarter…`."""
    low, high = (value_words(plan, assumption, end, numbers) for end in (assumption.low, assumption.high))
    return tr("{low} to {high}. {standing_words}", low=low, high=high, standing_words=standing_words(assumption))


def standing_words(assumption: Assumption) -> str:
    """What a range stands on: `Common practice, without a source. A quarter either way…`, `Your own range.`"""
    said = _STANDING[assumption.standing]
    return said if assumption.standing == "your own range" else f"{said} {assumption.why}"


def _where(plan: Plan, assumption: Assumption, flip: Flip, numbers: Numbers) -> str:
    value = value_words(plan, assumption, flip.value, numbers)
    if not flip.stays:
        return tr("At {value}", value=value)
    if assumption.unit == "times":
        return (
            tr("At {value} or lower still", value=value)
            if flip.side == "below"
            else tr("At {value} or higher still", value=value)
        )
    fewer = tr("less") if assumption.unit == "chance" else tr("fewer")
    # Beyond a far end nobody looked.
    ends = flip.value in (assumption.low, assumption.high)
    if ends and flip.value in (0.0, 1.0) and assumption.unit == "chance":
        return tr("At {value}", value=value)
    return tr("At {value} or {fewer}", value=value, fewer=fewer if flip.side == "below" else tr("more"))


def _decimal(value: float, numbers: Numbers) -> str:
    places = 0 if abs(value - round(value)) < 0.05 else 1
    return numbers.decimal(value, places)

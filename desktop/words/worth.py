"""Labels of the page on prices and assumptions; its sentences are shared with print and stand in `core.advice`."""

from __future__ import annotations

from core.advice.matters import Effect, Figures, Matters, chance_at, ranked
from core.advice.matters_ranges import Assumption
from core.advice.matters_words import AS_PLANNED, end_words, money_words, route_name, value_words
from core.advice.matters_work import fewer_runs
from core.advice.worth import Worth, WorthPaying
from core.advice.worth_words import lot_words, most_words, option_words, paying
from core.explain.numbers import Numbers, asked_of_100, in_words, laid_words, listed, of_100, sum_of_money
from core.plan.chances import chance
from core.plan.model import Plan
from core.text import tr

WORTH, MATTERS = tr("Worth paying"), tr("What matters most")
TABS_NAME = tr("What to tell")
ROUTE_NAME = tr("Route that the bars are about")
WORTH_TABLE, MATTERS_TABLE = tr("What each animal is worth"), tr("What each assumption does")
ANIMAL, ASKED, UP_TO, BUY, OTHERWISE = (
    tr("Animal"),
    tr("asked"),
    tr("worth up to"),
    tr("Buy this one?"),
    tr("Best plan without it"),
)
ASSUMPTION, CHANGES = tr("Assumption"), tr("Changes the cheapest route")
GAUGE = tr("compared")
NEVER_CHANGES, NOT_AT_ENDS = tr("never"), tr("not at either end")
ADD_WITH, ADD_WITHOUT = tr("Add the plan with it as a route"), tr("Add the plan without it as a route")
FROM, TO = tr("looked at from"), tr("to")
LOW_NAME, HIGH_NAME = tr("Low end of the range"), tr("High end of the range")
USUAL_RANGE = tr("The usual range")
# Of both parts, while there is no answer yet.
COMING = (
    tr("Finding out the most that each animal is worth…"),
    tr("Moving every assumption to both ends of its range…"),
)
NO_ROUTE = tr("There is no route with an answer yet.")
WAITING = tr("The routes are still being worked out; this follows.")
NOTHING_FOR_SALE = tr("Nothing is for sale in this plan, and no route buys anything.")
NOTHING_WORTH = tr("Nothing here is worth what is asked, for this goal.")


def searching(share: float, numbers: Numbers) -> str:
    """How far the search for better plans is."""
    return tr("Searching for better plans, {share} % done…", share=numbers.whole(round(100 * share)))


def trying(share: float, numbers: Numbers) -> str:
    """How far the look at every value between the ends is."""
    return tr("Trying every value between the ends, {share} % done…", share=numbers.whole(round(100 * share)))


def best_buy(plan: Plan, answered: WorthPaying, numbers: Numbers) -> str:
    """The answer in one sentence: the best buy."""
    if not answered.rows:
        return NOTHING_FOR_SALE
    best = next((row for row in answered.rows if row.verdict == "yes" and row.most is not None), None)
    if best is None:
        without = next((row for row in answered.rows if row.verdict == "yes"), None)
        return (
            tr("{lot_words}: no plan does without it.", lot_words=lot_words(plan, without.lot))
            if without
            else NOTHING_WORTH
        )
    return tr(
        "Best buy: {lot_words}, worth up to {most_words}.",
        lot_words=lot_words(plan, best.lot),
        most_words=most_words(best, numbers),
    )


def measured(plan: Plan, answered: WorthPaying, numbers: Numbers) -> str:
    """What the prices mean, and how many plans stand behind them."""
    people = asked_of_100(chance(plan.goal.chance), numbers)
    said = [
        tr(
            "The most to pay for one before your best plan without it is cheaper, at {people} of 100 "
            "within {seasons}: the bar; the upright line is what is asked. {plans} compared.",
            people=people,
            seasons=tr("{n} seasons", "{n} season", plan.goal.seasons),
            plans=tr("{n} plans", "{n} plan", len(answered.tried)),
        )
    ]
    if answered.left_out:
        said.append(tr("Not every animal was tried in every route."))
    if failed := len(answered.failed):
        said.append(
            tr(
                "{failed} cannot be worked out and are left out.",
                "{failed} cannot be worked out and is left out.",
                failed,
                failed=in_words(failed).capitalize(),
            )
        )
    return " ".join(said)


def otherwise(plan: Plan, answered: WorthPaying, row: Worth, numbers: Numbers) -> str:
    """The best plan without it and its money."""
    if row.other is None:
        return tr("none reaches the goal")
    name = option_words(plan, answered.lots, row.other)
    return f"{name[:1].upper()}{name[1:]}: {sum_of_money(row.limit or 0, numbers)}"


def gauge_spoken(row: Worth, numbers: Numbers) -> str:
    """What the drawn price says."""
    asked = tr("asked {paying}", paying=paying(row.lot.asked, numbers))
    return (
        tr("{asked}, worth up to {most_words}", asked=asked, most_words=most_words(row, numbers))
        if row.most is not None
        else asked
    )


def most_of_all(matters: Matters, route: str) -> tuple[str, str]:
    """The headline before the choice of a route: what matters most, and the words right before the route."""
    moving, _ = ranked(matters, route)
    if not moving:
        return tr("Within their ranges,"), tr("no assumption matters to")
    return f"{moving[0].assumption.name}:", tr("this matters most to")


def as_planned(plan: Plan, figures: Figures | None, numbers: Numbers) -> str:
    """The route as the plan stands, and how to read the bars."""
    if figures is None:
        return tr("This route has no answer.")
    if figures.money is None:
        return tr(
            "As planned it is out of reach, {of_100} in 100. Bars show the chance by season {seasons} "
            "at both ends of each range.{played}",
            of_100=of_100(best_chance(figures)),
            seasons=plan.goal.seasons,
            played=_played(plan, figures, numbers),
        )
    return tr(
        "As planned it asks for {money}. Bars show what is to be set aside at both ends of each "
        "range, with the best number of animals there.{played}",
        money=sum_of_money(figures.money, numbers),
        played=_played(plan, figures, numbers),
    )


def _played(plan: Plan, figures: Figures, numbers: Numbers) -> str:
    """Of a simulated route, how often it was played for each value."""
    if figures.span is None:
        return ""
    return tr(
        " It is simulated, with {runs} runs for each value.", runs=numbers.whole(fewer_runs(plan).simulation.runs)
    )


def best_chance(figures: Figures) -> float:
    """The best chance over all counts."""
    return max(figures.chances.values(), default=0.0)


def bars_head(*, money: bool) -> str:
    """Over the bars."""
    return tr("Set aside at both ends of its range") if money else tr("Chance at both ends of its range")


def end_lines(plan: Plan, effect: Effect, *, low: bool, route: str, money: bool, numbers: Numbers) -> tuple[str, str]:
    """One end of a bar in two lines: the value, and what it comes to."""
    reply = effect.low if low else effect.high
    figures = reply.routes.get(route)
    value = value_words(plan, effect.assumption, reply.value, numbers)
    if figures is not None and not money:
        return value, tr("{of_100} in 100", of_100=of_100(best_chance(figures)))
    if figures is not None and figures.money is None:
        return value, tr("out of reach")
    return value, money_words(figures, None, numbers)


def bar_spoken(plan: Plan, effect: Effect, route: str, count: int | None, numbers: Numbers) -> str:
    """Both ends of a bar."""
    return "; ".join(end_words(plan, effect, one, route, count, numbers) for one in (effect.low, effect.high))


def chance_moves(plan: Plan, matters: Matters, effect: Effect, route: str) -> str:
    """What the assumption does to the chance of a route with the animals it has now; nothing where it does nothing."""
    usual = matters.usual.routes.get(route)
    low, high = effect.low.routes.get(route), effect.high.routes.get(route)
    if usual is None or low is None or high is None or usual.money is None:
        return ""
    ends = [of_100(chance_at(one, usual.count)) for one in (low, high)]
    if ends[0] == ends[1]:
        return ""
    return tr(
        "With the animals as they are now, the chance by season {seasons} goes from {ends} to "
        "{ends_2} in 100 over that range; {of_100} as planned.",
        seasons=plan.goal.seasons,
        ends=ends[0],
        ends_2=ends[1],
        of_100=of_100(chance_at(usual, usual.count)),
    )


def still(plan: Plan, matters: Matters, effect: Effect, numbers: Numbers) -> str:
    """How closely the values are told at which the winner changes; nothing where none does."""
    if not effect.flips:
        return ""
    names = [value_words(plan, effect.assumption, flip.last, numbers) for flip in effect.flips]
    winner = matters.usual.cheapest
    at = tr(" and at ").join(names)
    return (
        tr("At {at} it is still “{route_name}”.", at=at, route_name=route_name(plan, winner))
        if winner
        else tr("At {at} still no route reaches the goal.", at=at)
    )


def unit_words(plan: Plan, assumption: Assumption) -> str:
    """What stands behind a range."""
    laid = laid_words(plan)[1]
    units = {
        "laid": laid, "chance": "%", "times": tr("% of what is planned"), "seasons": tr("seasons"),
        "females": tr("females"), "clutches": tr("clutches"),
    }  # fmt: skip
    return f"{units[assumption.unit]}."


def no_range(plan: Plan, assumption: Assumption, numbers: Numbers) -> str:
    """Why a range is not taken."""
    usual = value_words(plan, assumption, assumption.usual, numbers)
    what = tr("what is planned") if usual == AS_PLANNED else tr("{usual}, as planned", usual=usual)
    return tr("A range goes up from one end to the other, and holds {what}.", what=what)


def idle(effects: tuple[Effect, ...]) -> str:
    """What makes no difference, in one sentence."""
    names = [f"{one.assumption.name[:1].lower()}{one.assumption.name[1:]}" for one in effects]
    return tr("No difference here within its range: {names}.", names=listed(names)) if names else ""

"""Labels of the page on prices and assumptions; its sentences are shared with print and stand in `core.advice`."""

from __future__ import annotations

from core.advice.matters import Effect, Figures, Matters, chance_at, ranked
from core.advice.matters_ranges import Assumption
from core.advice.matters_words import AS_PLANNED, end_words, money_words, route_name, value_words
from core.advice.matters_work import fewer_runs
from core.advice.worth import Worth, WorthPaying
from core.advice.worth_words import lot_words, most_words, option_words, paying
from core.explain.numbers import Numbers, counted, in_words, laid_words, listed, of_100, sum_of_money
from core.plan.chances import chance
from core.plan.model import Plan

WORTH, MATTERS = "Worth paying", "What matters most"
TABS_NAME = "What to tell"
ROUTE_NAME = "Route that the bars are about"
WORTH_TABLE, MATTERS_TABLE = "What each animal is worth", "What each assumption does"
ANIMAL, ASKED, UP_TO, BUY, OTHERWISE = "Animal", "asked", "worth up to", "Buy this one?", "Best plan without it"
ASSUMPTION, CHANGES = "Assumption", "Changes the cheapest route"
GAUGE = "compared"
NEVER_CHANGES = "no"
ADD_WITH, ADD_WITHOUT = "Add the plan with it as a route", "Add the plan without it as a route"
FROM, TO = "looked at from", "to"
LOW_NAME, HIGH_NAME = "Low end of the range", "High end of the range"
USUAL_RANGE = "The usual range"
NO_ROUTE = "There is no route with an answer yet."
WAITING = "The routes are still being worked out; this follows."
NOTHING_FOR_SALE = "Nothing is for sale in this plan, and no route buys anything."
NOTHING_WORTH = "Nothing here is worth what is asked, for this goal."


def searching(share: float, numbers: Numbers) -> str:
    """How far the search for better plans is."""
    return f"Searching for better plans, {numbers.whole(round(100 * share))} % done…"


def best_buy(plan: Plan, answered: WorthPaying, numbers: Numbers) -> str:
    """The answer in one sentence: the best buy."""
    if not answered.rows:
        return NOTHING_FOR_SALE
    best = next((row for row in answered.rows if row.verdict == "yes" and row.most is not None), None)
    if best is None:
        without = next((row for row in answered.rows if row.verdict == "yes"), None)
        return f"{lot_words(plan, without.lot)}: no plan does without it." if without else NOTHING_WORTH
    return f"Best buy: {lot_words(plan, best.lot)}, worth up to {most_words(best, numbers)}."


def measured(plan: Plan, answered: WorthPaying) -> str:
    """What the prices mean, and how many plans stand behind them."""
    people = of_100(chance(plan.goal.chance))
    said = [
        f"The most to pay for one before your best plan without it is cheaper, at {people} of 100 within "
        f"{counted(plan.goal.seasons, 'season', 'seasons')}: the bar; the upright line is what is asked. "
        f"{counted(len(answered.tried), 'plan', 'plans')} compared."
    ]
    if answered.left_out:
        said.append("Not every animal was tried in every route.")
    if failed := len(answered.failed):
        said.append(
            f"{in_words(failed).capitalize()} cannot be worked out and {'is' if failed == 1 else 'are'} left out."
        )
    return " ".join(said)


def otherwise(plan: Plan, answered: WorthPaying, row: Worth, numbers: Numbers) -> str:
    """The best plan without it and its money."""
    if row.other is None:
        return "none reaches the goal"
    name = option_words(plan, answered.lots, row.other)
    return f"{name[:1].upper()}{name[1:]}: {sum_of_money(row.limit or 0, numbers)}"


def gauge_spoken(row: Worth, numbers: Numbers) -> str:
    """What the drawn price says."""
    asked = f"asked {paying(row.lot.asked, numbers)}"
    return f"{asked}, worth up to {most_words(row, numbers)}" if row.most is not None else asked


def most_of_all(matters: Matters, route: str) -> tuple[str, str]:
    """The headline before the choice of a route: what matters most, and the words right before the route."""
    moving, _ = ranked(matters, route)
    if not moving:
        return "Within their ranges,", "no assumption matters to"
    return f"{moving[0].assumption.name}:", "this matters most to"


def as_planned(plan: Plan, figures: Figures | None, numbers: Numbers) -> str:
    """The route as the plan stands, and how to read the bars."""
    if figures is None:
        return "This route has no answer."
    if figures.money is None:
        return (
            f"As planned it is out of reach, {of_100(best_chance(figures))} in 100. Bars show the chance by season "
            f"{plan.goal.seasons} at both ends of each range.{_played(plan, figures, numbers)}"
        )
    return (
        f"As planned it asks for {sum_of_money(figures.money, numbers)}. Bars show what is to be set aside at both "
        f"ends of each range, with the best number of animals there.{_played(plan, figures, numbers)}"
    )


def _played(plan: Plan, figures: Figures, numbers: Numbers) -> str:
    """Of a simulated route, how often it was played for each value."""
    if figures.span is None:
        return ""
    return f" It is simulated, with {numbers.whole(fewer_runs(plan).simulation.runs)} runs for each value."


def best_chance(figures: Figures) -> float:
    """The best chance over all counts."""
    return max(figures.chances.values(), default=0.0)


def bars_head(*, money: bool) -> str:
    """Over the bars."""
    return "Set aside at both ends of its range" if money else "Chance at both ends of its range"


def end_lines(plan: Plan, effect: Effect, *, low: bool, route: str, money: bool, numbers: Numbers) -> tuple[str, str]:
    """One end of a bar in two lines: the value, and what it comes to."""
    reply = effect.low if low else effect.high
    figures = reply.routes.get(route)
    value = value_words(plan, effect.assumption, reply.value, numbers)
    if figures is not None and not money:
        return value, f"{of_100(best_chance(figures))} in 100"
    if figures is not None and figures.money is None:
        return value, "out of reach"
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
    return (
        f"With the animals as they are now, the chance by season {plan.goal.seasons} goes from {ends[0]} to {ends[1]} "
        f"in 100 over that range; {of_100(chance_at(usual, usual.count))} as planned."
    )


def still(plan: Plan, matters: Matters, effect: Effect, numbers: Numbers) -> str:
    """How closely the values are told at which the winner changes; nothing where none does."""
    if not effect.flips:
        return ""
    names = [value_words(plan, effect.assumption, flip.last, numbers) for flip in effect.flips]
    winner = matters.usual.cheapest
    at = " and at ".join(names)
    return (
        f"At {at} it is still “{route_name(plan, winner)}”." if winner else f"At {at} still no route reaches the goal."
    )


def unit_words(plan: Plan, assumption: Assumption) -> str:
    """What stands behind a range."""
    laid = laid_words(plan)[1]
    units = {
        "laid": laid, "chance": "%", "times": "% of what is planned", "seasons": "seasons", "females": "females",
        "clutches": "clutches",
    }  # fmt: skip
    return f"{units[assumption.unit]}."


def no_range(plan: Plan, assumption: Assumption, numbers: Numbers) -> str:
    """Why a range is not taken."""
    usual = value_words(plan, assumption, assumption.usual, numbers)
    what = "what is planned" if usual == AS_PLANNED else f"{usual}, as planned"
    return f"A range goes up from one end to the other, and holds {what}."


def idle(effects: tuple[Effect, ...]) -> str:
    """What makes no difference, in one sentence."""
    names = [f"{one.assumption.name[:1].lower()}{one.assumption.name[1:]}" for one in effects]
    return f"No difference here within its range: {listed(names)}." if names else ""

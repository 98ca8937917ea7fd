"""The words of a new route: shapes, what they lack, and what they would need."""

from __future__ import annotations

import math

from core.plan.model import Animal, Held, Plan, Route
from core.routes.lists import Candidate
from core.routes.shapes import Lack, Proposal, Shape
from desktop.findings import Finding, Verdict
from desktop.words.animals import animal, animal_title, form_words
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, counted, percent, price, short_group, sum_of_money
from desktop.words.runs import Run, Runs, strong

BACK, TITLE = "‹ All routes", "New route"
SHAPES_NAME, DRAWN = "Shapes of routes", "Seasons of this route"
FIND = "Find the cheapest routes…"
ADD, ADD_AND_EDIT, CANCEL = "Add this route", "Add and edit", "Cancel"
NAME, NAME_NAME = "Name", "Name of the new route"
BUY_IN, BUY_IN_NAME = "Buy it finished in season", "The season in which it is bought finished"
PASTE_SALE, PASTE_MINE = "Paste what is for sale…", "Paste my animals…"
PRICE_NAME = "What the finished animal costs"
PRICE_STEP = "change the price of the finished animal"
PRICE_ASK = "It costs"
FILLING = "Filling it from what is for sale and what you own…"
NO_MORE_ROOM = "This plan has as many routes as it can hold."
HEADS: dict[Shape, tuple[str, str]] = {
    "straight": ("Bred straight together", "A male and females, bred until it happens."),
    "young together": ("Visuals, young together", "Two visuals first; their young are bred to each other."),
    "daughters back": (
        "Daughters back to the sire",
        "Visual dams to a sire that carries it all, daughters back to him.",
    ),
    "finished male": ("Finished male, het females", "The male already is the goal; the females carry it."),
    "breed then buy": ("Breed, then buy", "Breed some seasons; buy it finished if there is none."),
    "buy": ("Buy the finished animal", "Pay its price and have it now."),
    "empty": ("Empty", "Nothing in it yet: add animals and pairs yourself."),
}
ROLES = {"sire": "Sire", "dams": "Dams", "sons": "Sons held back", "daughters": "Daughters held back"}
_LONGEST_NAME = 60
_NEEDS: dict[tuple[Shape, Lack], str] = {
    ("straight", "no male"): "No male for sale or yours may carry all of {}",
    ("straight", "no female"): "No female for sale or yours may carry all of {}",
    ("young together", "no male"): "No male for sale or yours shows a part of {}",
    ("young together", "no female"): "No female for sale or yours shows a part of {}",
    ("daughters back", "no male"): "No male for sale or yours carries all of {} without showing it",
    ("daughters back", "no female"): "No female for sale or yours shows a part of {}",
    ("finished male", "no male"): "No male for sale or yours is {}",
    ("finished male", "no female"): "No female for sale or yours may carry all of {}",
    ("breed then buy", "no male"): "No male for sale or yours may carry all of {}",
    ("breed then buy", "no female"): "No female for sale or yours may carry all of {}",
}


def lacking(plan: Plan, proposal: Proposal) -> str:
    """Why a shape cannot be filled, and what to do."""
    lack = proposal.lack
    if lack is None:
        return ""
    if lack == "too few seasons":
        return _too_few(plan, proposal.shape)
    if lack in ("no male", "no female"):
        wanted = form_words(plan, plan.goal.want[0].forms)
        return f"{_NEEDS[proposal.shape, lack].format(wanted)}: paste a list that has one."
    return {
        "no goal": "Say first what you want: in the line over the comparison, or under Plan assumptions.",
        "nothing listed": "Nothing is for sale and no animal is yours: paste a list to begin with.",
        "no pair": "None of these pairs can give what you want: paste a list with other animals.",
        "no price": "Say what the finished animal costs, and this route can be worked out.",
    }[lack]


def _too_few(plan: Plan, shape: Shape) -> str:
    matures = plan.species.matures
    if shape == "breed then buy":
        return "There is no season to breed in before it is bought: allow two seasons or more."
    wait = matures.female if shape == "daughters back" else max(matures.male, matures.female)
    who = "Daughters" if shape == "daughters back" else "Young"
    return (
        f"{who} need {counted(wait, 'season', 'seasons')} to grow up, and you allow "
        f"{counted(plan.goal.seasons, 'season', 'seasons')}: allow {wait + 1} or more."
    )


def candidate(plan: Plan, one: Candidate, numbers: Numbers) -> str:
    """An animal to choose: `lavender het amel, 340`, `Juniper, amel, mine`."""
    source = one.source
    if isinstance(source, Animal):
        # What it carries is a belief, told where my animals are listed.
        shown = " ".join(form for form in source.forms.values() if form != "normal")
        return ", ".join(part for part in (source.name or source.id, shown, "mine") if part)
    later = f", ready in {counted(source.ready_in, 'season', 'seasons')}" if source.ready_in else ""
    return f"{animal_title(plan, source.carries)}, {price(source.price, numbers)}{later}"


def role_name(role: str) -> str:
    """What a choice of an animal is called."""
    return f"{ROLES.get(role, role)}: which animal"


def count_name(group: str) -> str:
    """What a number of animals is called."""
    return f"{ROLES.get(group, group)}: how many"


def only_so_many(one: Candidate | None, count: int) -> str:
    """That more are drawn than are for sale."""
    if one is None or isinstance(one.source, Animal) or count <= one.most:
        return ""
    return f"only {one.most} for sale" if one.most > 1 else "only one for sale"


def route_name(plan: Plan, proposal: Proposal) -> str:
    """A first name for the route: who is in it."""
    if proposal.shape in ("buy", "empty"):
        return "Buy the finished animal" if proposal.shape == "buy" else "New route"
    parents = " × ".join(_short(plan, proposal.chosen(role)) for role in ("sire", "dams"))
    tail = {"young together": ", young together", "daughters back": ", daughters back", "breed then buy": ", then buy"}
    return f"{parents[:1].upper()}{parents[1:_LONGEST_NAME]}{tail.get(proposal.shape, '')}"


def _short(plan: Plan, one: Candidate | None) -> str:
    if one is None:
        return "?"
    if isinstance(one.source, Animal):
        return one.source.name or one.source.id
    return animal(plan, one.source.carries)


def held_note(group: Held) -> str:
    """Which young are held back first."""
    forms = [form for form in group.pick[0].values() if form != "normal"] if group.pick else []
    return f"{' '.join(forms)} ones first" if forms else ""


def figure(plan: Plan, one: Finding | None, numbers: Numbers) -> str:
    """What a shape needs, in the list of shapes."""
    if one is None or one.state == "waiting":
        return ""
    if one.to_goal is None:
        return f"{percent(one.chance, numbers)} by season {plan.goal.seasons}"
    return _sum(one, numbers)


def needs(plan: Plan, drawn: Finding, numbers: Numbers) -> Runs:
    """What the route needs as it is drawn."""
    goal = percent(float_chance(plan.goal.chance), numbers)
    if drawn.state == "waiting":
        done = f" {numbers.whole(round(drawn.share_done * 100))} %" if drawn.share_done >= 0.01 else ""
        return (Run(f"Working it out…{done}"),)
    if drawn.state == "failed":
        return (Run("This route could not be worked out."),)
    if drawn.to_goal is None:
        seasons = counted(plan.goal.seasons, "season", "seasons")
        return (Run("It is "), strong(percent(drawn.chance, numbers)), Run(f" sure within {seasons}, not {goal}."))
    return (Run(f"For {goal} it needs "), strong(_sum(drawn, numbers)), Run(f" {plan.currency}."))


def beside(drawn: Finding, best: Finding, decided: Verdict, numbers: Numbers) -> str:
    """The same beside the plan's cheapest, and with the counts that need least."""
    if drawn.state == "failed":
        return drawn.reason
    if drawn.state == "waiting":
        return ""
    return " ".join(part for part in (_other_counts(drawn, best, numbers), _against(best, decided, numbers)) if part)


def _other_counts(drawn: Finding, best: Finding, numbers: Numbers) -> str:
    if best.to_goal is None or (best.males, best.females) == (drawn.males, drawn.females):
        return ""
    group = short_group(best.males, best.females)
    return f"With {group} it needs least: {_sum(best, numbers)}."


def _against(best: Finding, decided: Verdict, numbers: Numbers) -> str:
    present = decided.best
    if present is None or present.to_goal is None:
        return "No route of yours reaches the goal yet." if present else "It would be your first route."
    if best.to_goal is None:
        return f"Your cheapest, {present.name}, needs {_sum(present, numbers)}."
    low, high = best.money_range or (best.to_goal.money,) * 2
    least, most = present.money_range or (present.to_goal.money,) * 2
    if high < least:
        less = numbers.whole(math.ceil(least) - math.ceil(high))
        return f"It would be your cheapest, by {less}: {present.name} needs {_sum(present, numbers)}."
    if low > most:
        more = numbers.whole(math.ceil(low) - math.ceil(most))
        return f"That is {more} more than your cheapest, {present.name}, at {_sum(present, numbers)}."
    return f"That is about as much as your cheapest, {present.name}, at {_sum(present, numbers)}."


def _sum(one: Finding, numbers: Numbers) -> str:
    if one.to_goal is None:
        return ""
    if one.money_range is not None:
        low, high = one.money_range
        if math.isinf(high):
            return f"at least {sum_of_money(low, numbers)}"
        if low < high:
            return f"{sum_of_money(low, numbers)} to {sum_of_money(high, numbers)}"
    return sum_of_money(one.to_goal.money, numbers)


def empty_words(route: Route) -> str:
    """That there is nothing to work out yet."""
    return "" if route.groups or route.buy_outright else "Nothing to work out yet: it is added empty."


def not_so_many(message: str) -> str:
    """Why a number is not taken."""
    return f"That cannot be: {message}."

"""The words of a new route: shapes, what they lack, and what they would need."""

from __future__ import annotations

import math
from collections.abc import Iterable

from core.explain.numbers import listed
from core.plan.model import Animal, Held, Plan, Route
from core.routes.lists import Candidate
from core.routes.pairs import Shape
from core.routes.shapes import Lack, Proposal
from core.text import tr
from desktop.findings import Finding, Verdict
from desktop.words.animals import animal, animal_title, form_words
from desktop.words.goal import asked
from desktop.words.numbers import Numbers, more_by, percent, price, short_group, sum_of_money
from desktop.words.runs import Run, Runs, strong

BACK, TITLE = tr("‹ All routes"), tr("New route")
SHAPES_NAME, DRAWN = tr("Shapes of routes"), tr("Seasons of this route")
ADD, ADD_AND_EDIT, CANCEL = tr("Add this route"), tr("Add and edit"), tr("Cancel")
NAME, NAME_NAME = tr("Name"), tr("Name of the new route")
BUY_IN, BUY_IN_NAME = tr("Buy it finished in season"), tr("The season in which it is bought finished")
PASTE_SALE, PASTE_MINE = tr("Paste what is for sale…"), tr("Paste my animals…")
PRICE_NAME = tr("What the finished animal costs")
PRICE_STEP = tr("change the price of the finished animal")
PRICE_ASK = tr("It costs")
FILLING = tr("Filling it from what is for sale and what you own…")
HEADS: dict[Shape, tuple[str, str]] = {
    "straight": (tr("Bred straight together"), tr("A male and females, bred until it happens.")),
    "young together": (tr("Visuals, young together"), tr("Two visuals first; their young are bred to each other.")),
    "daughters back": (
        tr("Daughters back to the sire"),
        tr("Visual dams to a sire that carries it all, daughters back to him."),
    ),
    "finished male": (tr("Finished male, het females"), tr("The male already is the goal; the females carry it.")),
    "breed then buy": (tr("Breed, then buy"), tr("Breed some seasons; buy it finished if there is none.")),
    "buy": (tr("Buy the finished animal"), tr("Pay its price and have it now.")),
    "empty": (tr("Empty"), tr("Nothing in it yet: add animals and pairs yourself.")),
}
ROLES = {"sire": tr("Sire"), "dams": tr("Dams"), "sons": tr("Sons held back"), "daughters": tr("Daughters held back")}
_LONGEST_NAME = 60
_NEEDS: dict[tuple[Shape, Lack], str] = {
    ("straight", "no male"): tr("No male for sale or yours may carry all of {}"),
    ("straight", "no female"): tr("No female for sale or yours may carry all of {}"),
    ("young together", "no male"): tr("No male for sale or yours shows a part of {}"),
    ("young together", "no female"): tr("No female for sale or yours shows a part of {}"),
    ("daughters back", "no male"): tr("No male for sale or yours carries all of {} without showing it"),
    ("daughters back", "no female"): tr("No female for sale or yours shows a part of {}"),
    ("finished male", "no male"): tr("No male for sale or yours is {}"),
    ("finished male", "no female"): tr("No female for sale or yours may carry all of {}"),
    ("breed then buy", "no male"): tr("No male for sale or yours may carry all of {}"),
    ("breed then buy", "no female"): tr("No female for sale or yours may carry all of {}"),
}


def lacking(plan: Plan, proposal: Proposal) -> str:
    """Why a shape cannot be filled, or not for all that is wanted, and what to do."""
    lack = proposal.lack
    if lack is None:
        return left(plan, proposal)
    if lack == "too few seasons":
        return _too_few(plan, proposal.shape)
    if lack in ("no male", "no female"):
        wanted = _wanted(plan, range(len(plan.goal.want)))
        return tr("{lack}: paste a list that has one.", lack=_NEEDS[proposal.shape, lack].format(wanted))
    return {
        "no goal": tr("Say first what you want: in the line over the comparison, or under Plan assumptions."),
        "nothing listed": tr("Nothing is for sale and no animal is yours: paste a list to begin with."),
        "no pair": tr("None of these pairs can give what you want: paste a list with other animals."),
        "no price": tr("Say what the finished animal costs, and this route can be worked out."),
    }[lack]


def left(plan: Plan, proposal: Proposal) -> str:
    """What of the goal a shape gives, where its pair cannot give all of it; nothing elsewhere."""
    if not proposal.left:
        return ""
    given = [place for place in range(len(plan.goal.want)) if place not in proposal.left]
    return tr(
        "No pair here gives all that you want. This one is for {given}: for {left}, add a pair of its own.",
        given=_wanted(plan, given),
        left=_wanted(plan, proposal.left),
    )


def _wanted(plan: Plan, rows: Iterable[int]) -> str:
    """What some rows of the goal want: `amel visual and lavender visual`; a look wanted in both sexes is told once."""
    return listed([*dict.fromkeys(form_words(plan, plan.goal.want[row].forms) for row in rows)])


def _too_few(plan: Plan, shape: Shape) -> str:
    matures = plan.species.matures
    if shape == "breed then buy":
        return tr("There is no season to breed in before it is bought: allow two seasons or more.")
    wait = matures.female if shape == "daughters back" else max(matures.male, matures.female)
    who = tr("Daughters") if shape == "daughters back" else tr("Young")
    return tr(
        "{who} need {needed} to grow up, and you allow {allowed}: allow {wait} or more.",
        who=who,
        needed=tr("{n} seasons", "{n} season", wait),
        allowed=tr("{n} seasons", "{n} season", plan.goal.seasons),
        wait=wait + 1,
    )


def candidate(plan: Plan, one: Candidate, numbers: Numbers) -> str:
    """An animal to choose: `lavender het amel, 340`, `Juniper, amel, mine`."""
    source = one.source
    if isinstance(source, Animal):
        # What it carries is a belief, told where my animals are listed.
        shown = " ".join(form for form in source.forms.values() if form != "normal")
        return ", ".join(part for part in (source.name or source.id, shown, tr("mine")) if part)
    later = tr(", ready in {n} seasons", ", ready in {n} season", source.ready_in) if source.ready_in else ""
    return f"{animal_title(plan, source.carries)}, {price(source.price, numbers)}{later}"


def role_name(role: str) -> str:
    """What a choice of an animal is called."""
    return tr("{role}: which animal", role=ROLES.get(role, role))


def count_name(group: str) -> str:
    """What a number of animals is called."""
    return tr("{group}: how many", group=ROLES.get(group, group))


def only_so_many(one: Candidate | None, count: int) -> str:
    """That more are drawn than are for sale."""
    if one is None or isinstance(one.source, Animal) or count <= one.most:
        return ""
    return tr("only {most} for sale", most=one.most) if one.most > 1 else tr("only one for sale")


def route_name(plan: Plan, proposal: Proposal) -> str:
    """A first name for the route: who is in it."""
    if proposal.shape in ("buy", "empty"):
        return tr("Buy the finished animal") if proposal.shape == "buy" else tr("New route")
    parents = " × ".join(_short(plan, proposal.chosen(role)) for role in ("sire", "dams"))
    tail = {
        "young together": tr(", young together"),
        "daughters back": tr(", daughters back"),
        "breed then buy": tr(", then buy"),
    }
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
    return tr("{forms} ones first", forms=" ".join(forms)) if forms else ""


def figure(plan: Plan, one: Finding | None, numbers: Numbers) -> str:
    """What a shape needs, in the list of shapes."""
    if one is None or one.state == "waiting":
        return ""
    if one.to_goal is None:
        return tr("{chance} by season {seasons}", chance=percent(one.chance, numbers), seasons=plan.goal.seasons)
    return _sum(one, numbers)


def needs(plan: Plan, drawn: Finding, numbers: Numbers) -> Runs:
    """What the route needs as it is drawn."""
    goal = asked(plan, numbers)
    if drawn.state == "waiting":
        done = f" {numbers.whole(round(drawn.share_done * 100))} %" if drawn.share_done >= 0.01 else ""
        return (Run(tr("Working it out…{done}", done=done)),)
    if drawn.state == "failed":
        return (Run(tr("This route could not be worked out.")),)
    if drawn.to_goal is None:
        seasons = tr("{n} seasons", "{n} season", plan.goal.seasons)
        return (
            Run(tr("It is ")),
            strong(percent(drawn.chance, numbers)),
            Run(tr(" sure within {seasons}, not {goal}.", seasons=seasons, goal=goal)),
        )
    unit = f" {plan.currency}".rstrip()
    return (Run(tr("For {goal} it needs ", goal=goal)), strong(_sum(drawn, numbers)), Run(f"{unit}."))


def beside(drawn: Finding, best: Finding, decided: Verdict, numbers: Numbers) -> str:
    """The same beside the plan's cheapest, and with the counts that need least."""
    if drawn.state == "failed":
        return drawn.reason
    if drawn.state == "waiting":
        return ""
    return " ".join(part for part in (_other_counts(drawn, best, numbers), _against(best, decided, numbers)) if part)


def _other_counts(drawn: Finding, best: Finding, numbers: Numbers) -> str:
    if (best.males, best.females) == (drawn.males, drawn.females):
        return ""
    group = short_group(best.males, best.females)
    if best.to_goal is None:
        return tr("With {group} it comes closest: {chance}.", group=group, chance=percent(best.chance, numbers))
    return tr("With {group} it needs least: {sum}.", group=group, sum=_sum(best, numbers))


def _against(best: Finding, decided: Verdict, numbers: Numbers) -> str:
    present = decided.best
    if present is None or present.to_goal is None:
        return tr("No route of yours reaches the goal yet.") if present else tr("It would be your first route.")
    if best.to_goal is None:
        return tr("Your cheapest, {name}, needs {sum}.", name=present.name, sum=_sum(present, numbers))
    low, high = best.money_range or (best.to_goal.money,) * 2
    least, most = present.money_range or (present.to_goal.money,) * 2
    if high < least:
        return tr(
            "It would be your cheapest, by {less}: {name} needs {sum}.",
            less=more_by(least, high, numbers),
            name=present.name,
            sum=_sum(present, numbers),
        )
    if low > most:
        return tr(
            "That is {more} more than your cheapest, {name}, at {sum}.",
            more=more_by(low, most, numbers),
            name=present.name,
            sum=_sum(present, numbers),
        )
    return tr(
        "That is about as much as your cheapest, {name}, at {sum}.", name=present.name, sum=_sum(present, numbers)
    )


def _sum(one: Finding, numbers: Numbers) -> str:
    if one.to_goal is None:
        return ""
    if one.money_range is not None:
        low, high = one.money_range
        if math.isinf(high):
            return tr("at least {low}", low=sum_of_money(low, numbers))
        if low < high:
            return tr("{low} to {high}", low=sum_of_money(low, numbers), high=sum_of_money(high, numbers))
    return sum_of_money(one.to_goal.money, numbers)


def empty_words(route: Route) -> str:
    """That there is nothing to work out yet."""
    return "" if route.groups or route.buy_outright else tr("Nothing to work out yet: it is added empty.")


def not_so_many(message: str) -> str:
    """Why a number is not taken."""
    return tr("That cannot be: {message}.", message=message)

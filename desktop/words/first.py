"""Words for the first minutes with the program."""

from __future__ import annotations

from core.plan.model import ForSale, Plan
from core.text import tr
from desktop.first.progress import Step, Topic, can_draw, has_species
from desktop.words.goal import wanted_words
from desktop.words.numbers import Numbers, in_words

NEW_TITLE = tr("New plan")

HEAD = tr("Four steps to the first answer.")
LEAD = tr("Take them in any order; what you enter is kept as you go, and every step can be undone.")
OR_SAMPLE = tr("Or look at a sample plan first; its numbers are invented:")

TITLES: dict[Topic, str] = {
    "want": tr("What I want"),
    "mine": tr("My animals"),
    "sale": tr("What is for sale"),
    "routes": tr("First routes"),
}
ACTIONS: dict[Topic, str] = {
    "want": tr("Say what I want"),
    "mine": tr("Enter my animals"),
    "sale": tr("Enter what is for sale"),
    "routes": tr("Draw them myself"),
}
PASTE = tr("Paste a list")
FIND = tr("Find the cheapest")
FOUND = tr("Found for you from these lists, the cheapest first; each can be changed afterwards.")
LEAVE_OUT: dict[Topic, str] = {"mine": tr("I have none"), "sale": tr("I only breed what I have")}
CHANGE = tr("Change")
STATES = {"done": tr("done"), "left out": tr("left out"), "next": tr("next"), "later": ""}

SAMPLE_LINE = tr(
    "This is a sample plan; its prices and rates are invented. Try anything: the sample itself stays as it is."
)
START_EMPTY, SAMPLES = tr("Start an empty plan"), tr("Other samples…")


def go_on_with(name: str) -> str:
    """Back to the plan used last."""
    return tr("Go on with {name}", name=name)


def story(plan: Plan, step: Step, numbers: Numbers) -> str:
    """What a step is about, or what it came to."""
    if step.topic == "want":
        return _want(plan, numbers)
    if step.topic == "mine":
        return _mine(plan, step)
    if step.topic == "sale":
        return _sale(plan, step)
    if can_draw(plan):
        return tr("Ways to the goal are drawn from these lists and worked out at once; change them afterwards.")
    return tr("Drawn from what you have and what is for sale, or with a price for buying the finished animal.")


def _want(plan: Plan, numbers: Numbers) -> str:
    if not has_species(plan):
        return tr("Choose the species, name its genes, then say what the animal should look like.")
    if not plan.genes:
        return tr("{name}. Now name the genes that matter to you.", name=plan.species.name)
    if not all(want.forms for want in plan.goal.want):
        genes = tr("{n} genes are", "{n} gene is", len(plan.genes))
        return tr(
            "{name}, {genes} named. Now say what the animal should look like.", name=plan.species.name, genes=genes
        )
    return f"{plan.species.name}: {wanted_words(plan, numbers)}."


def _mine(plan: Plan, step: Step) -> str:
    if step.state == "left out":
        return tr("None. Every animal has to be bought.")
    if not plan.my_animals:
        return tr("What you own already costs nothing to buy. Leave this out if you own none.")
    males = sum(animal.sex == "male" for animal in plan.my_animals)
    return f"{_sexes(males, len(plan.my_animals) - males)}."


def _sale(plan: Plan, step: Step) -> str:
    if step.state == "left out":
        return tr("Nothing. Routes use what you have.")
    if not plan.for_sale:
        return tr("A seller's list can be pasted as it is: one line an animal, with its price.")
    males = sum(one.quantity for one in plan.for_sale if one.sex == "male")
    return tr("{sexes} on offer.", sexes=_sexes(males, sum(map(_quantity, plan.for_sale)) - males))


def _quantity(one: ForSale) -> int:
    return one.quantity


def _sexes(males: int, females: int) -> str:
    parts = [
        f"{in_words(count)} {one if count == 1 else many}"
        for count, one, many in ((males, tr("male"), tr("males")), (females, tr("female"), tr("females")))
        if count
    ]
    return tr(" and ").join(parts).capitalize() or tr("None left")


def action_name(topic: Topic, text: str) -> str:
    """A button's name by itself: `Paste a list: What is for sale`."""
    return f"{text}: {TITLES[topic]}"

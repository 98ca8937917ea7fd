"""Labels of the counter view; its sentences are shared with the odds card and stand in `core.counter`."""

from __future__ import annotations

from core.counter.answer import Goal
from core.counter.card import goal_words
from core.explain.animals import animal
from core.explain.numbers import Numbers, counted, of_100, price
from core.plan.model import Carries, ForSale, Plan, Sex

TITLE = "Counter view"
LEAVE, BACK, START_OVER = "Leave counter view", "Back", "Start over"
PICK_TWO, PICK_ONE = "Pick a male and a female", "Pick one for the animal at home"
MALES, FEMALES = "Males", "Females"
AT_HOME = "One is at home"
SOLD, PUT_BACK = "Sold", "Put the last one back"
NOTHING_FOR_SALE = "Nothing is for sale any more."
INVENTED = "No animals are for sale in this plan. These, with their prices, were invented for trying this out."
HATCHES = "What hatches, out of 100 young"
TAP_A_LOOK = "Tap a look to make it the goal."
ODDS_CARD = "Odds card"
TIMES = "×"
THE_PAIR = "the pair"
IN_100 = "in 100"
WAITING = "Being worked out"
WHAT_IS_AT_HOME, ITS_SEX = "The animal at home", "It is a"
MALE, FEMALE = "Male", "Female"
CHOOSE_GOAL = "What should hatch?"
CAUTIONS = (
    "Odds, not promises. Permits and trade law differ by place: ask the authority. "
    "Before breeding, ask a reptile vet. Wash your hands."
)
SAVE_PDF, SAVE_PICTURE = "Save as PDF", "Save as picture"
PRINT = "Print"
FOLDER = "Odds cards"
# Every file system takes it.
_LONGEST_NAME = 80


def for_sale(plan: Plan, offer: ForSale) -> str:
    """An animal on the table, standing alone."""
    return alone(plan, offer.carries)


def alone(plan: Plan, carries: Carries) -> str:
    """What an animal is, in the trade's words."""
    text = animal(plan, carries)
    return text[:1].upper() + text[1:]


def own_label(plan: Plan, offer: ForSale) -> str:
    """The seller's own name for it, where that says more than the trade's words do."""
    said = set(_words(animal(plan, offer.carries))) | {offer.sex, f"{offer.sex}s"}
    return offer.label if set(_words(offer.label)) - said else ""


def offer_note(plan: Plan, offer: ForSale, year: int) -> str:
    """What stands below an animal on the table: how many, when it can breed, its own name."""
    grown = f"can breed in {year + offer.ready_in}" if offer.ready_in else ""
    return ", ".join(part for part in (left(offer.quantity), grown, own_label(plan, offer)) if part)


def left(quantity: int) -> str:
    """`3 left`, or that it is sold out."""
    return f"{quantity} left" if quantity else "sold out"


def sell(plan: Plan, offer: ForSale) -> str:
    """What the button that marks one sold is called where nobody sees its place."""
    return f"{SOLD}: one {animal(plan, offer.carries)} {offer.sex}"


def sold_step(plan: Plan, offer: ForSale) -> str:
    """The step as undo names it."""
    return f"the sale of one {animal(plan, offer.carries)} {offer.sex}"


def change(sex: Sex, *, at_home: bool) -> str:
    """What stands above one of the pair."""
    whose = ", at home" if at_home else ""
    return f"{MALE if sex == 'male' else FEMALE}{whose}, tap to change"


def pair_of(currency: str) -> str:
    """What stands above the price of the pair."""
    return f"{THE_PAIR}, {currency}"


def at_least_one(plan: Plan, goal: Goal) -> str:
    """The head of the chances by clutch."""
    return f"At least one {goal_words(plan, goal.forms, goal.sex)}"


def goal_name(plan: Plan, goal: Goal) -> str:
    """A goal standing alone."""
    text = goal_words(plan, goal.forms, goal.sex)
    return text[:1].upper() + text[1:]


def clutches(count: int) -> str:
    """`1 clutch`."""
    return counted(count, "clutch", "clutches")


def chance_spoken(count: int, chance: float) -> str:
    """A chance by clutch for a screen reader."""
    return f"{clutches(count)}: {of_100(chance)} in 100"


def look_spoken(look: str, hides: str, share: str) -> str:
    """A look for a screen reader."""
    return f"{look}{f', {hides}' if hides else ''}: {share}"


def best_for(plan: Plan, sex: Sex, carries: Carries) -> str:
    """The head of the ranking."""
    return f"Best for the {sex} at home: {animal(plan, carries)}"


def find_best(sex: Sex) -> str:
    """What ranks the table for it."""
    return f"Best for this {sex}"


def back_to_best(sex: Sex) -> str:
    """From a pair back to the ranking."""
    return f"Best for the {sex} at home"


def pick_from_table(sex: Sex) -> str:
    """The way to the table from the animal at home."""
    return f"Pick a {'female' if sex == 'male' else 'male'} from the table"


def goal_field(plan: Plan, goal: Goal) -> str:
    """What the ranking is about; tapping it chooses another."""
    return f"At least one {goal_words(plan, goal.forms, goal.sex)} from 1 clutch, tap to change"


def rank_note(plan: Plan, offer: ForSale, year: int, numbers: Numbers) -> str:
    """What stands below a partner: its price, and when it can breed."""
    when = f"can breed in {year + offer.ready_in}" if offer.ready_in else "can breed this year"
    return f"{price(offer.price, numbers)} {plan.currency}, {when}, {left(offer.quantity)}"


def none_of(sex: Sex) -> str:
    """Nothing to rank."""
    return f"No {sex} is left on the table."


def home_title(plan: Plan, sex: Sex, carries: Carries) -> str:
    """What was said of the animal at home so far."""
    return f"{alone(plan, carries)} {sex}"


def saved(place: str) -> str:
    """Where a card went."""
    return f"Saved: {place}"


def card_file(male: str, female: str) -> str:
    """The name of a card's file, without its ending: letters, figures and hyphens."""
    kept = "".join(letter if letter.isalnum() else " " for letter in f"{male} {female}".lower())
    return "-".join(["odds-card", *kept.split()])[:_LONGEST_NAME].rstrip("-")


def card_spoken(lines: list[str]) -> str:
    """A card for a screen reader."""
    return " ".join(line for line in lines if line)


def _words(text: str) -> list[str]:
    return "".join(letter if letter.isalnum() else " " for letter in text.lower()).split()


def not_saved(reason: str) -> str:
    """Why a card could not be written."""
    return f"The card could not be saved: {reason or 'no reason given'}."

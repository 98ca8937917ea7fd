"""Labels of the counter view; its sentences are shared with the odds card and stand in `core.counter`."""

from __future__ import annotations

from core.counter.answer import Goal
from core.counter.card import goal_words
from core.explain.animals import animal
from core.explain.numbers import Numbers, in_currency, is_live, of_100, price
from core.plan.model import Carries, ForSale, Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr

TITLE = tr("Counter view")
LEAVE, BACK, START_OVER = tr("Leave counter view"), tr("Back"), tr("Start over")
PICK_TWO, PICK_ONE = tr("Pick a male and a female"), tr("Pick one for the animal at home")
MALES, FEMALES = tr("Males"), tr("Females")
AT_HOME = tr("One is at home")
SOLD, PUT_BACK = tr("Sold"), tr("Put the last one back")
NOTHING_FOR_SALE = tr("Nothing is for sale any more.")
INVENTED = tr("No animals are for sale in this plan. These, with their prices, were invented for trying this out.")
TAP_A_LOOK = tr("Tap a look to make it the goal.")
ODDS_CARD = tr("Odds card")
TIMES = "×"
THE_PAIR = tr("the pair")
IN_100 = tr("in 100")
WAITING = tr("Being worked out")
WHAT_IS_AT_HOME, ITS_SEX = tr("The animal at home"), tr("It is a")
MALE, FEMALE = tr("Male"), tr("Female")
CAUTIONS = tr(
    "Odds, not promises. Permits and trade law differ by place: ask the authority. Before "
    "breeding, ask a reptile vet. Wash your hands."
)
SAVE_PDF, SAVE_PICTURE = tr("Save as PDF"), tr("Save as picture")
PRINT = tr("Print")
FOLDER = tr("Odds cards")
# Every file system takes it.
_LONGEST_NAME = 80


def choose_goal(plan: Plan) -> str:
    """The head of the looks to choose from."""
    return tr("What should be born?") if is_live(plan) else tr("What should hatch?")


def to_pick(picked: tuple[Sex, ...]) -> str:
    """Who is still to be picked from the table."""
    if len(picked) != 1:
        return PICK_TWO
    return tr("Now pick a {sex}", sex=sex_words("female" if picked == ("male",) else "male"))


def for_sale(plan: Plan, offer: ForSale) -> str:
    """An animal on the table, standing alone."""
    return alone(plan, offer.carries)


def alone(plan: Plan, carries: Carries) -> str:
    """What an animal is, in the trade's words."""
    text = animal(plan, carries)
    return text[:1].upper() + text[1:]


def own_label(plan: Plan, offer: ForSale) -> str:
    """The seller's own name for it, where that says more than the trade's words do."""
    said = set(_words(animal(plan, offer.carries))) | {sex_words(offer.sex), sex_words(offer.sex, 2)}
    return offer.label if set(_words(offer.label)) - said else ""


def offer_note(plan: Plan, offer: ForSale, year: int) -> str:
    """What stands below an animal on the table: how many, when it can breed, its own name."""
    grown = tr("can breed in {year}", year=year + offer.ready_in) if offer.ready_in else ""
    return ", ".join(part for part in (left(offer.quantity), grown, own_label(plan, offer)) if part)


def left(quantity: int) -> str:
    """`3 left`, or that it is sold out."""
    return tr("{quantity} left", quantity=quantity) if quantity else tr("sold out")


def sell(plan: Plan, offer: ForSale) -> str:
    """What the button that marks one sold is called where nobody sees its place."""
    return tr("{sold}: one {animal} {sex}", sold=SOLD, animal=animal(plan, offer.carries), sex=sex_words(offer.sex))


def sold_step(plan: Plan, offer: ForSale) -> str:
    """The step as undo names it."""
    return tr("the sale of one {animal} {sex}", animal=animal(plan, offer.carries), sex=sex_words(offer.sex))


def change(sex: Sex, *, at_home: bool) -> str:
    """What stands above one of the pair."""
    whose = tr(", at home") if at_home else ""
    return tr("{sex}{whose}, tap to change", sex=MALE if sex == "male" else FEMALE, whose=whose)


def pair_of(plan: Plan) -> str:
    """What stands above the price of the pair."""
    return ", ".join(part for part in (THE_PAIR, plan.currency) if part)


def at_least_one(plan: Plan, goal: Goal) -> str:
    """The head of the chances by clutch."""
    return tr("At least one {goal_words}", goal_words=goal_words(plan, goal.forms, goal.sex))


def goal_name(plan: Plan, goal: Goal) -> str:
    """A goal standing alone."""
    text = goal_words(plan, goal.forms, goal.sex)
    return text[:1].upper() + text[1:]


def clutches(plan: Plan, count: int) -> str:
    """`1 clutch`."""
    return tr("{n} litters", "{n} litter", count) if is_live(plan) else tr("{n} clutches", "{n} clutch", count)


def chance_spoken(plan: Plan, count: int, chance: float) -> str:
    """A chance by clutch for a screen reader."""
    return tr("{clutches}: {of_100} in 100", clutches=clutches(plan, count), of_100=of_100(chance))


def look_spoken(look: str, hides: str, share: str) -> str:
    """A look for a screen reader."""
    return f"{look}{f', {hides}' if hides else ''}: {share}"


def best_for(plan: Plan, sex: Sex, carries: Carries) -> str:
    """The head of the ranking."""
    return tr("Best for the {animal} {sex} at home", animal=animal(plan, carries), sex=sex_words(sex))


def find_best(sex: Sex) -> str:
    """What ranks the table for it."""
    return tr("Best for this {sex}", sex=sex_words(sex))


def back_to_best(sex: Sex) -> str:
    """From a pair back to the ranking."""
    return tr("Best for the {sex} at home", sex=sex_words(sex))


def pick_from_table(sex: Sex) -> str:
    """The way to the table from the animal at home."""
    return tr("Pick a {sex} from the table", sex=sex_words("female" if sex == "male" else "male"))


def goal_field(plan: Plan, goal: Goal) -> str:
    """What the ranking is about; tapping it chooses another."""
    look = goal_words(plan, goal.forms, goal.sex)
    if is_live(plan):
        return tr("At least one {goal_words} from 1 litter, tap to change", goal_words=look)
    return tr("At least one {goal_words} from 1 clutch, tap to change", goal_words=look)


def rank_note(plan: Plan, offer: ForSale, year: int, numbers: Numbers) -> str:
    """What stands below a partner: its price, and when it can breed."""
    when = tr("can breed in {year}", year=year + offer.ready_in) if offer.ready_in else tr("can breed this year")
    return f"{in_currency(price(offer.price, numbers), plan)}, {when}, {left(offer.quantity)}"


def none_of(sex: Sex) -> str:
    """Nothing to rank."""
    return tr("No {sex} is left on the table.", sex=sex_words(sex))


def home_title(plan: Plan, sex: Sex, carries: Carries) -> str:
    """What was said of the animal at home so far."""
    return f"{alone(plan, carries)} {sex_words(sex)}"


def saved(place: str) -> str:
    """Where a card went."""
    return tr("Saved: {place}", place=place)


def card_file(male: str, female: str) -> str:
    """The name of a card's file, without its ending: letters, figures and hyphens."""
    kept = "".join(letter if letter.isalnum() else " " for letter in f"{male} {female}".lower())
    return "-".join([tr("odds-card"), *kept.split()])[:_LONGEST_NAME].rstrip("-")


def card_spoken(lines: list[str]) -> str:
    """A card for a screen reader."""
    return " ".join(line for line in lines if line)


def _words(text: str) -> list[str]:
    return "".join(letter if letter.isalnum() else " " for letter in text.lower()).split()


def not_saved(reason: str) -> str:
    """Why a card could not be written."""
    return tr("The card could not be saved: {reason}.", reason=reason or tr("no reason given"))

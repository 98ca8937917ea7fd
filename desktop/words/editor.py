"""The words of the route editor: its sentences, its refusals, and what removing takes along."""

from __future__ import annotations

import re

from core.plan.limits import MOST_ANIMALS_IN_GROUP, MOST_GROUPS, MOST_PAIRINGS
from core.plan.model import Animal, Forms, ForSale, Plan, Sex
from desktop.words.animals import animal_title
from desktop.words.names import name_of, shortened, titled
from desktop.words.numbers import PlainNumbers, counted, listed, price

BACK, DONE, UNDO = "‹ All routes", "Done", "Undo last change"
BACK_NAME = "Back to all routes"
EDIT_ROUTE, MENU_EDIT_ROUTE = "Edit this route", "&Edit this route"
HEAD = "Animals, and who breeds whom"
ADD_ANIMALS, ADD_PAIRING = "Add animals", "Pair animals"
LINES, SEASONS_HEAD = "Animals and pairings of this route", "season"

NAME, ROUTE_NAME, RENAME_ROUTE = "Name", "Name of the route", "rename the route"
ORIGIN, COUNT, SEX, CARRIES, ANIMALS = "Where from", "How many", "Sex", "What they carry", "Which of mine"
PRICE, ARRIVAL, LAST_SEASON, FIRST_SEASON = "Price of each", "Season of arrival", "Last season", "First season"
GROWS, KEPT_NAME, SOURCE = "Seasons to breeder-size", "Who pays for keeping", "Held back from"
MALES, FEMALES, WHEN = "Males", "Females", "When"
SETUP_NAME, FINISHED_NAME = "Setting up", "Season to buy the finished animals"
TRIED, COUNTS_NAME, COUNTS_STEP = "Counts tried of", "Counts to try", "change the counts to try"

ORIGINS = {"buy": "Buy", "own": "Use", "named": "Use by name", "hold": "Hold back"}
KEPT = {True: "kept anyway", False: "kept for this route"}
AT, EACH, FROM_SEASON, TO, END, START = "at", "each", "from season", "to", "end", "start"
FROM, TAKING, FIRST_THEN, THEN, OR, ELSE, AND = "from", "taking", "first, then", "then", "or", "else", "and"
ANY_YOUNG, NO_OTHERS, TAKE_OUT_LOOK = "any young", "no others", "leave this look out"
PAIR, WITH, EVERY_SEASON, SOME_SEASONS = "Pair", "with", "in every season they can", "from season"
GROWS_FOR, GROWS_UNIT = "Breeder-size after growing", "seasons here"
THEY_ARE, COST, COST_TOO, TO_USE = "They are", "They cost", "cost", "to use, are"
AND_GROWN, STAY_UNTIL = "and breeder-size after growing", "They stay to season"
BUY_FINISHED, NEVER = "While the goal is not met, buy the finished animals in season", "never"
TRY, OF, TRY_END, TRY_COUNTS_OF, NOTHING = "Try", "of", "to see how many it takes.", "Try several counts of", "nothing"
SETUP = "Setting this route up costs"
ROUTE_LINES = ("Finished animals", "The whole route")

CARRIES_HELP = "Choose gene by gene below what these animals carry."
ANIMALS_HELP = "Choose below which of my animals these are."
KEPT_HELP = "Animals kept anyway cost this route nothing to keep."
PICK_HELP = "Young of this look are held back before any others."
GROWS_HELP = "0: they can breed in the season they come."

MOVE_UP, MOVE_DOWN, REMOVE = "Move up", "Move down", "Remove"
NO_LINE = "Choose a line above to see what its animals carry."
LOOKS_HEAD, EITHER = "Hold back young that look like this", "either way"
MINE_HEAD = "Which of my animals"

NAME_NEEDED = "A name is needed to tell them apart: type one, or press Escape to keep what was there."
ROUTE_NAME_NEEDED = "A route needs a name: type one, or press Escape to keep what was there."
NO_YOUNG = "Nobody in this route breeds yet whose young could be held back: pair animals first."
_MOST_NAMES = 4
ANIMAL_TWICE = "An animal of mine can be in one line at a time: leave it out of the other, or let the seasons not meet."
ONE_AT_LEAST = "At least one animal must stay chosen. To leave them all out, remove this line."
NO_OUTRIGHT_PRICE = "What the finished animals cost ready-made is not said yet: give that price with the goal first."


def field_name(name: str, about: str) -> str:
    """What a field is called for those who do not see where it stands."""
    return f"{name}: {titled(about)}" if about else name


def step(name: str, about: str) -> str:
    """A change, as undo names it: `change the price of each of Dams`."""
    of = f" of {titled(about)}" if about else ""
    return f"change the {name[:1].lower()}{name[1:]}{of}"


def not_a_number(text: str, *, whole: bool, open_word: str) -> str:
    """Why a typed text is not taken."""
    kind = "a whole number" if whole else "a number"
    instead = f", or “{open_word}”" if open_word else ""
    if not text.strip():
        return f"Type {kind}{instead}, or press Escape to keep what was there."
    return f"“{text}” is not {kind}: type {kind}{instead}, or press Escape to keep what was there."


def out_of_range(name: str, least: str, most: str) -> str:
    """Why a number is not taken."""
    return f"{name}: type a number from {least} to {most}."


def too_long(most: int) -> str:
    """Why a name is not taken."""
    return f"A name may have up to {most} letters."


def name_taken(typed: str) -> str:
    """Why a name is not taken."""
    return f"There is “{typed.strip()}” in this route already: type another name."


def none_of_mine(sex: Sex) -> str:
    """Why no animal of mine can be used."""
    return f"No {sex} of mine is free for this: list it under my animals first."


def none_here(sex: str) -> str:
    """Why nobody can be paired."""
    return f"There are no {sex}s in this route yet: add some first."


def breeds_as(sex: Sex) -> str:
    """Why a sex cannot change."""
    return f"They breed as {sex}s in this route: take them out of their pairings first."


def from_own_young(name: str) -> str:
    """Why young cannot come from a pairing that they would have to be in first."""
    return f"{short_title(name)} would have to come from young of their own: choose a pairing that breeds before them."


def gone_before(arrives: int, leaves: int) -> str:
    """Why animals cannot leave."""
    return f"They would be gone after season {leaves}, before they come in season {arrives}."


def seasons_upside_down(first: int, last: int) -> str:
    """Why seasons cannot be."""
    return f"The first season, {first}, would come after the last, {last}."


def after_the_goal(seasons: int) -> str:
    """Why a purchase comes too late."""
    return f"The goal asks for it within {counted(seasons, 'season', 'seasons')}: type a season up to {seasons}."


def not_changed(place: str, message: str) -> str:
    """Why the plan's own rules do not allow a change; `place` as a fault names it."""
    if ".animals[" in place:
        return ANIMAL_TWICE
    for key, most, what in ((".groups", MOST_GROUPS, "lines of animals"), (".pairings", MOST_PAIRINGS, "pairings")):
        if place.endswith(key):
            return f"A route can have up to {most} {what}."
    return f"Not changed: {message.rstrip('.')}."


def sex_word(sex: Sex, count: int) -> str:
    """`male`, `females`."""
    return sex if count == 1 else f"{sex}s"


def animals_text(plan: Plan, names: tuple[str, ...]) -> str:
    """Animals of mine by name."""
    called = {one.id: one.name or one.id for one in plan.my_animals}
    return listed([called.get(name, name) for name in names])


def look(plan: Plan, forms: Forms) -> str:
    """Visible forms to take first."""
    genes = {gene.id: gene.name.lower() for gene in plan.genes}
    shown = [form for form in forms.values() if form != "normal"]
    plain = [f"not {genes.get(gene, gene)}" for gene, form in forms.items() if form == "normal"]
    return " + ".join([*shown, *plain]) or ANY_YOUNG


def pick_name(place: int) -> str:
    """What a look in the order of preference is called."""
    return "Look to take first" if place == 0 else f"Look to take in place {place + 1}"


def also(joint: str, name: str) -> str:
    """One more in a list."""
    return f"{joint} {name}, too" if joint != ELSE else f"{joint} {name}"


def without(name: str) -> str:
    """One fewer in a list."""
    return f"without {name}"


def pairing(name: str) -> str:
    """A pairing in a sentence: `first pairing`."""
    called = name_of(name)
    return called if "pair" in called.casefold() else f"{called} pairing"


def counts_text(counts: tuple[int, ...]) -> str:
    """`1–8`, `1, 2, 4`."""
    if len(counts) > 2 and counts == tuple(range(counts[0], counts[0] + len(counts))):
        return f"{counts[0]}–{counts[-1]}"
    return ", ".join(map(str, counts))


def read_counts(text: str, most: int) -> tuple[int, ...] | str:
    """Typed counts, or why they are none."""
    found: list[int] = []
    for part in re.split(r"[,;\s]+", re.sub(r"\s*[-–]\s*", "–", text.strip())):
        match = re.fullmatch(r"(\d{1,3})(?:–(\d{1,3}))?", part, flags=re.ASCII)
        if match is None:
            return f"“{text}” says no counts: type how many to try, such as 1–8 or 1, 2, 4."
        found += range(int(match[1]), int(match[2] or match[1]) + 1)
    counts = tuple(dict.fromkeys(found))
    if not counts or min(counts) < 1 or max(counts) > MOST_ANIMALS_IN_GROUP:
        return f"Type counts from 1 to {MOST_ANIMALS_IN_GROUP}, such as 1–8 or 1, 2, 4."
    return counts if len(counts) <= most else f"That is {len(counts)} counts; at most {most} can be tried."


def added(name: str) -> str:
    """A group or pairing more, as undo names it."""
    return f"add {titled(name)}"


def removed(name: str) -> str:
    """One fewer, as undo names it."""
    return f"remove {titled(name)}"


def moved(name: str) -> str:
    """Another order, as undo names it."""
    return f"move {titled(name)}"


def takes_along(names: tuple[str, ...]) -> str:
    """What goes with what is removed; empty for nothing."""
    return f"Removing this takes along {several(names)}." if names else ""


def took_along(name: str, names: tuple[str, ...]) -> str:
    """What went with what was removed."""
    along = f", and with it {several(names)}" if names else ""
    return f"Removed {short_title(name)}{along}. Undo brings {'them' if names else 'it'} back."


def several(names: tuple[str, ...]) -> str:
    """Names in a sentence, not more than a few of them."""
    shown = [short_title(name) for name in names[:_MOST_NAMES]]
    more = len(names) - len(shown)
    return listed([*shown, f"{more} more"] if more else shown)


def short_title(name: str) -> str:
    """A name in a sentence that has to stay readable."""
    return shortened(titled(name))


def order_note(place: int, of: int, *, held: bool) -> str:
    """What the order of lines decides."""
    if of < 2:
        return ""
    why = "hold young back" if held else "get their males"
    return f"{place + 1} of {of}: earlier ones {why} first."


NOBODY_BREEDS = "Nobody breeds in this route yet, and nothing is bought finished: it cannot reach the goal."
NEVER_BREEDS = "This route never breeds: in no season are a male and a female of a pairing there and breeder-size."
WITH_NOBODY = "They breed with nobody yet: pair them, or they only cost."
NOTHING_TO_HOLD = "Nothing is ever held back: within the seasons of the goal those pairings have no young."


def never_paired(seasons: int) -> str:
    """Why a pairing stays without eggs."""
    return f"They never breed: in no season up to {seasons} are both sides there and breeder-size."


def leaves_too_soon(leaves: int, breeds: int) -> str:
    """Why animals never breed."""
    return f"They leave after season {leaves}, before they are breeder-size in season {breeds}."


def too_young(breeds: int) -> str:
    """Why animals never breed."""
    return f"They are breeder-size only in season {breeds}, after the last season of the goal."


BUY_NEW = {"male": "Buy a male", "female": "Buy a female"}
HOLD_NEW = {"male": "Hold back males", "female": "Hold back females"}
FROM_SALE, MINE = "From what is for sale", "Mine"


def offer(plan: Plan, one: ForSale) -> str:
    """An animal for sale in the menu: `1.0 het amel, 120`."""
    numbers = PlainNumbers()
    sex = "1.0" if one.sex == "male" else "0.1"
    label = f" ({one.label})" if one.label else ""
    return f"{sex} {animal_title(plan, one.carries)}, {price(one.price, numbers)}{label}"


def mine(plan: Plan, one: Animal) -> str:
    """One of my animals in the menu."""
    sex = "1.0" if one.sex == "male" else "0.1"
    what = f", {animal_title(plan, one.carries)}" if one.carries else ""
    return f"{sex} {one.name or one.id}{what}"

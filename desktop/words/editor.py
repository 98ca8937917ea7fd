"""The words of the route editor: its sentences, its refusals, and what removing takes along."""

from __future__ import annotations

import re

from core.plan.limits import MOST_ANIMALS_IN_GROUP, MOST_GROUPS, MOST_PAIRINGS
from core.plan.model import Animal, Forms, ForSale, Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr
from desktop.words.animals import animal_title, of_mine
from desktop.words.names import name_of, shortened, titled
from desktop.words.numbers import Numbers, listed, price

BACK, DONE, UNDO = tr("‹ All routes"), tr("Done"), tr("Undo last change")
BACK_NAME = tr("Back to all routes")
EDIT_ROUTE = tr("Edit this route")
HEAD = tr("Animals, and who breeds whom")
ADD_ANIMALS, ADD_PAIRING = tr("Add animals"), tr("Pair animals")
LINES, SEASONS_HEAD = tr("Animals and pairings of this route"), tr("season")

NAME, ROUTE_NAME, RENAME_ROUTE = tr("Name"), tr("Name of the route"), tr("rename the route")
ORIGIN, COUNT, SEX, CARRIES, ANIMALS = (
    tr("Where from"),
    tr("How many"),
    tr("Sex"),
    tr("What they carry"),
    tr("Which of mine"),
)
PRICE, ARRIVAL, LAST_SEASON, FIRST_SEASON = (
    tr("Price of each"),
    tr("Season of arrival"),
    tr("Last season"),
    tr("First season"),
)
GROWS, KEPT_NAME, SOURCE = tr("Seasons to breeder-size"), tr("Who pays for keeping"), tr("Held back from")
MALES, FEMALES, WHEN = tr("Males"), tr("Females"), tr("When")
SETUP_NAME, FINISHED_NAME = tr("Setting up"), tr("Season to buy the finished animals")
TRIED, COUNTS_NAME, COUNTS_STEP = tr("Counts tried of"), tr("Counts to try"), tr("change the counts to try")

ORIGINS = {"buy": tr("Buy"), "own": tr("Use"), "named": tr("Use by name"), "hold": tr("Hold back")}
KEPT = {True: tr("kept anyway"), False: tr("kept for this route")}
AT, EACH, FROM_SEASON, TO, END, START = tr("at"), tr("each"), tr("from season"), tr("to"), tr("end"), tr("start")
FROM, TAKING, FIRST_THEN, THEN, OR, ELSE, AND = (
    tr("from"),
    tr("taking"),
    tr("first, then"),
    tr("then"),
    tr("or"),
    tr("else"),
    tr("and"),
)
ANY_YOUNG, NO_OTHERS, TAKE_OUT_LOOK = tr("any young"), tr("no others"), tr("leave this look out")
PAIR, WITH, EVERY_SEASON, SOME_SEASONS = tr("Pair"), tr("with"), tr("in every season they can"), tr("from season")
GROWS_FOR, GROWS_UNIT = tr("Breeder-size after growing"), tr("seasons here")
THEY_ARE, COST, COST_TOO, TO_USE = tr("They are"), tr("They cost"), tr("cost"), tr("to use, are")
AND_GROWN, STAY_UNTIL = tr("and breeder-size after growing"), tr("They stay to season")
BUY_FINISHED, NEVER = tr("While the goal is not met, buy the finished animals in season"), tr("never")
TRY, OF, TRY_END, TRY_COUNTS_OF, NOTHING = (
    tr("Try"),
    tr("of"),
    tr("to see how many it takes."),
    tr("Try several counts of"),
    tr("nothing"),
)
SETUP = tr("Setting this route up costs")
ROUTE_LINES = (tr("Finished animals"), tr("The whole route"))

CARRIES_HELP = tr("Choose gene by gene below what these animals carry.")
ANIMALS_HELP = tr("Choose below which of my animals these are.")
KEPT_HELP = tr("Animals kept anyway cost this route nothing to keep.")
PICK_HELP = tr("Young of this look are held back before any others.")
GROWS_HELP = tr("0: they can breed in the season they come.")

MOVE_UP, MOVE_DOWN, REMOVE = tr("Move up"), tr("Move down"), tr("Remove")
NO_LINE = tr("Choose a line above to see what its animals carry.")
EITHER = tr("either way")

NAME_NEEDED = tr("A name is needed to tell them apart: type one, or press Escape to keep what was there.")
ROUTE_NAME_NEEDED = tr("A route needs a name: type one, or press Escape to keep what was there.")
NO_YOUNG = tr("Nobody in this route breeds yet whose young could be held back: pair animals first.")
_MOST_NAMES = 4
ANIMAL_TWICE = tr(
    "An animal of mine can be in one line at a time: leave it out of the other, or let the seasons not meet."
)
ONE_AT_LEAST = tr("At least one animal must stay chosen. To leave them all out, remove this line.")
NO_OUTRIGHT_PRICE = tr(
    "What the finished animals cost ready-made is not said yet: give that price with the goal first."
)


def field_name(name: str, about: str) -> str:
    """What a field is called for those who do not see where it stands."""
    return f"{name}: {titled(about)}" if about else name


def step(name: str, about: str) -> str:
    """A change, as undo names it: `change the price of each of Dams`."""
    of = tr(" of {titled}", titled=titled(about)) if about else ""
    return tr("change the {name}{of}", name=name[:1].lower() + name[1:], of=of)


def not_a_number(text: str, *, whole: bool, open_word: str) -> str:
    """Why a typed text is not taken."""
    kind = tr("a whole number") if whole else tr("a number")
    instead = tr(", or “{open_word}”", open_word=open_word) if open_word else ""
    if not text.strip():
        return tr("Type {kind}{instead}, or press Escape to keep what was there.", kind=kind, instead=instead)
    return tr(
        "“{text}” is not {kind}: type {kind}{instead}, or press Escape to keep what was there.",
        text=text,
        kind=kind,
        instead=instead,
    )


def out_of_range(name: str, least: str, most: str) -> str:
    """Why a number is not taken."""
    return tr("{name}: type a number from {least} to {most}.", name=name, least=least, most=most)


def too_long(most: int) -> str:
    """Why a name is not taken."""
    return tr("A name may have up to {most} letters.", most=most)


def name_taken(typed: str) -> str:
    """Why a name is not taken."""
    return tr("There is “{typed}” in this route already: type another name.", typed=typed.strip())


def none_of_mine(sex: Sex) -> str:
    """Why no animal of mine can be used."""
    return tr("No {sex} of mine is free for this: list it under my animals first.", sex=sex_words(sex))


def none_here(sex: Sex) -> str:
    """Why nobody can be paired."""
    return tr("There are no {sexes} in this route yet: add some first.", sexes=sex_words(sex, 0))


def breeds_as(sex: Sex) -> str:
    """Why a sex cannot change."""
    return tr("They breed as {sexes} in this route: take them out of their pairings first.", sexes=sex_words(sex, 2))


def from_own_young(name: str) -> str:
    """Why young cannot come from a pairing that they would have to be in first."""
    return tr(
        "{short_title} would have to come from young of their own: choose a pairing that breeds before them.",
        short_title=short_title(name),
    )


def gone_before(arrives: int, leaves: int) -> str:
    """Why animals cannot leave."""
    return tr(
        "They would be gone after season {leaves}, before they come in season {arrives}.",
        leaves=leaves,
        arrives=arrives,
    )


def seasons_upside_down(first: int, last: int) -> str:
    """Why seasons cannot be."""
    return tr("The first season, {first}, would come after the last, {last}.", first=first, last=last)


def after_the_goal(seasons: int) -> str:
    """Why a purchase comes too late."""
    return tr(
        "The goal asks for it within {n} seasons: type a season up to {seasons}.",
        "The goal asks for it within {n} season: type a season up to {seasons}.",
        seasons,
        seasons=seasons,
    )


def not_changed(place: str, message: str) -> str:
    """Why the plan's own rules do not allow a change; `place` as a fault names it."""
    if ".animals[" in place:
        return ANIMAL_TWICE
    for key, most, what in (
        (".groups", MOST_GROUPS, tr("lines of animals")),
        (".pairings", MOST_PAIRINGS, tr("pairings")),
    ):
        if place.endswith(key):
            return tr("A route can have up to {most} {what}.", most=most, what=what)
    return tr("Not changed: {message}.", message=message.rstrip("."))


def sex_word(sex: Sex, count: int) -> str:
    """`male`, `females`."""
    return sex_words(sex, count)


def animals_text(plan: Plan, names: tuple[str, ...]) -> str:
    """Animals of mine by name."""
    called = {one.id: one.name or one.id for one in plan.my_animals}
    return listed([called.get(name, name) for name in names])


def look(plan: Plan, forms: Forms) -> str:
    """Visible forms to take first."""
    genes = {gene.id: gene.name.lower() for gene in plan.genes}
    shown = [form for form in forms.values() if form != "normal"]
    plain = [tr("not {gene}", gene=genes.get(gene, gene)) for gene, form in forms.items() if form == "normal"]
    return " + ".join([*shown, *plain]) or ANY_YOUNG


def pick_name(place: int) -> str:
    """What a look in the order of preference is called."""
    return tr("Look to take first") if place == 0 else tr("Look to take in place {place}", place=place + 1)


def also(joint: str, name: str) -> str:
    """One more in a list."""
    return tr("{joint} {name}, too", joint=joint, name=name) if joint != ELSE else f"{joint} {name}"


def without(name: str) -> str:
    """One fewer in a list."""
    return tr("without {name}", name=name)


def pairing(name: str) -> str:
    """A pairing in a sentence: `first pairing`."""
    called = name_of(name)
    return called if "pair" in called.casefold() else tr("{called} pairing", called=called)


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
            return tr("“{text}” says no counts: type how many to try, such as 1–8 or 1, 2, 4.", text=text)
        found += range(int(match[1]), int(match[2] or match[1]) + 1)
    counts = tuple(dict.fromkeys(found))
    if not counts or min(counts) < 1 or max(counts) > MOST_ANIMALS_IN_GROUP:
        return tr(
            "Type counts from 1 to {most_animals_in_group}, such as 1–8 or 1, 2, 4.",
            most_animals_in_group=MOST_ANIMALS_IN_GROUP,
        )
    return (
        counts
        if len(counts) <= most
        else tr("That is {counts} counts; at most {most} can be tried.", counts=len(counts), most=most)
    )


def added(name: str) -> str:
    """A group or pairing more, as undo names it."""
    return tr("add {titled}", titled=titled(name))


def removed(name: str) -> str:
    """One fewer, as undo names it."""
    return tr("remove {titled}", titled=titled(name))


def moved(name: str) -> str:
    """Another order, as undo names it."""
    return tr("move {titled}", titled=titled(name))


def takes_along(names: tuple[str, ...]) -> str:
    """What goes with what is removed; empty for nothing."""
    return tr("Removing this takes {several} along.", several=several(names)) if names else ""


def took_along(name: str, names: tuple[str, ...]) -> str:
    """What went with what was removed."""
    along = tr(", and with it {several}", several=several(names)) if names else ""
    return tr(
        "Removed {short_title}{along}. Undo brings {what} back.",
        short_title=short_title(name),
        along=along,
        what=tr("them") if names else tr("it"),
    )


def several(names: tuple[str, ...]) -> str:
    """Names in a sentence, not more than a few of them."""
    shown = [short_title(name) for name in names[:_MOST_NAMES]]
    more = len(names) - len(shown)
    return listed([*shown, tr("{more} more", more=more)] if more else shown)


def short_title(name: str) -> str:
    """A name in a sentence that has to stay readable."""
    return shortened(titled(name))


def order_note(place: int, of: int, *, held: bool) -> str:
    """What the order of lines decides."""
    if of < 2:
        return ""
    why = tr("hold young back") if held else tr("get their males")
    return tr("{place} of {of}: earlier ones {why} first.", place=place + 1, of=of, why=why)


NOBODY_BREEDS = tr("Nobody breeds in this route yet, and nothing is bought finished: it cannot reach the goal.")
NEVER_BREEDS = tr("This route never breeds: in no season are a male and a female of a pairing there and breeder-size.")
WITH_NOBODY = tr("They breed with nobody yet: pair them, or they only cost.")
NOTHING_TO_HOLD = tr("Nothing is ever held back: within the seasons of the goal those pairings have no young.")


def never_paired(seasons: int) -> str:
    """Why a pairing stays without eggs."""
    return tr("They never breed: in no season up to {seasons} are both sides there and breeder-size.", seasons=seasons)


TAKEN_UP = tr("They never breed: the pairings before take up the females or the males.")


def leaves_too_soon(leaves: int, breeds: int) -> str:
    """Why animals never breed."""
    return tr(
        "They leave after season {leaves}, before they are breeder-size in season {breeds}.",
        leaves=leaves,
        breeds=breeds,
    )


def too_young(breeds: int) -> str:
    """Why animals never breed."""
    return tr("They are breeder-size only in season {breeds}, after the last season of the goal.", breeds=breeds)


BUY_NEW = {"male": tr("Buy a male"), "female": tr("Buy a female")}
HOLD_NEW = {"male": tr("Hold back males"), "female": tr("Hold back females")}
FROM_SALE, MINE = tr("From what is for sale"), tr("Mine")


def offer(plan: Plan, one: ForSale, numbers: Numbers) -> str:
    """An animal for sale in the menu: `1.0 het amel, 120`."""
    sex = "1.0" if one.sex == "male" else "0.1"
    label = f" ({one.label})" if one.label else ""
    return f"{sex} {animal_title(plan, one.carries)}, {price(one.price, numbers)}{label}"


def mine(plan: Plan, one: Animal) -> str:
    """One of my animals in the menu."""
    sex = "1.0" if one.sex == "male" else "0.1"
    what = f", {of_mine(plan, one)}" if one.carries else ""
    return f"{sex} {one.name or one.id}{what}"

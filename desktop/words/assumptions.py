"""Words of the page of plan assumptions."""

from __future__ import annotations

from collections.abc import Mapping

from core.explain.numbers import counted, listed
from core.plan.model import Plan
from core.plan.removals import Users

TITLE, OPEN, DONE = "Plan assumptions", "Plan assumptions", "Done"
MENU = "Plan &assumptions"
SECTIONS = "Parts of the plan"
TAKE_OVER, NO_PRESET = "Take over what is known of the", "choose a species"
SIZE_NAME, SIZE_SHARE_NAME = "Eggs in a clutch", "Of 100 clutches, how many have that many eggs"
EGGS_IN, OF_100_CLUTCHES = "eggs in", "of 100 clutches"
SHARE_BOUNDS = "A share lies between 0 and 100 %. Nothing was changed."
ADD_SIZE, REMOVE = "Add a size", "Remove"
ADD, UP, DOWN = "Add …", "Move up", "Move down"
PASTE = "Paste a list …"
WORTH = "What is each worth to me?"
REMOVE_ALL, KEEP = "Take it out everywhere", "Keep it"
SIRE, DAM, NO_PARENT = "Sire", "dam", "not known"
SIRE_NAME, DAM_NAME = "Sire", "Dam"
BOTH_PARENTS = "Choose the other parent too: both, or neither."
FILLED_FIRST = "filled first"
LAST_WANTED = "A goal wants at least one animal: change this one instead. Nothing was changed."
ADD_LINKED, LINKED_NAME = "Add a gene to the set", "Linked gene"
PART_NAME = "How often it parts from the gene above, in percent"
PARTS_IN, OF_100 = "parts from the one above in", "of 100 young"
NO_MORE_TO_ADD = "There is nothing to add: it takes two genes on ordinary chromosomes that are in no set yet."
KEEP_GENE, KEEP_SPECIES = "Keep this gene for other plans", "Keep this species for other plans"
KEPT = "Kept: other plans offer it under its name."
KEPT_FULL = "So many are kept already that one more does not fit."
SHOW_AGAIN = "Show them all again"


def sexed(sex: str, count: int) -> str:
    """`3 females`, `a male`."""
    return f"a {sex}" if count == 1 else f"{count} {sex}s"


def young_like(look: str, forms: Mapping[str, str]) -> str:
    """Which young a price is for."""
    return f"{look} young" if forms else "any young"


def used_animal(name: str, who: str) -> str:
    """Why an animal does not just go."""
    return f"{name} is in use: {who}. Without it, its young have unknown parents; records and places in routes go."


def used_gene(name: str, who: str) -> str:
    """Why a gene does not just go."""
    return f"{name} is in use: {who}. It can be taken out of all of them in one step, which undo brings back."


def wanted_gene(name: str) -> str:
    """Why a gene cannot go."""
    return f"The goal asks for nothing but {name}: change the goal first. Nothing was changed."


def users(plan: Plan, users: Users) -> str:
    """Who uses something, by name where they are few."""
    names = (
        ("route", [plan.routes[i].name for i in users.routes]),
        ("for sale", [plan.for_sale[i].label or plan.for_sale[i].id for i in users.for_sale]),
        ("mine", [plan.my_animals[i].name or plan.my_animals[i].id for i in users.mine]),
        ("combination", [plan.combinations[i].name for i in users.combinations]),
    )
    said = ["the goal"] if users.goal else []
    said += [_few(kind, found) for kind, found in names if found]
    said += [counted(users.prices, "surplus price", "surplus prices")] if users.prices else []
    said += [counted(users.records, "clutch record", "clutch records")] if users.records else []
    return listed(said)


def _few(kind: str, names: list[str]) -> str:
    one, many = _KINDS[kind]
    quoted = [f"“{name}”" for name in names[:_MOST_NAMES]]
    more = [f"{len(names) - _MOST_NAMES} more"] if len(names) > _MOST_NAMES else []
    return f"{one if len(names) == 1 else many} {listed([*quoted, *more])}"


_MOST_NAMES = 3
_KINDS = {
    "route": ("the route", "the routes"),
    "for sale": ("for sale", "for sale"),
    "mine": ("my animal", "my animals"),
    "combination": ("the combination", "the combinations"),
}


def not_kept(reason: str) -> str:
    """Why something could not be kept."""
    return f"It was not kept: {reason}."


def kept_as(name: str) -> str:
    """A species or a gene of the person's own, in a list of those that are known."""
    return f"{name}, as you kept it"


def most_eggs(most: int) -> str:
    """Why a clutch size is not taken."""
    return f"A clutch has 0 to {most} eggs. Nothing was changed."


def remove_size(size: str) -> str:
    """The accessible name of removing a clutch size."""
    return f"Remove the clutches of {size} eggs"


def removed(one: str) -> str:
    """The name of the step that takes an entry out of a list."""
    return f"remove {one}"


def moved(one: str) -> str:
    """The name of the step that moves an entry of a list."""
    return f"move {one}"


def added(one: str) -> str:
    """The name of the step that adds an entry to a list."""
    return f"add {one}"


def undo(what: str | None) -> str:
    """The button that takes the last step back."""
    return f"Undo: {what}" if what else "Undo"


def sum_of_shares(total: str, missing: float, difference: str) -> str:
    """Why chances of clutch sizes are not taken yet."""
    rest = f"{difference} % still to give" if missing > 0 else f"{difference} % too many"
    return f"The shares sum to {total} %, not 100: {rest}. Nothing is changed until they do."


def doubled_size(size: int) -> str:
    """Why two lines of one clutch size are not taken."""
    return f"{size} eggs stand here twice: remove one of the lines."


def read_cautions(count: int) -> str:
    """How many cautions were marked as read."""
    if count == 0:
        return "No caution is marked as read."
    return "1 caution is marked as read." if count == 1 else f"{count} cautions are marked as read."

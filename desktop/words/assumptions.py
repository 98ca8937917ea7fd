"""Words of the page of plan assumptions."""

from __future__ import annotations

from collections.abc import Mapping

from core.explain.numbers import listed
from core.plan.model import Plan, Sex
from core.plan.removals import Users
from core.text import tr

TITLE, OPEN, DONE = tr("Plan assumptions"), tr("Plan assumptions"), tr("Done")
MENU = tr("Plan &assumptions")
SECTIONS = tr("Parts of the plan")
TAKE_OVER, NO_PRESET = tr("Take over what is known of the"), tr("choose a species")
SIZE_NAME, SIZE_SHARE_NAME = tr("Eggs in a clutch"), tr("Of 100 clutches, how many have that many eggs")
EGGS_IN, OF_100_CLUTCHES = tr("eggs in"), tr("of 100 clutches")
SHARE_BOUNDS = tr("A share lies between 0 and 100 %. Nothing was changed.")
ADD_SIZE, REMOVE = tr("Add a size"), tr("Remove")
ADD, UP, DOWN = tr("Add…"), tr("Move up"), tr("Move down")
PASTE = tr("Paste a list…")
WORTH = tr("What is each worth to me?")
REMOVE_ALL, KEEP = tr("Take it out everywhere"), tr("Keep it")
SIRE, DAM, NO_PARENT = tr("Sire"), tr("dam"), tr("not known")
SIRE_NAME, DAM_NAME = tr("Sire"), tr("Dam")
BOTH_PARENTS = tr("Choose the other parent too: both, or neither.")
FILLED_FIRST = tr("filled first")
LAST_WANTED = tr("A goal wants at least one animal: change this one instead. Nothing was changed.")
ADD_LINKED, LINKED_NAME = tr("Add a gene to the set"), tr("Linked gene")
PART_NAME = tr("How often it parts from the gene above, in percent")
PARTS_IN, OF_100 = tr("parts from the one above in"), tr("of 100 young")
NO_MORE_TO_ADD = tr("There is nothing to add: it takes two genes on ordinary chromosomes that are in no set yet.")
KEEP_GENE, KEEP_SPECIES = tr("Keep this gene for other plans"), tr("Keep this species for other plans")
KEPT = tr("Kept: other plans offer it under its name.")
KEPT_FULL = tr("So many are kept already that one more does not fit.")
SHOW_AGAIN = tr("Show them all again")


def sexed(sex: Sex, count: int) -> str:
    """`3 females`, `a male`."""
    return tr("{n} males", "a male", count) if sex == "male" else tr("{n} females", "a female", count)


def young_like(look: str, forms: Mapping[str, str]) -> str:
    """Which young a price is for."""
    return tr("{look} young", look=look) if forms else tr("any young")


def used_animal(name: str, who: str) -> str:
    """Why an animal does not just go."""
    return tr(
        "{name} is in use: {who}. Without it, its young stand with what they may have inherited; its records and "
        "places in routes go.",
        name=name,
        who=who,
    )


def used_gene(name: str, who: str) -> str:
    """Why a gene does not just go."""
    return tr(
        "{name} is in use: {who}. It can be taken out of all of them in one step, which undo brings back.",
        name=name,
        who=who,
    )


def wanted_gene(name: str) -> str:
    """Why a gene cannot go."""
    return tr("The goal asks for nothing but {name}: change the goal first. Nothing was changed.", name=name)


def users(plan: Plan, users: Users) -> str:
    """Who uses something, by name where they are few."""
    names = (
        ("route", [plan.routes[i].name for i in users.routes]),
        ("for sale", [plan.for_sale[i].label or plan.for_sale[i].id for i in users.for_sale]),
        ("mine", [plan.my_animals[i].name or plan.my_animals[i].id for i in users.mine]),
        ("combination", [plan.combinations[i].name for i in users.combinations]),
    )
    said = [tr("the goal")] if users.goal else []
    said += [_few(kind, found) for kind, found in names if found]
    said += [tr("{n} surplus prices", "{n} surplus price", users.prices)] if users.prices else []
    said += [tr("{n} clutch records", "{n} clutch record", users.records)] if users.records else []
    return listed(said)


def _few(kind: str, names: list[str]) -> str:
    one, many = _KINDS[kind]
    quoted = [f"“{name}”" for name in names[:_MOST_NAMES]]
    more = [tr("{names} more", names=len(names) - _MOST_NAMES)] if len(names) > _MOST_NAMES else []
    return f"{one if len(names) == 1 else many} {listed([*quoted, *more])}"


_MOST_NAMES = 3
_KINDS = {
    "route": (tr("the route"), tr("the routes")),
    "for sale": (tr("for sale"), tr("for sale")),
    "mine": (tr("my animal"), tr("my animals")),
    "combination": (tr("the combination"), tr("the combinations")),
}


def not_kept(reason: str) -> str:
    """Why something could not be kept."""
    return tr("It was not kept: {reason}.", reason=reason)


def kept_as(name: str) -> str:
    """A species or a gene of the person's own, in a list of those that are known."""
    return tr("{name}, as you kept it", name=name)


def most_eggs(most: int) -> str:
    """Why a clutch size is not taken."""
    return tr("A clutch has 0 to {most} eggs. Nothing was changed.", most=most)


def remove_size(size: str) -> str:
    """The accessible name of removing a clutch size."""
    return tr("Remove the clutches of {size} eggs", size=size)


def removed(one: str) -> str:
    """The name of the step that takes an entry out of a list."""
    return tr("remove {one}", one=one)


def moved(one: str) -> str:
    """The name of the step that moves an entry of a list."""
    return tr("move {one}", one=one)


def added(one: str) -> str:
    """The name of the step that adds an entry to a list."""
    return tr("add {one}", one=one)


def undo(what: str | None) -> str:
    """The button that takes the last step back."""
    return tr("Undo: {what}", what=what) if what else tr("Undo")


def sum_of_shares(total: str, missing: float, difference: str) -> str:
    """Why chances of clutch sizes are not taken yet."""
    rest = (
        tr("{difference} % still to give", difference=difference)
        if missing > 0
        else tr("{difference} % too many", difference=difference)
    )
    return tr("The shares sum to {total} %, not 100: {rest}. Nothing is changed until they do.", total=total, rest=rest)


def doubled_size(size: int) -> str:
    """Why two lines of one clutch size are not taken."""
    return tr("{size} eggs stand here twice: remove one of the lines.", size=size)


def read_cautions(count: int) -> str:
    """How many cautions were marked as read."""
    if count == 0:
        return tr("No caution is marked as read.")
    return tr("{n} cautions are marked as read.", "1 caution is marked as read.", count)

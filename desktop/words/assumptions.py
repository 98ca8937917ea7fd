"""Words of the page of plan assumptions."""

from __future__ import annotations

TITLE, OPEN, DONE = "Plan assumptions", "Plan assumptions", "Done"
MENU = "Plan &assumptions"
SECTIONS = "Parts of the plan"
CEILING = "A risk left at its ideal value makes every chance a ceiling."
TAKE_OVER, NO_PRESET = "Take over what is known of the", "choose a species"
SIZE_NAME, SIZE_SHARE_NAME = "Eggs in a clutch", "Of 100 clutches, how many have that many eggs"
EGGS_IN, OF_100_CLUTCHES = "eggs in", "of 100 clutches"
SHARE_BOUNDS = "A share lies between 0 and 100 %. Nothing was changed."
ADD_SIZE, REMOVE = "Add a size", "Remove"
SHOW_AGAIN = "Show them all again"


def most_eggs(most: int) -> str:
    """Why a clutch size is not taken."""
    return f"A clutch has 0 to {most} eggs. Nothing was changed."


def remove_size(size: str) -> str:
    """The accessible name of removing a clutch size."""
    return f"Remove the clutches of {size} eggs"


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

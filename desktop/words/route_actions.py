"""What can be done with the routes of the list, in words."""

from __future__ import annotations

from desktop.words.numbers import counted

MENU = "&Route"
NEW = "&New route…"
FIND_ABOVE = "Find routes…"
WORTH_ABOVE, MATTERS_ABOVE = "Worth paying", "What matters most"
NEW_ABOVE, NEW_ABOVE_NAME = "+ New route", "New route: choose a shape, filled from what is for sale and what you own"
DUPLICATE, RENAME, DELETE = "&Duplicate", "&Rename", "De&lete"
UP, DOWN = "Move &up", "Move &down"
HIDE, SHOW_HIDDEN = "&Hide", "&Show hidden routes"
OWN_ORDER = "In your &own order"
COUNTS = "Counts to look at"
CHEAPEST_COUNTS, COUNTS_AS_DRAWN = "Cheapest counts", "Counts as drawn"
COUNTS_TIP = (
    "Cheapest counts: each route with the number of females that reaches your goal for the least money. "
    "Counts as drawn: each route just as it is drawn."
)
NEW_NAME = "Name of the route"
NEEDS_NAME = "A route needs a name. The old one was kept."
STEP_SHOW = "show all routes"
_LONGEST_IN_STEP = 40


def copy_of(name: str) -> str:
    """The name of a copy."""
    return f"{name}, copy"


def add_step(name: str) -> str:
    """What undo would take back."""
    return f"add {_short(name)}"


def duplicate_step(name: str) -> str:
    """What undo would take back."""
    return f"duplicate {_short(name)}"


def rename_step(name: str) -> str:
    """What undo would take back."""
    return f"rename {_short(name)}"


def delete_step(name: str) -> str:
    """What undo would take back."""
    return f"delete {_short(name)}"


def move_step(name: str) -> str:
    """What undo would take back."""
    return f"move {_short(name)}"


def hide_step(name: str) -> str:
    """What undo would take back."""
    return f"hide {_short(name)}"


def hidden_line(count: int) -> str:
    """The quiet line that brings hidden routes back."""
    return f"{count} hidden: show"


def hidden_name(count: int) -> str:
    """The same for those who do not see it."""
    return f"{counted(count, 'route is hidden: show it', 'routes are hidden: show them')}"


def _short(name: str) -> str:
    """A name for a menu: on one line and not too long."""
    line = " ".join(name.split())
    return line if len(line) <= _LONGEST_IN_STEP else f"{line[: _LONGEST_IN_STEP - 1].rstrip()}…"

"""What can be done with the routes of the list, in words."""

from __future__ import annotations

from core.text import tr

MENU = tr("&Route")
NEW = tr("&New route…")
FIND_ABOVE = tr("Find routes…")
WORTH_ABOVE, MATTERS_ABOVE = tr("Worth paying"), tr("What matters most")
NEW_ABOVE, NEW_ABOVE_NAME = (
    tr("+ New route"),
    tr("New route: choose a shape, filled from what is for sale and what you own"),
)
DUPLICATE, RENAME, DELETE = tr("&Duplicate"), tr("&Rename"), tr("De&lete")
UP, DOWN = tr("Move &up"), tr("Move do&wn")
HIDE, SHOW_HIDDEN = tr("&Hide"), tr("&Show hidden routes")
OWN_ORDER = tr("In your &own order")
COUNTS = tr("Counts to look at")
CHEAPEST_COUNTS, COUNTS_AS_DRAWN = tr("Cheapest counts"), tr("Counts as drawn")
COUNTS_TIP = tr(
    "Cheapest counts: each route with the number of females that reaches your goal for the "
    "least money. Counts as drawn: each route just as it is drawn."
)
NEW_NAME = tr("Name of the route")
NEEDS_NAME = tr("A route needs a name. The old one was kept.")
STEP_SHOW = tr("show all routes")
_LONGEST_IN_STEP = 40


def copy_of(name: str) -> str:
    """The name of a copy."""
    return tr("{name}, copy", name=name)


def add_step(name: str) -> str:
    """What undo would take back."""
    return tr("add {short}", short=_short(name))


def duplicate_step(name: str) -> str:
    """What undo would take back."""
    return tr("duplicate {short}", short=_short(name))


def rename_step(name: str) -> str:
    """What undo would take back."""
    return tr("rename {short}", short=_short(name))


def delete_step(name: str) -> str:
    """What undo would take back."""
    return tr("delete {short}", short=_short(name))


def move_step(name: str) -> str:
    """What undo would take back."""
    return tr("move {short}", short=_short(name))


def hide_step(name: str) -> str:
    """What undo would take back."""
    return tr("hide {short}", short=_short(name))


def hidden_line(count: int) -> str:
    """The quiet line that brings hidden routes back."""
    return tr("{count} hidden: show", count=count)


def hidden_name(count: int) -> str:
    """The same for those who do not see it."""
    return tr("{n} routes are hidden: show them", "{n} route is hidden: show it", count)


def _short(name: str) -> str:
    """A name for a menu: on one line and not too long."""
    line = " ".join(name.split())
    return line if len(line) <= _LONGEST_IN_STEP else f"{line[: _LONGEST_IN_STEP - 1].rstrip()}…"

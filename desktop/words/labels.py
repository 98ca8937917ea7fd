"""Fixed words of the window: menus, heads, notes."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.words.numbers import Numbers, sum_of_money

PROGRAM = "Pairwright"

MENU_PLAN, MENU_EDIT, MENU_VIEW, MENU_HELP = "&Plan", "&Edit", "&View", "&Help"
OPEN, SAMPLES, QUIT = "&Open…", "Sa&mple plans", "&Quit"
EXPORT_PDF, EXPORT_PNG = "Save one page to prin&t (PDF)…", "Save the page as a pict&ure (PNG)…"
EXPORT_ROUTES, PRINT = "Save the &table of routes (CSV)…", "P&rint…"
COPY_ROUTES = "&Copy the table of routes"
SAVE, SAVE_AS = "&Save", "Save &as…"
AS_SYSTEM, LIGHT, DARK = "As the &system", "&Light", "&Dark"
MENU_TEXT_SIZE, TEXT_SIZE_LATER = "&Text size", "From the next start on"
KEYBOARD, ABOUT = "&Keyboard", "&About Pairwright"

OPEN_TITLE = "Open a plan"
OPEN_FILTER = "Plans (*.plan.json);;All files (*)"
SAVE_TITLE = "Save the plan"

CHANCE_BY_MONEY, CHANCE_BY_EGGS, CHANCE_BY_SEASON = "Chance by money", "Chance by eggs", "Chance by season"
CHARTS = "Chart to show"
STEPS = "Steps"
OF_ROUTE = "About the selected route"
EDIT_ROUTE = "Edit this &route"
WHY_THIS_CHANCE, WHY_THIS_BEATS_THAT = "Why this chance", "Why this beats that"
MENU_SEASON, THIS_SEASON = "This &season", "This season"
MENU_WHY_CHANCE, MENU_WHY_BEATS = "&Why this chance", "Why this &beats that"
MENU_FIND = "&Find routes…"
MENU_WORTH, MENU_MATTERS = "What is worth &paying", "What matters &most"
MENU_COUNTER = "&Counter view"
STEPS_HEAD = "season, chance and paid so far"
NO_ROUTE = "Choose a route above to see its steps."

ODDS = "Odds, not promises."
CLOSE = "Close"

KEYBOARD_TEXT = (
    "Tab moves from part to part.\n"
    "In the route list: Up and Down choose a route, Alt with Up or Down moves it, F2 renames it, "
    "Delete deletes it, Ctrl+H hides it, Ctrl+D duplicates it. In its heads: Left and Right, Space sorts.\n"
    "Enter in the list, or Ctrl+E anywhere, edits the chosen route; Ctrl+R begins a new one; Escape comes back.\n"
    "In a chart: Left and Right read out values, Escape ends it.\n"
    "Ctrl+, opens the plan assumptions; Ctrl+F finds routes; Ctrl+I tells why the chance is what it is, Ctrl+Shift+I "
    "why one route beats another; Ctrl+M tells what each animal is worth paying for, Ctrl+Shift+M what matters most; "
    "Escape comes back.\n"
    "F9 opens the counter view over the whole screen, Escape leaves it.\n"
    "Ctrl+N begins a new plan, Ctrl+O opens one, Ctrl+S saves it, Ctrl+Z undoes the last change.\n"
    "Ctrl+Shift+N opens another window, Ctrl+W closes this one, Ctrl+Q quits."
)


def about(version: str, log: str) -> str:
    """What the program is, and where it writes down what goes wrong."""
    return (
        f"{PROGRAM} {version} compares whole breeding routes to animals that show several recessive traits: "
        "by chance, by seasons and by the money you must have.\n\n"
        "It gives odds, not promises. It sends nothing to anyone.\n\n"
        f"What goes wrong is written down on this computer only, in {log}"
    )


def text_size(percent: int) -> str:
    """One size of text among those on offer."""
    return f"{percent} %"


def undo(what: str | None) -> str:
    """The menu's words for taking a step back; an ampersand in a name is no shortcut."""
    return f"Undo {what}".replace("&", "&&") if what else "Undo"


def redo(what: str | None) -> str:
    """The menu's words for making it again."""
    return f"Redo {what}".replace("&", "&&") if what else "Redo"


def footer(plan: Plan, numbers: Numbers) -> str:
    """The last line of the page: it is about odds, what no figure counts, and what the plan says of its numbers."""
    notes = plan.notes.strip()
    parts = (ODDS, spent_apart(plan, numbers), notes.splitlines()[0] if notes else "")
    return " ".join(part for part in parts if part)


def spent_apart(plan: Plan, numbers: Numbers) -> str:
    """What was spent before today, which no figure counts."""
    if not plan.already_spent:
        return ""
    return f"Already spent, and left out of every figure: {sum_of_money(plan.already_spent, numbers)} {plan.currency}."


def faults_head(name: str, count: int) -> str:
    """What an unreadable file is answered with."""
    wrong = "one thing in it is wrong" if count == 1 else f"{count} things in it are wrong"
    return f"{name} was not opened: {wrong}. Your plan is as it was."

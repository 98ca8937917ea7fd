"""Fixed words of the window: menus, heads, notes."""

from __future__ import annotations

from core.plan.limits import MOST_FAULTS
from core.plan.model import Plan
from core.text import tr
from desktop.words.numbers import Numbers, in_currency, sum_of_money

PROGRAM = "Pairwright"

MENU_PLAN, MENU_EDIT, MENU_VIEW, MENU_HELP = tr("&Plan"), tr("&Edit"), tr("&View"), tr("&Help")
OPEN, SAMPLES, QUIT = tr("&Open…"), tr("Sa&mple plans"), tr("&Quit")
EXPORT_PDF, EXPORT_PNG = tr("Save one page to prin&t (PDF)…"), tr("Save the page as a pict&ure (PNG)…")
EXPORT_ROUTES, PRINT = tr("Save the ta&ble of routes (CSV)…"), tr("Pr&int…")
COPY_ROUTES = tr("&Copy the table of routes")
SAVE, SAVE_AS = tr("&Save"), tr("Save &as…")
AS_SYSTEM, LIGHT, DARK = tr("As the s&ystem"), tr("&Light"), tr("&Dark")
MENU_TEXT_SIZE, TEXT_SIZE_LATER = tr("&Text size"), tr("From the next start on")
KEYBOARD, ABOUT = tr("&Keyboard"), tr("&About Pairwright")

OPEN_TITLE = tr("Open a plan")
OPEN_FILTER = ";;".join((tr("Plans ({ending})", ending="*.plan.json"), tr("All files ({ending})", ending="*")))
SAVE_TITLE = tr("Save the plan")

CHANCE_BY_MONEY, CHANCE_BY_SEASON = tr("Chance by money"), tr("Chance by season")
CHARTS = tr("Chart to show")
STEPS = tr("Steps")
OF_ROUTE = tr("About the selected route")
EDIT_ROUTE = tr("&Edit this route")
WHY_THIS_CHANCE, WHY_THIS_BEATS_THAT = tr("Why this chance"), tr("Why this beats that")
MENU_SEASON, THIS_SEASON = tr("This &season"), tr("This season")
MENU_WHY_CHANCE, MENU_WHY_BEATS = tr("&Why this chance"), tr("Why this &beats that")
MENU_FIND = tr("&Find routes…")
MENU_WORTH, MENU_MATTERS = tr("What is worth &paying"), tr("What matters &most")
MENU_COUNTER = tr("&Counter view")
# As much as there is room for.
STEPS_HEADS = (tr("season"), tr("season and chance"), tr("season, chance and paid so far"))
NO_ROUTE = tr("Choose a route above to see its steps.")

ODDS = tr("Odds, not promises.")
CLOSE = tr("Close")


def about(version: str, log: str) -> str:
    """What the program is, and where it writes down what goes wrong."""
    return tr(
        "{program} {version} compares whole breeding routes to animals that show several recessive "
        "traits: by chance, by seasons and by the money you must have.\n\nIt gives odds, not "
        "promises. It sends nothing to anyone.\n\nWhat goes wrong is written down on this computer "
        "only, in {log}",
        program=PROGRAM,
        version=version,
        log=log,
    )


def text_size(percent: int) -> str:
    """One size of text among those on offer."""
    return f"{percent} %"


def undo(what: str | None) -> str:
    """The menu's words for taking a step back; an ampersand in a name is no shortcut."""
    return tr("Undo {what}", what=what).replace("&", "&&") if what else tr("Undo")


def redo(what: str | None) -> str:
    """The menu's words for making it again."""
    return tr("Redo {what}", what=what).replace("&", "&&") if what else tr("Redo")


def footer(plan: Plan, numbers: Numbers) -> str:
    """The last line of the page: it is about odds, what no figure counts, and what the plan says of its numbers."""
    notes = plan.notes.strip()
    parts = (ODDS, spent_apart(plan, numbers), notes.splitlines()[0] if notes else "")
    return " ".join(part for part in parts if part)


def spent_apart(plan: Plan, numbers: Numbers) -> str:
    """What was spent before today, which no figure counts."""
    if not plan.already_spent:
        return ""
    return tr(
        "Already spent, and left out of every figure: {already_spent}.",
        already_spent=in_currency(sum_of_money(plan.already_spent, numbers), plan),
    )


def faults_head(name: str, count: int) -> str:
    """What a file is answered with that has so much wrong in it, or that is no plan at all."""
    if count > MOST_FAULTS:
        # The last line says that there are more.
        wrong = tr("more than {most} things in it are wrong", most=MOST_FAULTS)
    elif count:
        wrong = tr("{n} things in it are wrong", "one thing in it is wrong", count)
    else:
        wrong = tr("it is no plan that can be read")
    return tr("{name} was not opened: {wrong}. Your plan is as it was.", name=name, wrong=wrong)

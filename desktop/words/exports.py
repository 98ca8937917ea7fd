"""The words of everything that leaves the program."""

from __future__ import annotations

CARD, ONE_PAIR = "Odds card", "one pair"
OUT_OF_100 = "What hatches, out of 100 young"
RECKONED = "Reckoned with"
FROM, DATE = "From", "Date"
UNNAMED = "Pairwright"
NOT_MADE = "it could not be made"
SAVE_TITLE = "Save as a file"
FILTERS = {
    "pdf": "PDF (*.pdf)",
    "png": "Picture (*.png)",
    "svg": "Drawing (*.svg)",
    "csv": "Table (*.csv)",
}
SETUP, KEEP_ADULT, KEEP_YOUNG = "to set up", "an adult a season", "a growing young a season"
PER_EGG, PER_YOUNG = "an egg", "a young"
NO_COSTS = "Nothing was reckoned for feed, space or equipment."
ROUTES, RECKONED_WITH, TO_MIND = "Routes", "Reckoned with", "To mind"
BY_MONEY, BY_EGGS = "Chance by money", "Chance by eggs"
CHEAPEST = "cheapest"


def females(laying: str) -> str:
    """How often a female has a clutch."""
    return f"A female has young in {laying} of seasons."


def growing(males: int, females: int, reaching: str) -> str:
    """How long young take, and how many get there."""
    wait = f"{males} seasons" if males == females else f"{males} (males) or {females} (females) seasons"
    return f"Young are breeder-size after {wait}; {reaching} of those held back get there."


def costs(told: str, currency: str) -> str:
    """What is paid for keeping and breeding."""
    return f"In {currency}: {told}."


def first_line(notes: str) -> str:
    """What the plan says of its own numbers."""
    return notes.strip().splitlines()[0]


def page_of(page: int, pages: int) -> str:
    """Which page it is, where there are several."""
    return f"page {page} of {pages}" if pages > 1 else ""


def not_written(name: str, reason: str) -> str:
    """Why a file was not written."""
    return f"{name} was not written: {reason}. Nothing was changed; try another folder or name."


def card_title(male: str, female: str) -> str:
    """What a card is called as a file and in a printer's list."""
    return f"Odds card, {male} × {female}"

"""The words of everything that leaves the program."""

from __future__ import annotations

from core.text import tr

CARD, ONE_PAIR = tr("Odds card"), tr("one pair")
RECKONED = tr("Reckoned with")
FROM, DATE = tr("From"), tr("Date")
UNNAMED = "Pairwright"
NOT_MADE = tr("it could not be made")
SAVE_TITLE = tr("Save as a file")
FILTERS = {
    "pdf": tr("PDF ({ending})", ending="*.pdf"),
    "png": tr("Picture ({ending})", ending="*.png"),
    "svg": tr("Drawing ({ending})", ending="*.svg"),
    "csv": tr("Table ({ending})", ending="*.csv"),
}
SETUP, KEEP_ADULT, KEEP_YOUNG = tr("to set up"), tr("an adult a season"), tr("a growing young a season")
PER_EGG, PER_YOUNG = tr("an egg"), tr("a young")
PER_BORN, PER_LIVING = tr("a young born, alive or not,"), tr("a living young")
NO_COSTS = tr("Nothing was reckoned for feed, space or equipment.")
ROUTES, RECKONED_WITH, TO_MIND = tr("Routes"), tr("Reckoned with"), tr("To mind")
BY_MONEY = tr("Chance by money")
CHEAPEST = tr("cheapest")


def females(laying: str) -> str:
    """How often a female has a clutch."""
    return tr("A female has young in {laying} of seasons.", laying=laying)


def growing(males: int, females: int, reaching: str) -> str:
    """How long young take, and how many get there."""
    wait = (
        tr("{males} seasons", males=males)
        if males == females
        else tr("{males} (males) or {females} (females) seasons", males=males, females=females)
    )
    return tr(
        "Young are breeder-size after {wait}; {reaching} of those held back get there.", wait=wait, reaching=reaching
    )


def costs(told: str, currency: str) -> str:
    """What is paid for keeping and breeding."""
    if not currency:
        return tr("It costs: {told}.", told=told)
    return tr("In {currency}: {told}.", currency=currency, told=told)


def first_line(notes: str) -> str:
    """What the plan says of its own numbers."""
    return notes.strip().splitlines()[0]


def page_of(page: int, pages: int) -> str:
    """Which page it is, where there are several."""
    return tr("page {page} of {pages}", page=page, pages=pages) if pages > 1 else ""


def not_written(name: str, reason: str) -> str:
    """Why a file was not written."""
    return tr(
        "{name} was not written: {reason}. Nothing was changed; try another folder or name.", name=name, reason=reason
    )


def card_title(male: str, female: str) -> str:
    """What a card is called as a file and in a printer's list."""
    return tr("Odds card, {male} × {female}", male=male, female=female)

"""Words of the paste window."""

from __future__ import annotations

from core.paste.parts import Line, Listing, Mark, Target
from core.plan.model import Plan
from core.plan.sexes import sex_words
from core.text import tr
from desktop.words.animals import animal
from desktop.words.numbers import Numbers, price

TITLE = tr("Paste a list")
LEFT = tr("The list: a line for each animal, or CSV, or a file dropped here")
RIGHT = tr("What was understood")
EXAMPLE = "0.1 amel het lav 66% het anery 230\n1.0 Lavender het amel $340 2x"
COLUMNS = (tr("Animal"), tr("Sex"), tr("Price"), tr("How many"), "")
UNCLEAR = tr("unclear")
CLOSE = tr("Close")
HEAD, TARGET_NAME = tr("Paste a list of"), tr("What the list is of")
TARGETS: dict[Target, str] = {"for sale": tr("what is for sale"), "mine": tr("my animals")}
MENU_FOR_SALE, MENU_MINE = tr("Paste what is &for sale…"), tr("Paste m&y animals…")
ALL_CLEAR = tr("Every line is clear.")
TO_TYPE = tr("Write it more clearly in the list above.")
NOTHING_YET = tr("Paste a seller's list at the left, or drop a file there; nothing is added before you say so.")
_MOST_NAMED = 6


def row(plan: Plan, line: Line, numbers: Numbers) -> tuple[str, str, str, str, str]:
    """A line as understood, and whether anything is left to settle."""
    if line.marks:
        return line.text, "", "", "", UNCLEAR
    name = animal(plan, line.carries or {})
    name = f"{line.label}: {name}" if line.label else name
    asked = "" if line.price is None else price(line.price, numbers)
    return name, sex_words(line.sex) if line.sex else "", asked, numbers.whole(line.quantity), ""


def question(numbers: list[int], line: Line, mark: Mark) -> str:
    """Which words of which lines are not clear, and why; and what to do where there is nothing to choose."""
    words = line.text[mark.start : mark.end].strip()
    said = f", “{words}”" if words else ""
    sentence = f"{_lines(numbers)}{said}: {mark.reason[:1].lower()}{mark.reason[1:]}."
    return sentence if mark.choices else f"{sentence} {TO_TYPE}"


def _lines(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return tr("Line {numbers}", numbers=numbers[0])
    if len(numbers) > _MOST_NAMED:
        return tr("Line {numbers} and {numbers_2} more lines", numbers=numbers[0], numbers_2=len(numbers) - 1)
    return tr("Lines {most} and {last}", most=", ".join(map(str, numbers[:-1])), last=numbers[-1])


def reading(done: int, of: int) -> str:
    """Told while a long list is read."""
    return tr("Reading: {done} of {of} lines.", done=done, of=of)


def no_list(name: str) -> str:
    """Told where a dropped file is no list."""
    return tr("{name} is not a text or CSV file that could be a list; nothing was taken from it.", name=name)


def summary(listing: Listing) -> str:
    """How many lines are clear, and how many were not read."""
    if not listing.lines:
        return NOTHING_YET
    clear = sum(line.settled for line in listing.lines)
    left = len(listing.lines) - clear
    beyond = tr(" {unread} more were not read.", unread=listing.unread) if listing.unread else ""
    return tr(
        "{n} lines are clear, {left} still to settle.{beyond}",
        "{n} line is clear, {left} still to settle.{beyond}",
        clear,
        left=left,
        beyond=beyond,
    )


def add_button(target: Target, count: int) -> str:
    """What adding would do: `Add 27 to what is for sale`."""
    return tr(
        "Add {count} to {what}",
        count=count or tr("them"),
        what=tr("what is for sale") if target == "for sale" else tr("my animals"),
    )


def added(count: int) -> str:
    """The step that adds them."""
    return tr("add {n} lines of a list", "add {n} line of a list", count)

"""Words of the paste window."""

from __future__ import annotations

from core.paste.parts import Line, Listing, Mark, Target
from core.plan.model import Plan
from desktop.words.animals import animal

TITLE = "Paste a list"
LEFT = "The list: a line for each animal, or CSV, or a file dropped here"
RIGHT = "What was understood"
EXAMPLE = "0.1 amel het lav 66% het anery 230\n1.0 Lavender het amel $340 2x"
COLUMNS = ("Animal", "Sex", "Price", "How many", "")
UNCLEAR = "unclear"
CLOSE = "Close"
HEAD, TARGET_NAME = "Paste a list of", "What the list is of"
TARGETS: dict[Target, str] = {"for sale": "what is for sale", "mine": "my animals"}
MENU_FOR_SALE, MENU_MINE = "Paste what is &for sale…", "Paste &my animals…"
ALL_CLEAR = "Every line is clear."
TO_TYPE = "Write it more clearly in the list above."
NOTHING_YET = "Paste a seller's list at the left, or drop a file there; nothing is added before you say so."
_MOST_NAMED = 6


def row(plan: Plan, line: Line) -> tuple[str, str, str, str, str]:
    """A line as understood, and whether anything is left to settle."""
    if line.marks:
        return line.text, "", "", "", UNCLEAR
    name = animal(plan, line.carries or {})
    name = f"{line.label}: {name}" if line.label else name
    price = "" if line.price is None else f"{line.price:,.2f}".removesuffix(".00")
    return name, line.sex or "", price, str(line.quantity), ""


def question(numbers: list[int], line: Line, mark: Mark) -> str:
    """Which words of which lines are not clear, and why; and what to do where there is nothing to choose."""
    words = line.text[mark.start : mark.end].strip()
    said = f", “{words}”" if words else ""
    sentence = f"{_lines(numbers)}{said}: {mark.reason[:1].lower()}{mark.reason[1:]}."
    return sentence if mark.choices else f"{sentence} {TO_TYPE}"


def _lines(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return f"Line {numbers[0]}"
    if len(numbers) > _MOST_NAMED:
        return f"Line {numbers[0]} and {len(numbers) - 1} more lines"
    return f"Lines {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}"


def reading(done: int, of: int) -> str:
    """Told while a long list is read."""
    return f"Reading: {done} of {of} lines."


def no_list(name: str) -> str:
    """Told where a dropped file is no list."""
    return f"{name} is not a text or CSV file that could be a list; nothing was taken from it."


def summary(listing: Listing) -> str:
    """How many lines are clear, and how many were not read."""
    if not listing.lines:
        return NOTHING_YET
    clear = sum(line.settled for line in listing.lines)
    left = len(listing.lines) - clear
    beyond = f" {listing.unread} more were not read." if listing.unread else ""
    return f"{clear} {'line is' if clear == 1 else 'lines are'} clear, {left} still to settle.{beyond}"


def add_button(target: Target, count: int) -> str:
    """What adding would do: `Add 27 to what is for sale`."""
    return f"Add {count or 'them'} to {'what is for sale' if target == 'for sale' else 'my animals'}"


def added(count: int) -> str:
    """The step that adds them."""
    return f"add {count} {'line' if count == 1 else 'lines'} of a list"

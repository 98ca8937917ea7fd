"""What reading a list gives: lines, the marks that a person settles, and their choices."""

from __future__ import annotations

from typing import Literal

import msgspec

from core.plan.model import Carries, Sex

Target = Literal["for sale", "mine"]

MOST_LINES = 1_000
LONGEST_LINE = 400


class Choice(msgspec.Struct, frozen=True):
    """One reading of an unclear span: its words for the person, and the text that says it clearly."""

    words: str
    text: str


class Mark(msgspec.Struct, frozen=True):
    """A span of a line that cannot be taken as it stands, why, and how it could be meant."""

    start: int
    end: int
    reason: str
    choices: tuple[Choice, ...] = ()


class Line(msgspec.Struct, frozen=True):
    """One animal, or several alike, as understood; not to be taken over while any mark is left."""

    text: str
    sex: Sex | None = None
    quantity: int = 1
    carries: Carries | None = None
    price: float | None = None
    ready_in: int = 0
    label: str = ""
    marks: tuple[Mark, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether nothing is left to settle."""
        return not self.marks


class Listing(msgspec.Struct, frozen=True):
    """A whole list; `unread` lines lie beyond the most that are read at once."""

    lines: tuple[Line, ...]
    unread: int = 0


def settle(line: Line, mark: Mark, choice: Choice) -> str:
    """Give the line's text with the marked span said clearly, to be read again."""
    before, after = line.text[: mark.start], line.text[mark.end :]
    return " ".join(filter(None, (before.rstrip(), choice.text, after.lstrip())))

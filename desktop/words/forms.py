"""Words that every form uses: refusals and the names of steps."""

from __future__ import annotations

from core.explain.numbers import Numbers

MUST_NOT_BE_EMPTY = "needs a name: type one, or press Escape to keep what was there"
NOTHING_CHANGED = "Nothing was changed."


def not_a_number(text: str, *, whole: bool) -> str:
    """Why a typed text is not taken."""
    kind = "a whole number" if whole else "a number"
    return f"“{text}” is not {kind}: type {kind}, or press Escape to keep what was there."


def refused(name: str, message: str) -> str:
    """Why a value is not taken."""
    return f"{name}: {message.rstrip('.')}. {NOTHING_CHANGED}"


def unread(name: str, sentence: str) -> str:
    """Why what was typed is no value at all; a sentence that quotes it needs no name before it."""
    return sentence if sentence.startswith("“") else refused(name, sentence)


def too_small(name: str, least: str) -> str:
    """Why a number below its least is not taken."""
    return refused(name, f"at least {least}")


def too_large(name: str, most: str) -> str:
    """Why a number above its most is not taken."""
    return refused(name, f"at most {most}")


def too_long(name: str, letters: int, longest: int, numbers: Numbers) -> str:
    """Why a text that is too long is not taken."""
    return refused(name, f"is {numbers.whole(letters)} letters long, and at most {numbers.whole(longest)} fit")


def unit(words: str, value: object, currency: str) -> str:
    """The words after a value: of `season|seasons` the first where the value is one."""
    one, _, many = words.partition("|")
    return (one if value == 1 or not many else many).replace("{currency}", currency)


def change(name: str) -> str:
    """The name of the step that changes a field."""
    return f"change {name[:1].lower()}{name[1:]}"

"""Words that every form uses: refusals and the names of steps."""

from __future__ import annotations

from core.explain.numbers import Numbers
from core.text import tr

MUST_NOT_BE_EMPTY = tr("needs a name: type one, or press Escape to keep what was there")
NOTHING_CHANGED = tr("Nothing was changed.")


def not_a_number(text: str, *, whole: bool) -> str:
    """Why a typed text is not taken."""
    kind = tr("a whole number") if whole else tr("a number")
    return tr("“{text}” is not {kind}: type {kind}, or press Escape to keep what was there.", text=text, kind=kind)


def refused(name: str, message: str) -> str:
    """Why a value is not taken."""
    return f"{name}: {message.rstrip('.')}. {NOTHING_CHANGED}"


def unread(name: str, sentence: str) -> str:
    """Why what was typed is no value at all; a sentence that quotes it needs no name before it."""
    return sentence if sentence.startswith("“") else refused(name, sentence)


def too_small(name: str, least: str) -> str:
    """Why a number below its least is not taken."""
    return refused(name, tr("at least {least}", least=least))


def too_large(name: str, most: str) -> str:
    """Why a number above its most is not taken."""
    return refused(name, tr("at most {most}", most=most))


def too_long(name: str, letters: int, longest: int, numbers: Numbers) -> str:
    """Why a text that is too long is not taken."""
    return refused(
        name,
        tr(
            "is {letters} letters long, and at most {longest} fit",
            letters=numbers.whole(letters),
            longest=numbers.whole(longest),
        ),
    )


def unit(words: str, value: object, currency: str) -> str:
    """The words after a value: of `season|seasons` the first where the value is one."""
    one, _, many = words.partition("|")
    return (one if value == 1 or not many else many).replace("{currency}", currency).strip()


def change(name: str) -> str:
    """The name of the step that changes a field."""
    return tr("change {name}", name=name[:1].lower() + name[1:])

"""The words around cautions; the cautions themselves are said by the core."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from core.advice.caution import Caution
from core.plan.genotypes import NORMAL
from core.text import tr
from desktop.words.numbers import Numbers, listed

if TYPE_CHECKING:
    from core.advice.surplus import Surplus

OF_PLAN = tr("About the whole plan")
ALWAYS = tr("Always")
NONE_FOUND = tr("Nothing to mind was found for this route. That is no proof that all is well.")
WAITING = tr("Cautions are looked for once the route is worked out.")
WHY = tr("Why")
HIDE_WHY = tr("Hide why")
MARK_READ = tr("Mark as read")
MARK_UNREAD = tr("Mark as new")
TITLE = tr("Cautions")
COUNTING = tr("Counting them by look…")
NONE_SHORT = tr("None found")
READ_SHORT = tr("All read")


def tab(unread: int) -> str:
    """`Cautions (2)`: those not read yet."""
    return f"{TITLE} ({unread})" if unread else TITLE


def edit_name(*, read: bool) -> str:
    """The step that marks a caution."""
    return tr("mark a caution as read") if read else tr("mark a caution as not read")


def read_sentence(sentence: str) -> str:
    """A caution that was read, told apart in words."""
    return tr("Read: {sentence}", sentence=sentence)


def sources(text: str) -> str:
    """Who says so."""
    return tr("Source: {text}.", text=text) if text else ""


def why_name(sentence: str) -> str:
    """The button for those who hear it."""
    return tr("Why: {sentence}", sentence=sentence)


def mark_name(sentence: str, *, read: bool) -> str:
    """The button for those who hear it."""
    return f"{MARK_UNREAD if read else MARK_READ}: {sentence}"


def in_list(cautions: tuple[Caution, ...], unread: tuple[Caution, ...]) -> str:
    """For the route's row: the first that is not read, and how many more."""
    if not cautions:
        return NONE_SHORT
    if not unread:
        return READ_SHORT
    more = len(unread) - 1
    return f"{unread[0].short} +{more}" if more else unread[0].short


def by_look(found: tuple[Surplus, ...], numbers: Numbers) -> str:
    """`By look, about 21 normal, 9 amel, 8 lavender and fewer than 1 amel + lavender.`"""
    kinds = [f"{_about(one.expected, numbers)} {_look(one)}" for one in found]
    return tr("By look, about {kinds}.", kinds=listed(kinds)) if kinds else ""


def _about(expected: float, numbers: Numbers) -> str:
    return numbers.whole(math.floor(expected + 0.5)) if expected >= 0.5 else tr("fewer than 1")


def _look(one: Surplus) -> str:
    return " + ".join(form for form in one.forms.values() if form != NORMAL) or tr("normal")

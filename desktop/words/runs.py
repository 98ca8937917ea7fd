"""A sentence as runs of plain text, some of them strong: names from strangers never become markup."""

from __future__ import annotations

import msgspec


class Run(msgspec.Struct, frozen=True):
    """A piece of a sentence; a strong one carries what the person chose or came for, a quiet one what is past."""

    text: str
    strong: bool = False
    quiet: bool = False


Runs = tuple[Run, ...]


def plain(runs: Runs) -> str:
    """The sentence as one string."""
    return "".join(run.text for run in runs)


def strong(text: str) -> Run:
    """A run that stands out."""
    return Run(text, strong=True)

"""Names of a route's animals and pairings: ids of the file, which hold neither blanks nor strokes, as people type them.

A blank is kept as a hyphen; in a name that has hyphens of its own, as a low line. A stroke turns into one that looks
alike.
"""

from __future__ import annotations

_STROKE = "∕"


def name_of(identifier: str) -> str:
    """`young sire` for `young-sire`: for the middle of a sentence."""
    blank = "_" if "_" in identifier else "-"
    return " ".join(identifier.replace(blank, " ").split()) or identifier


def titled(identifier: str) -> str:
    """The same standing alone: `Young sire`."""
    name = name_of(identifier)
    return name[:1].upper() + name[1:]


def id_of(typed: str) -> str:
    """A typed name as an id that reads back as the same name; empty for nothing."""
    words = typed.replace("/", _STROKE).split()
    if not any("-" in word for word in words):
        return "-".join(words)
    joined = "_".join(words)
    return joined if "_" in joined else f"{joined}_"


def shortened(name: str, most: int = 48) -> str:
    """A name that is too long for a heading or a sentence, cut at its end."""
    return name if len(name) <= most else f"{name[: most - 1].rstrip()}…"

"""Who descends from whom."""

from __future__ import annotations

from collections.abc import Mapping
from graphlib import TopologicalSorter

# Animal to its sire and dam; None for a founder.
Pedigree = Mapping[str, tuple[str, str] | None]


def ancestors_first(pedigree: Pedigree) -> list[str]:
    """All animals, every one after its parents. Errors: graphlib.CycleError for an animal among its own ancestors."""
    return list(TopologicalSorter({animal: parents or () for animal, parents in pedigree.items()}).static_order())

"""How cautions say names, shares and seasons."""

from __future__ import annotations

from collections.abc import Sequence

from core.explain.naming import id_words
from core.explain.numbers import Numbers, listed
from core.text import tr


def titled(identifier: str) -> str:
    """A group's id at the head of a sentence: `Young sire` for `young-sire`."""
    name = id_words(identifier)
    return name[:1].upper() + name[1:]


def share(part: float, numbers: Numbers) -> str:
    """`25 %`, `12.5 %`, `6.25 %`: as many decimals as it needs, two at most."""
    places = next(places for places in (0, 1, 2) if places == 2 or abs(round(part * 100, places) - part * 100) < 1e-9)
    return f"{numbers.decimal(part * 100, places)} %"


def seasons(numbers: Sequence[int]) -> str:
    """`season 2`, `seasons 2 to 5`, `seasons 1 and 4`; the numbers ascend."""
    if len(numbers) == 1:
        return tr("season {numbers}", numbers=numbers[0])
    if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
        return tr("seasons {numbers} to {numbers_2}", numbers=numbers[0], numbers_2=numbers[-1])
    return tr("seasons {number}", number=listed([str(number) for number in numbers]))

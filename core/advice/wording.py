"""How cautions say names and numbers."""

from __future__ import annotations

from collections.abc import Sequence


def spoken(identifier: str) -> str:
    """A group's id in the middle of a sentence: `young sire` for `young-sire`."""
    return identifier.replace("-", " ").replace("_", " ")


def titled(identifier: str) -> str:
    """The same at the head of a sentence: `Young sire`."""
    name = spoken(identifier)
    return name[:1].upper() + name[1:]


def percent(share: float) -> str:
    """`25 %`, `12.5 %`, `6.25 %`."""
    return f"{share * 100:.2f}".rstrip("0").rstrip(".") + " %"


def listed(parts: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return " and ".join((", ".join(parts[:-1]), parts[-1])) if len(parts) > 1 else "".join(parts)


def seasons(numbers: Sequence[int]) -> str:
    """`season 2`, `seasons 2 to 5`, `seasons 1 and 4`; the numbers ascend."""
    if len(numbers) == 1:
        return f"season {numbers[0]}"
    if len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1:
        return f"seasons {numbers[0]} to {numbers[-1]}"
    return f"seasons {listed([str(number) for number in numbers])}"


def counted(count: int, one: str, many: str) -> str:
    """`1 female`, `3 females`."""
    return f"{count:,} {one if count == 1 else many}"

"""Numbers in words: money, chances, counts and groups of animals."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import Protocol

from core.plan.model import Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr

_WORDS = (
    tr("no"), tr("one"), tr("two"), tr("three"), tr("four"), tr("five"), tr("six"),
    tr("seven"), tr("eight"), tr("nine"), tr("ten"), tr("eleven"), tr("twelve"),
)  # fmt: skip
_CERTAIN = 1 - 1e-12
# Beyond this much of 100 a tenth is not enough to say how much is asked for.
_NEARLY_SURE = 99.9
# Sums from here on are shown whole; cents below it still matter.
WHOLE_FROM = 100


class Numbers(Protocol):
    """How the reader's locale writes a number."""

    def whole(self, value: int) -> str:
        """An integer with its group marks."""

    def decimal(self, value: float, places: int) -> str:
        """A number with that many decimals."""


class PlainNumbers:
    """Numbers as an English page writes them; for texts that no locale reaches."""

    def whole(self, value: int) -> str:
        """An integer with commas."""
        return f"{value:,}"

    def decimal(self, value: float, places: int) -> str:
        """A number with commas and a point."""
        return f"{value:,.{places}f}"


PLAIN = PlainNumbers()


def price(value: float, numbers: Numbers) -> str:
    """A price as given: decimals only where it has any."""
    if abs(value - round(value)) < 0.005:
        return numbers.whole(round(value))
    return numbers.decimal(value, 2)


def sum_of_money(value: float, numbers: Numbers) -> str:
    """A reckoned sum, rounded up so that it stays enough."""
    return price(told_sum(value), numbers)


def in_currency(amount: str, plan: Plan) -> str:
    """A told sum with the plan's currency, where it has one."""
    return f"{amount} {plan.currency}".strip()


def told_sum(value: float) -> float:
    """What that says: whole, and below a hundred to the cent."""
    return math.ceil(value * 100 - 1e-6) / 100 if value < WHOLE_FROM else float(math.ceil(value - 1e-6))


def told_below(value: float) -> float:
    """The same rounded down, for what is to be paid at most or needed at least."""
    return float(math.floor(value + 1e-6)) if value >= WHOLE_FROM else math.floor(value * 100 + 1e-6) / 100


def least_told(value: float) -> float:
    """The least by which sums of this size are told apart."""
    return 1.0 if value >= WHOLE_FROM else 0.01


def told_parts(parts: Sequence[float], *, whole: bool) -> list[float]:
    """Parts of a sum between what they come to so far, each rounded up as sums are: told like this, they add up."""
    unit = 1.0 if whole else 0.01
    told = [math.ceil(so_far / unit - 1e-6) for so_far in accumulate(parts)]
    return [(now - before) * unit for before, now in pairwise([0, *told])]


def more_by(dear: float, cheap: float, numbers: Numbers) -> str:
    """By how much one sum is larger, from both as they are told: whoever checks it by hand finds the same."""
    return price(told_sum(dear) - told_sum(cheap), numbers)


def percent(chance: float, numbers: Numbers) -> str:
    """A chance for tables and axes, rounded down as people are: never 0 or 100 unless it is certain."""
    if chance >= _CERTAIN:
        return tr("{number} %", number=numbers.whole(100))
    if chance <= 0:
        return tr("{number} %", number=numbers.whole(0))
    if chance > 0.99:
        return tr("> {number} %", number=numbers.whole(99))
    if chance < 0.01:
        return tr("< {number} %", number=numbers.whole(1))
    return tr("{number} %", number=numbers.whole(of_100(chance)))


def plus_minus(noise: float, numbers: Numbers) -> str:
    """Two standard errors of a chance, in percentage points."""
    return f"± {numbers.decimal(max(noise * 100, 0.1), 1)}"


def of_100(chance: float) -> int:
    """A chance as people out of 100, rounded down: 0 and 100 only where certain."""
    if chance >= _CERTAIN:
        return 100
    if chance <= 0:
        return 0
    return min(99, max(1, math.floor(chance * 100 + 1e-9)))


def asked_of_100(chance: float, numbers: Numbers) -> str:
    """A chance that was asked for, of 100, as it was asked: `80`, `99.9`, `0.5`."""
    share = chance * 100
    return trimmed(share, 4 if share > _NEARLY_SURE else 1, numbers)


def in_words(count: int) -> str:
    """A count as prose writes it."""
    return _WORDS[count] if 0 <= count < len(_WORDS) else str(count)


def counted(count: int, one: str, many: str) -> str:
    """`1 season`, `2 seasons`."""
    return f"{count} {one if count == 1 else many}"


def short_group(males: int, females: int) -> str:
    """The trade's short form: `1.2` is one male and two females."""
    return f"{males}.{females}"


def long_group(males: int, females: int) -> str:
    """The same, spelled out: `one male, two females`."""
    counts: tuple[tuple[Sex, int], ...] = (("male", males), ("female", females))
    parts = [f"{in_words(count)} {sex_words(sex, count)}" for sex, count in counts if count]
    return ", ".join(parts) or tr("no animals")


def laid_words(plan: Plan) -> tuple[str, str]:
    """What is laid, one and many: a live-bearer has young where others have eggs."""
    return (tr("young"), tr("young")) if is_live(plan) else (tr("egg"), tr("eggs"))


def is_live(plan: Plan) -> bool:
    """Whether young are born, in litters, and do not hatch."""
    return plan.species.young == "live"


def trimmed(value: float, places: int, numbers: Numbers) -> str:
    """A number with so many decimals at most, none that is naught at its end."""
    needed = next(few for few in range(places + 1) if round(value, few) == round(value, places))
    return numbers.decimal(float(value), needed)


def share_of_100(chance: float, numbers: Numbers) -> str:
    """`6.2 in 100`, to a tenth, and whole where it is."""
    return tr("{many} in 100", many=trimmed(100 * chance, 1, numbers))


def listed(parts: list[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(parts) < 2:
        return "".join(parts)
    return tr("{parts} and {last}", parts=", ".join(parts[:-1]), last=parts[-1])

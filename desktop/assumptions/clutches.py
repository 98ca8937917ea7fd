"""The ways to say how large clutches are, and from one to another."""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from core.plan.limits import MOST_EGGS
from core.plan.model import Chance, Clutch, Plan
from core.plan.places import with_value
from core.routes.clutch import clutch_sizes

ClutchKind = Literal["fixed", "normal", "counts"]
# Chances worked out from a normal keep this many places; sizes rarer than that are left out.
_PLACES = 3


def clutch_kind(plan: Plan, _subject: int) -> ClutchKind:
    """Which of the three ways the plan uses."""
    clutch = plan.species.clutch
    if clutch.fixed is not None:
        return "fixed"
    return "normal" if clutch.counts is None else "counts"


def with_clutch_kind(plan: Plan, _subject: int, kind: ClutchKind) -> Plan:
    """The plan with its clutches said in another way, as like the old one as it can be."""
    if kind == clutch_kind(plan, 0):
        return plan
    ways = {"fixed": _as_fixed, "normal": _as_normal, "counts": _as_counts}
    return replace(plan, species=replace(plan.species, clutch=ways[kind](plan.species.clutch)))


def with_counts(plan: Plan, counts: dict[str, Chance]) -> Plan:
    """The plan with other chances of each clutch size."""
    return with_value(plan, "species.clutch.counts", counts)


def _moments(clutch: Clutch) -> tuple[float, float, int, int]:
    """Mean, spread, and the least and largest size that can be."""
    sizes = clutch_sizes(clutch)
    likely = [size for size, share in enumerate(sizes) if share > 0]
    mean = sum(size * float(sizes[size]) for size in likely)
    spread = sum((size - mean) ** 2 * float(sizes[size]) for size in likely) ** 0.5
    return mean, spread, likely[0], likely[-1]


def _as_fixed(clutch: Clutch) -> Clutch:
    return Clutch(fixed=round(_moments(clutch)[0]))


def _as_normal(clutch: Clutch) -> Clutch:
    mean, spread, least, most = _moments(clutch)
    # A fixed size says nothing of how far clutches vary: one egg either way is the person's to change.
    if least == most:
        least, most = max(least - 1, 0), min(most + 1, MOST_EGGS)
    return Clutch(mean=_short(mean), sd=_short(max(spread, 1)), min=least, max=most)


def _as_counts(clutch: Clutch) -> Clutch:
    sizes = clutch_sizes(clutch)
    shares = {size: round(float(share), _PLACES) for size, share in enumerate(sizes)}
    likely = {size: share for size, share in shares.items() if share > 0}
    # What rounding took or gave goes to the likeliest size, so that the chances sum to 1.
    top = max(likely, key=lambda size: likely[size])
    likely[top] = round(likely[top] + 1 - sum(likely.values()), _PLACES)
    return Clutch(counts={str(size): share for size, share in likely.items()})


def _short(value: float) -> int | float:
    short = round(value, 1)
    return int(short) if short == int(short) else short

"""The size of clutches as an assumption: how it is off by a little, however the plan says it."""

from __future__ import annotations

import math
from statistics import fmean, stdev

from msgspec.structs import replace

from core.advice.matters_ranges import Assumption
from core.plan.limits import MOST_EGGS
from core.plan.model import Clutch, Plan
from core.routes.clutch import clutch_sizes
from core.text import tr

# Fewer records than this say little about what the next clutch brings.
_FEWEST_RECORDS = 4
_OFF = 0.25
_NAMES = {"eggs": tr("Eggs in a clutch, on average"), "live": tr("Young in a litter, on average")}


def clutch_assumption(plan: Plan) -> Assumption:
    """The mean size of clutches; from the plan's own records where there are enough, within two standard errors."""
    usual, clutch = mean_size(plan.species.clutch), plan.species.clutch
    laid = [record.slugs + sum(row.count for row in record.young) for record in plan.clutch_records]
    if len(laid) >= _FEWEST_RECORDS and stdev(laid) > 0:
        middle, off = fmean(laid), 2 * stdev(laid) / math.sqrt(len(laid))
        low, high = min(usual, middle - off), max(usual, middle + off)
        why = tr("What your {laid} recorded clutches say of the mean, within two standard errors.", laid=len(laid))
        return _assumption(plan, usual, max(low, usual / 4, 0.1), high, why, own=True)
    why = tr("A quarter either way: numbers differ with a female's size, age and condition.")
    if clutch.fixed is not None:
        # A size that is fixed is one that is never passed.
        return _assumption(plan, usual, usual * (1 - _OFF), usual, tr("Not every clutch is full."), own=False)
    return _assumption(plan, usual, usual * (1 - _OFF), usual * (1 + _OFF), why, own=False)


def mean_size(clutch: Clutch) -> float:
    """The mean that a plan states, or the mean of the sizes it lists."""
    if clutch.mean is not None:
        return float(clutch.mean)
    sizes = clutch_sizes(clutch)
    return float(sum(n * float(share) for n, share in enumerate(sizes)))


def resized(clutch: Clutch, mean: float) -> Clutch:
    """The clutch with another mean: a normal's is moved, its ends only where it would leave them; else sizes in ratio.

    A size between two whole numbers falls on both of them, so that the mean is met exactly.
    """
    if clutch.mean is not None:
        assert clutch.min is not None
        assert clutch.max is not None
        least, most = min(clutch.min, math.floor(mean)), max(clutch.max, math.ceil(mean))
        return replace(clutch, mean=mean, min=least, max=most)
    ratio = mean / mean_size(clutch)
    shares: dict[int, float] = {}
    for size, share in enumerate(clutch_sizes(clutch)):
        whole = math.floor(size * ratio)
        above = size * ratio - whole
        for landed, part in ((whole, 1 - above), (whole + 1, above)):
            if share * part > 0:
                shares[landed] = shares.get(landed, 0.0) + float(share) * part
    return Clutch(counts={str(size): share for size, share in sorted(shares.items())})


def _assumption(plan: Plan, usual: float, low: float, high: float, why: str, *, own: bool) -> Assumption:
    name = _NAMES["live" if plan.species.young == "live" else "eggs"]
    high = max(usual, min(high, MOST_EGGS - 1))
    return Assumption(
        "clutch",
        name,
        "laid",
        usual,
        low,
        high,
        0.1,
        why,
        "your own records" if own else "common practice",
        _put,
    )


def _put(plan: Plan, value: float) -> Plan:
    return replace(plan, species=replace(plan.species, clutch=resized(plan.species.clutch, value)))

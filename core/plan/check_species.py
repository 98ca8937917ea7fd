"""What the species must mean: sex, and clutches that can have a size."""

from __future__ import annotations

import math
import re

from core.plan.check_carries import check_sum
from core.plan.faults import Faults, at_key
from core.plan.limits import MOST_EGGS
from core.plan.model import Clutch, Plan
from core.text import tr

_WHOLE = re.compile("0|[1-9][0-9]*")
_PLACE = "species.clutch"
_NORMAL_KEYS = ("mean", "sd", "min", "max")


def check_species(plan: Plan, faults: Faults) -> None:
    """Check the share of females and the clutch."""
    species = plan.species
    if species.female_share is not None and species.sex_system != "temperature":
        message = tr("belongs only to a species sexed by temperature")
        faults.meaning("species.female_share", message, "species.sex_system")
    _check_clutch(species.clutch, faults)


def _check_clutch(clutch: Clutch, faults: Faults) -> None:
    normal = [key for key in _NORMAL_KEYS if getattr(clutch, key) is not None]
    ways = (clutch.fixed is not None) + (clutch.counts is not None) + bool(normal)
    if ways != 1:
        message = tr("must be given in one way: fixed, or counts, or mean, sd, min and max")
        faults.meaning(_PLACE, message)
    elif clutch.counts is not None:
        _check_counts(clutch, faults)
    elif normal:
        for key in _NORMAL_KEYS:
            if key not in normal:
                faults.meaning(at_key(_PLACE, key), tr("is missing"))
        _check_normal(clutch, faults)


def _check_counts(clutch: Clutch, faults: Faults) -> None:
    assert clutch.counts is not None
    place = f"{_PLACE}.counts"
    for size in clutch.counts:
        if _WHOLE.fullmatch(size) is None:
            faults.meaning(at_key(place, size), tr("a clutch size must be a whole number of eggs"))
        elif len(size) > len(str(MOST_EGGS)) or int(size) > MOST_EGGS:
            faults.meaning(at_key(place, size), tr("a clutch size must be at most {most_eggs}", most_eggs=MOST_EGGS))
    check_sum(place, clutch.counts, faults)


def _check_normal(clutch: Clutch, faults: Faults) -> None:
    if clutch.sd == 0:
        faults.meaning(f"{_PLACE}.sd", tr("must be more than 0"))
    if clutch.min is not None and clutch.max is not None and clutch.min > clutch.max:
        faults.meaning(
            f"{_PLACE}.max", tr("must not be less than min, which is {min}", min=clutch.min), f"{_PLACE}.min"
        )
    elif _has_no_size(clutch):
        faults.meaning(_PLACE, tr("no size from min to max has any chance: they lie too many sd from the mean"))


def _has_no_size(clutch: Clutch) -> bool:
    """Tell whether even the size nearest the mean has no chance that a double can hold."""
    if clutch.mean is None or not clutch.sd or clutch.min is None or clutch.max is None:
        return False
    nearest = min(max(round(clutch.mean), clutch.min), clutch.max)
    beyond = (abs(nearest - clutch.mean) - 0.5) / (clutch.sd * math.sqrt(2))
    return math.erfc(beyond) == 0

"""Where a number of the plan came from: a source, or an invention of the sample it began as."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any

from core.explain.numbers import Numbers, trimmed
from core.plan.model import Plan
from core.plan.places import value_at
from core.plan.presets import Sourced, preset_of
from core.plan.read import load_plan
from core.text import tr

INVENTED = tr("Invented for this example.")
_SAMPLES = Path(__file__).resolve().parents[2] / "assets" / "samples"
# The first entry of a list that a place leads through.
_ENTRY = re.compile(r"([^\[]+)\[\d+\]")
_CLAIM = "invented for this example"


def origin(plan: Plan, places: tuple[str, ...], numbers: Numbers, sourced: str = "") -> str:
    """What is said beside the values at these places; `sourced` is the species preset's key for them."""
    preset = preset_of(plan.species.name) if sourced else None
    known = preset.values.get(sourced) if preset else None
    if known is None or known.value is None:
        return INVENTED if _is_invented(plan, places) else ""
    source = tr("Source: {source}.", source=known.source.rstrip("."))
    if known.fact and [value_at(plan, place) for place in places] == [known.value]:
        return source
    trust = tr("Known") if known.fact else tr("Said, not checked")
    beside = f"{trust}: {shown(known, numbers)}. {source}"
    return f"{INVENTED} {beside}" if _is_invented(plan, places) else beside


def is_sample(plan: Plan) -> Plan | None:
    """The sample plan that this one began as, told by its notes or its title."""
    # Only a plan that says so itself can have begun as one: nothing is read for all the others.
    if _CLAIM not in plan.notes:
        return None
    same = (one for one in _samples() if one.notes == plan.notes or (plan.title and one.title == plan.title))
    return next(same, None)


@cache
def _samples() -> tuple[Plan, ...]:
    return tuple(load_plan(path) for path in sorted(_SAMPLES.glob("*.plan.json")))


def _is_invented(plan: Plan, places: tuple[str, ...]) -> bool:
    sample = is_sample(plan)
    return sample is not None and bool(places) and all(_same(plan, sample, place) for place in places)


def _same(plan: Plan, sample: Plan, place: str) -> bool:
    try:
        return bool(value_at(plan, place) == value_at(sample, _place_in(sample, plan, place)))
    except (LookupError, AttributeError):
        return False


def _place_in(sample: Plan, plan: Plan, place: str) -> str:
    """The same place in the sample, whose entry may stand elsewhere in its list; LookupError where there is none."""
    found = _ENTRY.match(place)
    if found is None:
        return place
    entry, entries = value_at(plan, found[0]), value_at(sample, found[1])
    at = next((at for at, one in enumerate(entries) if _is_same_entry(one, entry)), None)
    if at is None:
        raise LookupError(place)
    return f"{found[1]}[{at}]{place[found.end() :]}"


def _is_same_entry(one: Any, other: Any) -> bool:
    """Entries with a short name of their own are known by it, others by all they say."""
    named = getattr(other, "id", None)
    return bool(one == other) if named is None else getattr(one, "id", None) == named


def shown(value: Sourced, numbers: Numbers) -> str:
    """A value of a preset in words."""
    found: Any = value.value
    if isinstance(found, dict):
        return _spread(found, numbers)
    if isinstance(found, float):
        return tr("{number} %", number=trimmed(found * 100, 4, numbers))
    return _PLAIN.get(found, str(found))


def _spread(found: dict[str, int | float], numbers: Numbers) -> str:
    if "fixed" in found:
        return tr("always {found}", found=found["fixed"])
    parts = []
    if "mean" in found:
        parts.append(tr("{mean} on average", mean=trimmed(found["mean"], 4, numbers)))
    if "least" in found:
        parts.append(tr("{least} to {most}", least=found["least"], most=found["most"]))
    return ", ".join(parts)


_PLAIN = {
    "ZW": tr("chromosomes, ZW"),
    "XY": tr("chromosomes, XY"),
    "temperature": tr("temperature"),
    "eggs": tr("lays eggs"),
    "live": tr("bears live young"),
}

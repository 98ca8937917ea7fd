"""Opening plans: a plan, or a list of what is wrong with the file."""

from __future__ import annotations

from pathlib import Path

import msgspec

from core.plan.faults import FILE, PlanError
from core.plan.model import Plan
from core.plan.read import load_plan

SAMPLES = Path(__file__).resolve().parent.parent / "assets" / "samples"
SAMPLE = SAMPLES / "amel-lavender.plan.json"
# Animals for the counter view where the plan has none for sale.
TABLE = SAMPLES.parent / "counter" / "table.plan.json"


def samples() -> list[tuple[str, Path]]:
    """Title and file of every sample plan, the one of the first start first."""
    paths = sorted(SAMPLES.glob("*.plan.json"), key=_not_first)
    return [(load_plan(path).title, path) for path in paths]


def _not_first(path: Path) -> tuple[bool, Path]:
    return path != SAMPLE, path


class Faults(msgspec.Struct, frozen=True):
    """What is wrong with a file, one line each; `whole`: with the file as such, not with anything in it."""

    path: Path
    lines: tuple[str, ...]
    whole: bool = False


def open_plan(path: Path) -> Plan | Faults:
    """Reads a file; whatever is wrong with it comes back as lines for the person."""
    try:
        return load_plan(path)
    except PlanError as error:
        lines = (f"{fault.place}: {fault.message}" if fault.place else fault.message for fault in error.faults)
        return Faults(path, tuple(lines), whole=all(fault.place == FILE for fault in error.faults))

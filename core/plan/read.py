"""A plan from the bytes of its file."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from core.plan.check import examine
from core.plan.decode import parse_json
from core.plan.faults import FILE, Fault, PlanError
from core.plan.limits import MOST_BYTES
from core.plan.model import Plan
from core.text import tr


def read_plan(data: bytes) -> Plan:
    """Read a plan, checking everything. Raises PlanError with all that is wrong, each with its place."""
    return examine(parse_json(data))


def load_plan(path: str | os.PathLike[str]) -> Plan:
    """Read a plan from a file. Raises PlanError, also where the file cannot be read."""
    return read_plan(_read_bytes(Path(path)))


def _read_bytes(path: Path) -> bytes:
    try:
        mode = path.stat().st_mode
        # A pipe or device may never end, or never begin.
        if stat.S_ISREG(mode):
            with path.open("rb") as file:
                return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise PlanError([Fault(FILE, _explain(error))]) from None
    except ValueError:
        raise PlanError([Fault(FILE, tr("has a name that no file can have"))]) from None
    folder = tr("is a folder, not a file that holds a plan")
    raise PlanError(
        [Fault(FILE, folder if stat.S_ISDIR(mode) else tr("is a device or pipe, not a file that holds a plan"))]
    )


def _explain(error: OSError) -> str:
    if isinstance(error, FileNotFoundError):
        return tr("does not exist")
    if isinstance(error, PermissionError):
        return tr("may not be read: no permission")
    return tr("cannot be read: {strerror}", strerror=error.strerror or tr("unknown reason"))

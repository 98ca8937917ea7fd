"""Memory that was freed goes back to the system."""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Callable
from pathlib import Path

# So much more than at the leanest rest may stay: what was just freed is soon asked for again, and sooner had than anew.
SPARE = 48 * 2**20


class Memory:
    """The program's memory from one rest to the next."""

    def __init__(self) -> None:
        self._leanest = 0

    def give_back(self) -> None:
        """Has what was freed handed back where it has become much; takes up to a twentieth of a second.

        The C library of Linux keeps it to itself until it is asked.
        """
        trim = _trim()
        if trim is None:
            return
        now = _resident()
        if now > self._leanest + SPARE:
            trim(0)
            self._leanest = _resident()
        else:
            self._leanest = min(now, self._leanest)


def _trim() -> Callable[[int], int] | None:
    # Not every C library of Linux has it.
    return getattr(ctypes.CDLL(None), "malloc_trim", None) if sys.platform == "linux" else None


def _resident() -> int:
    """Bytes that the program takes up, as Linux tells it."""
    return int(Path("/proc/self/statm").read_text("ascii").split()[1]) * os.sysconf("SC_PAGE_SIZE")

"""Memory that was freed goes back to the system."""

from __future__ import annotations

import ctypes
import sys


def give_back() -> None:
    """Has what was freed handed back, which the C library of Linux keeps to itself; takes up to a twentieth second."""
    if sys.platform != "linux":
        return
    # Not every C library of Linux has it.
    trim = getattr(ctypes.CDLL(None), "malloc_trim", None)
    if trim is not None:
        trim(0)

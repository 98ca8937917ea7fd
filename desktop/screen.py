"""Whether a window can be opened here, found out before Qt is loaded: Qt aborts the process where it cannot."""

from __future__ import annotations

import ctypes
import sys
from collections.abc import Mapping
from pathlib import Path

from core.text import tr

# Library file to the Debian package that brings it.
X11_LIBRARIES = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
QT_LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libfontconfig.so.1": "libfontconfig1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libglib-2.0.so.0": "libglib2.0-0",
}
_NO_SCREEN = tr(
    "Pairwright needs a screen, and none was found: start it from a desktop session, or use "
    "`python -m core evaluate PLAN` for the figures alone."
)


def obstacle(environment: Mapping[str, str], platform: str = sys.platform) -> str | None:
    """One sentence on what keeps a window from opening and what to do, or None."""
    if not platform.startswith("linux"):
        return None
    chosen = environment.get("QT_QPA_PLATFORM", "").partition(":")[0]
    if chosen not in ("", "xcb", "wayland"):
        return _missing(QT_LIBRARIES)
    if not (environment.get("DISPLAY") or environment.get("WAYLAND_DISPLAY")):
        return _NO_SCREEN
    if _wayland_answers(environment) and chosen != "xcb":
        return _missing(QT_LIBRARIES)
    return _missing(QT_LIBRARIES | X11_LIBRARIES) or (None if _x11_answers() else _NO_SCREEN)


def import_failure(error: ImportError) -> str:
    """One sentence on a Qt that does not load."""
    library = str(error).partition(":")[0]
    package = (QT_LIBRARIES | X11_LIBRARIES).get(library)
    if package:
        return _install([package])
    return tr(
        "Pairwright needs its Python packages, and one does not load ({error}): install them with `pip install .`.",
        error=error,
    )


def _missing(libraries: Mapping[str, str]) -> str | None:
    packages = [package for library, package in libraries.items() if not _loads(library)]
    return _install(packages) if packages else None


def _install(packages: list[str]) -> str:
    names = " ".join(packages)
    return tr(
        "Pairwright needs system libraries that are missing: install them with `apt-get install {names}`.", names=names
    )


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def _wayland_answers(environment: Mapping[str, str]) -> bool:
    display = environment.get("WAYLAND_DISPLAY")
    return bool(display) and (Path(environment.get("XDG_RUNTIME_DIR", "/run")) / str(display)).exists()


def _x11_answers() -> bool:
    """Whether the X server that DISPLAY names takes a connection."""
    xcb = ctypes.CDLL("libxcb.so.1")
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connect.argtypes = [ctypes.c_char_p, ctypes.c_void_p]
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(None, None)
    answers = not xcb.xcb_connection_has_error(connection)
    xcb.xcb_disconnect(connection)
    return answers

"""Types that journeys share."""

from __future__ import annotations

from collections.abc import Callable

from desktop.window import MainWindow

Open = Callable[..., MainWindow]

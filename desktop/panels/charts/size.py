"""How large text is set, so that what surrounds it grows with it."""

from __future__ import annotations

from desktop import fonts

# The size of a column head as the page was drawn.
_DRAWN = 13.0


def text_scale() -> float:
    """1 at the usual text size, 2 at 200 %."""
    return fonts.sans(fonts.HEAD).pixelSize() / _DRAWN

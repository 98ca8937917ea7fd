"""Tables that are filled in as what they are asked for comes up."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from core.routes.simulation.lots import Indices

# In a table: not worked out yet.
UNKNOWN = -1
# So many of what is asked for tell nearly all that is new.
_SAMPLE = 4096


def look_up(table: Indices, places: Indices, learn: Callable[[list[int]], None]) -> Indices:
    """What a table holds in these places; `learn` fills in those it is given, which are `UNKNOWN`."""
    flat = places.reshape(-1)
    found = flat
    for asked in (flat[:: len(flat) // _SAMPLE + 1], flat):
        found = table.take(asked)
        if found.size and found.min() == UNKNOWN:
            learn(np.unique(asked.compress(found == UNKNOWN)).tolist())
            found = table.take(asked)
    return found.reshape(places.shape)

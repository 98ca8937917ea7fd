"""What was found as the JSON that `find` prints."""

from __future__ import annotations

from typing import Any

import msgspec

from core.routes.report import route_json
from core.search.found import Found


def as_json(found: Found) -> dict[str, Any]:
    """The routes as a plan holds them, each with its evaluation under `result`; the cheapest first."""
    return {"routes": [{**msgspec.to_builtins(one.route), "result": route_json(one.result)} for one in found.proposals]}

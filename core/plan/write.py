"""A plan to the bytes of its file."""

from __future__ import annotations

import msgspec

from core.plan.model import Plan


def write_plan(plan: Plan) -> bytes:
    """Write a plan as indented UTF-8 JSON with a final newline; keys at their default are left out."""
    return msgspec.json.format(msgspec.json.encode(plan), indent=2) + b"\n"

"""The JSON Schema of the plan file."""

from __future__ import annotations

from typing import Any

import msgspec

from core.plan.model import Plan

_ADDRESS = "https://json-schema.org/draft/2020-12/schema"
_NORMAL = ["mean", "sd", "min", "max"]


def json_schema() -> dict[str, Any]:
    """Give the JSON Schema (draft 2020-12) of a plan; references, sums and genotypes are beyond what it can say."""
    schema = {"$schema": _ADDRESS, "title": "Pairwright plan", **msgspec.json.schema(Plan)}
    parts = schema["$defs"]
    for part in parts.values():
        part["properties"] = {key: _without_null(value) for key, value in part["properties"].items()}
    parts["Clutch"]["oneOf"] = [_only("fixed"), _only("counts"), _only(*_NORMAL)]
    parts["Clutch"]["properties"]["sd"]["exclusiveMinimum"] = 0
    parts["Goal"]["properties"]["chance"] |= {"exclusiveMinimum": 0, "exclusiveMaximum": 1}
    parts["Owned"]["oneOf"] = [
        {"required": ["count", "carries"], "not": {"required": ["animals"]}},
        {"required": ["animals"], "not": {"anyOf": [{"required": ["count"]}, {"required": ["carries"]}]}},
    ]
    parts["Animal"]["dependentRequired"] = {"sire": ["dam"], "dam": ["sire"]}
    parts["Gene"] |= _only_with("recombination", "placement", "both-sex-chromosomes", required=True)
    parts["Species"] |= _only_with("female_share", "sex_system", "temperature", required=False)
    return schema


def _without_null(schema: dict[str, Any]) -> dict[str, Any]:
    """Take null from a key that is left out where it is not given."""
    if not schema.pop("leftOut", False):
        return schema
    kinds = [kind for kind in schema["anyOf"] if kind != {"type": "null"}]
    return kinds[0] if len(kinds) == 1 else {"anyOf": kinds}


def _only(*keys: str) -> dict[str, Any]:
    return {"required": [*keys], "maxProperties": len(keys)}


def _only_with(key: str, other: str, value: str, *, required: bool) -> dict[str, Any]:
    """Allow a key only where another has a certain value, and perhaps ask for it there."""
    return {
        "if": {"required": [other], "properties": {other: {"const": value}}},
        "then": {"required": [key]} if required else {},
        "else": {"not": {"required": [key]}},
    }

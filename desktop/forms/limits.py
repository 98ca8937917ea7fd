"""The bounds of a field, from the plan's own types: one truth for the file, the field and its refusal."""

from __future__ import annotations

import re
from functools import cache

import msgspec
from msgspec import inspect
from msgspec.structs import fields, replace

from core.plan.model import Plan

_STEP = re.compile(r"[A-Za-z_]\w*|\[\]")


class Limits(msgspec.Struct, frozen=True):
    """The least and most of a number, both included, and the most letters of a text."""

    least: float | None = None
    most: float | None = None
    longest: int | None = None


@cache
def limits_of(place: str) -> Limits:
    """The bounds of a place such as `species.lays` or `for_sale[].price`. Raises KeyError where there is none."""
    first, *rest = _STEP.findall(place)
    # Only the part that is asked for: looking through the whole plan takes a start longer than all its fields.
    info = inspect.type_info({field.name: field.type for field in msgspec.structs.fields(Plan)}[first])
    for step in rest:
        info = _into(_bare(info), step)
    return _bounds(info)


def _into(info: inspect.Type, step: str) -> inspect.Type:
    if step == "[]" and isinstance(info, inspect.VarTupleType):
        return info.item_type
    if isinstance(info, inspect.StructType):
        for field in info.fields:
            if field.name == step:
                return field.type
    raise KeyError(step)


def _bare(info: inspect.Type) -> inspect.Type:
    """Without bounds around it, and without the None that stands for "not given"."""
    if isinstance(info, inspect.Metadata):
        return _bare(info.type)
    if isinstance(info, inspect.UnionType):
        kinds = [_bare(one) for one in info.types if not isinstance(one, inspect.NoneType)]
        return kinds[0] if len(kinds) == 1 else info
    return info


def _bounds(info: inspect.Type) -> Limits:
    found = Limits()
    if isinstance(info, inspect.Metadata):
        extra = info.extra or {}
        found = _joined(Limits(extra.get("least"), extra.get("most")), _bounds(info.type))
    elif isinstance(info, inspect.UnionType):
        for one in info.types:
            found = _joined(found, _bounds(one))
    elif isinstance(info, inspect.StrType):
        found = Limits(longest=info.max_length)
    return found


def _joined(one: Limits, other: Limits) -> Limits:
    given = {field.name: getattr(other, field.name) for field in fields(Limits)}
    return replace(one, **{name: value for name, value in given.items() if getattr(one, name) is None})

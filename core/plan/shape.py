"""JSON values to the plan's structs, part by part: every value of a wrong type or out of range is a fault.

A value at fault is replaced by a neutral one, so that all the rest can still be read and checked.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from msgspec import NODEFAULT, inspect

from core.plan.decode import Doubled
from core.plan.faults import Faults, at, at_key, one_of, quote
from core.plan.limits import LONGEST_TEXT
from core.plan.model import Plan
from core.plan.values import Kind, boolean_kind, call, choice_kind, number_kind, show, sound, text_kind
from core.text import tr


def read_shape(value: dict[str, Any], faults: Faults) -> Plan:
    """Turn a JSON object into a plan, adding a fault for every value that has not the right shape."""
    plan = _plan_kind().read(value, "", faults)
    assert isinstance(plan, Plan)
    return plan


@cache
def _plan_kind() -> Kind:
    return _kind(inspect.type_info(Plan))


def _kind(info: inspect.Type, extra: Mapping[str, Any] | None = None) -> Kind:
    """Choose how to read a type, with the bounds (`least`, `most`) or the `word` rule that the model attaches."""
    extra = extra or {}
    match info:
        case inspect.Metadata():
            return _kind(info.type, info.extra or extra)
        case inspect.StructType():
            return _struct(info)
        case inspect.VarTupleType():
            return _list(info)
        case inspect.TupleType():
            return _pair(info)
        case inspect.DictType():
            return _map(info)
        case inspect.LiteralType():
            return choice_kind(info)
        case inspect.BoolType():
            return boolean_kind()
        case inspect.StrType():
            return text_kind(info, extra.get("word"))
        case inspect.IntType():
            return number_kind(extra["least"], extra["most"], whole=True)
        case inspect.UnionType():
            return _union(info, extra)
    raise TypeError(f"the model holds a type that plans do not use: {info}")


def _union(info: inspect.UnionType, extra: Mapping[str, Any]) -> Kind:
    kinds = [part for part in info.types if not isinstance(part, inspect.NoneType)]
    if len(kinds) < len(info.types):
        rest = kinds[0] if len(kinds) == 1 else inspect.UnionType(tuple(kinds))
        kind = _kind(rest, extra)
        return _optional(kind) if extra.get("null", True) else Kind(kind.read, None)
    if isinstance(kinds[0], inspect.StructType):
        return _tagged([kind for kind in kinds if isinstance(kind, inspect.StructType)])
    maps = [part for part in kinds if isinstance(part, inspect.DictType)]
    if maps:
        return _genotypes(_kind(next(part for part in kinds if part not in maps)), _kind(maps[0]))
    fraction = any(isinstance(part, inspect.StrType) for part in kinds)
    return number_kind(extra["least"], extra["most"], fraction=fraction)


def _optional(kind: Kind) -> Kind:
    def read(value: object, place: str, faults: Faults) -> Any:
        return None if value is None else kind.read(value, place, faults)

    return Kind(read, None)


def _genotypes(single: Kind, hidden: Kind) -> Kind:
    def read(value: object, place: str, faults: Faults) -> Any:
        if isinstance(value, str | dict):
            return (single if isinstance(value, str) else hidden).read(value, place, faults)
        faults.shape(place, tr("must be a genotype or a map from genotypes to chances, not {found}", found=call(value)))
        return single.neutral

    return Kind(read, single.neutral)


def _tagged(structs: list[inspect.StructType]) -> Kind:
    by_tag = {str(info.tag): _struct(info) for info in structs}
    tag_field = str(structs[0].tag_field)
    neutral = next(iter(by_tag.values()))

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, dict):
            return neutral.read(value, place, faults)
        tag = value.get(tag_field)
        if isinstance(tag, str) and tag in by_tag:
            return by_tag[tag].read(value, place, faults)
        given = tr("is missing; it") if tag_field not in value else tr("is {found}; it", found=show(tag))
        faults.shape(
            at_key(place, tag_field), tr("{given} must be {one_of}", given=given, one_of=one_of(map(quote, by_tag)))
        )
        return neutral.neutral

    return Kind(read, neutral.neutral)


def _struct(info: inspect.StructType) -> Kind:
    kinds = {field.encode_name: (field, _kind(field.type)) for field in info.fields}
    known = [*kinds, info.tag_field] if info.tag_field else [*kinds]
    neutral = info.cls(**{field.name: _absent(field, kind) for field, kind in kinds.values()})

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, dict):
            faults.shape(place, tr("must be an object in braces { }, not {found}", found=call(value)))
            return neutral
        _refuse_doubled(value, place, faults)
        for key in value:
            if key not in known:
                faults.shape(at_key(place, key), tr("is not a key that belongs here") + faults.suggest(key, known))
        found = {}
        for key, (field, kind) in kinds.items():
            if key in value:
                found[field.name] = kind.read(value[key], at_key(place, key), faults)
            else:
                found[field.name] = _absent(field, kind)
                if field.required:
                    faults.shape(at_key(place, key), tr("is missing"))
        return info.cls(**found)

    return Kind(read, neutral)


def _absent(field: inspect.Field, kind: Kind) -> Any:
    if field.default_factory is not NODEFAULT:
        return field.default_factory()
    return kind.neutral if field.default is NODEFAULT else field.default


def _refuse_doubled(value: dict[str, Any], place: str, faults: Faults) -> None:
    for key in value.doubled if isinstance(value, Doubled) else ():
        faults.shape(at_key(place, key), tr("is given twice"))


def _list(info: inspect.VarTupleType) -> Kind:
    item = _kind(info.item_type)

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, list | tuple):
            faults.shape(place, tr("must be a list in brackets [ ], not {found}", found=call(value)))
            return ()
        if not _fits(len(value), info, place, faults):
            return ()
        return tuple(item.read(part, at(place, i), faults) for i, part in enumerate(value))

    return Kind(read, ())


def _pair(info: inspect.TupleType) -> Kind:
    kinds = [_kind(part) for part in info.item_types]
    neutral = tuple(kind.neutral for kind in kinds)

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, list | tuple) or len(value) != len(kinds):
            faults.shape(place, tr("must be a first and a last season in brackets, such as [1, 2] or [null, null]"))
            return neutral
        return tuple(
            kind.read(part, at(place, i), faults) for i, (kind, part) in enumerate(zip(kinds, value, strict=True))
        )

    return Kind(read, neutral)


def _map(info: inspect.DictType) -> Kind:
    kind = _kind(info.value_type)

    def read(value: object, place: str, faults: Faults) -> Any:
        if not isinstance(value, dict):
            faults.shape(place, tr("must be an object in braces { }, not {found}", found=call(value)))
            return {}
        _refuse_doubled(value, place, faults)
        if not _fits(len(value), info, place, faults):
            return {}
        found = {}
        for key, part in value.items():
            here = at_key(place, key)
            if sound(key, LONGEST_TEXT, here, faults):
                found[key] = kind.read(part, here, faults)
        return found

    return Kind(read, {})


def _fits(size: int, info: inspect.VarTupleType | inspect.DictType, place: str, faults: Faults) -> bool:
    if info.max_length is not None and size > info.max_length:
        faults.shape(
            place, tr("has {size} entries; at most {most} are allowed", size=f"{size:,}", most=f"{info.max_length:,}")
        )
        return False
    if info.min_length is not None and size < info.min_length:
        faults.shape(place, tr("needs at least {n} entries", "needs at least {n} entry", info.min_length))
        return False
    return True

"""Species that come with the program: each value with its source and how far it can be trusted."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Literal

import msgspec

_FOLDER = Path(__file__).resolve().parents[2] / "assets" / "species"

Status = Literal["verified", "memory", "weak", "invented", "unknown"]


class Sourced(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One value; None is not known: the person's to set."""

    value: int | float | str | dict[str, int | float] | None
    source: str
    status: Status

    @property
    def fact(self) -> bool:
        """Whether it may be shown as a fact: it was read in the source named."""
        return self.status == "verified" and self.value is not None


class Preset(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One species; `values` by the keys of a plan's species."""

    id: str
    name: str
    latin: str
    values: dict[str, Sourced]


@cache
def species_presets() -> tuple[Preset, ...]:
    """Give the presets by name."""
    data = [path.read_bytes() for path in _FOLDER.glob("*.json")]
    presets = [msgspec.json.decode(one, type=Preset) for one in data]
    return tuple(sorted(presets, key=_name))


def preset_of(name: str) -> Preset | None:
    """Give the preset that a plan's species name means: by its name, its Latin name or its id, or None."""
    asked = name.strip().casefold()
    for preset in species_presets():
        if asked in (preset.name.casefold(), preset.latin.casefold(), preset.id):
            return preset
    return None


def _name(preset: Preset) -> str:
    return preset.name

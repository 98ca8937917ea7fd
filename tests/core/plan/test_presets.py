"""Species presets: every value says where it is from and how far it can be trusted."""

from __future__ import annotations

import pytest

from core.plan.presets import Preset, species_presets

SEX_SYSTEMS = {
    "boa-imperator": "XY",
    "carpet-python": None,
    "corn-snake": "ZW",
    "crested-gecko": "ZW",
    "leopard-gecko": "temperature",
    "royal-python": "XY",
    "western-hognose": "ZW",
}


@pytest.mark.parametrize("preset", species_presets(), ids=lambda preset: preset.id)
def test_every_value_has_source_and_status(preset: Preset) -> None:
    assert preset.name
    assert preset.latin
    for value in preset.values.values():
        assert value.source
        assert (value.value is None) == (value.status == "unknown")
        assert value.fact == (value.status == "verified")


def test_sex_systems() -> None:
    assert {preset.id: preset.values["sex_system"].value for preset in species_presets()} == SEX_SYSTEMS


def test_same_keys_everywhere() -> None:
    assert len({tuple(preset.values) for preset in species_presets()}) == 1

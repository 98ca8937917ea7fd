"""The species as its fields put it in: what sets the sex, and what is known."""

from __future__ import annotations

from typing import Any, get_args

from msgspec.structs import replace

from core.plan import refit
from core.plan.model import Clutch, Plan, SexSystem, Species
from core.plan.presets import Preset
from core.text import tr
from desktop.forms.kinds import Refused
from desktop.words.forms import refused


def with_sex_system(plan: Plan, _subject: int, system: SexSystem) -> Plan | Refused:
    """The plan under another sex system, unless a gene stands in the way."""
    on_sex = next((gene.name for gene in plan.genes if gene.placement != "autosome"), None)
    if system == "temperature" and on_sex is not None:
        why = tr(
            "the gene “{on_sex}” lies on the sex chromosomes, and a species sexed by temperature has none",
            on_sex=on_sex,
        )
        return Refused(refused(tr("What sets the sex"), why))
    return refit.with_sex_system(plan, system)


def with_preset(plan: Plan, subject: int, preset: Preset | Species) -> Plan | Refused:
    """The plan with a species' name and what is known of it for a fact; one that was kept comes whole."""
    if isinstance(preset, Species):
        changed = with_sex_system(plan, subject, preset.sex_system)
        return changed if isinstance(changed, Refused) else replace(changed, species=preset)
    values = {key: one.value for key, one in preset.values.items() if one.fact}
    changed = replace(plan, species=replace(plan.species, name=preset.name))
    system: Any = values.get("sex_system")
    if system in get_args(SexSystem):
        turned = with_sex_system(changed, subject, system)
        if isinstance(turned, Refused):
            return turned
        changed = turned
    clutch: Any = values.get("clutch")
    # A share of eggs that hatch is shown beside its field, not taken over: it may count slugs, which are apart here.
    species = replace(changed.species, young=values["young"]) if "young" in values else changed.species
    if isinstance(clutch, dict):
        species = replace(species, clutch=_known_clutch(species.clutch, clutch))
    return replace(changed, species=species)


def preset_step(preset: Preset | Species) -> str:
    """What undo calls taking it over."""
    if isinstance(preset, Species):
        return tr("take over {name} as you kept it", name=preset.name)
    return tr("take over what is known of the {name}", name=preset.name)


def _known_clutch(clutch: Clutch, known: dict[str, int | float]) -> Clutch:
    """A size that is known; a range alone says nothing of the average, so the plan's own stays."""
    return Clutch(fixed=int(known["fixed"])) if "fixed" in known else clutch

"""Editors of values that are more than one field, by the name that form tables use."""

from __future__ import annotations

from collections.abc import Mapping

from desktop.assumptions.counts import CountsSlot
from desktop.assumptions.gene_panels import AllelesSlot, GenotypesSlot, KnownSlot
from desktop.assumptions.keeping import KeepGeneSlot, KeepSpeciesSlot
from desktop.assumptions.linked_panel import LinkedSlot
from desktop.assumptions.panels import CarriesSlot, FormsSlot, ParentsSlot, PlainFormsSlot
from desktop.assumptions.presets import PresetsSlot
from desktop.assumptions.read_cautions import ReadCautionsSlot
from desktop.forms.sheet import Editor

EDITORS: Mapping[str, Editor] = {
    "counts": CountsSlot,
    "presets": PresetsSlot,
    "keep gene": KeepGeneSlot,
    "keep species": KeepSpeciesSlot,
    "alleles": AllelesSlot,
    "genotypes": GenotypesSlot,
    "known": KnownSlot,
    "linked": LinkedSlot,
    "carries": CarriesSlot,
    "forms": FormsSlot,
    "plain forms": PlainFormsSlot,
    "parents": ParentsSlot,
    "cautions read": ReadCautionsSlot,
}

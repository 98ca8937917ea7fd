"""What is known of genes by name: each statement with its source and how far it can be trusted."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import msgspec

from core.plan.model import Plan
from core.plan.presets import Sourced, Status, preset_of

_FOLDER = Path(__file__).resolve().parents[2] / "assets" / "gene_notes"


class Welfare(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A documented problem of animals with the gene, as a sentence."""

    text: str
    source: str
    status: Status


class GeneNote(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One gene of one species: its names, where it lies, how it is inherited, and what is documented of health."""

    id: str
    name: str
    also: tuple[str, ...]
    locus: Sourced
    mode: Sourced
    welfare: tuple[Welfare, ...]

    def is_called(self, name: str) -> bool:
        """Whether a plan's gene of this name is meant."""
        return _plain(name) in map(_plain, (self.id, self.name, *self.also))


class GeneNotes(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The gene notes of one species preset, by its id."""

    species: str
    genes: tuple[GeneNote, ...]


@cache
def gene_notes() -> tuple[GeneNotes, ...]:
    """Give all notes, by species id."""
    found = [msgspec.json.decode(path.read_bytes(), type=GeneNotes) for path in sorted(_FOLDER.glob("*.json"))]
    return tuple(found)


def notes_of(plan: Plan) -> dict[str, GeneNote]:
    """Give the note of each gene of the plan that has one, by gene id.

    Only the plan's own species counts; for one that the program does not know, a name from any species does.
    """
    preset = preset_of(plan.species.name)
    known = [note for notes in gene_notes() if preset is None or preset.id == notes.species for note in notes.genes]
    return {
        gene.id: note for gene in plan.genes for note in known if note.is_called(gene.name) or note.is_called(gene.id)
    }


def _plain(name: str) -> str:
    return " ".join(name.replace("-", " ").replace("_", " ").split()).casefold()

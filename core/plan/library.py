"""Species and genes that the person keeps for other plans: one small file of their own."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

import msgspec

from core.plan.check import check_plan
from core.plan.decode import parse_json
from core.plan.faults import FILE, Fault, PlanError
from core.plan.model import Clutch, Gene, Goal, Matures, Plan, SexSystem, Species, Want
from core.text import tr

T = TypeVar("T")

# More than anybody keeps; a file from elsewhere must not take long to read.
MOST_SPECIES, MOST_GENES = 100, 400


class KeptGene(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A gene with the name of the species it is from."""

    species: str
    gene: Gene


class Library(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What is kept, in the order in which it was first kept."""

    species: tuple[Species, ...] = ()
    genes: tuple[KeptGene, ...] = ()

    def with_species(self, species: Species) -> Library:
        """Keep a species; one of the same name is replaced."""
        kept = _replaced(self.species, species, [_same(one.name, species.name) for one in self.species])
        return msgspec.structs.replace(self, species=kept)

    def with_gene(self, species: str, gene: Gene) -> Library:
        """Keep a gene of a species; one of that species with the same id is replaced."""
        one = KeptGene(species, gene)
        kept = _replaced(self.genes, one, [_same(k.species, species) and k.gene.id == gene.id for k in self.genes])
        return msgspec.structs.replace(self, genes=kept)

    def without_species(self, name: str) -> Library:
        """Keep a species no longer; its genes stay."""
        return msgspec.structs.replace(self, species=tuple(one for one in self.species if not _same(one.name, name)))

    def without_gene(self, species: str, gene: str) -> Library:
        """Keep a gene no longer."""
        kept = tuple(one for one in self.genes if not (_same(one.species, species) and one.gene.id == gene))
        return msgspec.structs.replace(self, genes=kept)

    def genes_of(self, species: str) -> tuple[Gene, ...]:
        """The genes kept for a species."""
        return tuple(one.gene for one in self.genes if _same(one.species, species))


def write_library(library: Library) -> bytes:
    """Write what is kept as indented UTF-8 JSON."""
    return msgspec.json.format(msgspec.json.encode(library), indent=2) + b"\n"


def read_library(data: bytes) -> Library:
    """Read what is kept, checking it as plans are checked. Raises PlanError."""
    try:
        library = msgspec.convert(parse_json(data), Library)
    except msgspec.ValidationError as error:
        raise PlanError(
            [Fault(FILE, tr("holds something else than kept species and genes: {error}", error=error))]
        ) from None
    if len(library.species) > MOST_SPECIES or len(library.genes) > MOST_GENES:
        raise PlanError([Fault(FILE, tr("holds more species or genes than can be kept"))])
    for i, species in enumerate(library.species):
        _check(f"species[{i}]", _plan(species, ()))
    for i, kept in enumerate(library.genes):
        _check(f"genes[{i}]", _plan(_species_for(kept.gene), (kept.gene,)))
    return library


def _species_for(gene: Gene) -> Species:
    """A species that has the chromosomes which the gene's genotypes name."""
    written = " ".join((*gene.forms, *gene.lethal))
    system: SexSystem = "XY" if "Y" in written.replace("/", " ").split() else "ZW"
    return Species(name="", sex_system=system, clutch=Clutch(fixed=1), matures=Matures(male=1, female=1))


def _check(place: str, plan: Plan) -> None:
    if faults := check_plan(plan):
        raise PlanError([Fault(f"{place}: {fault.place}", fault.message) for fault in faults])


def _plan(species: Species, genes: tuple[Gene, ...]) -> Plan:
    """The smallest plan around them, so that one set of rules checks everything."""
    goal = Goal(want=(Want(forms={}),), chance=0.8, seasons=1)
    return Plan(format="pairwright-plan", version=1, title="", currency="", genes=genes, species=species, goal=goal)


def _replaced(kept: tuple[T, ...], one: T, same: Iterable[bool]) -> tuple[T, ...]:
    places = [place for place, alike in enumerate(same) if alike]
    if not places:
        return (*kept, one)
    return tuple(one if place == places[0] else old for place, old in enumerate(kept))


def _same(one: str, other: str) -> bool:
    return one.strip().casefold() == other.strip().casefold()

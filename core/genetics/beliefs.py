"""What my animals may carry, given all that is known of them and of their young."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from math import prod

import numpy as np
from numpy.typing import NDArray

from core.genetics.compile import Genetics, compile_genetics
from core.genetics.elimination import TooEntangled, check_size, draws, eliminate, marginals
from core.genetics.evidence import Evidence, Herd, herd
from core.genetics.units import Floats, Unit
from core.plan.model import Plan
from core.text import tr


class ImpossibleEvidence(ValueError):
    """Records that no genotypes of the animals explain; `place` is the animal or clutch at which they fail.

    `where` says the same as the key of the plan and the number in its list.
    """

    def __init__(self, where: tuple[str, int], name: str, genes: Sequence[str]) -> None:
        """Name the place, the animal where it is one, and, where they are known, the genes."""
        self.where = where
        self.place = place = f"{where[0]}[{where[1]}]{f' ({name})' if name else ''}"
        about = f" ({', '.join(genes)})" if genes else ""
        super().__init__(
            tr(
                "{place}: cannot be, given what was recorded before it{about}; check the forms and parents",
                place=place,
                about=about,
            )
        )


def beliefs(plan: Plan, genetics: Genetics) -> dict[str, tuple[Floats, ...]]:
    """Posterior of every animal: per unit of `genetics`, chances over its genotypes ([size], sums to 1).

    genetics: of the plan, or restricted; evidence on genes left out still counts where they are linked.
    Errors: ImpossibleEvidence, TooEntangled.
    """
    per_unit = [_unit_beliefs(plan, unit) for unit in genetics.units]
    return {animal.id: tuple(found[animal.id] for found in per_unit) for animal in plan.my_animals}


def is_possible(plan: Plan) -> bool:
    """Whether genotypes are known that explain all records; not where these hang together too closely to tell."""
    try:
        beliefs(plan, compile_genetics(plan.genes, plan.linkage, plan.species))
    except (ImpossibleEvidence, TooEntangled):
        return False
    return True


def joint(plan: Plan, genetics: Genetics, ids: Sequence[str]) -> tuple[Floats, ...]:
    """Joint posterior of some different animals: per unit, one axis of genotypes per id, in that order; sums to 1.

    Errors: ImpossibleEvidence, TooEntangled.
    """
    return tuple(_unit_joint(plan, unit, ids) for unit in genetics.units)


def draw(
    plan: Plan, genetics: Genetics, ids: Sequence[str], runs: int, rng: np.random.Generator
) -> tuple[NDArray[np.intp], ...]:
    """Genotypes of some animals drawn together from their joint posterior: per unit [runs, ids].

    For groups too large for `joint`. Errors: ImpossibleEvidence, TooEntangled.
    """
    return tuple(_unit_draw(plan, unit, ids, runs, rng) for unit in genetics.units)


def belief_report(plan: Plan) -> dict[str, dict[str, dict[str, float]]]:
    """Per animal, per gene (or joined ids of a linked set), the genotypes as written with their chances.

    Genotypes of chance 0 are left out. Errors: ImpossibleEvidence, TooEntangled.
    """
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    return {
        animal: {
            " ".join(unit.genes): {unit.text(g): float(chances[g]) for g in range(unit.size) if chances[g] > 0}
            for unit, chances in zip(genetics.units, found, strict=True)
            if unit.genes
        }
        for animal, found in beliefs(plan, genetics).items()
    }


def _unit_beliefs(plan: Plan, unit: Unit) -> dict[str, Floats]:
    evidence, known = _checked(plan, unit)
    shown = _shown_as(evidence.unit, unit)
    with _named(known):
        found = marginals(evidence.tables, evidence.sizes)
    return {i: found.get(v, np.ones(1)) @ shown[evidence.able[v]] for i, v in known.place.items()}


def _unit_joint(plan: Plan, unit: Unit, ids: Sequence[str]) -> Floats:
    check_size(unit.size ** len(ids))
    evidence, known = _checked(plan, unit)
    shown = _shown_as(evidence.unit, unit)
    variables = [known.place[i] for i in ids]
    ascending = sorted(variables)
    check_size(prod(max(len(evidence.able[v]), unit.size) for v in variables))
    with _named(known):
        logs = eliminate(evidence.tables, evidence.sizes, [v for v in variables if v in evidence.sizes]).logs
    chances: Floats = np.exp(logs - logs.max()).reshape([len(evidence.able[v]) for v in ascending])
    for axis, v in enumerate(ascending):
        chances = np.moveaxis(np.tensordot(chances, shown[evidence.able[v]], axes=(axis, 0)), -1, axis)
    chances /= chances.sum()
    return chances.transpose([ascending.index(v) for v in variables])


def _unit_draw(plan: Plan, unit: Unit, ids: Sequence[str], runs: int, rng: np.random.Generator) -> NDArray[np.intp]:
    evidence, known = _checked(plan, unit)
    shown = _shown_as(evidence.unit, unit).argmax(axis=1)
    with _named(known):
        states = draws(evidence.tables, evidence.sizes, runs, rng)
    sure = np.zeros(runs, dtype=np.intp)
    columns = [shown[evidence.able[v]][states.get(v, sure)] for v in (known.place[i] for i in ids)]
    return np.stack(columns, axis=1)


def _checked(plan: Plan, unit: Unit) -> tuple[Evidence, Herd]:
    """The evidence on a unit, known to be possible; on the unit widened by linked genes that were seen."""
    known = herd(plan)
    genetics, wide = _widened(plan, unit)
    with _named(known):
        evidence = Evidence(wide, genetics, known)
        if _possible(evidence):
            return evidence, known
        items = len(known.animals) + len(known.clutches)
        # More evidence never makes the impossible possible, so the first item that cannot be is found by halving.
        first = bisect_left(range(items), True, key=lambda n: not _possible(Evidence(wide, genetics, known, n + 1)))
        raise ImpossibleEvidence(*_place(plan, known, first), wide.genes)


@contextmanager
def _named(known: Herd) -> Iterator[None]:
    """Tells which animals hang together where that is too much for an exact sum."""
    try:
        yield
    except TooEntangled as error:
        if not error.variables:
            raise
        names = [known.animals[v].name or known.animals[v].id for v in error.variables]
        message = tr(
            "{names} hang together too closely, by common parents, mates and young: {error}",
            names=", ".join(names),
            error=error,
        )
        raise TooEntangled(message, error.variables) from None


def _possible(evidence: Evidence) -> bool:
    if any(not table.scope and np.isneginf(table.logs) for table in evidence.tables):
        return False
    return bool(np.isfinite(eliminate(evidence.tables, evidence.sizes).logs))


def _place(plan: Plan, known: Herd, item: int) -> tuple[tuple[str, int], str]:
    if item < len(known.animals):
        animal = known.animals[item]
        return ("my_animals", plan.my_animals.index(animal)), animal.name or animal.id
    return ("clutch_records", item - len(known.animals)), ""


def _widened(plan: Plan, unit: Unit) -> tuple[Genetics, Unit]:
    """The unit with every gene of its own that is asked about or that evidence names."""
    seen = {gene for animal in plan.my_animals for gene in animal.forms}
    seen |= {gene for clutch in plan.clutch_records for row in clutch.young for gene in row.forms}
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species).restrict(seen.union(unit.genes))
    if unit.sexes is not None:
        return genetics, genetics.units[-1]
    return genetics, next(wide for wide in genetics.units if wide.row == unit.row)


def _shown_as(wide: Unit, unit: Unit) -> Floats:
    """Which genotype of `unit` each one of `wide` is once the genes that `unit` leaves out are dropped: 0 or 1."""
    kept = [[locus.gene for locus in wide.loci].index(locus.gene) for locus in unit.loci]
    shown = np.zeros((wide.size, unit.size))
    for g, (one, two) in enumerate(wide.genotypes):
        shown[g, unit.find(tuple(one[k] for k in kept), tuple(two[k] for k in kept))] = 1.0
    return shown

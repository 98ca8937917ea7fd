"""What one more clutch of a pair would tell about each of the two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.genetics.beliefs import joint
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.units import Floats, Unit
from core.plan.genotypes import NORMAL, mutants
from core.plan.model import Plan
from core.routes.prepare import biology


@dataclass(frozen=True, eq=False)
class Telling:
    """One gene of a pair. Arrays run over n = 0.. further young that all look normal for the gene: [most + 1].

    `sire`, `dam`: the chance that each carries the gene after n such young, 0 where so many cannot be (`visual` is 1).
    `visual`: the chance that one at least of n shows it. `clutch`: that chance for one clutch that is laid and not
    lost, its size and losses as the plan's species has them. `sire_shown`, `dam_shown`: the chance that each carries
    it after one young that shows it; below 1 where the other may give that look alone.
    """

    gene: str
    sire: Floats
    dam: Floats
    visual: Floats
    clutch: float
    sire_shown: float
    dam_shown: float

    def needed(self, parent: Floats, most: float) -> int | None:
        """The least number of normal young after which the chance that this parent carries is `most` or less."""
        below = np.flatnonzero(parent <= most + 1e-12)
        return int(below[0]) if below.size else None


def telling(plan: Plan, sire: str, dam: str, gene: str, most: int = 30) -> Telling:
    """What further young of two of my animals would say of a gene.

    Errors: ImpossibleEvidence, TooEntangled.
    """
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species).restrict({gene})
    where = next(k for k, unit in enumerate(genetics.units) if gene in unit.genes)
    unit = genetics.units[where]
    together = joint(plan, genetics, [sire, dam])[where]
    normal = _normal_share(unit, gene, together)
    shown = together * (1 - normal)
    shown /= max(float(shown.sum()), 1e-300)
    powers = normal[None] ** np.arange(most + 1)[:, None, None]
    left = together * powers
    total = left.sum(axis=(1, 2))
    carries = carriers(unit, gene)
    after = np.where(total > 0, total, 1.0)
    return Telling(
        gene=gene,
        sire=left.sum(axis=2) @ carries / after,
        dam=left.sum(axis=1) @ carries / after,
        visual=1 - total,
        clutch=_shown_in_clutch(plan, *_visual_eggs(plan, genetics, [sire, dam], gene)),
        sire_shown=float(shown.sum(axis=1) @ carries),
        dam_shown=float(shown.sum(axis=0) @ carries),
    )


def carrier_chance(plan: Plan, animal: str, gene: str) -> float:
    """The chance that one of my animals carries a gene. Errors: ImpossibleEvidence, TooEntangled."""
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species).restrict({gene})
    where = next(k for k, unit in enumerate(genetics.units) if gene in unit.genes)
    return float(joint(plan, genetics, [animal])[where] @ carriers(genetics.units[where], gene))


def _normal_share(unit: Unit, gene: str, together: Floats) -> Floats:
    """Chance that a hatched young of each two genotypes looks normal for the gene; 1 where none can hatch."""
    looks = unit.fits({gene: NORMAL}) & ~unit.lethal
    share = np.ones_like(together)
    for sire, dam in zip(*together.nonzero(), strict=True):
        cross = unit.cross(int(sire), int(dam))
        viable = float(cross[~unit.lethal].sum())
        if viable > 0:
            share[sire, dam] = float(cross[looks].sum()) / viable
    return share


def _visual_eggs(plan: Plan, genetics: Genetics, pair: Sequence[str], gene: str) -> tuple[Floats, Floats]:
    """The chances that a fertile egg is viable and shows the gene that the two may truly have, and their weights.

    A gene with lethal genotypes has a say wherever it lies.
    """
    chances, weights = np.ones(1), np.ones(1)
    for unit, together in zip(genetics.units, joint(plan, genetics, pair), strict=True):
        able = ~unit.lethal
        if gene in unit.genes:
            able &= ~unit.fits({gene: NORMAL})
        elif able.all():
            continue
        pairs = [(int(s), int(d)) for s, d in zip(*together.nonzero(), strict=True)]
        hits = np.array([unit.cross(s, d)[able].sum() for s, d in pairs])
        every = np.outer(chances, hits.round(15)).ravel()
        shares = np.outer(weights, [together[one] for one in pairs]).ravel()
        chances, place = np.unique(every, return_inverse=True)
        weights = np.bincount(place.ravel(), weights=shares).astype(np.float64)
    return chances, weights


def _shown_in_clutch(plan: Plan, chances: Floats, weights: Floats) -> float:
    """The chance that a clutch shows one at least, some of its eggs never hatching."""
    known = biology(plan.species)
    misses = 1 - chances * known.fertile * known.hatches
    sizes = np.arange(len(known.sizes))
    return float(weights @ (1 - misses[:, None] ** sizes @ known.sizes))


def carriers(unit: Unit, gene: str) -> Floats:
    """Which genotypes have a mutant allele of the gene."""
    place = next(k for k, locus in enumerate(unit.loci) if locus.gene == gene)
    return np.array([bool(mutants((one[place], two[place]))) for one, two in unit.genotypes], dtype=np.float64)

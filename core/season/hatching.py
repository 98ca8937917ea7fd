"""What young of two of my animals can look like, given all that is believed of the two."""

from __future__ import annotations

from dataclasses import dataclass

from core.genetics.beliefs import joint
from core.genetics.compile import compile_genetics
from core.genetics.units import Floats, Unit
from core.plan.genotypes import NORMAL
from core.plan.model import Forms, Plan

# More looks than this no hatching day has.
MOST_LOOKS = 12
# Less likely looks are left out on the way: a person can still name them.
_MOST_KEPT = 64
_LEAST = 1e-9


@dataclass(frozen=True)
class Look:
    """A visible form of the young, by gene, and its share among those that hatch."""

    forms: Forms
    share: float


def looks(plan: Plan, sire: str, dam: str) -> tuple[Look, ...]:
    """The likeliest looks of a pair's young, at most `MOST_LOOKS`, normal ones first and then by share.

    Genes that are normal in every young are left out of the forms. Errors: ImpossibleEvidence, TooEntangled.
    """
    genetics = compile_genetics(plan.genes, plan.linkage, plan.species)
    found: list[Look] = [Look({}, 1.0)]
    for unit, together in zip(genetics.units, joint(plan, genetics, [sire, dam]), strict=True):
        shares = _of_unit(unit, together)
        found = [Look({**one.forms, **forms}, one.share * share) for one in found for forms, share in shares]
        found = sorted(found, key=_rarest)[:_MOST_KEPT]
    likely = [one for one in found if one.share > _LEAST][:MOST_LOOKS]
    return tuple(sorted(likely, key=_normal_first))


def _of_unit(unit: Unit, together: Floats) -> list[tuple[Forms, float]]:
    """The unit's looks among hatched young; a gene is named where some young is not normal for it."""
    shares: dict[tuple[str, ...], float] = {}
    for sire, dam in zip(*together.nonzero(), strict=True):
        cross = unit.cross(int(sire), int(dam))
        for young in cross.nonzero()[0]:
            if not unit.lethal[young]:
                seen = unit.forms[young]
                shares[seen] = shares.get(seen, 0.0) + float(together[sire, dam] * cross[young])
    total = sum(shares.values())
    if total <= 0:
        return [({}, 1.0)]
    named = [k for k in range(len(unit.genes)) if any(seen[k] != NORMAL for seen in shares)]
    return [({unit.genes[k]: seen[k] for k in named}, share / total) for seen, share in shares.items()]


def _rarest(one: Look) -> float:
    return -one.share


def _normal_first(one: Look) -> tuple[int, float]:
    return (sum(form != NORMAL for form in one.forms.values()), -one.share)

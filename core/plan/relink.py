"""Linked sets changed, with everything that animals carry written anew for them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec.structs import replace

from core.plan.chances import exact, summed
from core.plan.genotypes import WILD
from core.plan.mapped import map_carries
from core.plan.model import Carries, Chance, Linkage, Plan, Sex

Entry = str | Mapping[str, Chance]
_NORMAL = f"{WILD}/{WILD}"


def with_linkage(plan: Plan, linkage: tuple[Linkage, ...]) -> Plan:
    """Give the plan with other linked sets; known sides are kept where they still say something.

    Linked genes are autosomal, so a gene that an animal does not name is wild type in both sexes.
    """
    new = {" ".join(row.genes): row.genes for row in linkage}
    old = {" ".join(row.genes): row.genes for row in plan.linkage}

    def change(carries: Carries, _sex: Sex) -> Carries:
        return _relinked(carries, old, new)

    return map_carries(replace(plan, linkage=linkage), change)


def without_linked(linkage: Iterable[Linkage], gene: str) -> tuple[Linkage, ...]:
    """Give the linked sets without one gene: its neighbours become neighbours, sets of one are none."""
    return tuple(row for row in (_without(row, gene) for row in linkage) if row is not None)


def _without(row: Linkage, gene: str) -> Linkage | None:
    if gene not in row.genes:
        return row
    place = row.genes.index(gene)
    genes = (*row.genes[:place], *row.genes[place + 1 :])
    shares = list(row.recombination)
    if 0 < place < len(row.genes) - 1:
        # One crossing over of two makes a difference between the outer ones, both together none.
        one, two = (exact(share) for share in shares[place - 1 : place + 1])
        shares[place - 1 : place + 1] = [float(one * (1 - two) + two * (1 - one))]
    else:
        del shares[min(place, len(shares) - 1)]
    return replace(row, genes=genes, recombination=tuple(shares)) if len(genes) > 1 else None


def _relinked(carries: Carries, old: Mapping[str, tuple[str, ...]], new: Mapping[str, tuple[str, ...]]) -> Carries:
    found: Carries = {}
    for key, entry in carries.items():
        if key in old and key not in new:
            found.update(_moved(old[key], entry, carries, new))
        else:
            found.setdefault(key, entry)
    joined = {gene for key in found if key in new for gene in new[key]}
    return {key: entry for key, entry in found.items() if key in new or key not in joined}


def _moved(genes: tuple[str, ...], entry: Entry, carries: Carries, new: Mapping[str, tuple[str, ...]]) -> Carries:
    """One entry of a set that is no more: as part of a new set where it can be, else gene by gene."""
    left = list(genes)
    found: Carries = {}
    for key, row in new.items():
        shared = [gene for gene in row if gene in genes]
        others = {gene: carries.get(gene, _NORMAL) for gene in row if gene not in genes}
        if len(shared) > 1 and all(_is_pure(one) for one in others.values()):
            found[key] = _columns(row, genes, entry, {gene: str(one) for gene, one in others.items()})
            left = [gene for gene in left if gene not in shared]
    for gene in left:
        alone = _columns((gene,), genes, entry, {})
        if alone != _NORMAL:
            found[gene] = alone
    return found


def _is_pure(entry: Entry) -> bool:
    return isinstance(entry, str) and len(set(entry.split("/"))) == 1


def _columns(
    wanted: tuple[str, ...], genes: tuple[str, ...], entry: Entry, others: Mapping[str, str]
) -> str | dict[str, Chance]:
    """An entry of the set `genes` as one of the set `wanted`; `others` are pure, so their sides do not matter."""

    def turned(text: str) -> str:
        halves = [dict(zip(genes, half.split(" "), strict=True)) for half in text.split("/")]
        pure = {gene: one.split("/")[0] for gene, one in others.items()}
        sides = [" ".join({**half, **pure}[gene] for gene in wanted) for half in halves]
        return "/".join(sorted(sides, key=_written_order))

    if isinstance(entry, str):
        return turned(entry)
    total = summed((turned(text), share) for text, share in entry.items())
    return next(iter(total)) if len(total) == 1 else total


def _written_order(side: str) -> tuple[int, list[bool], str]:
    """The side with most mutant alleles first, as plans write them."""
    parts = side.split(" ")
    return parts.count(WILD), [part == WILD for part in parts], side

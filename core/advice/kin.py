"""Cautions on young of related parents."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from core.advice.caution import Caution, caution_key
from core.advice.wording import share as share_of
from core.explain.naming import id_words
from core.explain.numbers import Numbers, listed
from core.plan.model import Held, Pairing, Plan, Route
from core.routes.inbreeding import inbreeding_by_pairing
from core.text import tr

_WRIGHT = "Wright 1922, American Naturalist 56:330-338"
_ADDERS = "Madsen, Stille and Shine 1996, Biological Conservation 75:113-118"
# What a share is usually met as.
_KNOWN = {
    Fraction(1, 4): tr("as much as young of full siblings, or of a parent and its young"),
    Fraction(1, 8): tr("as much as young of half siblings"),
    Fraction(1, 16): tr("as much as young of first cousins"),
}


def kin_cautions(plan: Plan, route: Route, numbers: Numbers) -> Iterator[Caution]:
    """A caution for every pairing whose young are inbred; F is a floor, as founders may be related."""
    found = inbreeding_by_pairing(plan, route)
    for pairing in route.pairings:
        share = found[pairing.id]
        if share:
            yield _caution(route, pairing, share, share_of(share, numbers))
        elif share is None and _share_forebears(route, pairing):
            yield _without_end(route, pairing)


def _caution(route: Route, pairing: Pairing, share: float, written: str) -> Caution:
    known = _KNOWN.get(Fraction(share).limit_denominator(64), "")
    likeness = f", {known}" if known and abs(share - float(Fraction(share).limit_denominator(64))) < 1e-9 else ""
    # Of several groups the closest relatives count.
    most = tr("up to ") if len(pairing.males) * len(pairing.females) > 1 else ""
    return Caution(
        key=caution_key("inbreeding", route.id, pairing.id),
        kind="inbreeding",
        route=route.id,
        short=tr("{relation}, {written} inbred", relation=_relation(route, pairing), written=written),
        sentence=tr(
            "Young of {names} are {most}{written} inbred{likeness}.",
            names=_names(pairing),
            most=most,
            written=written,
            likeness=likeness,
        ),
        why=tr(
            "At each place in its genes such a young has a chance of {written} to have got the same "
            "copy twice from one ancestor, faulty copies too. In isolated wild adders inbreeding went "
            "with smaller litters and more deformed and stillborn young. The figure is the least it "
            "can be: bought animals are taken as unrelated.",
            written=written,
        ),
        source=f"{_WRIGHT}; {_ADDERS}",
    )


def _without_end(route: Route, pairing: Pairing) -> Caution:
    """A group is held back from its own young, so that no one figure holds for all of them."""
    return Caution(
        key=caution_key("inbreeding", route.id, pairing.id),
        kind="inbreeding",
        route=route.id,
        short=tr("Relatives paired, again and again"),
        sentence=tr("Young of {names} can be inbred, more so with every generation.", names=_names(pairing)),
        why=tr(
            "Young are held back to breed in the pairing they come from, so no one figure holds for "
            "all of them. Young of a parent and its young, or of full siblings, are 25 % inbred, and "
            "those of later generations more. In isolated wild adders inbreeding went with smaller "
            "litters and more deformed and stillborn young."
        ),
        source=f"{_WRIGHT}; {_ADDERS}",
    )


def _names(pairing: Pairing) -> str:
    return f"{listed([id_words(one) for one in pairing.males])} × {listed([id_words(one) for one in pairing.females])}"


def _share_forebears(route: Route, pairing: Pairing) -> bool:
    return not _forebears(route, pairing.males).isdisjoint(_forebears(route, pairing.females))


def _forebears(route: Route, names: Sequence[str]) -> set[str]:
    """These groups and all that they come from."""
    groups = {group.id: group for group in route.groups}
    sources = {one.id: one for one in route.pairings}
    waiting, seen = list(names), set[str]()
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            group = groups[name]
            if isinstance(group, Held):
                waiting += [parent for one in group.source for parent in (*sources[one].males, *sources[one].females)]
    return seen


def _relation(route: Route, pairing: Pairing) -> str:
    """What the first related groups are to each other."""
    groups = {group.id: group for group in route.groups}
    sources = {one.id: one for one in route.pairings}
    for male in pairing.males:
        for female in pairing.females:
            him, her = groups[male], groups[female]
            father = sources[her.source[0]] if isinstance(her, Held) else None
            mother = sources[him.source[0]] if isinstance(him, Held) else None
            if father and male in father.males:
                return tr("Father to daughter")
            if mother and female in mother.females:
                return tr("Mother to son")
            if father and father is mother:
                return tr("Siblings paired")
    return tr("Relatives paired")

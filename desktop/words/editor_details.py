"""The words below the lines of the route editor: what a pairing gives, which young are held back, which are mine."""

from __future__ import annotations

from core.explain.numbers import Numbers
from core.plan.model import Animal, Held, Owned, Pairing, Plan, Route
from core.plan.sexes import sexed
from core.text import tr
from desktop.editor.parts import Where
from desktop.findings import Finding
from desktop.words.animals import of_mine
from desktop.words.editor import animals_text, look, short_title
from desktop.words.names import name_of, shortened

FROM_MY_ANIMALS = tr(
    "What they carry is what is believed of them under my animals, with their parents and their clutches."
)
_RAREST = 10_000


def held_title(plan: Plan, group: Held) -> str:
    """`Daughters: up to 4 females, amel first`."""
    first = tr(", {look} first", look=look(plan, group.pick[0])) if group.pick[0] and len(group.pick) > 1 else ""
    only = tr(", {look} only", look=look(plan, group.pick[0])) if group.pick[0] and len(group.pick) == 1 else ""
    return tr(
        "{short_title}: up to {animals}{first}{only}",
        short_title=short_title(group.id),
        animals=sexed(group.count, group.sex),
        first=first,
        only=only,
    )


def looks_head(place: int, of: int) -> str:
    """What the rows of forms are about."""
    if of == 1:
        return tr("Held back are young that look like this:")
    return (
        tr("Held back first are young that look like this:")
        if place == 0
        else tr("Held back in place {place}:", place=place + 1)
    )


def mine_title(plan: Plan, group: Owned) -> str:
    """`Dams: Juniper and Hazel`."""
    name, animals = short_title(group.id), animals_text(plan, group.animals or ())
    return name if name == animals else f"{name}: {animals}"


def animal_label(plan: Plan, route: Route, group: Owned, one: Animal) -> str:
    """One of my animals with what it carries, and where else in the route it is."""
    name = one.name or one.id
    what = f": {of_mine(plan, one)}" if one.carries else ""
    other = next(
        (g.id for g in route.groups if isinstance(g, Owned) and g.id != group.id and one.id in (g.animals or ())), None
    )
    return f"{name}{what}" + (tr(" (already in {short_title})", short_title=short_title(other)) if other else "")


def pairing_title(pairing: Pairing) -> str:
    """`First pairing: sire × dams`."""
    sides = " × ".join(
        ", ".join(shortened(name_of(name)) for name in side) for side in (pairing.males, pairing.females)
    )
    return f"{short_title(pairing.id)}: {sides}"


def pairing_facts(at: Where, finding: Finding | None, numbers: Numbers) -> str:
    """What an egg of it gives, and how related its young are."""
    result = finding.drawn if finding is not None else None
    if result is None or finding is None or finding.stale:
        return ""
    parts = [_per_egg(at.plan, result.per_egg.get(at.id), numbers)]
    inbred = result.inbreeding.get(at.id)
    if inbred:
        share = numbers.decimal(inbred * 100, 2).rstrip("0").rstrip(".,")
        parts.append(tr("Its young are {share} % inbred: their parents are kin.", share=share))
    males = [group for group in at.route.groups if group.id in at.pairing.males]
    if len(males) > 1:
        parts.append(tr("The males are the first of these that are breeder-size; the others wait."))
    parts.append(_load(at, [group.id for group in males]))
    return " ".join(part for part in parts if part)


def _per_egg(plan: Plan, chance: float | None, numbers: Numbers) -> str:
    what = tr("an egg of this pairing") if plan.species.young == "eggs" else tr("a young of this pairing")
    if chance is None:
        return ""
    if chance <= 0:
        return tr("No wanted animal comes from {what}.", what=what)
    one_of = round(1 / chance)
    if one_of >= _RAREST:
        return tr("Fewer than 1 in {rarest} is wanted of what {what} gives.", rarest=numbers.whole(_RAREST), what=what)
    return tr(
        "About 1 in {one_of}: the chance that {what} gives a wanted animal.", one_of=numbers.whole(one_of), what=what
    )


def _load(at: Where, males: list[str]) -> str:
    most = at.plan.species.females_per_male
    return tr("A male can serve {n} females a season.", "A male can serve {n} female a season.", most) if males else ""

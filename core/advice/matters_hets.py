"""What possible hets are taken to carry, as assumptions: one for each kind of animal and each gene it may carry."""

from __future__ import annotations

from collections.abc import Iterator

from core.advice.matters_ranges import Assumption, Put
from core.explain.animals import animal
from core.explain.numbers import listed
from core.plan.chances import chance
from core.plan.mapped import map_carries
from core.plan.model import Bought, Carries, Chance, Hidden, Owned, Plan, Sex
from core.plan.sexes import sex_words
from core.text import tr

# Not mutant: wild type, and the names of chromosomes.
_PLAIN = frozenset("+WXYZ")
# Of parents that were not what the label says, three quarters as many carry it: 50 of 100 for 66 of 100.
_LESS, _MORE = 3 / 4, 4 / 3
_WHY = tr("A 66 % label is really 50 % where only one parent carried the gene, and a 50 % one 66 % where both did.")
# More kinds of possible hets than this are a list that nobody reads.
_MOST = 20


def het_assumptions(plan: Plan) -> Iterator[Assumption]:
    """The odds of each possible het that a route breeds from."""
    seen: list[tuple[Sex, Carries]] = []
    many = 0
    for sex, carries in _kinds(plan):
        if (sex, carries) in seen:
            continue
        seen.append((sex, carries))
        for gene, hidden in carries.items():
            share = None if isinstance(hidden, str) else carriers(hidden)
            if share is None or not 0 < share < 1 or many == _MOST:
                continue
            many += 1
            yield _assumption(plan, sex, carries, gene, share)


def carriers(hidden: Hidden) -> float:
    """The chance to carry anything at all of a hidden genotype."""
    return sum(chance(share) for genotype, share in hidden.items() if _mutant(genotype))


def with_share(hidden: Hidden, share: float) -> Hidden:
    """The same hidden genotype with another chance to carry anything."""
    old = carriers(hidden)
    parts: dict[str, Chance] = {}
    for genotype, each in hidden.items():
        factor = share / old if _mutant(genotype) else (1 - share) / (1 - old)
        if chance(each) * factor > 0:
            parts[genotype] = chance(each) * factor
    return parts


def _assumption(plan: Plan, sex: Sex, carries: Carries, gene: str, share: float) -> Assumption:
    named = tr(" and ").join(one.name.lower() for one in plan.genes if one.id in gene.split(" "))
    mine = [one.name or one.id for one in plan.my_animals if (one.sire, one.sex, one.carries) == (None, sex, carries)]
    name = tr(
        "{animal} {sexes} that carry {named}",
        animal=_capital(animal(plan, carries)),
        sexes=sex_words(sex, 2),
        named=named,
    )
    if mine:
        name = tr(
            "Odds that {mine} carry {named}",
            "Odds that {mine} carries {named}",
            len(mine),
            mine=listed(mine[:3]),
            named=named,
        )
    key = f"het/{sex}/{animal(plan, carries)}/{gene}"
    high = min(1.0, share * _MORE)
    return Assumption(
        key,
        name,
        "chance",
        share,
        share * _LESS,
        high,
        0.01,
        _WHY,
        "what the word can mean",
        _put(sex, carries, gene),
    )


def _put(sex: Sex, carries: Carries, gene: str) -> Put:
    def change(its: Carries, of: Sex, value: float) -> Carries:
        hidden = its.get(gene)
        if of != sex or its != carries or hidden is None or isinstance(hidden, str):
            return its
        return {**its, gene: with_share(hidden, value)}

    def put(plan: Plan, value: float) -> Plan:
        return map_carries(plan, lambda its, of: change(its, of, value))

    return put


def _kinds(plan: Plan) -> Iterator[tuple[Sex, Carries]]:
    """What the founders of all routes carry, and the animals of mine that others may descend from."""
    for route in plan.routes:
        for group in route.groups:
            if isinstance(group, Bought) or (isinstance(group, Owned) and group.carries is not None):
                yield group.sex, group.carries or {}
    for mine in plan.my_animals:
        if mine.sire is None:
            yield mine.sex, mine.carries


def _mutant(genotype: str) -> bool:
    return any(part not in _PLAIN for half in genotype.split("/") for part in half.split(" "))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

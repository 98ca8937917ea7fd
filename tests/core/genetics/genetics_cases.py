"""Small genetics to cross, and crosses summed up by what the young look like."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import product
from math import prod

from core.genetics.compile import Genetics, compile_genetics
from core.genetics.young import Condition, Judge
from core.plan.model import Carries, Clutch, Forms, Gene, Linkage, Matures, SexSystem, Species


def species(sex_system: SexSystem = "ZW", **more: float) -> Species:
    return Species(
        name="Test", sex_system=sex_system, clutch=Clutch(fixed=6), matures=Matures(male=2, female=3), **more
    )


def recessive(name: str, **more: object) -> Gene:
    """A gene with one recessive allele named as the gene is, whose form is "visual"."""
    return Gene(id=name, name=name, alleles=(name,), forms={f"{name}/{name}": "visual"}, **more)


def genetics(*genes: Gene, sex_system: SexSystem = "ZW", linkage: tuple[Linkage, ...] = (), **more: float) -> Genetics:
    return compile_genetics(genes, linkage, species(sex_system, **more))


def het(*genes: str) -> Carries:
    return {gene: f"{gene}/+" for gene in genes}


def vis(*genes: str) -> Carries:
    return {gene: f"{gene}/{gene}" for gene in genes}


def pairs(one: Genetics, sire: Carries, dam: Carries) -> dict[tuple[tuple[int, ...], tuple[int, ...]], float]:
    """Every pair of true genotypes that the parents may be, with its chance."""
    sires, dams = one.prior(sire, "male"), one.prior(dam, "female")
    ranges = [range(unit.size) for unit in one.units]
    weight = {
        sex: {g: prod(p[k] for p, k in zip(prior, g, strict=True)) for g in product(*ranges)}
        for sex, prior in (("sire", sires), ("dam", dams))
    }
    return {(s, d): p * q for s, p in weight["sire"].items() if p > 0 for d, q in weight["dam"].items() if q > 0}


def genotypes(one: Genetics, sire: Carries, dam: Carries) -> dict[tuple[str, ...], float]:
    """Chance of each genotype, as text per unit, among the young that hatch."""
    total: dict[tuple[str, ...], float] = {}
    judge = Judge(one, ())
    for (s, d), weight in pairs(one, sire, dam).items():
        for (_, young), chance in judge.genotypes(s, d).items():
            key = tuple(unit.text(g) for unit, g in zip(one.units, young, strict=True))
            total[key] = total.get(key, 0.0) + weight * chance
    hatched = sum(total.values())
    return {key: chance / hatched for key, chance in total.items()}


def looks(one: Genetics, sire: Carries, dam: Carries) -> dict[tuple[str, ...], float]:
    """Chance of each set of forms (one a gene, then the sex if it is chromosomal) among the young that hatch."""
    by_text = [{u.text(g): (*u.forms[g], *filter(None, [u.sex[g]])) for g in range(u.size)} for u in one.units]
    total: dict[tuple[str, ...], float] = {}
    for key, chance in genotypes(one, sire, dam).items():
        look = tuple(word for unit, text in zip(by_text, key, strict=True) for word in unit[text])
        total[look] = total.get(look, 0.0) + chance
    return total


def unsexed(of: Mapping[tuple[str, ...], float]) -> dict[tuple[str, ...], float]:
    """The same with the last word, the sex, summed over."""
    total: dict[tuple[str, ...], float] = {}
    for key, chance in of.items():
        total[key[:-1]] = total.get(key[:-1], 0.0) + chance
    return total


def chance_of(one: Genetics, forms: Forms, sire: Carries, dam: Carries, sex: str = "any") -> float:
    """Chance that a fertile egg becomes a young that fits, averaged over what the parents may be."""
    judge = Judge(one, [Condition(forms, sex)])
    return sum(weight * judge.masks(s, d).get(1, 0.0) for (s, d), weight in pairs(one, sire, dam).items())


def visual(*genes: str) -> Forms:
    return dict.fromkeys(genes, "visual")

"""Each pairing gene by gene: what sire and dam pass on, as grids, and the fractions multiplied to one egg's chance."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from core.explain.averaged import Carried
from core.explain.filled import carried_by, season_matings
from core.explain.grids import Grid, grid_of
from core.explain.naming import condition_words, member_words, pairing_words
from core.genetics.young import Condition
from core.plan.sexes import sex_words
from core.routes.calendar import Animal, Mating
from core.routes.problem import Genotype, Problem


@dataclass(frozen=True)
class Factor:
    """One fraction of the product, and what it is the chance of."""

    words: str
    chance: float


@dataclass(frozen=True)
class Parent:
    """Who one parent is, what it is taken to carry in the grids, and the chance that it does.

    alone: whether nothing else that it may carry gives what is asked for.
    """

    words: str
    carries: Genotype
    chance: float
    alone: bool

    @property
    def is_sure(self) -> bool:
        """Whether it carries that for sure."""
        return self.chance > 1 - 1e-12


@dataclass(frozen=True)
class Cross:
    """One pairing and one thing that its young should be.

    `per_egg` is the chance of one egg from the parents as in the grids, `average` over all that they may carry;
    eggs that are lost are left out of both.
    """

    pairing: str
    words: str
    purpose: Literal["goal", "hold"]
    wanted: str
    sire: Parent
    dam: Parent
    grids: tuple[Grid, ...]
    factors: tuple[Factor, ...]
    per_egg: float
    average: float


def crosses(problem: Problem, full: Problem) -> tuple[Cross, ...]:
    """Every pairing's crosses, in the route's order: towards each goal row, and towards what is held back of it.

    problem: the route made ready; full: the same with its held groups full, which says who breeds.
    """
    pairs = _first_matings(full)
    found: list[Cross] = []
    for place, pair in sorted(pairs.items()):
        for purpose, bits in _targets(problem, place):
            tries = (_cross(problem, full, pair, purpose, problem.conditions[bit]) for bit in bits)
            found.append(_first_useful(list(tries)))
    useful = [cross for cross in found if cross.per_egg > 0]
    return tuple(useful or found[:1])


def unused(problem: Problem, full: Problem) -> tuple[str, ...]:
    """The pairings in which nobody ever breeds, by their words."""
    known = _first_matings(full)
    pairings = problem.route.pairings
    return tuple(pairing_words(pairing) for i, pairing in enumerate(pairings) if i not in known)


def fruitless(full: Problem, shown: tuple[Cross, ...]) -> tuple[str, ...]:
    """The pairings that breed but can give nothing that is wanted or held back, by their words."""
    pairings, told = full.route.pairings, {cross.pairing for cross in shown}
    return tuple(pairing_words(pairings[i]) for i in sorted(_first_matings(full)) if pairings[i].id not in told)


def _first_useful(tries: list[Cross]) -> Cross:
    """The first preference that can be met, else the first."""
    return next((cross for cross in tries if cross.per_egg > 0), tries[0])


def _first_matings(full: Problem) -> dict[int, Mating]:
    """The first mating of each pairing."""
    found: dict[int, Mating] = {}
    for season in range(1, full.breeding_seasons + 1):
        for mating in season_matings(full, season):
            found.setdefault(mating.pairing, mating)
    return found


def _targets(problem: Problem, pairing: int) -> Iterator[tuple[Literal["goal", "hold"], tuple[int, ...]]]:
    """Bits of the conditions that a pairing's young are bred for: goal rows, and preferences of what is held back."""
    for row in range(len(problem.wanted)):
        yield "goal", (row,)
    seen: list[list[Condition]] = []
    for herd in problem.herds:
        asked = [problem.conditions[pick] for pick in herd.picks]
        if pairing in herd.sources and asked not in seen:
            seen.append(asked)
            yield "hold", herd.picks


def _cross(
    problem: Problem, full: Problem, pair: Mating, purpose: Literal["goal", "hold"], condition: Condition
) -> Cross:
    sires, dams = carried_by(full, pair.male), carried_by(full, pair.female)
    chances = {(sire, dam): per_egg(problem, sire, dam, condition) for sire in sires for dam in dams}
    best = max(chances, key=lambda both: (round(chances[both], 12), sires[both[0]] * dams[both[1]]))
    pairing = problem.route.pairings[pair.pairing]
    grids, factors = _grids(problem, *best, condition)
    return Cross(
        pairing=pairing.id,
        words=pairing_words(pairing),
        purpose=purpose,
        wanted=condition_words(problem.plan, condition),
        sire=_parent(full, pair.male, sires, best[0], [chances[sire, best[1]] for sire in sires]),
        dam=_parent(full, pair.female, dams, best[1], [chances[best[0], dam] for dam in dams]),
        grids=grids,
        factors=factors,
        per_egg=chances[best],
        average=sum(sires[sire] * dams[dam] * chance for (sire, dam), chance in chances.items()),
    )


def _parent(full: Problem, animal: Animal, carried: Carried, shown: Genotype, chances: list[float]) -> Parent:
    """Who it is; it counts as carrying what is shown wherever that gives the same chance an egg."""
    best = max(chances)
    alike = sum(p for p, chance in zip(carried.values(), chances, strict=True) if abs(chance - best) < 1e-12)
    alone = all(chance <= 0 or abs(chance - best) < 1e-12 for chance in chances)
    return Parent(member_words(full, animal), shown, alike, alone)


def _grids(
    problem: Problem, sire: Genotype, dam: Genotype, condition: Condition
) -> tuple[tuple[Grid, ...], tuple[Factor, ...]]:
    genetics = problem.judge.genetics
    grids, factors = [], []
    for place, unit in enumerate(genetics.units):
        sexed = unit.sexes is not None and condition.sex != "any"
        asked = any(gene in condition.forms for gene in unit.genes)
        deadly = bool((unit.cross(sire[place], dam[place]) * unit.lethal).sum() > 0)
        if not (asked or deadly or (sexed and unit.genes)):
            if sexed and condition.sex != "any":
                factors.append(Factor(sex_words(condition.sex), 0.5))
            continue
        grid = grid_of(problem.plan, unit, sire[place], dam[place], condition)
        grids.append(grid)
        factors.append(Factor(grid.wanted, grid.chance))
    if genetics.sex_unit is None and condition.sex != "any":
        factors.append(Factor(sex_words(condition.sex), _drawn_sex(problem, condition)))
    return tuple(grids), tuple(factors)


def per_egg(problem: Problem, sire: Genotype, dam: Genotype, condition: Condition) -> float:
    """Chance that a fertile egg of two true genotypes fits a condition, eggs that are lost left out."""
    genetics = problem.judge.genetics
    chance = _drawn_sex(problem, condition)
    for place, unit in enumerate(genetics.units):
        fits = unit.fits(condition.forms, condition.sex) & ~unit.lethal
        chance *= float(unit.cross(sire[place], dam[place]) @ fits)
    return chance


def _drawn_sex(problem: Problem, condition: Condition) -> float:
    """The chance of the wanted sex where temperature decides it; else genes do."""
    genetics = problem.judge.genetics
    if genetics.sex_unit is not None or condition.sex == "any":
        return 1.0
    return genetics.female_share if condition.sex == "female" else 1 - genetics.female_share

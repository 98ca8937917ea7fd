"""What one fertile egg of a pair can become, judged by conditions on forms and sex."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from core.genetics.compile import Genetics
from core.genetics.units import Unit
from core.plan.model import AnySex, Forms

# For one part of the young: (mask, chance) of each set of conditions that part leaves possible.
Outcomes = tuple[tuple[int, float], ...]
Genotypes = tuple[int, ...]


class Condition(msgspec.Struct, frozen=True):
    """What a young must look like, and be: all named forms and the sex."""

    forms: Forms
    sex: AnySex = "any"


class Judge:
    """Conditions compiled against a genetics, for asking about many pairs.

    A young fits a condition when each of its units fits it, so its mask is the bitwise "and" of one mask per unit:
    only those masks are multiplied out, never the genotypes of all units.
    """

    def __init__(self, genetics: Genetics, conditions: Sequence[Condition]) -> None:
        """Compile; bit i of every mask stands for conditions[i]."""
        self.genetics = genetics
        self.full = (1 << len(conditions)) - 1
        self._masks = tuple(_unit_masks(unit, conditions) for unit in genetics.units)
        # Crosses whose young fit the same by the same chances have one number: most crosses of a plan are few such.
        self._crosses: dict[tuple[int, int, int], int] = {}
        self._outcomes: dict[Outcomes, int] = {}
        self._by_mask: dict[tuple[int, ...], Mapping[int, float]] = {}
        self._by_genotype: dict[tuple[int, int, int], tuple[tuple[int, int, float], ...]] = {}
        self._sex = _drawn_sex(genetics, conditions)

    def masks(self, sire: Genotypes, dam: Genotypes) -> Mapping[int, float]:
        """Chance of each mask among the fertile eggs of a pair; what is missing to 1 is lethal."""
        numbers = tuple(map(self._number, range(len(sire)), sire, dam))
        found = self._by_mask.get(numbers)
        if found is None:
            every = tuple(self._outcomes)
            found = self._by_mask[numbers] = self._joined([every[number] for number in numbers])
        return found

    def _joined(self, units: Sequence[Outcomes]) -> Mapping[int, float]:
        """What the outcomes of all units come to together."""
        total = {self.full: 1.0}
        for outcomes in (*units, self._sex):
            joined: dict[int, float] = {}
            for mask, weight in total.items():
                for other, chance in outcomes:
                    joined[mask & other] = joined.get(mask & other, 0.0) + weight * chance
            total = joined
        return total

    def genotypes(self, sire: Genotypes, dam: Genotypes) -> dict[tuple[int, Genotypes], float]:
        """Chance of each mask together with the young's genotype per unit; what is missing to 1 is lethal."""
        total: dict[tuple[int, Genotypes], float] = {(self.full, ()): 1.0}
        for unit, pair in enumerate(zip(sire, dam, strict=True)):
            outcomes = self._viable(unit, *pair)
            total = {
                (mask & other, (*so_far, genotype)): weight * chance
                for (mask, so_far), weight in total.items()
                for genotype, other, chance in outcomes
            }
        joined: dict[tuple[int, Genotypes], float] = {}
        for (mask, genotype), weight in total.items():
            for other, chance in self._sex:
                key = mask & other, genotype
                joined[key] = joined.get(key, 0.0) + weight * chance
        return joined

    def mask(self, genotype: Genotypes) -> int:
        """The conditions that an animal of this genotype fits; sex decided by temperature is not judged."""
        mask = self.full
        for masks, own in zip(self._masks, genotype, strict=True):
            mask &= masks[own]
        return mask

    def _viable(self, unit: int, sire: int, dam: int) -> tuple[tuple[int, int, float], ...]:
        """(genotype, mask, chance) of each genotype of one unit that can hatch."""
        key = unit, sire, dam
        found = self._by_genotype.get(key)
        if found is None:
            masks, lethal = self._masks[unit], self.genetics.units[unit].lethal
            chances = enumerate(self.genetics.units[unit].cross(sire, dam).tolist())
            found = tuple((g, masks[g], chance) for g, chance in chances if chance > 0 and not lethal[g])
            self._by_genotype[key] = found
        return found

    def _number(self, unit: int, sire: int, dam: int) -> int:
        """The number of a cross's outcomes: their place in `_outcomes`."""
        key = unit, sire, dam
        found = self._crosses.get(key)
        if found is None:
            total: dict[int, float] = {}
            for _, mask, chance in self._viable(unit, sire, dam):
                total[mask] = total.get(mask, 0.0) + chance
            found = self._crosses[key] = self._outcomes.setdefault(tuple(total.items()), len(self._outcomes))
        return found


def judge_of(genetics: Genetics, conditions: Sequence[Condition]) -> Judge:
    """The judge of these conditions, kept with the genetics: most routes of a plan ask for the same."""
    key = "judge", tuple((tuple(condition.forms.items()), condition.sex) for condition in conditions)
    return genetics.kept(key, lambda: Judge(genetics, conditions))


def young_masks(
    genetics: Genetics, conditions: Sequence[Condition], sire: Genotypes, dam: Genotypes
) -> Mapping[int, float]:
    """Chance of each mask (bit i: fits conditions[i]) among a pair's fertile eggs; what is missing to 1 is lethal."""
    return Judge(genetics, conditions).masks(sire, dam)


def young_genotypes(
    genetics: Genetics, conditions: Sequence[Condition], sire: Genotypes, dam: Genotypes
) -> dict[tuple[int, Genotypes], float]:
    """The same with the young's genotype per unit: (mask, genotype) to chance; for many pairs keep a `Judge`."""
    return Judge(genetics, conditions).genotypes(sire, dam)


def _unit_masks(unit: Unit, conditions: Sequence[Condition]) -> tuple[int, ...]:
    """Per genotype of a unit, the conditions it does not rule out."""
    masks = [0] * unit.size
    for bit, condition in enumerate(conditions):
        for genotype in unit.fits(condition.forms, condition.sex).nonzero()[0]:
            masks[genotype] |= 1 << bit
    return tuple(masks)


def _drawn_sex(genetics: Genetics, conditions: Sequence[Condition]) -> Outcomes:
    """Sex as one more part of the young that nobody inherits: a draw where temperature decides, else no say."""
    full = (1 << len(conditions)) - 1
    if genetics.sex_unit is not None:
        return ((full, 1.0),)
    male = sum(1 << bit for bit, condition in enumerate(conditions) if condition.sex != "female")
    female = sum(1 << bit for bit, condition in enumerate(conditions) if condition.sex != "male")
    share = genetics.female_share
    return tuple((mask, chance) for mask, chance in ((female, share), (male, 1 - share)) if chance > 0)

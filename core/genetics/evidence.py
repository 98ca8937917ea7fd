"""What a pedigree and its clutches say about one linkage unit, as tables over the animals' genotypes.

A young's chance given its parents' genotypes is a product over units, and so is the chance that it hatches; priors
are independent too. Evidence that names several genes and the sex at once therefore splits into one factor per unit,
and so do the beliefs: units can be worked out one by one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.genetics.carries import unit_prior
from core.genetics.compile import Genetics
from core.genetics.elimination import Table, check_size
from core.genetics.pedigree import ancestors_first
from core.genetics.units import Floats, Unit
from core.plan.model import Animal, AnySex, ClutchRecord, Plan

IMPOSSIBLE = Table((), np.array(-np.inf))


class Herd(msgspec.Struct, frozen=True):
    """The animals, ancestors first, and the clutches of a plan; a variable is an animal's place among them."""

    animals: tuple[Animal, ...]
    clutches: tuple[ClutchRecord, ...]
    place: Mapping[str, int]


def herd(plan: Plan) -> Herd:
    """The animals and clutches of a plan, in the order in which evidence is taken up."""
    by_id = {animal.id: animal for animal in plan.my_animals}
    order = ancestors_first({a.id: (a.sire, a.dam) if a.sire and a.dam else None for a in plan.my_animals})
    return Herd(tuple(by_id[i] for i in order), plan.clutch_records, {i: v for v, i in enumerate(order)})


class Evidence:
    """Tables over the animals' genotypes in one unit; `able[v]` are the genotypes that animal v may have."""

    def __init__(self, unit: Unit, genetics: Genetics, known: Herd, count: int | None = None) -> None:
        """Take up the evidence; with `count`, only so many first items (animals, then clutches).

        An animal left with no genotype ends it with an impossible table. Errors: TooEntangled.
        """
        self.unit = unit
        self.able: list[NDArray[np.intp]] = []
        self.tables: list[Table] = []
        self._genetics = genetics
        self._place = known.place
        self._families: dict[tuple[int, int], Floats] = {}
        for animal in known.animals[:count]:
            if not self._add_animal(animal):
                self.tables.append(IMPOSSIBLE)
                return
        for clutch in known.clutches[: None if count is None else max(count - len(known.animals), 0)]:
            self._add_clutch(clutch)

    @property
    def sizes(self) -> dict[int, int]:
        """Number of states of each animal that is still in doubt; no table names the others."""
        return {v: len(able) for v, able in enumerate(self.able) if len(able) > 1}

    def _add_animal(self, animal: Animal) -> bool:
        """Take up an animal after its parents; False where no genotype is left for it."""
        scope: tuple[int, ...] = ()
        chances = unit_prior(self.unit, animal.carries, animal.sex)
        if animal.sire and animal.dam:
            scope = self._place[animal.sire], self._place[animal.dam]
            chances = self._family(scope) * self._sex_can_be(animal.sex)
        fits = self.unit.fits(animal.forms, animal.sex)
        able = (fits & (chances > 0).reshape(-1, self.unit.size).any(axis=0)).nonzero()[0]
        if len(able) == 0:
            return False
        self.able.append(able)
        self._add((*scope, len(self.able) - 1), _logs(chances[..., able]))
        return True

    def _add_clutch(self, clutch: ClutchRecord) -> None:
        parents = self._place[clutch.sire], self._place[clutch.dam]
        young = self._family(parents)
        logs = np.zeros(young.shape[:2])
        for row in (row for row in clutch.young if row.count > 0):
            fits = self.unit.fits(row.forms, row.sex)
            logs += row.count * _logs(young[..., fits].sum(axis=-1) * self._sex_can_be(row.sex))
        self._add(parents, logs)

    def _family(self, parents: tuple[int, int]) -> Floats:
        """Chances of the genotypes of a pair's hatched young: [sires able, dams able, size]; zero where none hatch."""
        found = self._families.get(parents)
        if found is None:
            sires, dams = (self.able[v] for v in parents)
            check_size(len(sires) * len(dams) * self.unit.size)
            eggs = np.array([[self.unit.cross(int(s), int(d)) for d in dams] for s in sires])
            viable = np.where(self.unit.lethal, 0.0, eggs)
            hatched = viable.sum(axis=-1, keepdims=True)
            found = self._families[parents] = viable / np.where(hatched > 0, hatched, 1.0)
        return found

    def _sex_can_be(self, sex: AnySex) -> bool:
        """Whether temperature ever gives this sex; how often is the same for all genotypes, so no evidence."""
        if self._genetics.sex_unit is not None or sex == "any":
            return True
        share = self._genetics.female_share
        return share > 0 if sex == "female" else share < 1

    def _add(self, scope: Sequence[int], logs: Floats) -> None:
        """Multiply in a table with one axis per variable of `scope`, in any order."""
        ascending = sorted(range(len(scope)), key=lambda k: scope[k])
        doubtful = tuple(scope[k] for k in ascending if len(self.able[scope[k]]) > 1)
        turned = logs.transpose(ascending).reshape([len(self.able[v]) for v in doubtful])
        self.tables.append(Table(doubtful, turned))


def _logs(chances: Floats) -> Floats:
    with np.errstate(divide="ignore"):
        return np.log(chances)

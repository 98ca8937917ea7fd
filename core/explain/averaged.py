"""The textbook's animals: an average of what each may be, drawn anew for every egg.

The plan file cannot say this, as every animal has one true genotype there; so it is a variant of the route made
ready: its animals' genotypes are numbers of averages, and a judge that knows what each of them may be.
"""

from __future__ import annotations

from dataclasses import replace

from core.genetics.young import Genotypes, Judge
from core.routes.problem import Herd, Problem

# What an animal may carry: true genotypes with chances that sum to 1.
Carried = dict[Genotypes, float]

# From so many different averages on, a young is averaged like the first one that shows the same.
_MOST_AVERAGES = 200
_PLACES = 12


def averaged(problem: Problem) -> Problem:
    """The same route with every animal replaced, egg by egg, by its average."""
    judge = AveragedJudge(problem)
    herds = tuple(
        herd if herd.held or herd.named else replace(herd, prior=((judge.number(dict(herd.prior)), 1.0),))
        for herd in problem.herds
    )
    together = problem.together
    if problem.named:
        together = ((tuple(judge.number(one_of(problem, place)) for place in range(len(problem.named))), 1.0),)
    return replace(problem, judge=judge, herds=herds, together=together, apart=())


def one_of(problem: Problem, place: int) -> Carried:
    """What one of the named animals may carry, by itself."""
    if problem.crowded:
        return dict(problem.apart[place])
    carried: Carried = {}
    for genotypes, chance in problem.together:
        carried[genotypes[place]] = carried.get(genotypes[place], 0.0) + chance
    return carried


def members(problem: Problem, herd: Herd) -> list[Carried]:
    """What each member of a bought or owned herd may carry, by itself; one entry where all are alike."""
    if herd.named:
        return [one_of(problem, place) for place in herd.named]
    return [dict(herd.prior)] if herd.prior else []


class AveragedJudge(Judge):
    """Judges the young of averages: a "genotype" is the number of an average.

    A young is known by what it shows (the conditions it fits) and by its parents; it carries the average of that.
    """

    def __init__(self, problem: Problem) -> None:
        """A judge of the same conditions, with no averages yet."""
        super().__init__(problem.judge.genetics, problem.conditions)
        self._true = problem.judge
        self._averages: list[Carried] = []
        self._numbers: dict[tuple[tuple[Genotypes, float], ...], int] = {}
        self._first: dict[int, int] = {}
        self._young: dict[tuple[Genotypes, Genotypes], dict[tuple[int, Genotypes], float]] = {}

    def number(self, carried: Carried) -> Genotypes:
        """What stands for an average in place of a genotype."""
        key = tuple(sorted((genotype, round(chance, _PLACES)) for genotype, chance in carried.items()))
        if key not in self._numbers:
            self._numbers[key] = len(self._averages)
            self._averages.append(carried)
        return (self._numbers[key],)

    def masks(self, sire: Genotypes, dam: Genotypes) -> dict[int, float]:
        """Chance of each mask among the fertile eggs, both parents drawn anew for each."""
        total: dict[int, float] = {}
        for one, p in self._averages[sire[0]].items():
            for other, q in self._averages[dam[0]].items():
                for mask, chance in self._true.masks(one, other).items():
                    total[mask] = total.get(mask, 0.0) + p * q * chance
        return total

    def genotypes(self, sire: Genotypes, dam: Genotypes) -> dict[tuple[int, Genotypes], float]:
        """The same together with the average of the young that show it."""
        if (sire, dam) not in self._young:
            self._young[sire, dam] = self._work_out(sire, dam)
        return self._young[sire, dam]

    def _work_out(self, sire: Genotypes, dam: Genotypes) -> dict[tuple[int, Genotypes], float]:
        shown: dict[int, Carried] = {}
        for one, p in self._averages[sire[0]].items():
            for other, q in self._averages[dam[0]].items():
                for (mask, genotype), chance in self._true.genotypes(one, other).items():
                    carried = shown.setdefault(mask, {})
                    carried[genotype] = carried.get(genotype, 0.0) + p * q * chance
        found: dict[tuple[int, Genotypes], float] = {}
        for mask, carried in shown.items():
            total = sum(carried.values())
            if total > 0:
                average = {genotype: chance / total for genotype, chance in carried.items()}
                found[mask, self._average(mask, average)] = total
        return found

    def _average(self, mask: int, average: Carried) -> Genotypes:
        if len(self._averages) < _MOST_AVERAGES or mask not in self._first:
            number = self.number(average)
            self._first.setdefault(mask, number[0])
            return number
        return (self._first[mask],)

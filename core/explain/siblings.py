"""Young held back share their parents: where these may be one thing or another, each case is told apart.

Held groups that are taken as full (`filled`) are given what their parents' young may carry, each place by itself. That
is right where the parents' true genotypes are known; else it is right in each case by itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from math import prod

from core.routes.problem import Genotype, Herd, Problem

# More cases than this take too long: siblings are taken as independent then.
_MOST_CASES = 16
# True genotypes of some animals in order, and the chance of these.
_Case = tuple[tuple[Genotype, ...], float]


def parents_apart(problem: Problem) -> Iterator[tuple[float, Problem]]:
    """The cases of what the parents of held groups truly are, each with its chance; the route itself for one case."""
    herds = [problem.herds[index] for index in _doubtful_parents(problem)]
    cases = [list(product(herd.prior, repeat=herd.count)) for herd in herds if not herd.named]
    together = problem.together if any(herd.named for herd in herds) else ()
    if problem.crowded or not herds or prod(map(len, cases)) * max(1, len(together)) > _MOST_CASES:
        yield 1.0, problem
        return
    unnamed = [herd for herd in herds if not herd.named]
    for mine, chance in together or ((None, 1.0),):
        for drawn in product(*cases):
            every = [genotype for members in drawn for genotype, _ in members]
            weight = chance * prod(p for members in drawn for _, p in members)
            yield weight, _settled(problem, unnamed, mine, every)


def _doubtful_parents(problem: Problem) -> list[int]:
    """The founders that held groups come from and that may be one thing or another."""
    sources = {place for herd in problem.herds if herd.held for place in herd.sources}
    pairings = [problem.pairings[place] for place in sorted(sources)]
    founders = dict.fromkeys(index for one in pairings for index in (*one.males, *one.females))
    return [
        index for index in founders if not problem.herds[index].held and _is_doubtful(problem, problem.herds[index])
    ]


def _is_doubtful(problem: Problem, herd: Herd) -> bool:
    return len(problem.together) > 1 if herd.named else len(herd.prior) > 1


def _settled(
    problem: Problem, unnamed: list[Herd], mine: tuple[Genotype, ...] | None, every: list[Genotype]
) -> Problem:
    """The route with the genotypes of these herds settled: what is not alike in a herd is told apart by a name."""
    if mine is None and unnamed and problem.together:
        # Animals of mine that are no parents stay in doubt beside those that are settled.
        together = tuple(((*genotypes, *every), chance) for genotypes, chance in problem.together)
    else:
        together = (((*(mine or ()), *every), 1.0),)
    herds, place = list(problem.herds), len(problem.named)
    for herd in unnamed:
        herds[herd.index] = replace(herd, prior=(), named=tuple(range(place, place + herd.count)))
        place += herd.count
    names = (*problem.named, *(f"{herd.id} {number}" for herd in unnamed for number in range(herd.count)))
    return replace(problem, herds=tuple(herds), named=names, together=together)

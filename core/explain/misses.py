"""The textbook's figure by hand: how often every egg misses."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.explain.filled import season_matings
from core.explain.fractions import decimal_text, equals_text, fraction_text, power_text
from core.explain.naming import condition_words, pairing_words
from core.explain.numbers import PLAIN, Numbers, counted, laid_words
from core.routes.problem import Problem
from core.text import tr

# The first few terms can be written out; more would only be read over.
_MOST_TERMS = 3


@dataclass(frozen=True)
class Step:
    """One line: what is done, and the arithmetic."""

    words: str
    formula: str


@dataclass(frozen=True)
class Misses:
    """One goal row: the steps to the chance that all eggs miss it, and that chance."""

    wanted: str
    steps: tuple[Step, ...]
    miss: float


@dataclass(frozen=True)
class Clutches:
    """Clutches in the textbook: so many of `eggs` with chances, `females` a season for `seasons` seasons if even."""

    sizes: tuple[tuple[int, float], ...]
    number: int
    females: int | None
    seasons: int
    a_season: int
    laid: tuple[str, str] = (tr("egg"), tr("eggs"))
    numbers: Numbers = PLAIN

    @property
    def eggs(self) -> int | None:
        """All eggs of all clutches, where each has the same number."""
        return self.sizes[0][0] * self.number if len(self.sizes) == 1 else None

    @property
    def words(self) -> str:
        """`72 eggs`, or `6 clutches` where these differ."""
        if self.eggs is None:
            return tr("{n} clutches", "{n} clutch", self.number)
        return counted(self.eggs, *self.laid)

    def of_one(self, females: int) -> Clutches:
        """One female's part."""
        return replace(self, number=self.number // females, females=1)

    def times(self, females: int) -> Clutches:
        """So many times as many."""
        return replace(self, number=self.number * females, females=females)

    def miss_one(self, chance: float) -> float:
        """The chance that a clutch misses, at this chance of an egg to hit."""
        return sum(weight * (1 - chance) ** size for size, weight in self.sizes)

    def miss(self, chance: float) -> float:
        """The chance that all of them miss."""
        return self.miss_one(chance) ** self.number

    def power(self, chance: float) -> str:
        """That chance as a power: of an egg's, or of a clutch's where these differ."""
        if self.eggs is None:
            return power_text(decimal_text(self.miss_one(chance), self.numbers), self.number)
        return power_text(fraction_text(1 - chance, self.numbers), self.eggs)


def all_miss(textbook: Problem, season: int, numbers: Numbers = PLAIN) -> tuple[Misses, ...]:
    """Per goal row, the chance that every egg up to a season misses; `textbook`: the route with no truth on."""
    return tuple(_misses(textbook, row, season, numbers) for row in range(len(textbook.wanted)))


def clutches_by_chance(
    problem: Problem, row: int, season: int, numbers: Numbers = PLAIN
) -> dict[tuple[int, float], Clutches]:
    """The clutches up to a season by pairing and chance of an egg to fit a row; each mating's animals are averages."""
    laid: dict[tuple[int, float], list[int]] = {}
    last = min(season, problem.breeding_seasons)
    for now in range(1, last + 1):
        for mating in season_matings(problem, now):
            sire, dam = _only(problem, mating.male.herd, mating.male.place), _only(problem, *mating.female)
            chance = sum(weight for mask, weight in problem.masks(sire, dam).items() if mask >> row & 1)
            laid.setdefault((mating.pairing, round(chance, 12)), [0] * last)[now - 1] += 1
    sizes = tuple((n, float(p)) for n, p in enumerate(problem.biology.sizes) if p > 0)
    each = problem.biology.clutches
    found = {}
    for key, seasons in laid.items():
        busy = [females for females in seasons if females]
        females = busy[0] if len(set(busy)) == 1 else None
        found[key] = Clutches(sizes, sum(busy) * each, females, len(busy), each, laid_words(problem.plan), numbers)
    return found


def eggs_words(clutches: Clutches) -> str:
    """`4 females × 12 eggs × 4 seasons = 192 eggs`."""
    one, many = clutches.laid
    if clutches.females is None:
        parts = [tr("{n} clutches", "{n} clutch", clutches.number)]
    else:
        parts = [tr("{n} females", "{n} female", clutches.females)]
        parts += [tr("{n} clutches", "{n} clutch", clutches.a_season)] if clutches.a_season > 1 else []
    if clutches.eggs is not None:
        parts.append(counted(clutches.sizes[0][0], one, many))
    if clutches.females is not None:
        parts.append(tr("{n} seasons", "{n} season", clutches.seasons))
    total = tr("{n} clutches", "{n} clutch", clutches.number)
    if clutches.eggs is not None:
        total = counted(clutches.eggs, one, many)
    return f"{' × '.join(parts)} = {total}"


def _only(problem: Problem, herd: int, place: int) -> tuple[int, ...]:
    """What stands for an animal whose genotype is settled."""
    own = problem.herds[herd]
    return problem.together[0][0][own.named[place]] if own.named else own.prior[0][0]


def _misses(problem: Problem, row: int, season: int, numbers: Numbers) -> Misses:
    wanted = condition_words(problem.plan, problem.conditions[row])
    every = clutches_by_chance(problem, row, season, numbers)
    useful = {key: own for key, own in every.items() if key[1] > 0 and own.number}
    if not useful:
        one, _ = laid_words(problem.plan)
        return Misses(wanted, (Step(tr("No {one} can be one, so every {one} misses.", one=one), ""),), 1.0)
    steps: list[Step] = []
    results: list[float] = []
    for (place, chance), own in useful.items():
        name = f"{pairing_words(problem.route.pairings[place])}: " if len(useful) > 1 else ""
        steps += _steps(name, chance, own)
        results.append(own.miss(chance))
    miss = math.prod(results)
    if len(results) > 1:
        product = " × ".join(decimal_text(one, numbers) for one in results)
        steps.append(Step(tr("All of them miss:"), f"{product} {equals_text(miss, numbers)}"))
    count = problem.wanted[row]
    if len(useful) == 1 and 1 < count <= _MOST_TERMS:
        (_, chance), own = next(iter(useful.items()))
        steps += _fewer(chance, own, count)
    return Misses(wanted, tuple(steps), miss)


def _steps(name: str, chance: float, own: Clutches) -> Iterator[Step]:
    numbers = own.numbers
    miss = fraction_text(1 - chance, numbers)
    times = miss.split("/")
    rate = (
        tr("each missing {n} times in {times}", "each missing {n} time in {times}", int(times[0]), times=times[1])
        if len(times) == 2
        else tr("each missing with chance {miss}", miss=miss)
    )
    words = f"{name}{eggs_words(own)}, {rate}."
    if own.eggs is not None:
        yield Step(words, f"{own.power(chance)} {equals_text(own.miss(chance), numbers)}")
        return
    (few, p), (more, q) = own.sizes
    yield Step(
        name
        + tr(
            "A clutch has {mean} {laid} on average, {few} or {more}, {rate}.",
            mean=numbers.decimal(few * p + more * q, 1),
            laid=own.laid[1],
            few=few,
            more=more,
            rate=rate,
        ),
        f"{fraction_text(p, numbers)} × {power_text(miss, few)} + {fraction_text(q, numbers)} × "
        f"{power_text(miss, more)} {equals_text(own.miss_one(chance), numbers)}",
    )
    result = equals_text(own.miss(chance), numbers)
    yield Step(tr("{eggs_words}, all of which miss.", eggs_words=eggs_words(own)), f"{own.power(chance)} {result}")


def _fewer(chance: float, own: Clutches, count: int) -> Iterator[Step]:
    """Fewer hits than are wanted, written out."""
    n = own.eggs
    if n is None or n < count:
        return
    hit, miss = fraction_text(chance, own.numbers), fraction_text(1 - chance, own.numbers)
    terms, total = [power_text(miss, n)], (1 - chance) ** n
    for k in range(1, count):
        terms.append(f"{math.comb(n, k)} × {power_text(hit, k)} × {power_text(miss, n - k)}")
        total += math.comb(n, k) * chance**k * (1 - chance) ** (n - k)
    yield Step(
        tr("{count} are wanted, so fewer than {count} hits are a miss too.", count=count),
        f"{' + '.join(terms)} {equals_text(total, own.numbers)}",
    )

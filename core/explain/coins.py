"""One true genotype for each animal, worked out by hand, beside the shortcut that counts carriers."""

from __future__ import annotations

from dataclasses import dataclass

from core.explain.averaged import Carried, members
from core.explain.crosses import per_egg
from core.explain.fractions import decimal_text, equals_text, fraction_text, power_text, share_words
from core.explain.misses import Clutches, clutches_by_chance
from core.explain.numbers import PLAIN, Numbers
from core.genetics.young import Condition
from core.routes.problem import Genotype, Herd, Problem
from core.text import tr

_SAME = 1e-9
# Chances an egg with the share of the females that give them, the lowest first.
Shares = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Chain:
    """The arithmetic line by line, and what counting carriers gives instead; empty where it is not that simple."""

    right: tuple[str, ...] = ()
    counted: tuple[str, ...] = ()


def by_hand(problem: Problem, textbook: Problem, season: int, right: float, numbers: Numbers = PLAIN) -> Chain:
    """The chance by a season from each female's own eggs; `right` is what it must come to.

    It is so simple where the goal is one animal, one male and the females of one group give all its eggs, and each of
    these females lays the same number. problem and textbook: as for `trap.traps`.
    """
    if problem.wanted != (1,):
        return Chain()
    laid = [(key, own) for key, own in clutches_by_chance(textbook, 0, season, numbers).items() if key[1] > 0]
    if len(laid) != 1:
        return Chain()
    (place, _), clutches = laid[0]
    pairing = problem.pairings[place]
    dams = [problem.herds[index] for index in pairing.females if problem.herds[index].count]
    sires = [problem.herds[index] for index in pairing.males if problem.herds[index].count]
    if len(dams) != 1 or len(sires) != 1 or sires[0].count != 1 or len(members(problem, dams[0])) != 1:
        return Chain()
    if clutches.females != dams[0].count:
        return Chain()
    return _written(problem, sires[0], dams[0], clutches.of_one(dams[0].count), right)


def _written(problem: Problem, sire: Herd, dams: Herd, laid: Clutches, right: float) -> Chain:
    condition = problem.conditions[0]
    males, females = members(problem, sire)[0], members(problem, dams)[0]
    table = {male: _by_chance(problem, male, females, condition) for male in males}
    best = max(table.values(), key=lambda shares: shares[-1][0])
    able = sum(males[male] for male, shares in table.items() if shares == best)
    miss = sum(share * laid.miss(chance) for chance, share in best)
    found = able * (1 - miss**dams.count)
    # Males that give a little, or anything else that this arithmetic leaves out, would show here.
    if abs(found - right) > _SAME:
        return Chain()
    return Chain(tuple(_lines(best, dams, laid, miss, able)), _counted(best, dams, laid, able))


def _lines(best: Shares, dams: Herd, laid: Clutches, miss: float, able: float) -> list[str]:
    every, numbers = miss**dams.count, laid.numbers
    terms = " + ".join(_term(share, chance, laid) for chance, share in best)
    lines = [
        tr(
            "One female misses with all her {words}: {terms} {equals_text}.",
            words=laid.words,
            terms=terms,
            equals_text=equals_text(miss, numbers),
        )
    ]
    if dams.count > 1:
        who = tr("Both") if dams.count == 2 else tr("All {count}", count=dams.count)
        lines.append(
            tr(
                "{who} miss: {power_text} {equals_text}.",
                who=who,
                power_text=power_text(decimal_text(miss, numbers), dams.count),
                equals_text=equals_text(every, numbers),
            )
        )
    result = f"1 − {decimal_text(every, numbers)} {equals_text(1 - every, numbers)}"
    if able > 1 - _SAME:
        return [*lines, tr("So the chance is {result}.", result=result)]
    product = (
        f"{fraction_text(able, numbers)} × {decimal_text(1 - every, numbers)} "
        f"{equals_text(able * (1 - every), numbers)}"
    )
    return [
        *lines,
        tr("If he carries it: {result}.", result=result),
        tr("The chance that he does is {share_words}: {product}.", share_words=share_words(able), product=product),
    ]


def _by_chance(problem: Problem, male: Genotype, females: Carried, condition: Condition) -> Shares:
    total: dict[float, float] = {}
    for female, share in females.items():
        chance = round(per_egg(problem, male, female, condition), 12)
        total[chance] = total.get(chance, 0.0) + share
    return tuple((chance, round(share, 12)) for chance, share in sorted(total.items()))


def _term(share: float, chance: float, laid: Clutches) -> str:
    weight = "" if share > 1 - _SAME else fraction_text(share, laid.numbers)
    if chance == 0:
        return weight or "1"
    power = laid.power(chance)
    return f"{weight} × {power}" if weight else power


def _counted(best: Shares, dams: Herd, laid: Clutches, able: float) -> tuple[str, ...]:
    """What comes out when the carriers are simply counted."""
    if len(best) != 2 or best[0][0] != 0 or able < 1 - _SAME:
        return ()
    chance, share = best[1]
    many = round(dams.count * share)
    if abs(dams.count * share - many) > _SAME or not 0 < many < dams.count:
        return ()
    every = laid.times(many)
    result = equals_text(1 - every.miss(chance), laid.numbers)
    return (
        tr(
            "Counting {many} as carriers and {count} as not gives 1 − {power} {result}.",
            many=many,
            count=dams.count - many,
            power=every.power(chance),
            result=result,
        ),
    )

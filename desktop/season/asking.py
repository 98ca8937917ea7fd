"""What the page asks to have worked out, on the evaluator's thread; no Qt."""

from __future__ import annotations

from collections.abc import Generator, Sequence

import msgspec

from core.genetics.beliefs import ImpossibleEvidence
from core.genetics.elimination import TooEntangled
from core.plan.model import ClutchRecord, Owned, Plan, Route
from core.progress import part_of
from core.routes.evaluate import evaluate_steps
from core.season.believed import Believed, believed
from core.season.hatching import Look, looks
from core.season.learned import Change, changes
from core.season.next_steps import NextStep, next_steps
from core.season.slips import likely_slips
from core.season.stopping import StoppingRule, in_doubt, settled_by_young, stopping_rule
from core.season.telling import Telling, telling
from desktop.evaluation import RouteAnswer
from desktop.findings import Finding
from desktop.words import hatched as words

Steps = Generator[float, None, object]
# So many normal young are looked ahead in the table of what one more clutch tells.
MOST_YOUNG = 12


class Trouble(msgspec.Struct, frozen=True):
    """Why nothing can be said: a sentence, and the likeliest slips behind it."""

    sentence: str
    slips: tuple[str, ...] = ()


class Standing(msgspec.Struct, frozen=True):
    """What is believed of every animal, or why that cannot be told."""

    plan: Plan
    animals: tuple[Believed, ...] = ()
    trouble: Trouble | None = None


class Told(msgspec.Struct, frozen=True):
    """What a clutch that is not entered yet would say, or why it cannot be."""

    changes: tuple[Change, ...] = ()
    trouble: Trouble | None = None


class Difference(msgspec.Struct, frozen=True):
    """What a recorded clutch did: to the animals, and to the routes, whose answers without it are `before`."""

    plan: Plan
    number: int
    without: Plan
    changes: tuple[Change, ...]
    before: tuple[RouteAnswer, ...]


class Onward(msgspec.Struct, frozen=True):
    """The ways on with a route, best first, and when to stop; `rules` is None where that is not worked out.

    open: females of mine of whom normal young would settle something, whether or not there is a rule for them.
    """

    plan: Plan
    route: str
    ways: tuple[NextStep, ...]
    rules: tuple[StoppingRule, ...] | None
    open: tuple[str, ...] = ()


def standing(plan: Plan) -> Generator[float, None, Standing]:
    """What is believed of all my animals."""
    yield 0.0
    try:
        return Standing(plan, believed(plan))
    except (ImpossibleEvidence, TooEntangled) as error:
        return Standing(plan, trouble=_trouble(plan, error))


def young_of(plan: Plan, sire: str, dam: str) -> Generator[float, None, tuple[Look, ...]]:
    """What the young of a pair can look like; nothing where the records are at fault."""
    yield 0.0
    try:
        return looks(plan, sire, dam)
    except (ImpossibleEvidence, TooEntangled):
        return ()


def told(before: Plan, after: Plan) -> Generator[float, None, Told]:
    """What the records of `after` say that those of `before` did not."""
    yield 0.0
    try:
        return Told(changes(before, after))
    except (ImpossibleEvidence, TooEntangled) as error:
        return Told(trouble=_trouble(after, error))


def tellings(plan: Plan, sire: str, dam: str) -> Generator[float, None, tuple[Telling, ...]]:
    """What one more clutch would tell, a gene of the goal each that is open about one of the two."""
    yield 0.0
    try:
        genes = dict.fromkeys((*in_doubt(plan, sire), *in_doubt(plan, dam)))
        return tuple(telling(plan, sire, dam, gene, MOST_YOUNG) for gene in genes)
    except (ImpossibleEvidence, TooEntangled):
        return ()


def difference(plan: Plan, number: int, found: Sequence[Finding]) -> Generator[float, None, Difference]:
    """What one recorded clutch changed; routes without animals of mine stay as they are."""
    without = without_record(plan, number)
    try:
        moved = changes(without, plan)
    except (ImpossibleEvidence, TooEntangled):
        moved = ()
    routes = [route for route in without.routes if uses_mine(route)]
    known = {one.id: one for one in found}
    before = []
    for done, route in enumerate(routes):
        result = yield from part_of(evaluate_steps(without, route), done, len(routes))
        before.append(RouteAnswer(route.id, result, result.at_cheapest or result))
    for route in without.routes:
        one = known.get(route.id)
        if not uses_mine(route) and one is not None and one.result is not None:
            before.append(RouteAnswer(route.id, one.drawn or one.result, one.result))
    return Difference(plan, number, without, moved, tuple(before))


def onward(plan: Plan, route: Route) -> Generator[float, None, Onward]:
    """The ways on from today, and when to stop with each female that is bred to a male of mine."""
    ways = yield from part_of(next_steps(plan, route), 0, 2)
    if ways[0].result.method == "simulated":
        return Onward(plan, route.id, ways, None)
    pairs, rules = own_pairs(route), []
    for done, (male, female) in enumerate(pairs):
        rule = yield from part_of(stopping_rule(plan, route, male, female), len(pairs) + done, 2 * len(pairs))
        rules += [rule] if rule is not None else []
    unsettled = tuple(female for male, female in pairs if settled_by_young(plan, male, female))
    return Onward(plan, route.id, ways, tuple(rules), unsettled)


def own_pairs(route: Route) -> tuple[tuple[str, str], ...]:
    """The first male and each female of mine that are bred together, by id."""
    mine = {group.id: group.animals for group in route.groups if isinstance(group, Owned) and group.animals}
    pairs: dict[str, str] = {}
    for pairing in route.pairings:
        males = [animal for name in pairing.males for animal in mine.get(name, ())]
        for name in pairing.females:
            for female in mine.get(name, ()):
                if males:
                    pairs.setdefault(female, males[0])
    return tuple((male, female) for female, male in pairs.items())


def uses_mine(route: Route) -> bool:
    """Whether animals of mine, by name, are part of a route."""
    return any(isinstance(group, Owned) and group.animals for group in route.groups)


def without_record(plan: Plan, number: int) -> Plan:
    """The plan without one of its clutches."""
    records = (*plan.clutch_records[:number], *plan.clutch_records[number + 1 :])
    return msgspec.structs.replace(plan, clutch_records=records)


def with_record(plan: Plan, record: ClutchRecord, number: int | None = None) -> Plan:
    """The plan with one more clutch, or with another one in the place of an old one."""
    records = list(plan.clutch_records)
    if number is None:
        records.append(record)
    else:
        records[number] = record
    return msgspec.structs.replace(plan, clutch_records=tuple(records))


def _trouble(plan: Plan, error: ImpossibleEvidence | TooEntangled) -> Trouble:
    if isinstance(error, TooEntangled):
        return Trouble(str(error))
    return Trouble(words.trouble(plan, error), likely_slips(plan, error))

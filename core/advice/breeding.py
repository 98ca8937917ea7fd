"""Cautions on how hard animals are bred, and on what a route hangs on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from core.advice.caution import Caution, caution_key
from core.advice.schedule import Schedule, schedule
from core.advice.wording import seasons, titled
from core.explain.naming import id_words
from core.explain.numbers import listed
from core.plan.presets import preset_of
from core.routes.calendar import Animal
from core.routes.problem import Herd, Problem
from core.text import tr

# Common practice: one male to about four females in a season. No published limit was found.
USUAL_LOAD = 4

_CYCLES = (
    "Pizzatto and Marques 2007, South American Journal of Herpetology 2(2):107-122; Iverson "
    "2019, Herpetological Conservation and Biology 14(3):627-640"
)
_SIZES = {
    "royal-python": (
        tr(" One large colony bred royal females above 1,500 g and males above 500 g."),
        "Morrill and others 2011, Herpetological Review 42:226-231",
    ),
    "western-hognose": (
        tr(" Western hognose females mature at about 80 to 90 g, as one study found."),
        "Iverson 2019, Herpetological Conservation and Biology 14(3):627-640",
    ),
}


def breeding_cautions(problem: Problem, last: int) -> Iterator[Caution]:
    """Cautions about the animals of one route, with its counts as drawn; `last`: the season it mostly ends in."""
    plan = schedule(problem)
    yield from _one_male(problem)
    yield from _every_season(problem, plan, last)
    yield from _young_breeders(problem, plan)
    yield from _male_load(problem, plan)
    yield from _idle_females(problem, plan)


def _members(herd: Herd) -> list[Animal]:
    return [Animal(herd.index, place) for place in range(herd.count)]


def _one_male(problem: Problem) -> Iterator[Caution]:
    """All that is bred goes back to a single bought or owned male."""
    breeding = {herd for pairing in problem.pairings for herd in pairing.males}
    males = [herd for herd in problem.herds if herd.index in breeding and not herd.held]
    if sum(herd.count for herd in males) != 1:
        return
    (male,) = males
    yield Caution(
        key=caution_key("one male", problem.route.id),
        kind="one male",
        route=problem.route.id,
        short=tr("Hangs on one male"),
        sentence=tr("Everything hangs on one male ({id}).", id=id_words(male.id)),
        why=tr(
            "If he does not breed, or is lost, the route stops until another male is found. A second "
            "male costs more and covers that."
        ),
    )


def _every_season(problem: Problem, plan: Schedule, last: int) -> Iterator[Caution]:
    for herd in problem.herds:
        bred = max((_unrested(plan, one, last) for one in _members(herd)), key=len, default=())
        if herd.sex == "male" or not bred:
            continue
        yield Caution(
            key=caution_key("every season", problem.route.id, herd.id),
            kind="every season",
            route=problem.route.id,
            short=tr("No season of rest"),
            sentence=tr(
                "{titled}: bred in every season {she} can be ({seasons}), without a rest.",
                titled=titled(herd.id),
                she=_she(herd),
                seasons=seasons(bred),
            ),
            why=tr(
                "In the wild, females of some species do not breed every year. Whether she is fit for "
                "another season is seen in her weight and health: ask a reptile vet."
            ),
            source=_CYCLES,
        )


def _unrested(plan: Schedule, animal: Animal, last: int) -> tuple[int, ...]:
    """The seasons up to the last of a female that is bred in all of hers, where these are two or more."""
    there = tuple(season for season in plan.seasons_of(animal) if season <= last)
    bred = tuple(season for season in plan.bred(animal) if season <= last)
    return there if len(there) > 1 and bred == there else ()


def _young_breeders(problem: Problem, plan: Schedule) -> Iterator[Caution]:
    preset = preset_of(problem.plan.species.name)
    more, source = _SIZES.get(preset.id if preset else "", ("", ""))
    for herd in problem.herds:
        grows = herd.held or (herd.ready or 0) > herd.arrives
        early = sorted(season for one in _members(herd) for season in _bred_at_once(plan, one))
        if grows and early:
            yield Caution(
                key=caution_key("young breeders", problem.route.id, herd.id),
                kind="young breeders",
                route=problem.route.id,
                short=tr("Bred as soon as grown"),
                sentence=tr(
                    "{titled}: bred in {seasons}, the first in which {she} can be.",
                    titled=titled(herd.id),
                    seasons=seasons(early[:1]),
                    she=_she(herd),
                ),
                why=tr(
                    "The plan counts seasons; weight and health decide whether an animal is ready. Weigh it, "
                    "and ask a reptile vet.{more}",
                    more=more,
                ),
                source=source,
            )


def _bred_at_once(plan: Schedule, animal: Animal) -> tuple[int, ...]:
    """The first season in which the animal is breeder-size, where it is bred in that one."""
    first = plan.seasons_of(animal)[:1]
    return first if first and plan.bred(animal)[:1] == first else ()


def _she(herd: Herd) -> str:
    return tr("they") if herd.count > 1 else tr("she") if herd.sex == "female" else tr("he")


def _male_load(problem: Problem, plan: Schedule) -> Iterator[Caution]:
    most: dict[int, tuple[int, int]] = {}
    for season, pairs in enumerate(plan.matings, 1):
        for male, females in Counter(pair.male for pair in pairs).items():
            if females > max(USUAL_LOAD, most.get(male.herd, (0, 0))[0]):
                most[male.herd] = females, season
    for index, (females, season) in most.items():
        herd = problem.herds[index]
        yield Caution(
            key=caution_key("male load", problem.route.id, herd.id),
            kind="male load",
            route=problem.route.id,
            short=tr("{females} females to a male", females=females),
            sentence=tr(
                "A male of {id} is put to {females} females in season {season}.",
                id=id_words(herd.id),
                females=females,
                season=season,
            ),
            why=tr(
                "Breeders commonly keep to about {usual_load} females a male in a season; no published "
                "limit was found. Some of the females may stay unbred.",
                usual_load=USUAL_LOAD,
            ),
            source=tr("Common practice"),
        )


def _idle_females(problem: Problem, plan: Schedule) -> Iterator[Caution]:
    idle = {season: found for season, found in enumerate(plan.idle, 1) if found}
    if not idle:
        return
    worst = max(idle, key=lambda season: (len(idle[season]), -season))
    herds = dict.fromkeys(id_words(problem.herds[one.herd].id) for one in idle[worst])
    many = tr("{n} females", "{n} female", len(idle[worst]))
    yield Caution(
        key=caution_key("idle females", problem.route.id),
        kind="idle females",
        route=problem.route.id,
        short=tr("{many} without a male", many=many),
        sentence=tr(
            "In {seasons}, {many} ({herds}) have no male to go to.",
            "In {seasons}, {many} ({herds}) has no male to go to.",
            len(idle[worst]),
            seasons=seasons([season for season, found in idle.items() if found == idle[worst]]),
            many=many,
            herds=listed(list(herds)),
        ),
        why=tr(
            "They are bought or held, fed and housed, and lay nothing for this goal. Fewer females, or "
            "one male more, would cost less or bring more."
        ),
    )

"""The seasons of a route, step by step as the page tells them.

A play is a chain of small steps from state to state. Whatever is random is drawn from a `Chance`, so that the same
steps can be played by lot or taken every way. Whatever is only counted is noted as (kind, season, amount); a state
holds what is still needed.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from .beliefs import joint
from .chances import Chance, coin, exact, product
from .clutches import clutch_sizes
from .genetics import Genome, Genotype, Plan

Note = Callable[[str, int, int], None]
Route = dict[str, Any]


class Animal(NamedTuple):
    """An animal of a group: what it truly carries, whether it works, and from when it can breed."""

    group: str
    genotype: Genotype
    works: bool
    breeds_from: int
    fit: bool


class Young(NamedTuple):
    """A live young of this season that may yet be held back."""

    pairing: str
    sex: str
    genotype: Genotype
    counted: bool


class Job(NamedTuple):
    """A female put to a male ("mating"), a clutch to come ("clutch"), or eggs to come ("eggs"); places in `animals`."""

    kind: str
    pairing: str
    male: int
    female: int
    eggs: int = 0
    lost: bool = False


class State(NamedTuple):
    """All that the rest of a play depends on."""

    phase: str  # "start" of a season, "laying", "end" of a season, or the play is "over"
    season: int
    mine: tuple[Genotype, ...]
    working: tuple[bool, ...]
    animals: tuple[Animal, ...]
    ever_held: tuple[int, ...]
    filled: tuple[int, ...]
    paid: int
    eggs: int
    met_season: int | None
    met_egg: int | None
    jobs: tuple[Job, ...]
    young: tuple[Young, ...]


class Game:
    """A plan and one of its routes, made ready to play. Money is in whole `1 / grain` of the plan's currency."""

    def __init__(self, plan: Plan, route: Route) -> None:
        self.plan, self.route = plan, route
        self.genome = Genome(plan)
        self.species: dict[str, Any] = plan["species"]
        self.groups: dict[str, dict[str, Any]] = {group["id"]: group for group in route.get("groups", [])}
        self.holding = [group for group in self.groups.values() if group["origin"] == "hold"]
        self.pairings: list[dict[str, Any]] = route.get("pairings", [])
        self.want: list[dict[str, Any]] = plan["goal"]["want"]
        self.seasons: int = plan["goal"]["seasons"]
        self.costs: dict[str, Any] = plan.get("costs", {})
        self.sizes = clutch_sizes(self.species["clutch"])
        self.lays, self.lost = coin(self.species.get("lays", 1)), coin(self.species.get("clutch_lost", 0))
        self.fertile, self.hatches = coin(self.species.get("fertile", 1)), coin(self.species.get("hatches", 1))
        self.reaches = coin(self.species.get("reaches_breeding", 1))
        self.works = {sex: coin(self.species.get("breeds", {}).get(sex, 1)) for sex in ("male", "female")}
        self.mine = [animal for group in self.groups.values() for animal in group.get("animals", [])]
        # In several groups, at different times, they are the same animal: working in all of them or in none.
        self.twice = sorted({animal for animal in self.mine if self.mine.count(animal) > 1})
        sexes = {animal["id"]: animal["sex"] for animal in plan.get("my_animals", [])}
        self.work_of_mine = product([self.works[sexes[animal]] for animal in self.twice])
        self.belief = joint(plan, self.genome, self.mine) if self.mine else product([])
        self.priors = {
            group["id"]: self.genome.prior(group.get("carries", {}), group["sex"])
            for group in self.groups.values()
            if group["origin"] != "hold" and "animals" not in group
        }
        self._set_prices()

    def _set_prices(self) -> None:
        costs = {key: exact(self.costs.get(key, 0)) for key in COSTS}
        costs["route"] = exact(self.route.get("setup", 0))
        costs["outright"] = self._outright()
        costs |= {f"group {name}": exact(group.get("price", 0)) for name, group in self.groups.items()}
        share = exact(self.costs.get("sold_share", "0.5"))
        sales = [exact(row["price"]) * share for row in self.costs.get("surplus", [])]
        self.grain = math.lcm(*(amount.denominator for amount in [*costs.values(), *sales]))
        self.price = {key: int(amount * self.grain) for key, amount in costs.items()}
        self.sale = [int(amount * self.grain) for amount in sales]

    def _outright(self) -> Fraction:
        season = self.route.get("buy_outright")
        if season is None:
            return Fraction(0)
        goal = self.plan["goal"]
        return exact(goal["outright_price"]) * (1 + exact(goal.get("outright_change", 0))) ** int(season - 1)

    def start(self) -> State:
        return State("start", 1, (), (), (), (0,) * len(self.holding), (0,) * len(self.want), 0, 0, None, None, (), ())

    def advance(self, state: State, chance: Chance, note: Note) -> State:
        """The next small step."""
        if state.phase == "start":
            return self._start_season(state, chance, note)
        if state.phase == "laying":
            return self._lay(state, chance, note)
        return self._end_season(state, chance, note)

    # Steps 1 to 3: buying outright, arrivals, leaving, keeping, pairing

    def _start_season(self, state: State, chance: Chance, note: Note) -> State:
        season = state.season
        if self.route.get("buy_outright") == season:
            note("paid", season, self.price["outright"])
            return state._replace(phase="over", paid=state.paid + self.price["outright"], met_season=season)
        if season == 1:
            state = state._replace(mine=chance.draw(self.belief), working=chance.draw(self.work_of_mine))
        arrivals = [group for group in self.groups.values() if _arrives(group) == season]
        animals = state.animals
        for group in arrivals:
            animals += tuple(self._new_animals(group, state, chance))
        animals = tuple(animal for animal in animals if self._stays(animal, season))
        bill = (self.price["setup"] + self.price["route"]) if season == 1 else 0
        bill += sum(_members(group) * self.price[f"group {group['id']}"] for group in arrivals)
        bill += sum(self._keep(animal, season) for animal in animals)
        note("reached", season, 1)
        note("animals", season, len(animals))
        note("paid", season, bill)
        jobs = tuple(Job("mating", *match) for match in self._matches(animals, season))
        return state._replace(phase="laying", animals=animals, paid=state.paid + bill, jobs=jobs)

    def _new_animals(self, group: dict[str, Any], state: State, chance: Chance) -> Iterator[Animal]:
        breeds_from = _arrives(group) + group.get("ready_in", 0)
        for number in range(_members(group)):
            name = group["animals"][number] if "animals" in group else None
            known = state.mine[self.mine.index(name)] if name else None
            genotype = known or chance.draw(self.priors[group["id"]])
            again = state.working[self.twice.index(name)] if name in self.twice else None
            works = chance.draw(self.works[group["sex"]]) if again is None else again
            yield Animal(group["id"], genotype, works, breeds_from, True)

    def _stays(self, animal: Animal, season: int) -> bool:
        until = self.groups[animal.group].get("until")
        gone = until is not None and until < season
        unfit = animal.breeds_from == season and not animal.fit
        return not gone and not unfit

    def _keep(self, animal: Animal, season: int) -> int:
        group = self.groups[animal.group]
        if group["origin"] == "own" and group.get("kept_anyway", True):
            return 0
        return self.price["keep_adult" if animal.breeds_from <= season else "keep_young"]

    def _matches(self, animals: Sequence[Animal], season: int) -> Iterator[tuple[str, int, int]]:
        """Who is put to whom this season: pairing, male, female."""

        def grown(group: str) -> list[int]:
            return [i for i, a in enumerate(animals) if a.group == group and a.breeds_from <= season]

        most = self.species.get("females_per_male", 4)
        load: dict[int, int] = {}
        given: set[int] = set()
        for pairing in self.pairings:
            first, last = pairing.get("seasons", [None, None])
            if (first is not None and season < first) or (last is not None and season > last):
                continue
            males = next((grown(group) for group in pairing["males"] if grown(group)), [])
            turn = 0
            for female in [i for group in pairing["females"] for i in grown(group) if i not in given]:
                order = [(turn + step) % len(males) for step in range(len(males))]
                free = next((place for place in order if load.get(males[place], 0) < most), None)
                if free is None:
                    break
                load[males[free]] = load.get(males[free], 0) + 1
                given.add(female)
                turn = free + 1
                yield pairing["id"], males[free], female

    # Step 4: laying and hatching

    def _lay(self, state: State, chance: Chance, note: Note) -> State:
        if not state.jobs:
            return state._replace(phase="end")
        job, *later = state.jobs
        if job.kind == "mating":
            female_lays = chance.draw(self.lays) if state.animals[job.female].works else False
            clutches = self.species.get("clutches_per_season", 1) if female_lays else 0
            return state._replace(jobs=(job._replace(kind="clutch"),) * clutches + tuple(later))
        if job.kind == "clutch":
            size, lost = chance.draw(self.sizes), chance.draw(self.lost)
            return state._replace(jobs=(job._replace(kind="eggs", eggs=size, lost=lost), *later))
        if job.eggs == 0:
            return state._replace(jobs=tuple(later))
        return self._egg(state._replace(jobs=(job._replace(eggs=job.eggs - 1), *later)), job, chance, note)

    def _egg(self, state: State, job: Job, chance: Chance, note: Note) -> State:
        note("eggs", state.season, 1)
        note("paid", state.season, self.price["per_egg"])
        state = state._replace(eggs=state.eggs + 1, paid=state.paid + self.price["per_egg"])
        sire, dam = state.animals[job.male], state.animals[job.female]
        if job.lost or not sire.works or not chance.draw(self.fertile):
            return state
        sex, genotype = chance.draw(self.genome.offspring(sire.genotype, dam.genotype))
        if not self.genome.viable(genotype) or not chance.draw(self.hatches):
            return state
        note("young", state.season, 1)
        note("paid", state.season, self.price["per_young"])
        state = state._replace(paid=state.paid + self.price["per_young"])
        filled = self._fill(state.filled, sex, genotype)
        young = Young(job.pairing, sex, genotype, counted=filled != state.filled)
        state = state._replace(filled=filled)
        if young.counted and all(n == row.get("count", 1) for n, row in zip(filled, self.want, strict=True)):
            state = state._replace(met_season=state.season, met_egg=state.eggs)
        if any(self._may_hold(state, place, young) for place in range(len(self.holding))):
            return state._replace(young=(*state.young, young))
        self._let_go(state.season, young, note)
        return state

    def _fill(self, filled: tuple[int, ...], sex: str, genotype: Genotype) -> tuple[int, ...]:
        for place, row in enumerate(self.want):
            if filled[place] < row.get("count", 1) and self._fits(row, sex, genotype):
                return (*filled[:place], filled[place] + 1, *filled[place + 1 :])
        return filled

    def _fits(self, row: dict[str, Any], sex: str, genotype: Genotype) -> bool:
        return row.get("sex", "any") in ("any", sex) and self.genome.fits(genotype, row.get("forms", {}))

    # Step 5: holding back; the rest is surplus

    def _vacancies(self, state: State, place: int) -> int:
        until = self.holding[place].get("until")
        if until is not None and state.season >= until:
            return 0
        return int(self.holding[place]["count"]) - state.ever_held[place]

    def _may_hold(self, state: State, place: int, young: Young) -> bool:
        """Whether the group could take this young at the end of the season, if nothing goes before."""
        group = self.holding[place]
        if young.sex != group["sex"] or young.pairing not in group["from"] or not self._vacancies(state, place):
            return False
        return any(self.genome.fits(young.genotype, condition) for condition in group["pick"])

    def _end_season(self, state: State, chance: Chance, note: Note) -> State:
        left = list(state.young)
        for place, group in enumerate(self.holding):
            taken = self._choose(state, place, left)
            for young in taken:
                left.remove(young)
            held = tuple(self._held(group, young, state.season, chance) for young in taken)
            ever_held = list(state.ever_held)
            ever_held[place] += len(held)
            state = state._replace(animals=state.animals + held, ever_held=tuple(ever_held))
        for young in left:
            self._let_go(state.season, young, note)
        over = state.met_season is not None or state.season == self.seasons
        return state._replace(phase="over" if over else "start", season=state.season + (not over), young=())

    def _choose(self, state: State, place: int, left: Sequence[Young]) -> list[Young]:
        able = [young for young in left if self._may_hold(state, place, young)]
        chosen: list[Young] = []
        for condition in self.holding[place]["pick"]:
            fitting = [young for young in able if self.genome.fits(young.genotype, condition)]
            chosen += fitting
            able = [young for young in able if young not in fitting]
        return chosen[: self._vacancies(state, place)]

    def _held(self, group: dict[str, Any], young: Young, season: int, chance: Chance) -> Animal:
        works, fit = chance.draw(self.works[group["sex"]]), chance.draw(self.reaches)
        return Animal(group["id"], young.genotype, works, season + self.species["matures"][group["sex"]], fit)

    def _let_go(self, season: int, young: Young, note: Note) -> None:
        """A young nobody holds: surplus, unless it counted for the goal."""
        if young.counted:
            return
        note("surplus", season, 1)
        rows = zip(self.costs.get("surplus", []), self.sale, strict=True)
        note("sales", season, next((sale for row, sale in rows if self._fits(row, young.sex, young.genotype)), 0))


COSTS = ("setup", "keep_adult", "keep_young", "per_egg", "per_young")


def _arrives(group: dict[str, Any]) -> int | None:
    return None if group["origin"] == "hold" else int(group.get("season", 1))


def _members(group: dict[str, Any]) -> int:
    return len(group["animals"]) if "animals" in group else int(group["count"])

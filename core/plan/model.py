"""The plan as frozen values: the shape of a `*.plan.json` file, before its meaning is checked.

Field names and defaults are those of the file. Everything that JSON types alone cannot say (references, sums,
orders, forms that no genotype shows) is in `core.plan.check`.
"""

from __future__ import annotations

from typing import Literal

import msgspec

Number = int | float
# A number in 0..1, or a fraction in a string ("2/3"); kept as written so that a round trip changes nothing.
Chance = int | float | str
Sex = Literal["male", "female"]
AnySex = Literal["male", "female", "any"]
Placement = Literal["autosome", "sex-chromosome", "both-sex-chromosomes"]
SexSystem = Literal["ZW", "XY", "temperature"]
# Gene id (or the ids of a linked set joined by spaces) to a genotype, or to hidden genotypes with their chances.
Carries = dict[str, str | dict[str, Chance]]
# Gene id to visible form: a condition that every named gene must meet; {} fits any animal.
Forms = dict[str, str]


class Part(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Base of every part of a plan."""


class Gene(Part, kw_only=True):
    """One gene: its mutant alleles (`+` is wild type) and which genotype looks how."""

    id: str
    name: str
    alleles: tuple[str, ...]
    forms: dict[str, str]
    lethal: tuple[str, ...] = ()
    placement: Placement = "autosome"
    recombination: Chance | None = None
    note: str = ""


class Linkage(Part, kw_only=True):
    """Genes in order along one chromosome, with the recombination fraction between neighbours."""

    genes: tuple[str, ...]
    recombination: tuple[Chance, ...]


class Combination(Part, kw_only=True):
    """A trade name for forms seen together."""

    name: str
    forms: Forms


class Clutch(Part, kw_only=True):
    """Clutch size: `fixed`, or `counts`, or a normal (`mean`, `sd`) cut to whole numbers in `min`..`max`."""

    fixed: int | None = None
    counts: dict[str, Chance] | None = None
    mean: Number | None = None
    sd: Number | None = None
    min: int | None = None
    max: int | None = None


class Matures(Part, kw_only=True):
    """Seasons from hatching to first breeding."""

    male: int
    female: int


class Breeds(Part, kw_only=True):
    """Chance that an animal is a working breeder at all."""

    male: Chance = 1
    female: Chance = 1


class Species(Part, kw_only=True):
    """Biology that every route shares."""

    name: str
    sex_system: SexSystem
    clutch: Clutch
    matures: Matures
    female_share: Chance | None = None
    young: Literal["eggs", "live"] = "eggs"
    clutches_per_season: int = 1
    lays: Chance = 1
    clutch_lost: Chance = 0
    fertile: Chance = 1
    hatches: Chance = 1
    breeds: Breeds = Breeds()
    reaches_breeding: Chance = 1
    females_per_male: int = 4


class Want(Part, kw_only=True):
    """One row of the goal: forms, sex and how many."""

    forms: Forms
    sex: AnySex = "any"
    count: int = 1


class Goal(Part, kw_only=True):
    """What is wanted, how sure, within how many seasons, and the limits."""

    want: tuple[Want, ...]
    chance: Chance
    seasons: int
    budget: Number | None = None
    housing: int | None = None
    outright_price: Number | None = None
    outright_change: Number = 0


class SurplusPrice(Part, kw_only=True):
    """What a surplus young that fits is worth."""

    price: Number
    forms: Forms = {}
    sex: AnySex = "any"


class Costs(Part, kw_only=True):
    """Running costs and what surplus young could bring."""

    setup: Number = 0
    keep_adult: Number = 0
    keep_young: Number = 0
    per_egg: Number = 0
    per_young: Number = 0
    surplus: tuple[SurplusPrice, ...] = ()
    sold_share: Chance = 0.5


class ForSale(Part, kw_only=True):
    """An animal that can be bought."""

    id: str
    sex: Sex
    carries: Carries
    price: Number
    label: str = ""
    ready_in: int = 0
    quantity: int = 1


class Animal(Part, kw_only=True):
    """One of my animals: with parents it inherits, without them `carries` is its prior."""

    id: str
    sex: Sex
    name: str = ""
    sire: str | None = None
    dam: str | None = None
    carries: Carries = {}
    forms: Forms = {}


class YoungSeen(Part, kw_only=True):
    """Young of one clutch that looked alike."""

    forms: Forms
    count: int
    sex: AnySex = "any"


class ClutchRecord(Part, kw_only=True):
    """What one clutch gave."""

    sire: str
    dam: str
    season: int
    young: tuple[YoungSeen, ...]
    slugs: int = 0


class Bought(Part, kw_only=True, tag_field="origin", tag="buy"):
    """A group that is bought."""

    id: str
    sex: Sex
    count: int
    carries: Carries
    price: Number
    season: int = 1
    ready_in: int = 0
    until: int | None = None


class Owned(Part, kw_only=True, tag_field="origin", tag="own"):
    """A group that is mine already: `count` alike animals, or named `animals`."""

    id: str
    sex: Sex
    count: int | None = None
    carries: Carries | None = None
    animals: tuple[str, ...] | None = None
    price: Number = 0
    kept_anyway: bool = True
    season: int = 1
    ready_in: int = 0
    until: int | None = None


class Held(Part, kw_only=True, tag_field="origin", tag="hold"):
    """A group held back from the young of earlier pairings, by preference."""

    id: str
    sex: Sex
    count: int
    source: tuple[str, ...] = msgspec.field(name="from")
    pick: tuple[Forms, ...]
    until: int | None = None


Group = Bought | Owned | Held


class Pairing(Part, kw_only=True):
    """Who breeds with whom, and in which seasons (null: open)."""

    id: str
    males: tuple[str, ...]
    females: tuple[str, ...]
    seasons: tuple[int | None, int | None] = (None, None)


class Scale(Part, kw_only=True):
    """Counts to try on all the named groups at once."""

    groups: tuple[str, ...]
    counts: tuple[int, ...]


class Route(Part, kw_only=True):
    """One way to the goal."""

    id: str
    name: str
    setup: Number = 0
    buy_outright: int | None = None
    groups: tuple[Group, ...] = ()
    pairings: tuple[Pairing, ...] = ()
    scale: Scale | None = None


class Simulation(Part, kw_only=True):
    """How long and from which seed to simulate where no exact answer is in reach."""

    runs: int = 20000
    seed: int = 1


class Plan(Part, kw_only=True):
    """Everything a comparison needs."""

    format: Literal["pairwright-plan"]
    version: Literal[1]
    title: str
    currency: str
    notes: str = ""
    genes: tuple[Gene, ...]
    linkage: tuple[Linkage, ...] = ()
    combinations: tuple[Combination, ...] = ()
    species: Species
    goal: Goal
    costs: Costs = Costs()
    for_sale: tuple[ForSale, ...] = ()
    my_animals: tuple[Animal, ...] = ()
    clutch_records: tuple[ClutchRecord, ...] = ()
    routes: tuple[Route, ...] = ()
    already_spent: Number = 0
    cautions_read: tuple[str, ...] = ()
    simulation: Simulation = Simulation()

"""The plan as frozen values: the shape of a `*.plan.json` file, before its meaning is checked.

Field names and defaults are those of the file. Everything that JSON types alone cannot say (references, sums,
orders, forms that no genotype shows) is in `core.plan.check`.
"""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from core.plan import limits


def _within(least: float, most: float) -> Meta:
    """Bound a number, both ends included, for the reader and for the JSON Schema."""
    return Meta(extra={"least": least, "most": most}, extra_json_schema={"minimum": least, "maximum": most})


def _chance(most: float) -> Meta:
    part = f"[0-9]{{1,{limits.LONGEST_FRACTION_PART}}}"
    schema = {"minimum": 0, "maximum": most, "pattern": f"^{part}/{part}$"}
    return Meta(extra={"least": 0, "most": most}, extra_json_schema=schema)


# For a key that has no value to stand for "not given": it is left out, and null is an error. None in the struct.
_LEFT_OUT = Meta(extra={"null": False}, extra_json_schema={"leftOut": True})

Number = int | float
Money = Annotated[Number, _within(0, limits.MOST_MONEY)]
# A number in 0..1, or a fraction in a string ("2/3"); kept as written so that a round trip changes nothing.
Chance = Annotated[int | float | str, _chance(1)]
Recombination = Annotated[int | float | str, _chance(0.5)]
Season = Annotated[int, _within(1, limits.MOST_SEASONS)]
Wait = Annotated[int, _within(0, limits.MOST_SEASONS)]
Eggs = Annotated[int, _within(0, limits.MOST_EGGS)]
GroupSize = Annotated[int, _within(1, limits.MOST_ANIMALS_IN_GROUP)]

Name = Annotated[str, Meta(max_length=limits.LONGEST_NAME)]
Note = Annotated[str, Meta(max_length=limits.LONGEST_TEXT)]
Word = Annotated[str, Meta(min_length=1, max_length=limits.LONGEST_NAME)]
Id = Annotated[Word, Meta(extra={"word": "id"}, extra_json_schema={"pattern": r"^[^\s/]+$"})]
Allele = Annotated[Word, Meta(extra={"word": "allele"}, extra_json_schema={"pattern": r"^(?![-+WXYZ]$)[^\s/]+$"})]
Ids = Annotated[tuple[Name, ...], Meta(min_length=1, max_length=limits.MOST_GROUPS)]

Sex = Literal["male", "female"]
AnySex = Literal["male", "female", "any"]
Placement = Literal["autosome", "sex-chromosome", "both-sex-chromosomes"]
SexSystem = Literal["ZW", "XY", "temperature"]
Hidden = Annotated[dict[str, Chance], Meta(max_length=limits.MOST_HIDDEN_GENOTYPES)]
# Gene id (or the ids of a linked set joined by spaces) to a genotype, or to hidden genotypes with their chances.
Carries = Annotated[dict[str, Note | Hidden], Meta(max_length=limits.MOST_GENES)]
# Gene id to visible form: a condition that every named gene must meet; {} fits any animal.
Forms = Annotated[dict[str, Word], Meta(max_length=limits.MOST_GENES)]


class Part(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Base of every part of a plan."""


class Gene(Part, frozen=True, kw_only=True):
    """One gene: its mutant alleles (`+` is wild type) and which genotype looks how."""

    id: Id
    name: Name
    alleles: Annotated[tuple[Allele, ...], Meta(min_length=1, max_length=limits.MOST_ALLELES)]
    forms: Annotated[dict[str, Word], Meta(max_length=limits.MOST_GENOTYPES)]
    lethal: Annotated[tuple[Name, ...], Meta(max_length=limits.MOST_GENOTYPES)] = ()
    placement: Placement = "autosome"
    recombination: Annotated[Recombination | None, _LEFT_OUT] = None
    note: Note = ""


class Linkage(Part, frozen=True, kw_only=True):
    """Genes in order along one chromosome, with the recombination fraction between neighbours."""

    genes: Annotated[tuple[Name, ...], Meta(min_length=2, max_length=limits.MOST_GENES)]
    recombination: Annotated[tuple[Recombination, ...], Meta(max_length=limits.MOST_GENES)]


class Combination(Part, frozen=True, kw_only=True):
    """A trade name for forms seen together."""

    name: Name
    forms: Forms


class Clutch(Part, frozen=True, kw_only=True):
    """Clutch size: `fixed`, or `counts`, or a normal (`mean`, `sd`) cut to whole numbers in `min`..`max`."""

    fixed: Annotated[Eggs | None, _LEFT_OUT] = None
    counts: Annotated[Annotated[dict[str, Chance], Meta(max_length=limits.MOST_EGGS + 1)] | None, _LEFT_OUT] = None
    mean: Annotated[Annotated[Number, _within(0, limits.MOST_EGGS)] | None, _LEFT_OUT] = None
    sd: Annotated[Annotated[Number, _within(0, limits.MOST_EGGS)] | None, _LEFT_OUT] = None
    min: Annotated[Eggs | None, _LEFT_OUT] = None
    max: Annotated[Eggs | None, _LEFT_OUT] = None


class Matures(Part, frozen=True, kw_only=True):
    """Seasons from hatching to first breeding."""

    male: Season
    female: Season


class Breeds(Part, frozen=True, kw_only=True):
    """Chance that an animal is a working breeder at all."""

    male: Chance = 1
    female: Chance = 1


class Species(Part, frozen=True, kw_only=True):
    """Biology that every route shares."""

    name: Name
    sex_system: SexSystem
    clutch: Clutch
    matures: Matures
    female_share: Annotated[Chance | None, _LEFT_OUT] = None
    young: Literal["eggs", "live"] = "eggs"
    clutches_per_season: Annotated[int, _within(1, limits.MOST_CLUTCHES)] = 1
    lays: Chance = 1
    clutch_lost: Chance = 0
    fertile: Chance = 1
    hatches: Chance = 1
    breeds: Breeds = Breeds()
    reaches_breeding: Chance = 1
    females_per_male: Annotated[int, _within(1, limits.MOST_FEMALES_PER_MALE)] = 4


class Want(Part, frozen=True, kw_only=True):
    """One row of the goal: forms, sex and how many."""

    forms: Forms
    sex: AnySex = "any"
    count: Annotated[int, _within(1, limits.MOST_WANTED)] = 1


class Goal(Part, frozen=True, kw_only=True):
    """What is wanted, how sure, within how many seasons, and the limits."""

    want: Annotated[tuple[Want, ...], Meta(min_length=1, max_length=limits.MOST_WANT_ROWS)]
    chance: Chance
    seasons: Season
    budget: Money | None = None
    housing: Annotated[int, _within(0, limits.MOST_HOUSING)] | None = None
    outright_price: Money | None = None
    outright_change: Annotated[Number, _within(-1, limits.MOST_CHANGE)] = 0


class SurplusPrice(Part, frozen=True, kw_only=True):
    """What a surplus young that fits is worth."""

    price: Money
    forms: Forms = {}
    sex: AnySex = "any"


class Costs(Part, frozen=True, kw_only=True):
    """Running costs and what surplus young could bring."""

    setup: Money = 0
    keep_adult: Money = 0
    keep_young: Money = 0
    per_egg: Money = 0
    per_young: Money = 0
    surplus: Annotated[tuple[SurplusPrice, ...], Meta(max_length=limits.MOST_PRICE_ROWS)] = ()
    sold_share: Chance = 0.5


class ForSale(Part, frozen=True, kw_only=True):
    """An animal that can be bought."""

    id: Id
    sex: Sex
    carries: Carries
    price: Money
    label: Name = ""
    ready_in: Wait = 0
    quantity: Annotated[int, _within(0, limits.MOST_FOR_SALE)] = 1


class Animal(Part, frozen=True, kw_only=True):
    """One of my animals: with parents it inherits, without them `carries` is its prior."""

    id: Id
    sex: Sex
    name: Name = ""
    sire: Annotated[Name | None, _LEFT_OUT] = None
    dam: Annotated[Name | None, _LEFT_OUT] = None
    carries: Carries = {}
    forms: Forms = {}


class YoungSeen(Part, frozen=True, kw_only=True):
    """Young of one clutch that looked alike."""

    forms: Forms
    count: Eggs
    sex: AnySex = "any"


class ClutchRecord(Part, frozen=True, kw_only=True):
    """What one clutch gave."""

    sire: Name
    dam: Name
    season: Annotated[int, _within(-limits.FARTHEST_SEASON, limits.FARTHEST_SEASON)]
    young: Annotated[tuple[YoungSeen, ...], Meta(max_length=limits.MOST_YOUNG_ROWS)]
    slugs: Eggs = 0


class Bought(Part, frozen=True, kw_only=True, tag_field="origin", tag="buy"):
    """A group that is bought."""

    id: Id
    sex: Sex
    count: GroupSize
    carries: Carries
    price: Money
    season: Season = 1
    ready_in: Wait = 0
    until: Season | None = None


class Owned(Part, frozen=True, kw_only=True, tag_field="origin", tag="own"):
    """A group that is mine already: `count` alike animals, or named `animals`."""

    id: Id
    sex: Sex
    count: Annotated[GroupSize | None, _LEFT_OUT] = None
    carries: Annotated[Carries | None, _LEFT_OUT] = None
    animals: Annotated[
        Annotated[tuple[Name, ...], Meta(min_length=1, max_length=limits.MOST_ANIMALS_IN_GROUP)] | None, _LEFT_OUT
    ] = None
    price: Money = 0
    kept_anyway: bool = True
    season: Season = 1
    ready_in: Wait = 0
    until: Season | None = None


class Held(Part, frozen=True, kw_only=True, tag_field="origin", tag="hold"):
    """A group held back from the young of earlier pairings, by preference."""

    id: Id
    sex: Sex
    count: GroupSize
    source: Ids = msgspec.field(name="from")
    pick: Annotated[tuple[Forms, ...], Meta(min_length=1, max_length=limits.MOST_PICKS)]
    until: Season | None = None


Group = Bought | Owned | Held


class Pairing(Part, frozen=True, kw_only=True):
    """Who breeds with whom, and in which seasons (null: open)."""

    id: Id
    males: Ids
    females: Ids
    seasons: tuple[Season | None, Season | None] = (None, None)


class Scale(Part, frozen=True, kw_only=True):
    """Counts to try on all the named groups at once."""

    groups: Ids
    counts: Annotated[tuple[GroupSize, ...], Meta(min_length=1, max_length=limits.MOST_SCALE_COUNTS)]


class Route(Part, frozen=True, kw_only=True):
    """One way to the goal."""

    id: Id
    name: Name
    setup: Money = 0
    buy_outright: Season | None = None
    groups: Annotated[tuple[Group, ...], Meta(max_length=limits.MOST_GROUPS)] = ()
    pairings: Annotated[tuple[Pairing, ...], Meta(max_length=limits.MOST_PAIRINGS)] = ()
    scale: Annotated[Scale | None, _LEFT_OUT] = None

    @property
    def called(self) -> str:
        """What a person calls it: its name, or its id where it has none."""
        return self.name.strip() or self.id


class Simulation(Part, frozen=True, kw_only=True):
    """How long and from which seed to simulate where no exact answer is in reach."""

    runs: Annotated[int, _within(1, limits.MOST_RUNS)] = 20000
    seed: Annotated[int, _within(0, limits.MOST_SEED)] = 1


class Plan(Part, frozen=True, kw_only=True):
    """Everything a comparison needs."""

    format: Literal["pairwright-plan"]
    version: Literal[1]
    title: Name
    currency: Name
    notes: Note = ""
    genes: Annotated[tuple[Gene, ...], Meta(max_length=limits.MOST_GENES)]
    linkage: Annotated[tuple[Linkage, ...], Meta(max_length=limits.MOST_GENES)] = ()
    combinations: Annotated[tuple[Combination, ...], Meta(max_length=limits.MOST_COMBINATIONS)] = ()
    species: Species
    goal: Goal
    costs: Costs = Costs()
    for_sale: Annotated[tuple[ForSale, ...], Meta(max_length=limits.MOST_FOR_SALE)] = ()
    my_animals: Annotated[tuple[Animal, ...], Meta(max_length=limits.MOST_MY_ANIMALS)] = ()
    clutch_records: Annotated[tuple[ClutchRecord, ...], Meta(max_length=limits.MOST_CLUTCH_RECORDS)] = ()
    routes: Annotated[tuple[Route, ...], Meta(max_length=limits.MOST_ROUTES)] = ()
    already_spent: Money = 0
    cautions_read: Annotated[tuple[Note, ...], Meta(max_length=limits.MOST_CAUTIONS_READ)] = ()
    simulation: Simulation = Simulation()

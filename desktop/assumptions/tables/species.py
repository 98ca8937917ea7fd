"""The species: how sex is set, how fast it grows, its clutches and every risk."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.assumptions.clutches import clutch_kind, with_clutch_kind
from desktop.assumptions.species_edits import with_preset, with_sex_system
from desktop.forms.kinds import Amount, Panel, Share, Whole, Words, fixed
from desktop.forms.table import Field, Form, Line, When

_SEX_SYSTEMS = fixed(
    ("ZW", "chromosomes, ZW: females have two different ones"),
    ("XY", "chromosomes, XY: males have two different ones"),
    ("temperature", "temperature: there are no sex chromosomes"),
)
_YOUNG = fixed(("eggs", "hatch from eggs"), ("live", "are born live"))
_CLUTCHES = fixed(
    ("fixed", "always has the same size"),
    ("normal", "varies around an average"),
    ("counts", "has each size with a chance of its own"),
)


def _is_clutch(kind: str) -> When:
    def told(plan: Plan, _subject: int) -> bool:
        return clutch_kind(plan, 0) == kind

    return told


def _by_temperature(plan: Plan, _subject: int) -> bool:
    return plan.species.sex_system == "temperature"


def _risk(place: str, name: str, before: str, unit: str, *, help: str, ideal: str, best: int = 1) -> Line:
    field = Field(f"species.{place}", name, Share(), before=before, unit=unit)
    return Line((field,), help=help, sourced=place, ideal=f"{ideal} The chances are a ceiling.", ideal_value=best)


SPECIES = (
    Form(
        "Species",
        (
            Line(
                (Field("species.name", "Species", Words(empty=""), hint="any name"),),
                help="What is known of a species comes with its source when the name is one the program knows.",
            ),
            Line((Field("species", "Known species", Panel("presets"), put=with_preset),)),
            Line((Field("species.kept", "Keep this species for other plans", Panel("keep species")),)),
            Line(
                (Field("species.sex_system", "What sets the sex", _SEX_SYSTEMS, before="Sex is set by",
                       put=with_sex_system),),
                help="Genes on the sex chromosomes pass on by it; animals that carry one are written anew.",
                sourced="sex_system",
            ),
            Line(
                (Field("species.female_share", "How many young are female", Share(empty="50"),
                       before="Of 100 young,", unit="are female"),),
                help="As the eggs are kept. Empty: half of them.",
                when=_by_temperature,
            ),
            Line((Field("species.young", "How the young come", _YOUNG, before="The young"),), sourced="young",
                 help="Of a live-bearer, read “young” for “eggs”."),
            Line(
                (
                    Field("species.matures.male", "Seasons until a male breeds", Whole(), before="A male breeds",
                          unit="season after it hatched,|seasons after it hatched,"),
                    Field("species.matures.female", "Seasons until a female breeds", Whole(), before="a female",
                          unit="season after.|seasons after."),
                ),
                help="Hatched in season 1, an animal with 3 breeds for the first time in season 4.",
                sourced="matures",
            ),
            Line(
                (Field("species.females_per_male", "Females that one male serves", Whole(),
                       before="One male serves up to",
                       unit="female a season|females a season"),),
                help="Females beyond that are kept, but stay idle.",
                sourced="females_per_male",
            ),
        ),
    ),
    Form(
        "Clutches",
        (
            Line((Field("species.clutch", "How clutches vary", _CLUTCHES, before="A clutch", put=with_clutch_kind,
                        get=clutch_kind),), sourced="clutch"),
            Line((Field("species.clutch.fixed", "Eggs in every clutch", Whole(), before="Every clutch has",
                        unit="egg|eggs"),), when=_is_clutch("fixed")),
            Line(
                (
                    Field("species.clutch.mean", "Eggs on average", Amount(), before="About",
                          unit="eggs, give or take"),
                    Field("species.clutch.sd", "How far clutches vary", Amount(), unit=";"),
                    Field("species.clutch.min", "Fewest eggs", Whole(), before="at least"),
                    Field("species.clutch.max", "Most eggs", Whole(), before="and at most"),
                ),
                help="Two of three clutches lie no further from the average than the number given or taken.",
                when=_is_clutch("normal"),
            ),
            Line((Field("species.clutch.counts", "Chance of each clutch size", Panel("counts")),),
                 when=_is_clutch("counts")),
            Line(
                (Field("species.clutches_per_season", "Clutches a season", Whole(), before="A female that lays has",
                       unit="clutch a season|clutches a season"),),
                sourced="clutches_per_season",
            ),
        ),
    ),
    Form(
        "Risks",
        (
            _risk("lays", "Females that lay", "Of 100 females put to a male,", "lay that season",
                  help="The others skip the season.", ideal="Every female lays every season."),
            _risk("clutch_lost", "Clutches lost whole", "Of 100 clutches,", "are lost whole", best=0,
                  help="The eggs are laid and paid for; none hatches.", ideal="No clutch is lost."),
            _risk("fertile", "Fertile eggs", "Of 100 eggs,", "are fertile", help="The others are slugs.",
                  ideal="There are no slugs."),
            _risk("hatches", "Fertile eggs that hatch", "Of 100 fertile eggs,",
                  "give young that can be sexed and judged",
                  help="Losses do not depend on what a young carries.", ideal="Every fertile egg hatches."),
            _risk("breeds.male", "Males that breed", "Of 100 males,", "ever breed",
                  help="Bought, mine or held back. One that does not sires only slugs, and nobody knows beforehand.",
                  ideal="Every male breeds."),
            _risk("breeds.female", "Females that breed", "Of 100 females,", "ever breed",
                  help="One that does not never lays.", ideal="Every female breeds."),
            _risk("reaches_breeding", "Young held back that grow up", "Of 100 young held back,",
                  "live and are fit to breed when they are due",
                  help="The place of one that is not stays empty.", ideal="No young held back is lost."),
        ),
    ),
)  # fmt: skip

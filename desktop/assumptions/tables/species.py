"""The species: how sex is set, how fast it grows, its clutches and every risk."""

from __future__ import annotations

from core.plan.model import Plan
from core.text import tr
from desktop.assumptions.clutches import clutch_kind, with_clutch_kind
from desktop.assumptions.species_edits import preset_step, with_preset, with_sex_system
from desktop.forms.kinds import Amount, Panel, Share, Whole, Words, fixed
from desktop.forms.table import Field, Form, Line, When

_SEX_SYSTEMS = fixed(
    ("ZW", tr("chromosomes, ZW: females have two different ones")),
    ("XY", tr("chromosomes, XY: males have two different ones")),
    ("temperature", tr("temperature: there are no sex chromosomes")),
)
_YOUNG = fixed(("eggs", tr("hatch from eggs")), ("live", tr("are born live")))
_CLUTCHES = fixed(
    ("fixed", tr("always has the same size")),
    ("normal", tr("varies around an average")),
    ("counts", tr("has each size with a chance of its own")),
)


def _is_clutch(kind: str) -> When:
    def told(plan: Plan, _subject: int) -> bool:
        return clutch_kind(plan, 0) == kind

    return told


def _by_temperature(plan: Plan, _subject: int) -> bool:
    return plan.species.sex_system == "temperature"


def _risk(place: str, name: str, before: str, unit: str, *, help: str, ideal: str, best: int = 1) -> Line:
    field = Field(f"species.{place}", name, Share(), before=before, unit=unit)
    return Line(
        (field,),
        help=help,
        sourced=place,
        ideal=tr("{ideal} The chances are a ceiling.", ideal=ideal),
        ideal_value=best,
    )


SPECIES = (
    Form(
        tr("Species"),
        (
            Line(
                (Field("species.name", tr("Species"), Words(empty=""), hint=tr("any name")),),
                help=tr("What the program knows of a species stands at the right; it is set once you take it over."),
            ),
            Line((Field("species", tr("Known species"), Panel("presets"), put=with_preset, told=preset_step),)),
            Line((Field("species.kept", tr("Keep this species for other plans"), Panel("keep species")),)),
            Line(
                (Field("species.sex_system", tr("What sets the sex"), _SEX_SYSTEMS, before=tr("Sex is set by"),
                       put=with_sex_system),),
                help=tr("Genes on the sex chromosomes pass on by it; animals that carry one are written anew."),
                sourced="sex_system",
            ),
            Line(
                (Field("species.female_share", tr("How many young are female"), Share(empty="50"),
                       before=tr("Of 100 young,"), unit=tr("are female")),),
                help=tr("As the eggs are kept. Empty: half of them."),
                when=_by_temperature,
            ),
            Line((Field("species.young", tr("How the young come"), _YOUNG, before=tr("The young")),), sourced="young",
                 help=tr("Of a live-bearer, read “young” for “eggs”.")),
            Line(
                (
                    Field("species.matures.male", tr("Seasons until a male breeds"), Whole(),
                          before=tr("A male breeds"),
                          unit=tr("season after it hatched,|seasons after it hatched,")),
                    Field("species.matures.female", tr("Seasons until a female breeds"), Whole(), before=tr("a female"),
                          unit=tr("season after.|seasons after.")),
                ),
                help=tr("Hatched in season 1, an animal with 3 breeds for the first time in season 4."),
                sourced="matures",
            ),
            Line(
                (Field("species.females_per_male", tr("Females that one male serves"), Whole(),
                       before=tr("One male serves up to"),
                       unit=tr("female a season|females a season")),),
                help=tr("Females beyond that are kept, but stay idle."),
                sourced="females_per_male",
            ),
        ),
    ),
    Form(
        tr("Clutches"),
        (
            Line((Field("species.clutch", tr("How clutches vary"), _CLUTCHES, before=tr("A clutch"),
                        put=with_clutch_kind,
                        get=clutch_kind),), sourced="clutch"),
            Line((Field("species.clutch.fixed", tr("Eggs in every clutch"), Whole(), before=tr("Every clutch has"),
                        unit=tr("egg|eggs")),), when=_is_clutch("fixed")),
            Line(
                (
                    Field("species.clutch.mean", tr("Eggs on average"), Amount(), before=tr("About"),
                          unit=tr("eggs, give or take")),
                    Field("species.clutch.sd", tr("How far clutches vary"), Amount(), unit=";"),
                    Field("species.clutch.min", tr("Fewest eggs"), Whole(), before=tr("at least")),
                    Field("species.clutch.max", tr("Most eggs"), Whole(), before=tr("and at most")),
                ),
                help=tr("Two of three clutches lie no further from the average than the number given or taken."),
                when=_is_clutch("normal"),
            ),
            Line((Field("species.clutch.counts", tr("Chance of each clutch size"), Panel("counts")),),
                 when=_is_clutch("counts")),
            Line(
                (Field("species.clutches_per_season", tr("Clutches a season"), Whole(),
                       before=tr("A female that lays has"),
                       unit=tr("clutch a season|clutches a season")),),
                sourced="clutches_per_season",
            ),
        ),
    ),
    Form(
        tr("Risks"),
        (
            _risk("lays", tr("Females that lay"), tr("Of 100 females put to a male,"), tr("lay that season"),
                  help=tr("The others skip the season."), ideal=tr("Every female lays every season.")),
            _risk("clutch_lost", tr("Clutches lost whole"), tr("Of 100 clutches,"), tr("are lost whole"), best=0,
                  help=tr("The eggs are laid and paid for; none hatches."), ideal=tr("No clutch is lost.")),
            _risk("fertile", tr("Fertile eggs"), tr("Of 100 eggs,"), tr("are fertile"),
                  help=tr("The others are slugs."),
                  ideal=tr("There are no slugs.")),
            _risk("hatches", tr("Fertile eggs that hatch"), tr("Of 100 fertile eggs,"),
                  tr("give young that can be sexed and judged"),
                  help=tr("Losses do not depend on what a young carries."), ideal=tr("Every fertile egg hatches.")),
            _risk("breeds.male", tr("Males that breed"), tr("Of 100 males,"), tr("ever breed"),
                  help=tr("Bought, mine or held back. One that does not sires only slugs, and nobody knows "
"beforehand."),
                  ideal=tr("Every male breeds.")),
            _risk("breeds.female", tr("Females that breed"), tr("Of 100 females,"), tr("ever breed"),
                  help=tr("One that does not never lays."), ideal=tr("Every female breeds.")),
            _risk("reaches_breeding", tr("Young held back that grow up"), tr("Of 100 young held back,"),
                  tr("live and are fit to breed when they are due"),
                  help=tr("The place of one that is not stays empty."), ideal=tr("No young held back is lost.")),
        ),
    ),
)  # fmt: skip

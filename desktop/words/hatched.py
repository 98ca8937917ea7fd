"""The words of what hatched: the form of a clutch, the clutches on record, and the difference they made."""

from __future__ import annotations

from core.explain.numbers import is_live
from core.genetics.beliefs import ImpossibleEvidence
from core.plan.model import ClutchRecord, Plan, YoungSeen
from core.plan.sexes import sex_words
from core.text import tr
from desktop.words.my_animals import name_of, named
from desktop.words.numbers import Numbers, percent

NOT_LOOKED, IN = tr("not looked at"), tr("in")
MALES, FEMALES, NOT_SEXED = tr("males"), tr("females"), tr("not sexed")
SLUGS = tr("Slugs")
NONE_TOLD = tr("Neither says anything of who carries what; the plan keeps them as one number.")
ENTER_CHANGED, CLEAR = tr("Put it in place of the old one"), tr("Start over")
OTHER_LOOK, ADD_LOOK = tr("Another look"), tr("Add another look…")
SAYS_NOTHING = tr("It changes nothing: what it shows was certain before.")
CHANGE, REMOVE = tr("Change"), tr("Remove")
FOR_ANIMALS, FOR_ROUTES, FOR_ANSWER = tr("To your animals"), tr("To the routes"), tr("To the answer")
ROUTE, BEFORE, NOW = tr("Route"), tr("before"), tr("now")
NO_ROUTE_OF_MINE = tr("No route uses animals of yours, so no route’s chance moved.")


def look_words(forms: dict[str, str]) -> str:
    """A look of young: `normal`, `coal`, `coal + blush`."""
    shown = {gene: form for gene, form in forms.items() if form != "normal"}
    return " + ".join(shown.values()) if shown else tr("normal")


def count_name(look: str, sex: str) -> str:
    """What a stepper counts."""
    return f"{look}: {sex}"


def form_name(gene: str) -> str:
    """The choice of one gene in a look that a person names."""
    return tr("{gene}, how they look", gene=gene)


def still(head: str) -> str:
    """The answer that a clutch did not change."""
    return tr("Unchanged: {head}", head=head)


def answers(before: str, now: str) -> list[str]:
    """The answer before and now."""
    return [tr("Before: {before}", before=before), tr("Now: {now}", now=now)]


def likely(share: float, numbers: Numbers) -> str:
    """How many of the young should look like this, to the nearest: the looks of a clutch are read as one whole."""
    near = round(share, 2) if 0.01 <= share <= 0.99 else share
    return tr("about {share}", share=percent(near, numbers)) if share > 0 else ""


def sums(young: int, without: int) -> str:
    """What has been counted."""
    return tr(
        "{all} in all: {young} young, {without} without",
        all=young + without,
        young=young,
        without=without,
    )


def record_words(plan: Plan, record: ClutchRecord) -> str:
    """A clutch as one line."""
    young = [_row_words(row) for row in record.young if row.count]
    slugs = [tr("{slugs} without young", slugs=record.slugs)] if record.slugs else []
    what = "; ".join([", ".join(young) or tr("no young"), *slugs])
    return f"{named(plan, record.sire)} × {named(plan, record.dam)}, {season_words(record.season)}: {what}"


def season_words(season: int) -> str:
    """A season of the plan, or before it."""
    if season >= 1:
        return tr("season {season}", season=season)
    before = 1 - season
    return tr("{n} seasons before the plan", "the season before the plan", before)


def trouble(plan: Plan, error: ImpossibleEvidence) -> str:
    """Which record or animal cannot be."""
    kind, number = error.where
    if kind == "clutch_records":
        return tr(
            "This {clutch} cannot be as it stands: {record_words}.",
            clutch=tr("litter") if is_live(plan) else tr("clutch"),
            record_words=record_words(plan, plan.clutch_records[number]),
        )
    animal = plan.my_animals[number]
    return tr("{animal} cannot look as recorded, given its parents and what is known of them.", animal=name_of(animal))


def route_change(before: float, now: float, numbers: Numbers) -> tuple[str, str]:
    """A route's chance by the horizon, before and now."""
    return percent(before, numbers), percent(now, numbers)


def _row_words(row: YoungSeen) -> str:
    look = f"{row.count} {look_words(row.forms)}"
    if row.sex == "any":
        return look
    return f"{look} {sex_words(row.sex, row.count)}"

"""The ladder in sentences."""

from __future__ import annotations

from core.explain.ladder import Ladder
from core.explain.numbers import PLAIN, Numbers, counted, laid_words, listed, of_100, plus_minus, trimmed
from core.explain.truths import Truth, even_clutch, mean_eggs
from core.plan.chances import chance
from core.plan.model import Chance, Plan
from core.text import tr

REAL = tr("Real odds")
LABELS: dict[Truth, str] = {
    "genotypes": tr("One true genotype per animal"),
    "sizes": tr("Clutch sizes vary"),
    "laying": tr("Females that do not lay"),
    "losses": tr("Clutches and eggs lost"),
    "breeders": tr("Animals that never breed"),
    "holding": tr("Too few right young to hold back, or lost"),
    "waiting": tr("Waiting for them to mature"),
}
REASONS: dict[Truth, str] = {
    "genotypes": tr("what each animal truly carries, drawn once for life, not anew for each young"),
    "sizes": tr("clutches that turn out small"),
    "laying": tr("females that do not lay in a season"),
    "losses": tr("clutches, eggs or young that are lost"),
    "breeders": tr("animals that never breed"),
    "holding": tr("too few of the right young to hold back, and young that are lost"),
    "waiting": tr("the seasons that animals need to grow up"),
}
_IDLE: dict[Truth, str] = {
    "genotypes": tr("No animal here has anything hidden."),
    "sizes": tr("Every clutch has the same size."),
    "laying": tr("In this plan every female lays."),
    "losses": tr("In this plan nothing that is laid is lost."),
    "breeders": tr("In this plan every animal breeds."),
    "holding": tr("Nothing is held back."),
    "waiting": tr("Nobody has to grow up first."),
}
# Nothing but rounding is nearer to certain than this.
_CERTAIN = 1 - 1e-15


def textbook_label(plan: Plan) -> str:
    """Where the ladder begins."""
    return tr("Textbook: average per {laid_words}", laid_words=laid_words(plan)[0])


def textbook_note(plan: Plan) -> str:
    """What the textbook takes for granted."""
    one, _ = laid_words(plan)
    return tr("Every {one} meets the average of its parents, nothing goes wrong, and nobody has to grow.", one=one)


def rung_label(plan: Plan, truth: Truth) -> str:
    """A rung as the ladder names it."""
    lost = truth == "losses" and plan.species.young == "live"
    return tr("Clutches and young lost") if lost else LABELS[truth]


def in_100(value: float) -> str:
    """`62 in 100`; 0 and 100 only where it is certain."""
    if 0.99 < value < _CERTAIN:
        return tr("more than 99 in 100")
    if 0 < value < 0.01:
        return tr("fewer than 1 in 100")
    return tr("{of_100} in 100", of_100=of_100(value))


def headline(ladder: Ladder, season: int) -> tuple[str, str, str]:
    """The parts of the first sentence; the number of the season stands before the last of them."""
    textbook, real = float(ladder.textbook[season - 1]), ladder.told(season)
    return (
        tr("Textbook odds say {in_100}", in_100=in_100(textbook)),
        tr("by season"),
        tr(". Real odds are {in_100}.", in_100=in_100(real)),
    )


def gap_sentence(ladder: Ladder, season: int, numbers: Numbers) -> str:
    """What makes most of the difference between the textbook's figure and the route's."""
    if ladder.textbook[season - 1] == 0 and ladder.real[season - 1] == 0:
        return tr("This route cannot give what is wanted by then, whatever else happens.")
    gap = 100 * float(ladder.textbook[season - 1] - ladder.real[season - 1])
    if abs(gap) < 0.5:
        return tr("The textbook is right here, to within half a percentage point.")
    drops = sorted(((-rung.points(season), rung.truth) for rung in ladder.rungs), reverse=gap > 0)
    (most, truth), (second, other) = drops[0], drops[1]
    if gap < 0:
        return tr("Real odds are better here, mainly because of {reasons}.", reasons=REASONS[truth])
    if most >= 0.6 * gap or second < 0.5:
        return tr("Most of the gap is {reasons}.", reasons=REASONS[truth])
    return tr(
        "The largest part of the gap is {reasons} ({points}); then {next} ({next_points}).",
        reasons=REASONS[truth],
        points=_points(ladder.rung(truth).told_points(season), numbers),
        next=REASONS[other],
        next_points=_points(ladder.rung(other).told_points(season), numbers),
    )


def _points(points: float, numbers: Numbers) -> str:
    text = numbers.decimal(abs(points), 1)
    return tr("{number} point", number=text) if text == numbers.decimal(1.0, 1) else tr("{number} points", number=text)


def points_text(points: float, numbers: Numbers) -> str:
    """A rung in percentage points: `−6.4`, `+0.3`, `0.0`."""
    text = numbers.decimal(abs(points), 1)
    if text == numbers.decimal(0.0, 1):
        return text
    return f"−{text}" if points < 0 else f"+{text}"


def chance_text(value: float, numbers: Numbers) -> str:
    """An end of the ladder in percent: never 0 or 100 unless it is certain."""
    if value >= _CERTAIN or value <= 0:
        return numbers.decimal(100 * value, 1)
    if value > 0.999:
        return f"> {numbers.decimal(99.9, 1)}"
    return f"< {numbers.decimal(0.1, 1)}" if value < 0.001 else numbers.decimal(100 * value, 1)


def rung_note(plan: Plan, truth: Truth, *, applies: bool, numbers: Numbers = PLAIN) -> str:
    """What the plan says of this truth, or why it makes no difference here."""
    if not applies:
        return _IDLE[truth]
    species, (one, many) = plan.species, laid_words(plan)
    if truth == "genotypes":
        return tr("Each animal is one thing for life; the textbook lets every {one} meet the average.", one=one)
    if truth == "sizes":
        return tr("The textbook has {even} in every clutch.", even=_even(plan, numbers))
    if truth == "laying":
        return tr("A female lays in {of_100} of 100 seasons.", of_100=_of_100(species.lays, numbers))
    if truth == "losses":
        live = (1 - chance(species.clutch_lost)) * chance(species.fertile) * chance(species.hatches)
        return tr("Of 100 {many} {of_100} live and can be judged.", many=many, of_100=_of_100(live, numbers))
    if truth == "breeders":
        males, females = (_of_100(share, numbers) for share in (species.breeds.male, species.breeds.female))
        return tr("Of 100 males {males} ever breed, of 100 females {females}.", males=males, females=females)
    if truth == "holding":
        return tr("The textbook fills every place at once, with young that all grow up.")
    return tr("The textbook lets every animal breed in its first season on.")


def _of_100(share: Chance, numbers: Numbers) -> str:
    """A share of 100 as a plan has it: decimals only where there are any."""
    return trimmed(100 * chance(share), 1, numbers)


def order_sentence(ladder: Ladder) -> str:
    """That the order shares out the points."""
    how = tr("from the last to the first") if ladder.from_end else tr("in this order")
    return tr(
        "Each step is the whole route worked out again with one more thing true, {how}. The steps "
        "add up exactly, but the order shares out the points: another order gives other shares.",
        how=how,
    )


def method_sentence(ladder: Ladder, numbers: Numbers, noise: float | None = None) -> str:
    """How sure the steps are; `noise`: two standard errors of a simulated chance."""
    if ladder.runs is None:
        return tr("Worked out exactly.")
    runs = tr("Steps that hold young back are simulated, {runs} runs each", runs=numbers.whole(ladder.runs))
    return tr("{runs}, {noise} points.", runs=runs, noise=plus_minus(noise, numbers)) if noise else f"{runs}."


def ceiling_sentence(plan: Plan) -> str:
    """Which risks the plan leaves out, so that the real odds are a ceiling; empty where none is."""
    species = plan.species
    out = []
    if chance(species.lays) == 1:
        out.append(tr("females that do not lay"))
    if chance(species.clutch_lost) == 0 and chance(species.fertile) * chance(species.hatches) == 1:
        out.append(
            tr("what is lost before it hatches") if species.young == "eggs" else tr("what is lost before it is born")
        )
    if chance(species.breeds.male) == 1 and chance(species.breeds.female) == 1:
        out.append(tr("animals that never breed"))
    if chance(species.reaches_breeding) == 1:
        out.append(tr("young that are lost"))
    return tr("This plan leaves out {out}, so its chances are a ceiling.", out=listed(out)) if out else ""


def _even(plan: Plan, numbers: Numbers) -> str:
    clutch, (one, many) = plan.species.clutch, laid_words(plan)
    even = even_clutch(clutch)
    if even.fixed is not None:
        return counted(even.fixed, one, many)
    few, more = (even.counts or {"0": 1, "1": 1}).keys()
    mean = trimmed(mean_eggs(clutch), 2, numbers)
    return tr("{few} or {more} {many}, {mean} on average,", few=few, more=more, many=many, mean=mean)

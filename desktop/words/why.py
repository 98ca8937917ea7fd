"""Labels of the page that explains a chance; its sentences are shared with print and stand in `core.explain`."""

from __future__ import annotations

from core.explain.grids import Grid
from core.explain.numbers import Numbers, laid_words, share_of_100, short_group, trimmed
from core.explain.people import People, cause_words
from core.explain.trap import Trap
from core.plan.model import Plan
from core.text import tr

BACK = tr("‹ All routes")
BACK_NAME = tr("Back to all routes")
TABS_NAME = tr("What to explain")
SEASON_NAME = tr("Season to explain")
OTHER_NAME = tr("Route to compare with")

CROSSES, MULTIPLY = tr("Each gene on its own"), tr("Multiply: all of it at once")
LADDER = tr("Step by step to the real odds, in percentage points")
PEOPLE = tr("100 people who try this")
BOTH_LADDERS = tr("The same steps for both routes, in percentage points")
BY_KIND, BY_SEASON = tr("Money by kind, on average"), tr("Money by season, on average")
DIFFERENCE = tr("difference")
FROM_OTHER_END = tr("Start from the other end")
FROM_THIS_END = tr("Start from the first step again")
SIRE, DAM = tr("sire"), tr("dam")
RIGHT, WRONG = tr("One true genotype each"), tr("Shortcuts that are wrong here")
AGAINST = tr("against")
TOGETHER = tr("Together")
SHARED_OUT = tr("Why they missed is counted in the order of the steps above.")

WORKING = tr("Working it out…")
WAITING = tr("This route is still being worked out; its explanation follows.")
NO_ROUTE = tr("Choose a route to see why its chance is what it is.")
ONLY_ROUTE = tr("There is no other route with an answer to compare with yet.")


def gives_nothing(pairing: str) -> str:
    """A pairing whose young are of no use to the route."""
    return tr("{pairing} can give neither what is wanted nor what is held back.", pairing=pairing)


def with_animals(males: int, females: int) -> str:
    """The counts an explanation is about."""
    return tr("with {short_group}", short_group=short_group(males, females)) if males or females else ""


def working(share: float, numbers: Numbers) -> str:
    """How far the work is."""
    return WORKING if share <= 0 else tr("Working it out, {share} % done…", share=numbers.whole(round(100 * share)))


def wont_explain(reason: str) -> str:
    """Why there is no explanation."""
    return tr(
        "This cannot be explained step by step: {reason}.",
        reason=reason[:1].lower() + reason[1:].rstrip("."),
    )


def textbook_result(chance: str, *, several: bool) -> str:
    """What the textbook says in the end; several animals are worked out together."""
    together = tr(" for all that is wanted, worked out together") if several else ""
    return tr("So the textbook says {chance}{together}.", chance=chance, together=together)


def all_miss(plan: Plan) -> str:
    """The heading over the textbook's arithmetic."""
    return tr("All {laid_words} miss: the textbook figure", laid_words=laid_words(plan)[1])


def only_sex(share: str) -> str:
    """A cross in which only the sex matters."""
    return tr("Every look will do; only the sex counts: {share} of them.", share=share)


def never_breeds(pairing: str) -> str:
    """A pairing that comes to nothing within the horizon."""
    return tr("{pairing} never comes to breed within the seasons of this plan.", pairing=pairing)


def money(value: float, numbers: Numbers, places: int, *, signed: bool) -> str:
    """A sum on average with so many decimals; a difference with its sign."""
    size = abs(value)
    text = numbers.decimal(float(size), places) if places else numbers.whole(round(size))
    if not signed or round(size, places) == 0:
        return text
    return f"−{text}" if value < 0 else f"+{text}"


def goal(percentage: float, numbers: Numbers) -> str:
    """The goal's place on the scale of a ladder."""
    return tr("goal {percentage}", percentage=trimmed(percentage, 2, numbers))


def percentage(number: float, numbers: Numbers) -> str:
    """The end of that scale."""
    return tr("{number} %", number=trimmed(number, 2, numbers))


def section(number: int, words: str) -> str:
    """A heading as it is heard."""
    return f"{number}. {words}"


def grid_spoken(grid: Grid, numbers: Numbers) -> str:
    """A grid for those who do not see it."""
    sire = tr(" or ").join(gamete.text for gamete in grid.sire)
    dam = tr(" or ").join(gamete.text for gamete in grid.dam)
    cells = "; ".join(
        tr("{text} with {text_2}: {words}", text=one.text, text_2=other.text, words=cell.words)
        for one, row in zip(grid.sire, grid.cells, strict=False)
        for other, cell in zip(grid.dam, row, strict=True)
    )
    return tr(
        "{title}. The sire gives {sire}, the dam gives {dam}. {cells}. {sentence}. {losses}",
        title=grid.title,
        sire=sire,
        dam=dam,
        cells=cells,
        sentence=grid.sentence(numbers),
        losses=grid.losses(numbers),
    ).strip()


def trap_spoken(trap: Trap, numbers: Numbers) -> str:
    """The coins for those who do not see them."""
    return "; ".join(f"{line.words}: {share_of_100(line.chance, numbers)}" for line in trap.lines)


def people_spoken(found: People) -> str:
    """The dots for those who do not see them."""
    missed = "; ".join(
        tr("{many} missed: {cause_words}", many=many, cause_words=cause_words(cause)) for cause, many in found.missed
    )
    return tr(
        "{n} of 100 reach the goal. {missed}", "{n} of 100 reaches the goal. {missed}", found.reached, missed=missed
    ).strip()


def reached(many: int) -> str:
    """The legend of the filled dots."""
    return tr("reach the goal", "reaches the goal", many)


def set_aside(name: str, money: str | None, seasons: int) -> str:
    """What a route asks for, in one line."""
    within = tr("{n} seasons", "{n} season", seasons)
    return (
        tr("{name}: set aside {money}", name=name, money=money)
        if money is not None
        else tr("{name}: not in {within}", name=name, within=within)
    )

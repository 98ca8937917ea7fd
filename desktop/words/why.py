"""Labels of the page that explains a chance; its sentences are shared with print and stand in `core.explain`."""

from __future__ import annotations

from core.explain.grids import Grid
from core.explain.numbers import Numbers, counted, laid_words, short_group
from core.explain.people import People, cause_words
from core.explain.trap import Trap
from core.plan.model import Plan

BACK = "‹ All routes"
BACK_NAME = "Back to all routes"
TABS_NAME = "What to explain"
SEASON_NAME = "Season to explain"
OTHER_NAME = "Route to compare with"

CROSSES, MULTIPLY = "Each gene on its own", "Multiply: all of it at once"
LADDER = "Step by step to the real odds, in percentage points"
PEOPLE = "100 people who try this"
BOTH_LADDERS = "The same steps for both routes, in percentage points"
BY_KIND, BY_SEASON = "Money by kind, on average", "Money by season, on average"
DIFFERENCE = "difference"
FROM_OTHER_END = "Start from the other end"
FROM_THIS_END = "Start from the first step again"
SIRE, DAM = "sire", "dam"
RIGHT, WRONG = "One true genotype each", "Shortcuts that are wrong here"
GOAL = "goal"
AGAINST = "against"
TOGETHER = "Together"
SHARED_OUT = "Why they missed is counted in the order of the steps above."

WORKING = "Working it out…"
WAITING = "This route is still being worked out; its explanation follows."
NO_ROUTE = "Choose a route to see why its chance is what it is."
ONLY_ROUTE = "There is no other route with an answer to compare with yet."


def gives_nothing(pairing: str) -> str:
    """A pairing whose young are of no use to the route."""
    return f"{pairing} can give neither what is wanted nor what is held back."


def with_animals(males: int, females: int) -> str:
    """The counts an explanation is about."""
    return f"with {short_group(males, females)}" if males or females else ""


def working(share: float, numbers: Numbers) -> str:
    """How far the work is."""
    return WORKING if share <= 0 else f"Working it out, {numbers.whole(round(100 * share))} % done…"


def wont_explain(reason: str) -> str:
    """Why there is no explanation."""
    return f"This cannot be explained step by step: {reason[:1].lower()}{reason[1:].rstrip('.')}."


def textbook_result(chance: str, *, several: bool) -> str:
    """What the textbook says in the end; several animals are worked out together."""
    together = " for all that is wanted, worked out together" if several else ""
    return f"So the textbook says {chance}{together}."


def all_miss(plan: Plan) -> str:
    """The heading over the textbook's arithmetic."""
    return f"All {laid_words(plan)[1]} miss: the textbook figure"


def only_sex(share: str) -> str:
    """A cross in which only the sex matters."""
    return f"Every look will do; only the sex counts: {share} of them."


def never_breeds(pairing: str) -> str:
    """A pairing that comes to nothing within the horizon."""
    return f"{pairing} never comes to breed within the seasons of this plan."


def money(value: float, numbers: Numbers, places: int, *, signed: bool) -> str:
    """A sum on average with so many decimals; a difference with its sign."""
    size = abs(value)
    text = numbers.decimal(float(size), places) if places else numbers.whole(round(size))
    if not signed or round(size, places) == 0:
        return text
    return f"−{text}" if value < 0 else f"+{text}"


def section(number: int, words: str) -> str:
    """A heading as it is heard."""
    return f"{number}. {words}"


def grid_spoken(grid: Grid) -> str:
    """A grid for those who do not see it."""
    sire = " or ".join(gamete.text for gamete in grid.sire)
    dam = " or ".join(gamete.text for gamete in grid.dam)
    cells = "; ".join(
        f"{one.text} with {other.text}: {cell.words}"
        for one, row in zip(grid.sire, grid.cells, strict=False)
        for other, cell in zip(grid.dam, row, strict=True)
    )
    return f"{grid.title}. The sire gives {sire}, the dam gives {dam}. {cells}. {grid.sentence}. {grid.losses}".strip()


def trap_spoken(trap: Trap) -> str:
    """The coins for those who do not see them."""
    return "; ".join(f"{line.words}: {round(100 * line.chance, 1):g} in 100" for line in trap.lines)


def people_spoken(found: People) -> str:
    """The dots for those who do not see them."""
    missed = "; ".join(f"{many} missed: {cause_words(cause)}" for cause, many in found.missed)
    return f"{found.reached} of 100 {'reaches' if found.reached == 1 else 'reach'} the goal. {missed}".strip()


def reached(many: int) -> str:
    """The legend of the filled dots."""
    return "reaches the goal" if many == 1 else "reach the goal"


def set_aside(name: str, money: str | None, seasons: int) -> str:
    """What a route asks for, in one line."""
    within = counted(seasons, "season", "seasons")
    return f"{name}: set aside {money}" if money is not None else f"{name}: not in {within}"

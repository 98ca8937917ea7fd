"""The words of “This season”: what is believed of my animals, what hatched, what next."""

from __future__ import annotations

from collections.abc import Sequence

from core.explain.animals import animal_title, form_words, het_name
from core.genetics.beliefs import ImpossibleEvidence
from core.plan.book import Book
from core.plan.model import Animal, ClutchRecord, Held, Plan, YoungSeen
from core.season.believed import Believed, GeneBelief
from core.season.learned import Change
from core.season.next_steps import NextStep
from core.season.telling import Telling
from desktop.words.goal import float_chance
from desktop.words.numbers import Numbers, counted, listed, of_100, percent, sum_of_money

TITLE = "This season"
BACK = "‹ All routes"
MY_ANIMALS, HATCHED, NEXT, CARRY_ON = "My animals", "What hatched", "What next", "Carry on from here"
TABS_NAME = "This season: what to look at"
NO_ANIMALS = "None of your animals is in this plan yet. Add them first: what they carry then follows from every clutch."
NO_PAIR = "A clutch needs a male and a female of yours. Add both first."
ADD_ANIMALS, EDIT_ANIMALS = "Add my animals", "Change my animals"
WORKING = "Working it out…"
ANIMALS_NAME = "My animals and what they may carry"
PEDIGREE = "Pedigree"
ONE_MORE, MATE_NAME = "What one more clutch would tell", "The mate for one more clutch"
NO_MATE = "There is no animal of the other sex among yours to breed it to."
NOTHING_OPEN = "Nothing is open about this animal and the wanted genes: another clutch would tell nothing new of it."
AFTER_NORMAL = "The chance that it carries the gene, after so many more young that are all normal for it"
YOUNG_HEAD = "normal young"
NOT_LOOKED, IN = "not looked at", "in"
PAIR, SIRE_NAME, DAM_NAME, SEASON_NAME = "Pair", "Sire of the clutch", "Dam of the clutch", "Season of the clutch"
MALES, FEMALES, NOT_SEXED = "males", "females", "not sexed"
SLUGS, UNHATCHED = "Slugs", "Did not hatch"
NONE_TOLD = "Neither says anything of who carries what; the plan keeps them as one number."
ENTER, ENTER_CHANGED, CLEAR = "Enter this clutch", "Put it in place of the old one", "Start over"
OTHER_LOOK, ADD_LOOK = "Another look", "Add another look …"
WHAT_IT_SAYS = "What it says"
NOTHING_YET = "Count the young above. What they say of your animals then stands here, before you enter the clutch."
SAYS_NOTHING = "It changes nothing: what it shows was certain before."
RECORDS, NO_RECORDS = "Clutches so far", "No clutch is recorded yet."
CHANGE, REMOVE = "Change", "Remove"
DIFFERENCE = "The difference it made"
FOR_ANIMALS, FOR_ROUTES, FOR_ANSWER = "To your animals", "To the routes", "To the answer"
ROUTE, BEFORE, NOW = "Route", "before", "now"
NO_ROUTE_OF_MINE = "No route uses animals of yours, so no route’s chance moved."
NEXT_HEAD, ROUTE_NAME = "From today, with", "The route to go on from"
WAYS, RULES = "Ways on, best first", "When to stop"
NO_ROUTES = "There is no route with animals of yours to go on from. Add one with New route."
NO_RULES = "Nothing is in doubt that a few more normal young would settle."
RULES_PLAYED = "This route is simulated; when to stop is only worked out for routes that are answered exactly."
WAY, NEEDS, BY_SEASON, NO_SEASON = "Way", "still to set aside", "by season", "–"
RULE_NOTE = "Each rule was found by adding so many normal young to the records and working both ways out anew."
SPENT_NAME, PASSED_NAME = "Money spent since the plan began", "Seasons gone by"
HELD_HEAD = "Young held back so far"
NO_HELD = "This route holds no young back."
GO = "Carry on from here"
GOES = (
    "What was bought becomes yours, with what is believed of it; the plan begins anew today. "
    "You can undo it like any other change."
)
CARRY_HEAD = "Carry on with"
NO_SEASONS_LEFT = "There must be seasons left to carry on in: the goal has only one."
NO_SUM = "Money is a number that is not negative."
ONE_MORE_KEPT, ONE_LESS_KEPT = "Add one", "One less"
KEPT_A, FROM_SEASON, BY, CALLED, NO_NAME = "one,", "hatched in season", "by", "called", "no name yet"
KEPT_LOOK, KEPT_SEASON, KEPT_SIRE, KEPT_DAM, KEPT_NAME = (
    "How the young looks", "Season in which it hatched", "Its sire", "Its dam", "Its name",
)  # fmt: skip
STEP_ADDED, STEP_CHANGED, STEP_REMOVED = "the clutch", "the change to a clutch", "removing a clutch"
STEP_CARRIED = "carrying on from here"


def working(share: float, numbers: Numbers) -> str:
    """How far it is."""
    return f"{WORKING} {numbers.whole(round(share * 100))} %" if share >= 0.01 else WORKING


def name_of(animal: Animal) -> str:
    """What an animal is called."""
    return animal.name or animal.id


def named(plan: Plan, id_: str) -> str:
    """The same, by its id."""
    return next((name_of(one) for one in plan.my_animals if one.id == id_), id_)


def short(plan: Plan, one: Believed) -> str:
    """One line: its sex, and what it is taken for."""
    return f"{one.animal.sex}, {animal_title(plan, one.carries)}"


def beliefs_of(plan: Plan, one: Believed, numbers: Numbers) -> tuple[str, ...]:
    """A sentence a gene that is carried or in question; none for what it simply shows."""
    return tuple(text for belief in one.genes if (text := belief_words(plan, belief, numbers)))


def belief_words(plan: Plan, belief: GeneBelief, numbers: Numbers) -> str:
    """`66 % → 20 % het coal after 4 normal young`, `proven het coal`."""
    het = f"het {_het(plan, belief.gene)}"
    if belief.state == "shows":
        return ""
    if belief.state == "carries":
        return het
    if belief.state == "proven":
        return f"proven {het} (was {_share(belief.before, numbers)})"
    if belief.state == "cleared":
        return f"not {het} (was {_share(belief.before, numbers)})"
    if abs(belief.before - belief.now) < 0.0005:
        return f"{_share(belief.now, numbers)} {het}"
    after = f" after {counted(belief.normal_young, 'normal young', 'normal young')}" if belief.normal_young else ""
    return f"{_share(belief.before, numbers)} → {_share(belief.now, numbers)} {het}{after}"


def change_words(plan: Plan, change: Change, numbers: Numbers) -> str:
    """`Hazel: 66 % → 20 % het coal`."""
    share = f"{_share(change.before, numbers)} → {_share(change.after, numbers)}"
    sure = ", proven" if change.after > 1 - 1e-9 else ""
    return f"{named(plan, change.animal)}: {share} het {_het(plan, change.gene)}{sure}"


def tells(plan: Plan, told: Telling, animal: Animal, mate: Animal, numbers: Numbers) -> str:
    """What one more clutch may settle."""
    het = _het(plan, told.gene)
    chance = percent(told.clutch, numbers)
    return (
        f"A clutch with {name_of(mate)} shows a visual {het} in {chance}; that would prove {name_of(animal)} het {het}."
    )


def het_of(plan: Plan, gene: str) -> str:
    """`het coal`."""
    return f"het {_het(plan, gene)}"


def tells_row(told: Telling, animal: Animal, young: int, numbers: Numbers) -> str:
    """The chance that it carries the gene after so many normal young."""
    chances = told.sire if animal.sex == "male" else told.dam
    return _share(float(chances[young]), numbers)


def look_words(plan: Plan, forms: dict[str, str]) -> str:
    """A look of young: `normal`, `coal`, `coal + blush`."""
    shown = {gene: form for gene, form in forms.items() if form != "normal"}
    return form_words(plan, shown).removesuffix(" visual") if shown else "normal"


def count_name(look: str, sex: str) -> str:
    """What a stepper counts."""
    return f"{look}: {sex}"


def form_name(gene: str) -> str:
    """The choice of one gene in a look that a person names."""
    return f"{gene}, how they look"


def still(head: str) -> str:
    """The answer that a clutch did not change."""
    return f"Unchanged: {head}"


def answers(before: str, now: str) -> list[str]:
    """The answer before and now."""
    return [f"Before: {before}", f"Now: {now}"]


def likely(share: float, numbers: Numbers) -> str:
    """How many of the young should look like this."""
    return f"about {percent(share, numbers)}" if share > 0 else ""


def sums(young: int, without: int) -> str:
    """What has been counted."""
    return f"{young + without} in all: {counted(young, 'young', 'young')}, {without} without"


def record_words(plan: Plan, record: ClutchRecord) -> str:
    """A clutch as one line."""
    young = [_row_words(plan, row) for row in record.young if row.count]
    slugs = [f"{record.slugs} without young"] if record.slugs else []
    what = "; ".join([", ".join(young) or "no young", *slugs])
    return f"{named(plan, record.sire)} × {named(plan, record.dam)}, {season_words(record.season)}: {what}"


def season_words(season: int) -> str:
    """A season of the plan, or before it."""
    if season >= 1:
        return f"season {season}"
    before = 1 - season
    return "the season before the plan" if before == 1 else f"{before} seasons before the plan"


def trouble(plan: Plan, error: ImpossibleEvidence) -> str:
    """Which record or animal cannot be."""
    kind, number = error.where
    if kind == "clutch_records":
        return f"This clutch cannot be as it stands: {record_words(plan, plan.clutch_records[number])}."
    animal = plan.my_animals[number]
    return f"{name_of(animal)} cannot look as recorded, given its parents and what is known of them."


def route_change(before: float, now: float, numbers: Numbers) -> tuple[str, str]:
    """A route's chance by the horizon, before and now."""
    return percent(before, numbers), percent(now, numbers)


def way_words(plan: Plan, step: NextStep) -> str:
    """A way on."""
    if step.way == "carry on":
        return "Carry on as planned"
    if step.way == "drop":
        return f"Go on without {named(plan, step.about)}"
    if step.way == "buy":
        wanted = sum(want.count for want in plan.goal.want)
        return "Buy the finished animal" if wanted == 1 else "Buy the finished animals"
    offer = next((one for one in plan.for_sale if one.id == step.about), None)
    label = offer.label or animal_title(plan, offer.carries) if offer else step.about
    return f"Add a male: {label}"


def way_needs(step: NextStep, numbers: Numbers) -> str:
    """The money still to set aside, or that it does not get there."""
    return "does not get there" if step.to_goal is None else sum_of_money(step.to_goal.money, numbers)


def chance_head(plan: Plan) -> str:
    """The head over the chances of the ways."""
    return f"chance by season {plan.goal.seasons}"


def best_way(plan: Plan, steps: Sequence[NextStep], numbers: Numbers) -> str:
    """The first of the ways as a sentence."""
    best = steps[0]
    way = way_words(plan, best)
    if best.to_goal is None:
        goal = percent(float_chance(plan.goal.chance), numbers)
        return f"No way on reaches {goal}. Closest: {way}, {percent(best.chance, numbers)}."
    money = sum_of_money(best.to_goal.money, numbers)
    people = of_100(best.to_goal.chance)
    return f"{way}: set aside {money} from today. That is enough for {people} of 100, by season {best.to_goal.season}."


def carried(names: Sequence[str], seasons: int) -> str:
    """Who becomes mine, and how long is left."""
    left = f"{counted(seasons, 'season is', 'seasons are')} left."
    if not names:
        return f"No further animal becomes yours by it. {_cap(left)}"
    become = "becomes" if len(names) == 1 else "become"
    return f"{listed(list(names))} {become} yours. {_cap(left)}"


def held_words(held: Held, many: int) -> str:
    """A hold group and how many of its places are taken."""
    return f"{held.id}: {many} of {held.count}, {held.sex}"


def gone_by(seasons: int) -> str:
    """What stands between the seasons gone by and their cost."""
    return "season has gone by, and it cost" if seasons == 1 else "seasons have gone by, and they cost"


def spent_unit(plan: Plan) -> str:
    """What stands after the money spent."""
    return f"{plan.currency}."


def spent_guess(guess: float | None, seasons: int, plan: Plan, numbers: Numbers) -> str:
    """What the plan expected to be spent by now."""
    if guess is None:
        return ""
    return f"On average the route costs {sum_of_money(guess, numbers)} {plan.currency} by the end of season {seasons}."


def cannot(reason: str) -> str:
    """Why it is not possible to carry on like this."""
    return f"{_cap(reason.rstrip('.'))}."


def pedigree_told(plan: Plan, animal: Animal) -> str:
    """The pedigree picture for those who do not see it."""
    if animal.sire is None or animal.dam is None:
        parents = "its parents are not in this plan"
    else:
        parents = f"from {named(plan, animal.sire)} and {named(plan, animal.dam)}"
    young = [name_of(one) for one in plan.my_animals if animal.id in (one.sire, one.dam)]
    after = f"; parent of {listed(young)}" if young else ""
    return f"{name_of(animal)}, {animal.sex}, {parents}{after}."


def _row_words(plan: Plan, row: YoungSeen) -> str:
    look = f"{row.count} {look_words(plan, row.forms)}"
    if row.sex == "any":
        return look
    return f"{look} {row.sex}" if row.count == 1 else f"{look} {row.sex}s"


def _share(chance: float, numbers: Numbers) -> str:
    # The trade cuts two thirds to 66.
    cut = int(chance * 100 + 1e-9)
    if 0 < chance < 0.01:
        return "under 1 %"
    return f"{numbers.whole(cut)} %"


def _het(plan: Plan, gene: str) -> str:
    table = Book(plan).tables[gene]
    alleles = table.gene.alleles
    # Of a series it is not known which allele it would be.
    return het_name(table, alleles[0]) if len(alleles) == 1 else table.gene.name.lower()


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]

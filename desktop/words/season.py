"""The words of “This season”: what is believed of my animals, what hatched, what next."""

from __future__ import annotations

from collections.abc import Sequence

from core.explain.animals import animal_title, het_name
from core.explain.numbers import is_live
from core.genetics.beliefs import ImpossibleEvidence
from core.plan.book import Book
from core.plan.chances import chance
from core.plan.model import Animal, ClutchRecord, Held, Plan, YoungSeen
from core.plan.sexes import sex_words
from core.season.believed import Believed, GeneBelief
from core.season.learned import Change
from core.season.next_steps import NextStep
from core.season.stopping import MOST_YOUNG
from core.season.telling import Telling
from core.text import tr
from desktop.words.goal import asked, how_many
from desktop.words.numbers import Numbers, in_currency, listed, of_100, percent, sum_of_money

TITLE = tr("This season")
BACK = tr("‹ All routes")
MY_ANIMALS, NEXT, CARRY_ON = tr("My animals"), tr("What next"), tr("Carry on from here")
TABS_NAME = tr("This season: what to look at")
NO_ANIMALS = tr(
    "None of your animals is in this plan yet. Add them first: what they carry then follows from all their young."
)
ADD_ANIMALS, EDIT_ANIMALS = tr("Add my animals"), tr("Change my animals")
WORKING = tr("Working it out…")
ANIMALS_NAME = tr("My animals and what they may carry")
PEDIGREE = tr("Pedigree")
WITH = tr("with", "What one more clutch would tell, with a mate")
NO_MATE = tr("There is no animal of the other sex among yours to breed it to.")
AFTER_NORMAL = tr("The chance that it carries the gene, after so many more young that are all normal for it")
YOUNG_HEAD = tr("normal young")
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
NEXT_HEAD, ROUTE_NAME = tr("From today, with"), tr("The route to go on from")
WAYS, RULES = tr("Ways on, best first"), tr("When to stop")
NO_ROUTES = tr("There is no route with animals of yours to go on from. Add one with New route.")
RULES_PLAYED = tr("This route is simulated; when to stop is only worked out for routes that are answered exactly.")
WAY, NEEDS, BY_SEASON, NO_SEASON = tr("Way"), tr("still to set aside"), tr("by season"), "–"
RULE_NOTE = tr("Each rule was found by adding so many normal young to the records and working both ways out anew.")
SPENT_NAME, PASSED_NAME = tr("Money spent since the plan began"), tr("Seasons gone by")
HELD_HEAD = tr("Young held back so far")
NO_HELD = tr("This route holds no young back.")
GO = tr("Carry on from here")
GOES = tr(
    "What was bought becomes yours, with what is believed of it; the plan begins anew today. "
    "You can undo it like any other change."
)
CARRY_HEAD = tr("Carry on with")
NO_SEASONS_LEFT = tr("There must be seasons left to carry on in: the goal has only one.")
NO_SUM = tr("Money is a number that is not negative.")
ONE_MORE_KEPT, ONE_LESS_KEPT = tr("Add one"), tr("One less")
KEPT_A, FROM_SEASON, BY, CALLED, NO_NAME = (
    tr("one,"),
    tr("of season"),
    tr("by"),
    tr("called"),
    tr("no name yet"),
)
KEPT_LOOK, KEPT_SEASON, KEPT_SIRE, KEPT_DAM, KEPT_NAME = (
    tr("How the young looks"), tr("Season it is from"), tr("Its sire"), tr("Its dam"), tr("Its name"),
)  # fmt: skip
STEP_CARRIED = tr("carrying on from here")


def working(share: float, numbers: Numbers) -> str:
    """How far it is."""
    return f"{WORKING} {numbers.whole(round(share * 100))} %" if share >= 0.01 else WORKING


def name_of(animal: Animal) -> str:
    """What an animal is called."""
    return animal.name or animal.id


def named(plan: Plan, id_: str) -> str:
    """The same, by its id."""
    return next((name_of(one) for one in plan.my_animals if one.id == id_), id_)


def no_rules(plan: Plan, in_doubt: Sequence[str]) -> str:
    """Why nobody is to be moved on: nothing is open, or going on costs nothing even if it stays so."""
    if not in_doubt:
        return tr("Nothing is in doubt about your females that a few more normal young by your males would settle.")
    return tr(
        "Even after {most} more normal young, going on with {names} would be no worse than without.",
        most=MOST_YOUNG,
        names=listed([named(plan, female) for female in in_doubt]),
    )


def short(plan: Plan, one: Believed) -> str:
    """One line: its sex, and what it is taken for."""
    return f"{sex_words(one.animal.sex)}, {animal_title(plan, one.carries)}"


def beliefs_of(plan: Plan, one: Believed, numbers: Numbers) -> tuple[str, ...]:
    """A sentence a gene that is carried or in question; none for what it simply shows."""
    return tuple(text for belief in one.genes if (text := belief_words(plan, belief, numbers)))


def belief_words(plan: Plan, belief: GeneBelief, numbers: Numbers) -> str:
    """`66 % → 20 % het coal after 4 normal young`, `proven het coal`."""
    het = tr("het {het}", het=_het(plan, belief.gene))
    if belief.state == "shows":
        return ""
    if belief.state == "carries":
        return het
    if belief.state == "proven":
        return tr("proven {het} (was {share})", het=het, share=_share(belief.before, numbers))
    if belief.state == "cleared":
        return tr("not {het} (was {share})", het=het, share=_share(belief.before, numbers))
    if abs(belief.before - belief.now) < 0.0005:
        return f"{_share(belief.now, numbers)} {het}"
    after = tr(" after {n} normal young", " after {n} normal young", belief.normal_young) if belief.normal_young else ""
    return f"{_share(belief.before, numbers)} → {_share(belief.now, numbers)} {het}{after}"


def change_words(plan: Plan, change: Change, numbers: Numbers) -> str:
    """`Hazel: 66 % → 20 % het coal`."""
    share = f"{_share(change.before, numbers)} → {_share(change.after, numbers)}"
    sure = tr(", proven") if change.after > 1 - 1e-9 else ""
    return tr(
        "{animal}: {share} het {het}{sure}",
        animal=named(plan, change.animal),
        share=share,
        het=_het(plan, change.gene),
        sure=sure,
    )


def tells(plan: Plan, told: Telling, animal: Animal, mate: Animal, numbers: Numbers) -> str:
    """What one more clutch may settle."""
    het = _het(plan, told.gene)
    chance = percent(told.clutch, numbers)
    clutch = tr("A litter") if is_live(plan) else tr("A clutch")
    return tr(
        "{clutch} with {mate} shows a visual {het} in {chance}; that would prove {animal} het {het}.",
        clutch=clutch,
        mate=name_of(mate),
        het=het,
        chance=chance,
        animal=name_of(animal),
    )


def het_of(plan: Plan, gene: str) -> str:
    """`het coal`."""
    return tr("het {het}", het=_het(plan, gene))


def tells_row(told: Telling, animal: Animal, young: int, numbers: Numbers) -> str:
    """The chance that it carries the gene after so many normal young."""
    chances = told.sire if animal.sex == "male" else told.dam
    return _share(float(chances[young]), numbers)


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


def way_words(plan: Plan, step: NextStep) -> str:
    """A way on."""
    if step.way == "carry on":
        return tr("Carry on as planned")
    if step.way == "drop":
        return tr("Go on without {about}", about=named(plan, step.about))
    if step.way == "buy":
        wanted = how_many(plan)
        return tr("Buy the finished animals", "Buy the finished animal", wanted)
    offer = next((one for one in plan.for_sale if one.id == step.about), None)
    label = offer.label or animal_title(plan, offer.carries) if offer else step.about
    return tr("Add a male ({label})", label=label)


def way_needs(step: NextStep, numbers: Numbers) -> str:
    """The money still to set aside, or that it does not get there."""
    return tr("does not get there") if step.to_goal is None else sum_of_money(step.to_goal.money, numbers)


def chance_head(plan: Plan) -> str:
    """The head over the chances of the ways."""
    return tr("chance by season {seasons}", seasons=plan.goal.seasons)


def best_way(plan: Plan, steps: Sequence[NextStep], numbers: Numbers) -> str:
    """The first of the ways as a sentence."""
    best = steps[0]
    way = way_words(plan, best)
    if best.to_goal is None:
        goal = asked(plan, numbers)
        return tr(
            "No way on reaches {goal}. Closest: {way}, {chance}.",
            goal=goal,
            way=way,
            chance=percent(best.chance, numbers),
        )
    money = sum_of_money(best.to_goal.money, numbers)
    people = of_100(best.to_goal.chance)
    return tr(
        "{way}: set aside {money} from today. That is enough for {people} of 100, by season {season}.",
        way=way,
        money=money,
        people=people,
        season=best.to_goal.season,
    )


def begun(plan: Plan) -> str:
    """That a season of the plan has its clutches already, though all of them count as still to come; else empty."""
    last = max((record.season for record in plan.clutch_records), default=0)
    if last < 1:
        return ""
    seasons = tr("all {n} seasons count", "the one season counts", plan.goal.seasons)
    return tr(
        "{clutch} of season {last} is recorded, yet {seasons} as still to come here: “{go}” begins the plan after it.",
        clutch=tr("A litter") if is_live(plan) else tr("A clutch"),
        last=last,
        seasons=seasons,
        go=GO,
    )


def carried(names: Sequence[str], seasons: int) -> str:
    """Who becomes mine, and how long is left."""
    left = tr("{n} seasons are left.", "{n} season is left.", seasons)
    if not names:
        return tr("No further animal becomes yours by it. {left}", left=_cap(left))
    become = tr("become", "becomes", len(names))
    return tr("{names} {become} yours. {left}", names=listed(list(names)), become=become, left=_cap(left))


def held_words(held: Held, many: int) -> str:
    """A hold group and how many of its places are taken."""
    return tr("{id}: {many} of {count}, {sex}", id=held.id, many=many, count=held.count, sex=sex_words(held.sex))


def gone_by(seasons: int) -> str:
    """What stands between the seasons gone by and their cost."""
    return tr("seasons have gone by, and they cost", "season has gone by, and it cost", seasons)


def spent_unit(plan: Plan) -> str:
    """What stands after the money spent."""
    return f"{plan.currency}."


def spent_guess(guess: float | None, seasons: int, plan: Plan, numbers: Numbers) -> str:
    """What the plan expected to be spent by now."""
    if guess is None:
        return ""
    return tr(
        "On average the route costs {guess} by the end of season {seasons}.",
        guess=in_currency(sum_of_money(guess, numbers), plan),
        seasons=seasons,
    )


def goes(plan: Plan, *, kept: bool) -> str:
    """What carrying on does, and what a plan that begins today cannot know; `kept`: whether any young are."""
    told = [GOES]
    many = sum(row.count for row in plan.goal.want)
    if many > 1:
        told.append(tr("The goal still asks for all {n} animals: take off those that you have.", n=many))
    if kept and chance(plan.species.reaches_breeding) < 1:
        told.append(tr("Young kept so far are taken to grow up and breed for sure."))
    return " ".join(told)


def cannot(reason: str) -> str:
    """Why it is not possible to carry on like this."""
    return f"{_cap(reason.rstrip('.'))}."


def pedigree_told(plan: Plan, animal: Animal) -> str:
    """The pedigree picture for those who do not see it."""
    if animal.sire is None or animal.dam is None:
        parents = tr("its parents are not in this plan")
    else:
        parents = tr("from {sire} and {dam}", sire=named(plan, animal.sire), dam=named(plan, animal.dam))
    young = [name_of(one) for one in plan.my_animals if animal.id in (one.sire, one.dam)]
    after = tr("; parent of {young}", young=listed(young)) if young else ""
    return f"{name_of(animal)}, {sex_words(animal.sex)}, {parents}{after}."


def _row_words(row: YoungSeen) -> str:
    look = f"{row.count} {look_words(row.forms)}"
    if row.sex == "any":
        return look
    return f"{look} {sex_words(row.sex, row.count)}"


def _share(chance: float, numbers: Numbers) -> str:
    # The trade cuts two thirds to 66.
    cut = int(chance * 100 + 1e-9)
    if 0 < chance < 0.01:
        return tr("under 1 %")
    return f"{numbers.whole(cut)} %"


def _het(plan: Plan, gene: str) -> str:
    table = Book(plan).tables[gene]
    alleles = table.gene.alleles
    # Of a series it is not known which allele it would be.
    return het_name(table, alleles[0]) if len(alleles) == 1 else table.gene.name.lower()


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]

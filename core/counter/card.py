"""The odds card: everything that stands on it, as text and numbers."""

from __future__ import annotations

from dataclasses import dataclass

from core.advice.standing import HYGIENE, LAW, ODDS, VET
from core.counter.pair import Hatch, Pair
from core.explain.animals import animal, looks_words, seen_and_hidden
from core.explain.fractions import share_words
from core.explain.numbers import Numbers, in_currency, is_live, laid_words, of_100, percent, sum_of_money
from core.plan.chances import chance
from core.plan.genotypes import NORMAL
from core.plan.model import AnySex, Carries, Forms, Hidden, Plan, Sex
from core.plan.sexes import sex_words
from core.routes.prepare import biology
from core.text import tr

# More looks than this do not fit a card.
MOST_ROWS = 8
CLUTCHES = 3
_CLUTCH_WORDS = (tr("One clutch"), tr("Two clutches"), tr("Three clutches"))
_LITTER_WORDS = (tr("One litter"), tr("Two litters"), tr("Three litters"))


@dataclass(frozen=True)
class Parent:
    """One of the pair: what it carries, and its price, or that the customer has it at home."""

    sex: Sex
    carries: Carries
    price: float | None = None


@dataclass(frozen=True)
class Row:
    """One look: its name, what it may hide, its share in words, its dots out of 100, and whether it is the goal."""

    look: str
    hides: str
    share: str
    dots: int
    is_goal: bool


@dataclass(frozen=True)
class OddsCard:
    """What stands on a card, from top to bottom; `dots` people out of 100, never 100 unless it is certain."""

    species: str
    male: str
    female: str
    price: str
    dots: int
    headline: str
    more: str
    out_of_100: str
    rows: tuple[Row, ...]
    others: str
    reckoned: tuple[str, ...]
    promise: str
    cautions: tuple[str, ...]
    foot: str


def odds_card(
    plan: Plan, male: Parent, female: Parent, forms: Forms, numbers: Numbers, sex: AnySex = "any"
) -> OddsCard:
    """The card of a pair, for young that look like `forms`."""
    pair = Pair(plan, male.carries, female.carries)
    chances = pair.at_least_one(forms, CLUTCHES, sex)
    goal = goal_words(plan, forms, sex)
    laid = _LITTER_WORDS if is_live(plan) else _CLUTCH_WORDS
    return OddsCard(
        species=plan.species.name,
        male=_cap(tr("{animal} male", animal=animal(plan, male.carries))),
        female=tr("{animal} female", animal=animal(plan, female.carries)),
        price=price_words(plan, male, female, numbers),
        dots=of_100(chances[0]),
        headline=_headline(plan, goal),
        more="  ".join(f"{laid[n]}: {in_100(chances[n])}." for n in range(1, CLUTCHES)),
        out_of_100=hatching_words(plan),
        rows=look_rows(plan, pair, forms, sex)[:MOST_ROWS],
        others=others_words(len(pair.hatches) - MOST_ROWS),
        reckoned=reckoned(plan, male, female, numbers),
        promise=ODDS.sentence,
        cautions=(LAW.sentence, VET.sentence, HYGIENE.sentence),
        foot=_invented(plan),
    )


def _headline(plan: Plan, goal: str) -> str:
    if is_live(plan):
        return tr("in 100 single litters give at least one {goal}.", goal=goal)
    return tr("in 100 single clutches give at least one {goal}.", goal=goal)


def hatching_words(plan: Plan) -> str:
    """The head of what a pair gives."""
    return tr("What is born, out of 100 young") if is_live(plan) else tr("What hatches, out of 100 young")


def look_rows(plan: Plan, pair: Pair, forms: Forms, sex: AnySex) -> tuple[Row, ...]:
    """A row for every look of the pair, the commonest first; those like `forms` are the goal."""
    return tuple(
        Row(*look_words(plan, one), share_words(one.share), dots, is_like(one, forms, sex))
        for one, dots in zip(pair.hatches, pair.dots, strict=True)
    )


def look_words(plan: Plan, one: Hatch) -> tuple[str, str]:
    """A look and what it may hide: `Amel` and `66 % het lavender`; males and females where it matters.

    Beside a name of several forms together stand these: not every customer knows that an opal is an amel lavender.
    """
    seen, hides = seen_and_hidden(plan, _trade(one.hides))
    forms = " ".join(form for form in one.forms.values() if form != NORMAL)
    if forms and sorted(forms.split()) != sorted(seen.split()):
        hides = f"{forms}, {hides}" if hides else forms
    seen = _cap(seen)
    return (seen if one.sex == "any" else f"{seen}, {sex_words(one.sex, 2)}"), hides


def others_words(count: int) -> str:
    """How many looks stand on no row."""
    return tr("and {n} rarer looks", "and {n} rarer look", count) if count > 0 else ""


def goal_words(plan: Plan, forms: Forms, sex: AnySex) -> str:
    """The look aimed at, in the middle of a sentence."""
    look = looks_words(plan, forms)
    return look if sex == "any" else f"{look} {sex_words(sex)}"


def is_like(one: Hatch, forms: Forms, sex: AnySex) -> bool:
    """Whether young of this look are what is aimed at."""
    of_sex = "any" in (sex, one.sex) or sex == one.sex
    return of_sex and all(one.forms.get(gene, NORMAL) == form for gene, form in forms.items())


def in_100(chance: float) -> str:
    """`92 in 100`, and never 0 or 100 unless it is certain."""
    return tr("{of_100} in 100", of_100=of_100(chance))


def price_words(plan: Plan, male: Parent, female: Parent, numbers: Numbers) -> str:
    """`340 + 230 = 570 USD for the pair`; an animal at home has no price."""
    prices = [one.price for one in (male, female) if one.price is not None]
    if not prices:
        return ""
    told = " + ".join(sum_of_money(price, numbers) for price in prices)
    if len(prices) == 1:
        return tr("{told}, for the one at home", told=in_currency(told, plan))
    together = in_currency(sum_of_money(sum(prices), numbers), plan)
    return tr("{told} = {together} for the pair", told=told, together=together)


def reckoned(plan: Plan, male: Parent, female: Parent, numbers: Numbers) -> tuple[str, ...]:
    """What the odds rest on, a sentence each."""
    return (
        clutch_words(plan, numbers),
        _certainty(plan, male, female),
        *_counted(plan, _unlaid(plan, numbers)),
    )


def _counted(plan: Plan, unlaid: str) -> tuple[str, str]:
    if is_live(plan):
        return (
            tr("Counted from litters that are there.{unlaid}", unlaid=unlaid),
            tr("Every young is drawn anew. A poor litter is not a broken promise."),
        )
    return (
        tr("Counted from clutches that are there.{unlaid}", unlaid=unlaid),
        tr("Every egg is drawn anew. A poor clutch is not a broken promise."),
    )


def clutch_words(plan: Plan, numbers: Numbers) -> str:
    """How large a clutch is, and what is lost of it."""
    known = biology(plan.species)
    one, many = laid_words(plan)
    sizes = [n for n, chance in enumerate(known.sizes) if chance > 0]
    mean = float(sum(n * chance for n, chance in enumerate(known.sizes)))
    laid = many if round(mean) != 1 else one
    always = len(sizes) == 1
    about = (
        tr("{n} {laid}", n=sizes[0], laid=laid) if always else tr("about {mean} {laid}", mean=round(mean), laid=laid)
    )
    spread = "" if always else tr(", from {least} to {most}", least=sizes[0], most=sizes[-1])
    hatched = percent(known.fertile * known.hatches, numbers)
    never = 1 - known.works["male"]
    idle = tr(" {never} of males never sire.", never=percent(never, numbers)) if never > 0 else ""
    return _clutch(plan, f"{about}{spread}", hatched, percent(known.lost, numbers) if known.lost else "") + idle


def _clutch(plan: Plan, size: str, alive: str, lost: str) -> str:
    if is_live(plan):
        whole = tr(" {lost} of litters are lost whole.", lost=lost) if lost else ""
        return tr("A litter of {size}; {alive} of them live.", size=size, alive=alive) + whole
    whole = tr(" {lost} of clutches are lost whole.", lost=lost) if lost else ""
    return tr("A clutch of {size}; {alive} of them hatch.", size=size, alive=alive) + whole


def _unlaid(plan: Plan, numbers: Numbers) -> str:
    """What the counting of clutches leaves out."""
    known = biology(plan.species)
    none = 1 - known.lays * known.works["female"]
    return tr(" In a season {none} of females have none.", none=percent(none, numbers)) if none > 0 else ""


def _certainty(plan: Plan, male: Parent, female: Parent) -> str:
    doubtful = [one.sex for one in (male, female) if any(map(_is_open, one.carries.values()))]
    if not doubtful:
        return tr("Both parents are taken to carry what they are said to carry.")
    who = tr("both parents") if len(doubtful) == 2 else tr("the {doubtful}", doubtful=sex_words(doubtful[0]))
    if is_live(plan):
        return tr(
            "Some of what {who} may carry is only possible, and stays what it is in every litter: a "
            "second one helps less than the first.",
            who=who,
        )
    return tr(
        "Some of what {who} may carry is only possible, and stays what it is in every clutch: a "
        "second one helps less than the first.",
        who=who,
    )


def _is_open(entry: str | Hidden) -> bool:
    """Whether it may be one genotype or another; a map may hold one that is certain."""
    return not isinstance(entry, str) and sum(chance(share) > 0 for share in entry.values()) > 1


def _trade(carries: Carries) -> Carries:
    """One genotype that is certain stands by itself."""
    return {
        gene: next(iter(entry)) if not isinstance(entry, str) and len(entry) == 1 else entry
        for gene, entry in carries.items()
    }


def _invented(plan: Plan) -> str:
    return tr("Prices and rates were invented for this example.") if "invented" in plan.notes else ""


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]

"""The answer where no route reaches the goal: what comes closest, and what would have to change."""

from __future__ import annotations

from msgspec.structs import replace

from core.plan.model import Held, Plan
from core.text import tr
from desktop.findings import Finding, Verdict
from desktop.words.answer import Answer, share_note, with_animals
from desktop.words.goal import asked, how_many
from desktop.words.numbers import Numbers, listed, more_by, of_100, price
from desktop.words.runs import Run, strong

# A chance that still grows by this much in the last season, or by a tenth of itself where it is small, asks for more
# time rather than more animals.
_STILL_GROWING, _STILL_GROWING_SHARE = 0.01, 0.1
_ONE_OF_100 = 0.01


def missed(plan: Plan, decided: Verdict, numbers: Numbers) -> Answer:
    """The sentences for a verdict that no route reaches the goal."""
    closest = decided.best
    if closest is None:
        raise ValueError("something must come closest")
    within = tr("{n} seasons", "one season", plan.goal.seasons)
    head = (
        Run(tr("No route shown is ") if decided.beaten_by else tr("No route is ")),
        strong(asked(plan, numbers)),
        Run(tr(" sure within {within}.", within=within)),
    )
    share = of_100(closest.chance)
    lead = f"{_closest(closest, decided.rivals, plan)} {_change(closest, plan)}" if share else _hopeless(plan, within)
    said = Answer(head, " ".join([lead, *_bought(plan, decided, numbers)]), share, share_note(share))
    return replace(said, share_note=tr("or fewer reach the goal")) if 0 < closest.chance < _ONE_OF_100 else said


def _hopeless(plan: Plan, within: str) -> str:
    """Why no route can give it at all."""
    # Loaded when first needed: the start does not wait for it.
    from core.explain.lacking import lacking

    groups = [group for route in plan.routes for group in route.groups if not isinstance(group, Held)]
    missing = lacking(plan, (group.carries or {} for group in groups), plan.my_animals)
    if missing:
        return tr(
            "None of them can give the wanted animals: no animal in them carries the copies for {forms}.",
            "None of them can give the wanted animal: no animal in them carries the copies for {forms}.",
            how_many(plan),
            forms=listed([*missing]),
        )
    return tr(
        "None of them can give the wanted animals in {within}: more seasons or other animals are needed.",
        "None of them can give the wanted animal in {within}: more seasons or other animals are needed.",
        how_many(plan),
        within=within,
    )


def _closest(closest: Finding, rivals: tuple[Finding, ...], plan: Plan) -> str:
    """Which route comes closest, or which of them do as far as plays can tell."""
    few = closest.chance < _ONE_OF_100
    people = tr("fewer than 1 of 100 people") if few else tr("{n} of 100 people", n=of_100(closest.chance))
    if rivals:
        names = listed([closest.name, *(one.name for one in rivals)])
        return tr(
            "{names} come closest: about {people} by season {seasons}.",
            names=names,
            people=people,
            seasons=plan.goal.seasons,
        )
    return tr(
        "{name} comes closest{start}: {people} by season {seasons}.",
        name=closest.name,
        start=with_animals(closest),
        people=people,
        seasons=plan.goal.seasons,
    )


def _change(closest: Finding, plan: Plan) -> str:
    growth = 0.0
    if closest.result is not None and plan.goal.seasons > 1:
        growth = float(closest.result.chance_by_season[-1] - closest.result.chance_by_season[-2])
    grows = growth >= min(_STILL_GROWING, _STILL_GROWING_SHARE * closest.chance) or plan.goal.seasons == 1
    if closest.chance < _ONE_OF_100:
        return tr("More seasons are needed.") if grows else tr("More or other animals are needed.")
    helps = tr("allow more seasons") if grows else tr("take more or other animals")
    return tr("Settle for {share} % sure, or {helps}.", share=of_100(closest.chance), helps=helps)


def _bought(plan: Plan, decided: Verdict, numbers: Numbers) -> list[str]:
    """What buying takes, where not even a hidden route reaches the goal."""
    outright, budget = plan.goal.outright_price, plan.goal.budget
    if outright is None or decided.beaten_by:
        return []
    over = ""
    if budget is not None and outright > budget:
        over = tr(", {over} over your {budget}", over=more_by(outright, budget, numbers), budget=price(budget, numbers))
    return [
        tr(
            "Buying them finished takes {outright}{over}.",
            "Buying it finished takes {outright}{over}.",
            how_many(plan),
            outright=price(outright, numbers),
            over=over,
        )
    ]

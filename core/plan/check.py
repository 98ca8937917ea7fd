"""Every rule of the plan file: first each value by itself, then what the values mean together."""

from __future__ import annotations

import msgspec

from core.plan.book import Book
from core.plan.check_animals import check_animals
from core.plan.check_genes import check_genes
from core.plan.check_goal import check_goal
from core.plan.check_routes import check_routes
from core.plan.check_species import check_species
from core.plan.faults import FILE, Enough, Fault, Faults, PlanError
from core.plan.model import Plan
from core.plan.shape import read_shape
from core.text import tr


def check_plan(plan: Plan) -> tuple[Fault, ...]:
    """Give everything that is wrong with a plan, each with its place; empty for a plan that can be evaluated."""
    try:
        examine(msgspec.to_builtins(plan))
    except PlanError as error:
        return error.faults
    return ()


def examine(value: object) -> Plan:
    """Turn a JSON value into a plan that can be evaluated. Raises PlanError with everything that is wrong with it."""
    if not isinstance(value, dict):
        raise PlanError([Fault(FILE, tr("must hold one plan: an object in braces { }"))])
    _check_version(value.get("format"), value.get("version"))
    faults = Faults()
    try:
        plan = read_shape(value, faults)
        _check_meaning(plan, faults)
    except Enough:
        raise PlanError(faults.settle()) from None
    if found := faults.settle():
        raise PlanError(found)
    return plan


def _check_meaning(plan: Plan, faults: Faults) -> None:
    book = Book(plan)
    check_genes(plan, book, faults)
    check_species(plan, faults)
    check_goal(plan, book, faults)
    check_animals(plan, book, faults)
    check_routes(plan, book, faults)


def _check_version(form: object, version: object) -> None:
    """Refuse what no rule of this version fits: naming every key of a foreign file would only hide the reason."""
    if isinstance(form, str) and form != "pairwright-plan":
        raise PlanError([Fault("format", tr('must be "pairwright-plan": this is not a plan of Pairwright'))])
    newer = isinstance(version, int) and not isinstance(version, bool) and version > 1
    if form == "pairwright-plan" and newer:
        message = tr(
            "this file was made by a newer Pairwright: its version is {version}, this one reads version 1",
            version=version,
        )
        raise PlanError([Fault("version", message)])

"""The command line: `python -m core evaluate|beliefs|find|check|schema`."""

from __future__ import annotations

import argparse
import json
import os
import sys

from core.plan.faults import Fault, PlanError, quote
from core.plan.limits import MOST_BYTES
from core.plan.model import Plan, Route
from core.plan.read import load_plan, read_plan
from core.plan.schema import json_schema

# Exit statuses: a plan at fault, as for wrong arguments; interrupted, and the reader of the output gone, as in shells.
FAULTY = 2
INTERRUPTED = 130
PIPE_CLOSED = 141


def main(arguments: list[str] | None = None) -> int:
    """Run one command; give the exit status."""
    try:
        status = _run(_parser().parse_args(arguments))
        sys.stdout.flush()
    except PlanError as error:
        print(error, file=sys.stderr)
        return FAULTY
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # Python flushes once more on its way out; that must find an open place.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    return status


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m core", description="Compare breeding routes in a plan file.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, words in (
        ("evaluate", "print every route's chances, seasons and money as JSON"),
        ("beliefs", "print what each of my animals may carry as JSON"),
        ("find", "print the cheapest routes to the goal that can be built from what is for sale and mine as JSON"),
        ("check", "print nothing, or all that is wrong with the plan"),
    ):
        command = commands.add_parser(name, help=words, description=f"{words[:1].upper()}{words[1:]}.")
        command.add_argument("file", metavar="FILE", help="a plan (*.plan.json), or - for standard input")
    words = "print the JSON Schema of the plan file"
    commands.add_parser("schema", help=words, description=f"{words[:1].upper()}{words[1:]}.")
    return parser


def _run(options: argparse.Namespace) -> int:
    if options.command == "schema":
        _print_json(json_schema())
        return 0
    plan = _load(options.file)
    # The engines take time to load, which a mere check of a plan without animals should not cost.
    if plan.my_animals or options.command == "beliefs":
        _weigh_evidence(plan, report=options.command == "beliefs")
    if options.command == "evaluate":
        _evaluate(plan)
    if options.command == "find":
        return _find(plan)
    return 0


def _load(file: str) -> Plan:
    return read_plan(sys.stdin.buffer.read(MOST_BYTES + 1)) if file == "-" else load_plan(file)


def _weigh_evidence(plan: Plan, *, report: bool) -> None:
    """Refuse records that no genotypes explain; with `report`, print what the animals may carry."""
    from core.genetics.beliefs import ImpossibleEvidence, belief_report
    from core.genetics.elimination import TooEntangled

    try:
        animals = belief_report(plan)
    except ImpossibleEvidence as error:
        raise PlanError([Fault(error.place, str(error).removeprefix(f"{error.place}: "))]) from None
    except TooEntangled as error:
        # The records may be sound all the same: only an answer that rests on them is out of reach.
        if report:
            raise PlanError([Fault("my_animals", str(error))]) from None
        return
    if report:
        _print_json({"animals": animals})


def _evaluate(plan: Plan) -> None:
    from core.genetics.elimination import TooEntangled
    from core.routes.evaluate import evaluate
    from core.routes.prepare import TooManyGenotypes
    from core.routes.report import as_json

    try:
        comparison = evaluate(plan, _tell_long)
    except TooEntangled as error:
        raise PlanError([Fault("my_animals", str(error))]) from None
    except TooManyGenotypes as error:
        raise PlanError([Fault("routes", str(error))]) from None
    _print_json(as_json(comparison))


def _tell_long(route: Route) -> None:
    """Say on the way that it goes on."""
    print(f"{quote(route.called)}: the exact answer may take a few minutes.", file=sys.stderr, flush=True)


def _find(plan: Plan) -> int:
    """What was found; of a search that is interrupted what it had so far."""
    from core.genetics.elimination import TooEntangled
    from core.routes.prepare import TooManyGenotypes
    from core.search.find import find
    from core.search.found import Found
    from core.search.report import as_json

    found, status = Found(), 0
    try:
        for latest in find(plan):
            found = latest
    except KeyboardInterrupt:
        status = INTERRUPTED
    except TooEntangled as error:
        raise PlanError([Fault("my_animals", str(error))]) from None
    except TooManyGenotypes as error:
        raise PlanError([Fault("goal.want", str(error))]) from None
    _print_json(as_json(found))
    return status


def _print_json(value: object) -> None:
    text = json.dumps(value, ensure_ascii=False, indent=1, allow_nan=False)
    sys.stdout.buffer.write(text.encode() + b"\n")


if __name__ == "__main__":
    sys.exit(main())

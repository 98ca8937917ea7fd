"""The command line: `python -m core evaluate|check|schema`."""

from __future__ import annotations

import argparse
import json
import os
import sys

from core.plan.faults import PlanError
from core.plan.limits import MOST_BYTES
from core.plan.model import Plan
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
        ("check", "print nothing, or all that is wrong with the plan"),
    ):
        command = commands.add_parser(name, help=words, description=words.capitalize() + ".")
        command.add_argument("file", metavar="FILE", help="a plan (*.plan.json), or - for standard input")
    words = "print the JSON Schema of the plan file"
    commands.add_parser("schema", help=words, description=words.capitalize() + ".")
    return parser


def _run(options: argparse.Namespace) -> int:
    if options.command == "schema":
        _print_json(json_schema())
        return 0
    plan = _load(options.file)
    if options.command == "evaluate":
        _evaluate(plan)
    return 0


def _load(file: str) -> Plan:
    return read_plan(sys.stdin.buffer.read(MOST_BYTES + 1)) if file == "-" else load_plan(file)


def _evaluate(plan: Plan) -> None:
    # The engines take time to load, which a mere check should not cost.
    from core.routes.evaluate import evaluate
    from core.routes.report import as_json

    _print_json(as_json(evaluate(plan)))


def _print_json(value: object) -> None:
    text = json.dumps(value, ensure_ascii=False, indent=1, allow_nan=False)
    sys.stdout.buffer.write(text.encode() + b"\n")


if __name__ == "__main__":
    sys.exit(main())

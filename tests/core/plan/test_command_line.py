"""The command line, run as a user runs it."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from tests.core.plan.plan_cases import SAMPLE, put, rich

ROOT = Path(__file__).parents[3]


def run(*arguments: str, given: bytes = b"") -> tuple[int, bytes, list[str]]:
    """Exit status, output, and lines of errors of `python -m core`."""
    command = [sys.executable, "-m", "core", *arguments]
    done = subprocess.run(command, cwd=ROOT, input=given, capture_output=True, timeout=60, check=False)
    return done.returncode, done.stdout, done.stderr.decode().splitlines()


def test_check_says_nothing_of_a_good_plan() -> None:
    assert run("check", str(SAMPLE)) == (0, b"", [])


def test_check_names_every_fault_on_standard_error() -> None:
    plan = put(put(rich(), "goal.seasons", 0), "routes[0].groups[0].price", -1)
    faults = ["goal.seasons: must be at least 1", "routes[0].groups[0].price: must not be negative"]
    assert run("check", "-", given=json.dumps(plan).encode()) == (2, b"", faults)


def test_records_that_cannot_be_are_named() -> None:
    plan = put(rich(), "clutch_records[0].young[0].forms.lav", "lavender")
    status, _, errors = run("check", "-", given=json.dumps(plan).encode())
    assert status == 2
    assert [line.split(": ")[0] for line in errors] == ["clutch_records[0]"]


def test_beliefs_are_given_as_json() -> None:
    plan = put(put(rich(), "clutch_records", []), "my_animals[0].forms", {})
    status, output, errors = run("beliefs", "-", given=json.dumps(plan).encode())
    assert (status, errors) == (0, [])
    assert json.loads(output)["animals"]["F1"]["band"] == {"+/W": 1.0}


def test_a_missing_file_is_one_line() -> None:
    assert run("evaluate", "gone.plan.json") == (2, b"", ["file: does not exist"])


def test_schema_is_json() -> None:
    status, output, errors = run("schema")
    assert (status, errors) == (0, [])
    assert json.loads(output)["title"] == "Pairwright plan"


def test_a_reader_that_goes_away_is_no_error() -> None:
    command = [sys.executable, "-m", "core", "schema"]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""

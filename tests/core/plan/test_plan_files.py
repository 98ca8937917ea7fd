"""Files and bytes from strangers, and plans written and read again."""

from __future__ import annotations

import json
import os
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from core.plan.chances import chance
from core.plan.faults import PlanError
from core.plan.limits import MOST_BYTES
from core.plan.model import Scale
from core.plan.read import load_plan, read_plan
from core.plan.scale import scale_of
from core.plan.schema import json_schema
from core.plan.write import write_plan
from tests.core.plan.plan_cases import SAMPLE, faults_of, put, rich
from tests.reference.plans import plans

GOOD = json.dumps(rich()).encode()

HOSTILE = {
    "empty": (b"", "file: is empty"),
    "blank": (b" \n\t", "file: is empty"),
    "cut off": (GOOD[:43], "file: ends too soon, at line 1, column 44; was it cut off?"),
    "cut off in a text": (
        GOOD[:50],
        "file: is not JSON at line 1, column 45: the text that begins here has no closing",
    ),
    "not text": (b"\xff\xfe\x00\x01", "file: is not UTF-8 text (from byte 1 on)"),
    "another coding": (GOOD.decode().replace("A plan", "Schl\u00fcpfen").encode("latin-1"), "file: is not UTF-8 text"),
    "byte-order mark": (b"\xef\xbb\xbf" + GOOD, "file: begins with a byte-order mark"),
    "nested brackets": (b"[" * 100_000, "file: is nested far deeper than a plan"),
    "nested braces": (b'{"a":' * 100_000, "file: is nested far deeper than a plan"),
    "nested and closed": (b"[" * 100_000 + b"]" * 100_000, "file: is nested far deeper than a plan"),
    "too large": (GOOD + b" " * MOST_BYTES, "file: is larger than 4 MiB"),
    "two plans": (GOOD + GOOD, "file: is not JSON at line 1, column "),
    "no value": (b'{"title": }', "file: is not JSON at line 1, column 11: a value was expected here"),
    "single quotes": (b"{'title': 1}", "file: is not JSON at line 1, column 2: a key in double quotes"),
    "trailing comma": (b'{"title": "x",}', "file: is not JSON at line 1, column"),
    "line break in text": (b'{"title": "x\n"}', "file: is not JSON at line 1, column 13: a line break"),
    "digits": (b"1" * (MOST_BYTES - 1), "file: must hold one plan"),
    "many lists": (b"[" + b"[]," * (MOST_BYTES // 3 - 2) + b"[]]", "file: must hold one plan"),
    "many keys": (
        b"{" + b",".join(b'"%x": 1' % i for i in range(300_000)) + b"}",
        '["0"]: is not a key that belongs here',
    ),
    "huge number": (GOOD.replace(b'"seasons": 6', b'"seasons": 1e999'), "goal.seasons: must be at most 60"),
    "huge digits": (GOOD.replace(b'"seasons": 6', b'"seasons": ' + b"9" * 5_000), "goal.seasons: must be at most 60"),
    "minus infinity": (GOOD.replace(b'"seasons": 6', b'"seasons": -Infinity'), "goal.seasons: must be at least 1"),
    "not a number": (GOOD.replace(b'"seasons": 6', b'"seasons": NaN'), "goal.seasons: must be a whole number, not NaN"),
}


@pytest.mark.parametrize(("data", "start"), HOSTILE.values(), ids=HOSTILE.keys())
def test_bytes_from_a_stranger_end_in_a_clear_line(data: bytes, start: str) -> None:
    lines = faults_of(data)
    assert lines[0].startswith(start)
    assert all(line.isprintable() for line in lines)


def test_the_error_holds_every_line() -> None:
    with pytest.raises(PlanError) as caught:
        read_plan(b'{"title": 5}')
    assert str(caught.value) == "\n".join(map(str, caught.value.faults))


def test_every_cut_of_a_plan_is_told_as_such() -> None:
    for end in range(1, len(GOOD), 97):
        assert faults_of(GOOD[:end])


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    large = tmp_path / "large.plan.json"
    with large.open("wb") as file:
        file.truncate(100 * MOST_BYTES)
    for path, line in {
        tmp_path: "file: is a folder, not a file that holds a plan",
        tmp_path / "gone.plan.json": "file: does not exist",
        pipe: "file: is a device or pipe, not a file that holds a plan",
        large: "file: is larger than 4 MiB, the most a plan may take",
        tmp_path / "nul\0": "file: has a name that no file can have",
        tmp_path / ("n" * 300): "file: cannot be read: File name too long",
    }.items():
        with pytest.raises(PlanError) as caught:
            load_plan(path)
        assert str(caught.value) == line


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read everything")
def test_a_file_without_permission(tmp_path: Path) -> None:
    path = tmp_path / "closed.plan.json"
    path.write_bytes(GOOD)
    path.chmod(0)
    with pytest.raises(PlanError, match="file: may not be read: no permission"):
        load_plan(path)


def test_the_sample_comes_back_as_it_was() -> None:
    plan = load_plan(SAMPLE)
    assert read_plan(write_plan(plan)) == plan
    assert write_plan(read_plan(write_plan(plan))) == write_plan(plan)


def test_a_written_plan_is_readable_text() -> None:
    text = write_plan(read_plan(json.dumps(put(rich(), "title", "Schl\u00fcpfen")).encode()))
    assert text.endswith(b"}\n")
    assert '  "title": "Schl\u00fcpfen"'.encode() in text


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans())
def test_every_valid_plan_reads_and_comes_back(value: dict[str, object]) -> None:
    plan = read_plan(json.dumps(value).encode())
    text = write_plan(plan)
    assert read_plan(text) == plan
    assert write_plan(read_plan(text)) == text


def test_scale_is_the_first_bought_female_group_unless_given() -> None:
    plan = read_plan(GOOD)
    given = plan.routes[0]
    assert scale_of(given) == given.scale
    assert scale_of(msgspec.structs.replace(given, scale=None)) == Scale(groups=("dams",), counts=tuple(range(1, 9)))
    assert scale_of(plan.routes[1]) is None


@pytest.mark.parametrize(("written", "value"), [(1, 1.0), (0.25, 0.25), ("2/3", 2 / 3), ("0/5", 0.0)])
def test_chances_are_numbers_or_fractions(written: int | float | str, value: float) -> None:
    assert chance(written) == value


def test_the_schema_names_every_key_and_no_null_for_a_key_left_out() -> None:
    parts = json_schema()["$defs"]
    assert set(parts["Plan"]["properties"]) >= set(rich())
    assert set(parts["Held"]["properties"]) == {"origin", "id", "sex", "count", "from", "pick", "until"}
    assert parts["Species"]["properties"]["female_share"]["pattern"]
    assert "leftOut" not in json.dumps(parts)

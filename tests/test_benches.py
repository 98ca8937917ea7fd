"""Benchmarks are no tests, but what they name of the program is there."""

from __future__ import annotations

import ast
from importlib import import_module
from pathlib import Path

import pytest

BENCHES = sorted((Path(__file__).parent / "bench").glob("*.py"))


@pytest.mark.parametrize("bench", BENCHES, ids=lambda path: path.stem)
def test_what_it_takes_from_the_program_is_there(bench: Path) -> None:
    for node in ast.walk(ast.parse(bench.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.split(".")[0] in ("core", "desktop"):
            module = import_module(node.module)
            for name in node.names:
                assert hasattr(module, name.name) or import_module(f"{node.module}.{name.name}"), name.name

"""The core knows nothing of a window, of threads or of clocks."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULES = sorted((ROOT / "core").rglob("*.py"))
FORBIDDEN = {"PySide6", "pyqtgraph", "desktop", "threading", "_thread", "time", "datetime"}


def imported(tree: ast.AST) -> Iterator[str]:
    """The first part of the name of every module that is imported, wherever in the code."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            yield node.module.partition(".")[0]
        elif isinstance(node, ast.Call) and node.args and isinstance(node.args[0], ast.Constant):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in {"__import__", "import_module"}:
                yield str(node.args[0].value).partition(".")[0]


@pytest.mark.parametrize("module", MODULES, ids=[str(module.relative_to(ROOT)) for module in MODULES])
def test_core_stays_within_its_border(module: Path) -> None:
    assert not FORBIDDEN & set(imported(ast.parse(module.read_text("utf-8"))))


def test_the_whole_core_is_looked_at() -> None:
    assert ROOT / "core" / "routes" / "evaluate.py" in MODULES


@pytest.mark.parametrize(
    "code",
    ["import time", "def f():\n    from datetime import date", "import PySide6.QtCore as q", "__import__('threading')"],
)
def test_imports_are_found_wherever_they_are(code: str) -> None:
    assert FORBIDDEN & set(imported(ast.parse(code)))

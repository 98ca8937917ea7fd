"""Every text that a person may read goes through `tr`, where Qt's lupdate finds it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TypeGuard
from xml.etree import ElementTree

from tests.desktop.translations import ROOT, gather, sources

# Two words side by side, or one that begins like a sentence.
_READS = re.compile(r"[^\W\d_]{2,}[,.:;]? +[^\W\d_]|^[A-Z][a-z]{3,}$")
# What nobody reads on a page: errors of the program itself, its log, what is looked for in texts.
_UNREAD = ("debug", "error", "warning", "exception", "getLogger", "Formatter", "compile", "qRegisterResourceData")
_FAILURES = ("ValueError", "RuntimeError", "LookupError", "OutOfReach", "OutOfRoom", "AssertionError", "TypeError")
# Where texts stand that are no texts of ours to translate, with the reason.
EXEMPT = {
    "core/__main__.py": "the command line for programs, in the language of its JSON keys",
    "core/advice/breeding.py": "works that are cited, by the names they have",
    "core/advice/kin.py": "works that are cited, by the names they have",
    "core/advice/standing.py": "works that are cited, by the names they have",
    "core/plan/decode.py": "what Python's reader of JSON says, as keys",
    "core/plan/schema.py": "names of types in the JSON Schema",
    "desktop/fonts.py": "names of fonts",
    "desktop/forms/fields.py": "style sheets",
    "desktop/panels/routes/delegate.py": "style sheets",
    "desktop/panels/wanted.py": "style sheets",
    "desktop/paste/window.py": "style sheets",
    "desktop/widgets/figure_table.py": "style sheets",
    "desktop/widgets/inked.py": "style sheets",
    "desktop/window.py": "style sheets",
    "desktop/words/paste.py": "an example of a list, in the words that lists are read in",
    "desktop/worth/table.py": "style sheets",
}
_KEY, _PYTHON = "a word that the program tells apart by", "a name of Python"
EXEMPT_TEXTS = {
    "Pairwright": "the program's name", "Fusion": "a style of Qt", "Quarter letter": "a size of paper, seen by nobody",
    "Point": _PYTHON, "Array": _PYTHON, "Numbers": _PYTHON,
    "Odds": _PYTHON, "Played": _PYTHON, "Plan | Refused": _PYTHON,
    "PlainRoute | HoldingRoute | SteadyRoute | OrderedRoute | ChainRoute": _PYTHON,
    "young costs": _KEY, "ready in": _KEY, "ready in ": _KEY, "not bred": _KEY, "chain goal": _KEY,
    "ordered goal": _KEY, "keep gene": _KEY, "keep species": _KEY, "plain forms": _KEY, "cautions read": _KEY,
    "route name": _KEY, "order of ": _KEY, "most eggs": _KEY, "goal.chance by keys": _KEY,
    "invented for this example": _KEY,
    "Unknown error": "what Qt says where it knows no more",
}  # fmt: skip


@cache
def trees() -> dict[str, ast.Module]:
    return {str(file.relative_to(ROOT)): ast.parse(file.read_text("utf-8")) for file in sources()}


def test_lupdate_finds_every_text(tmp_path: Path) -> None:
    gather(tmp_path / "pairwright_de.ts")
    messages = ElementTree.parse(tmp_path / "pairwright_de.ts").iter("message")
    found = {(one.findtext("source", ""), one.findtext("comment", "")) for one in messages}
    lost = [f"{where}: {text}" for where, text, note in calls() if (text, note) not in found]
    assert lost == []


def calls() -> Iterator[tuple[str, object, object]]:
    """Every call of `tr`: where, its text and its note."""
    for name, tree in trees().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "tr":
                text, note = ([one.value if isinstance(one, ast.Constant) else None for one in node.args] + ["", ""])[
                    :2
                ]
                yield f"{name}:{node.lineno}", text, note


def test_what_reads_like_a_text_is_one() -> None:
    keys = {key for tree in trees().values() for key in chosen(tree)}
    bare = [
        f"{name}:{line}: {text}"
        for name, tree in trees().items()
        if name not in EXEMPT
        for line, text in untold(tree)
        if _READS.search(text) and text not in keys and text not in EXEMPT_TEXTS
    ]
    assert bare == []


def test_every_exemption_is_needed() -> None:
    assert [name for name in EXEMPT if not any(_READS.search(text) for _, text in untold(trees()[name]))] == []
    bare = {text for tree in trees().values() for _, text in untold(tree)}
    assert [text for text in EXEMPT_TEXTS if text not in bare] == []


def chosen(tree: ast.AST) -> Iterator[str]:
    """The words that the program tells apart by: those of `Literal[...]`."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id == "Literal":
            yield from (one.value for one in ast.walk(node.slice) if _is_text(one))


def untold(node: ast.AST) -> Iterator[tuple[int, str]]:
    """Every text below a node that is no docstring and goes through no `tr`, with its line."""
    if _is_text(node):
        yield node.lineno, node.value
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return
    if isinstance(node, ast.Call) and _called(node.func) == "tr":
        below: list[ast.AST] = [one.value for one in node.keywords]
    elif isinstance(node, ast.Call) and _called(node.func) in (*_UNREAD, *_FAILURES):
        below = []
    else:
        below = [*ast.iter_child_nodes(node)]
    for one in below:
        yield from untold(one)


def _is_text(node: ast.AST) -> TypeGuard[ast.Constant]:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _called(what: ast.expr) -> str:
    return what.attr if isinstance(what, ast.Attribute) else what.id if isinstance(what, ast.Name) else ""

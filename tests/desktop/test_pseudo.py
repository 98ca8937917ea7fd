"""Every screen in a language that nobody speaks: all texts are translated, and longer ones still have their room."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.desktop.pseudo import said

ROOT = Path(__file__).resolve().parents[2]


# All screens once more, in large type, take about as long again as those at the usual size.
LARGE = pytest.mark.skipif("PAIRWRIGHT_EXAMPLES" not in os.environ, reason="large type goes with the larger run")


@pytest.mark.parametrize("percent", ["100", pytest.param("200", marks=LARGE)])
def test_every_screen_in_another_language(percent: str) -> None:
    # Texts are translated when their modules are loaded, so the language is that of a whole process.
    done = subprocess.run(
        [sys.executable, "-m", "tests.desktop.pseudo_run", percent],
        cwd=ROOT, check=False, capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    assert (done.returncode, done.stdout.strip()) == (0, ""), done.stderr[-2000:]


def test_what_stands_in_braces_stays() -> None:
    text = said("{n} routes")
    assert text.startswith("«{n} ")
    assert len(text) > len("{n} routes") * 1.3
    assert said("{number} %") == "{number} %"

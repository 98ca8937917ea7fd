"""What is loaded ahead is there, so that opening it waits for nothing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


_SAID = """
import sys
from desktop.ahead import PAGES, load_pages
load_pages()
print(set(PAGES) <= set(sys.modules))
"""


def test_the_pages_load_by_themselves() -> None:
    said = [sys.executable, "-c", _SAID]
    done = subprocess.run(said, cwd=ROOT, capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.strip() == "True"

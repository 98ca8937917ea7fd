"""The program's door: arguments, and machines on which no window can open."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from desktop.app import main
from desktop.screen import import_failure, obstacle
from tests.desktop import pseudo

ROOT = Path(__file__).resolve().parents[2]


def test_version_and_help_need_no_screen(capsys: pytest.CaptureFixture[str]) -> None:
    for flag, word in (("--version", "pairwright 0"), ("--help", "PLAN")):
        with pytest.raises(SystemExit) as left:
            main([flag])
        assert left.value.code == 0
        assert word in capsys.readouterr().out


def test_the_language_is_chosen_before_the_first_text(tmp_path: Path) -> None:
    """With a translation beside it the program starts as anywhere, and says even `--help` in that language."""
    pseudo.make(tmp_path)
    code = f"""
from pathlib import Path
import desktop.app
choose = desktop.app.language.choose
desktop.app.language.choose = lambda: choose(Path({str(tmp_path)!r}))
desktop.app.main(["--help"])
"""
    spoken = {**os.environ, "LC_ALL": f"{pseudo.LOCALE}.UTF-8", "LANGUAGE": pseudo.LOCALE}
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, env=spoken, capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    assert pseudo.said("show the program's version and exit").split()[-1] in done.stdout


def test_without_a_screen_it_says_so_and_leaves() -> None:
    bare = {
        name: value
        for name, value in os.environ.items()
        if name not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    }
    done = subprocess.run(
        [sys.executable, "-m", "desktop.app"],
        cwd=ROOT,
        env=bare,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.startswith("Pairwright needs a screen")
    assert done.stderr.count("\n") == 1


def test_a_screen_that_does_not_answer_is_no_screen() -> None:
    problem = obstacle({"DISPLAY": "127.0.0.1:9077"}, "linux")
    assert problem is not None
    assert problem.startswith("Pairwright needs")


def test_other_systems_and_a_drawn_screen_pass() -> None:
    assert obstacle({}, "darwin") is None
    assert obstacle({"QT_QPA_PLATFORM": "offscreen"}, "linux") is None


def test_the_groundwork_loads_no_qt() -> None:
    code = "import sys, desktop.groundwork; sys.exit(any('PySide6' in name for name in sys.modules))"
    assert subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60, check=False).returncode == 0


def test_a_missing_library_names_its_package() -> None:
    said = import_failure(ImportError("libEGL.so.1: cannot open shared object file: No such file or directory"))
    assert "apt-get install libegl1" in said
    assert "pip install" in import_failure(ImportError("No module named 'PySide6'"))

"""Brings the file of a language up to date with the texts of the program and makes it ready to use.

`python -m tests.desktop.translations de` writes `assets/translations/pairwright_de.ts`, to be filled in with Qt's
Linguist, and the `pairwright_de.qm` that the program reads. Without a language all that are there.
"""

from __future__ import annotations

import subprocess
import sys
import sysconfig
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
TRANSLATIONS = ROOT / "assets" / "translations"


def sources() -> Iterator[Path]:
    """Every module that may hold texts."""
    for room in ("core", "desktop"):
        yield from sorted((ROOT / room).rglob("*.py"))


def gather(language_file: Path) -> None:
    """Puts every text of the program into a language file; what was translated stays."""
    with TemporaryDirectory() as folder:
        listed = Path(folder) / "sources"
        listed.write_text("\n".join(map(str, sources())), "utf-8")
        _tool("lupdate", "-no-obsolete", "-locations", "none", "-silent", f"@{listed}", "-ts", str(language_file))


def release(language_file: Path) -> Path:
    """Makes what the program reads of a language file: only what has been translated."""
    ready = language_file.with_suffix(".qm")
    _tool("lrelease", "-silent", str(language_file), "-qm", str(ready))
    return ready


def _tool(name: str, *arguments: str) -> None:
    tool = Path(sysconfig.get_path("scripts")) / f"pyside6-{name}"
    subprocess.run([str(tool), *arguments], check=True, timeout=120)


def main(languages: list[str]) -> None:
    """Gathers and releases the languages named, or all."""
    TRANSLATIONS.mkdir(exist_ok=True)
    named = [TRANSLATIONS / f"pairwright_{language}.ts" for language in languages]
    for file in named or sorted(TRANSLATIONS.glob("*.ts")):
        gather(file)
        release(file)


if __name__ == "__main__":
    main(sys.argv[1:])

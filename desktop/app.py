"""The program's door: arguments, a look at the screen, then the window."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from core.text import tr
from desktop import language


def main(argv: Sequence[str] | None = None) -> int:
    """Opens the window on a plan and returns the exit status."""
    spoken = language.choose()
    # Only now: its texts are told in the language that was chosen.
    from desktop.screen import import_failure, obstacle

    arguments = _parser().parse_args(argv)
    problem = obstacle(os.environ)
    if problem is None:
        try:
            run = load()
        except ImportError as error:
            problem = import_failure(error)
        else:
            return run(arguments.plan, spoken)
    print(problem, file=sys.stderr)
    return 1


def load() -> Callable[[Path | None, str | None], int]:
    """Loads what the window needs and gives `desktop.start.run`, which has garbage looked for again.

    Only now: --help must not wait for it, and Qt aborts where there is no screen. Raises ImportError.
    """
    # Loading leaves no garbage, and looking for it again and again is a tenth of the start.
    gc.disable()
    import desktop.groundwork  # noqa: F401 - before Qt, see there
    from desktop.start import run

    return run


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="pairwright",
        description=tr(
            "Compare whole breeding routes to animals that show several recessive traits, by chance, seasons and money."
        ),
    )
    parser.add_argument(
        "plan",
        nargs="?",
        type=Path,
        metavar="PLAN",
        help=tr("a {ending} file; a sample plan without it", ending="*.plan.json"),
    )
    parser.add_argument("--version", action=_Version, nargs=0, help=tr("show the program's version and exit"))
    return parser


class _Version(argparse.Action):
    """Looks the version up only when asked: that takes a while, and a start should not wait for it."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        print(f"pairwright {version()}")
        parser.exit()


def version() -> str:
    """The program's version."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("pairwright")
    except PackageNotFoundError:
        return "0.1.0"


if __name__ == "__main__":
    sys.exit(main())

"""Speaks the pseudo-language for a whole process: `python -m tests.desktop.pseudo_run OUTDIR`, or `… 100 TOPIC …`.

With a folder it draws every screen there; with a size of text it prints what is wrong on the screens of these topics.
"""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parent))

from tests.desktop import pseudo


def look(percent: int, topics: list[str]) -> list[str]:
    """What is cut, stands on something else or is English at that size of text."""
    import screen_checks as checks
    from PySide6.QtCore import Qt
    from PySide6.QtWidgets import QApplication
    from screen_tour import TOPICS, Check, walk
    from untranslated import English, Painted

    from desktop import fonts
    from desktop.appearance import Appearance
    from desktop.files.filing import Filing

    gc.disable()
    app = QApplication([])
    fonts.load_fonts()
    fonts.set_scale(percent / 100)
    app.setFont(fonts.sans(fonts.FORM))
    appearance = Appearance(app)
    appearance.choose(Qt.ColorScheme.Light)
    Filing.may_go = lambda _: True  # type: ignore[method-assign]
    painted = Painted()
    held_to: list[Check] = [checks.clipped, checks.overlapping, painted.cut_off]
    if percent == 100:
        # Large type has no other words; large and long at once, some pages take a wider window.
        held_to += [checks.grown, checks.nameless, English(painted)]
    return [one for topic in topics or TOPICS for one in walk(topic, app, appearance, held_to)]


def main(arguments: list[str]) -> None:
    """Makes the language, speaks it, and does what is asked for."""
    with TemporaryDirectory() as folder:
        pseudo.make(Path(folder))
        pseudo.speak(Path(folder))
    if arguments[0].isdecimal():
        print(*look(int(arguments[0]), arguments[1:]), sep="\n")
        return
    from gallery import SIZES, draw
    from PySide6.QtCore import Qt

    draw(Path(arguments[0]), ((1, Qt.ColorScheme.Light, SIZES[0]), (2, Qt.ColorScheme.Dark, SIZES[0])))


if __name__ == "__main__":
    main(sys.argv[1:])

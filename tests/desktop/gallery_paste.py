"""The paste window for the gallery: empty, with four unclear lines, all clear, and with names of strangers."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.document import Document
from desktop.locale_numbers import LocaleNumbers
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE, open_plan

CLEAR = ["0.1 amel 66% het lav 110", "1.0 Lavender het amel $340", "0.2 double het 230 each", "1.0 opal 700"] * 5
UNCLEAR = ["0.1 amel 160 eur", "0.1 amel ph lav 150", "1.2 double het 500", "0.1 amel hett lav 190"]


def screens(_app: QApplication, _appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """The window before, during and after settling."""
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    for name, lines in (("empty", []), ("unclear", [*CLEAR[:6], *UNCLEAR, *CLEAR[6:]]), ("clear", CLEAR)):
        window = PasteWindow(Document(plan, SAMPLE), "for sale", LocaleNumbers())
        window.resize(min(size.width(), 1280) - 200, 640)
        window.text.setPlainText("\n".join(lines))
        window.show()
        yield f"paste-{name}", window.grab()
        window.close()

"""What a computer is told of the program, and what the program writes down of its troubles."""

from __future__ import annotations

import configparser
import logging
import sys
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot
from windows import Open

from desktop.files.places import log_file
from desktop.log import start_log

ASSETS = Path(__file__).resolve().parents[2] / "assets"


@pytest.fixture
def logging_started() -> Iterator[None]:
    before, hook = list(logging.getLogger().handlers), sys.excepthook
    start_log()
    yield
    sys.excepthook = hook
    for handler in logging.getLogger().handlers[:]:
        if handler not in before:
            handler.close()
            logging.getLogger().removeHandler(handler)


def test_the_desktop_entry_opens_plans() -> None:
    entry = configparser.ConfigParser(interpolation=None)
    entry.optionxform = str  # type: ignore[assignment, method-assign]
    entry.read(ASSETS / "linux" / "pairwright.desktop", encoding="utf-8")
    group = entry["Desktop Entry"]
    assert group["Exec"] == "pairwright %f"
    kinds = ElementTree.parse(ASSETS / "linux" / "pairwright-mime.xml").getroot()
    (kind,) = kinds
    assert kind.get("type") in group["MimeType"]
    assert [one.get("pattern") for one in kind if one.tag.endswith("glob")] == ["*.plan.json"]


def test_the_icon_is_a_drawing(qapp: object) -> None:
    assert qapp is not None
    assert QSvgRenderer(str(ASSETS / "icon" / "pairwright.svg")).isValid()


@pytest.mark.usefixtures("logging_started")
def test_what_nobody_caught_is_written_down_and_said_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    try:
        raise ZeroDivisionError("of this test")
    except ZeroDivisionError as error:
        sys.excepthook(ZeroDivisionError, error, error.__traceback__)
    said = capsys.readouterr().err.splitlines()
    assert len(said) == 1
    assert str(log_file()) in said[0]
    written = log_file().read_text(encoding="utf-8")
    assert "ZeroDivisionError: of this test" in written


def test_a_long_log_makes_room() -> None:
    log_file().parent.mkdir(parents=True, exist_ok=True)
    log_file().write_text("x" * 600_000)
    start_log_and_undo()
    assert not log_file().exists()
    assert log_file().with_suffix(".old.txt").stat().st_size == 600_000


def start_log_and_undo() -> None:
    before, hook = list(logging.getLogger().handlers), sys.excepthook
    start_log()
    sys.excepthook = hook
    logging.getLogger().handlers[:] = before


def test_about_names_the_version_and_the_log(start: Open, qtbot: QtBot) -> None:
    window = start()
    window.menus.about.trigger()
    qtbot.waitUntil(lambda: window.findChild(QMessageBox) is not None)
    box = window.findChild(QMessageBox)
    assert box is not None
    assert str(log_file()) in box.text()
    assert "0.1.0" in box.text()
    box.close()

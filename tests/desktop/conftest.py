"""Windows for journeys, and the rules every one of them keeps: no Qt warning, nothing left behind."""

from __future__ import annotations

import gc
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import window_double as double
from freed import freed_items
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from windows import Open

from desktop import fonts
from desktop.appearance import Appearance
from desktop.evaluation import Engine
from desktop.evaluator import Evaluator
from desktop.plan_files import Faults
from desktop.start import open_window
from desktop.window import MainWindow

# A worker's thread must not free what is Qt's; garbage is looked for after each test, as the program does by itself.
gc.disable()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.qt_log_level_fail("WARNING"))
            # Said by the offscreen platform of every window, and of those that open below a word.
            said = ("propagateSizeHints", r"support raise\(\)", "grabbing the keyboard")
            item.add_marker(pytest.mark.qt_log_ignore(*said))


class _Patient(QtBot):
    """Waits as long as a busy machine may take: what never comes fails all the same."""

    def waitUntil(self, callback: Callable[[], bool | None], *, timeout: int = 30_000) -> None:
        super().waitUntil(callback, timeout=timeout)


@pytest.fixture
def qtbot(qapp: QApplication, request: pytest.FixtureRequest) -> QtBot:  # noqa: ARG001 - there before any widget
    """In the place of the one that comes with the library, which waits for five seconds."""
    return _Patient(request)


@pytest.fixture(scope="session")
def appearance(qapp: QApplication) -> Appearance:
    fonts.load_fonts()
    return Appearance(qapp)


@pytest.fixture(autouse=True)
def _own_places(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Settings and recovery files of a test are its own."""
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path_factory.mktemp(name.lower())))


@pytest.fixture(autouse=True)
def _nothing_left_behind(qapp: QApplication) -> Iterator[None]:
    threads = threading.active_count()
    yield
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    gc.collect()
    # What is left is loaded, and stays to the end: to look through it again takes as long as many a test.
    gc.freeze()
    left = [type(widget).__name__ for widget in qapp.topLevelWidgets() if widget.parent() is None]
    assert left == []
    assert threading.active_count() <= threads


@pytest.fixture
def start(qtbot: QtBot, appearance: Appearance) -> Iterator[Open]:
    """Opens the window as the program does, with an engine that answers at once, and waits for the answer."""

    # Nothing else holds a window while a test talks to its panels.
    opened: list[MainWindow] = []

    def open_it(
        path: Path | None = None, engine: Callable[[], Engine] = double.engine, *, wait: bool = True
    ) -> MainWindow:
        appearance.choose(Qt.ColorScheme.Light)
        window = open_window(appearance, path, Evaluator(engine))
        assert not isinstance(window, Faults)
        # A test that fails half way must not wait for an answer to the closing question.
        qtbot.addWidget(window, before_close_func=_forget_changes)
        opened.append(window)
        with qtbot.waitExposed(window):
            window.show()
        if wait:
            chart = window.page.money.chart
            qtbot.waitUntil(lambda: window.document.complete and chart.is_current)
        return window

    yield open_it
    assert freed_items() == []
    opened.clear()


def _forget_changes(window: MainWindow) -> None:
    window.document.history.set_clean()

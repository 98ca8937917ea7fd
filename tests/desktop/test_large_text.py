"""What is painted in lengths of its own has room for text at 200 % too."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtGui import QFontMetricsF
from pytestqt.qtbot import QtBot

from core.plan.model import Plan
from desktop import fonts
from desktop.find.trade import Mark, Plot, Trade
from desktop.lanes import lane_count
from desktop.panels.steps.strip import StepsStrip
from desktop.plan_files import SAMPLE, open_plan
from desktop.theme import LIGHT
from desktop.words.numbers import PlainNumbers


@pytest.fixture(autouse=True, params=[1, 2])
def scale(request: pytest.FixtureRequest) -> Iterator[None]:
    fonts.load_fonts()
    fonts.set_scale(request.param)
    yield
    fonts.set_scale(1)


@pytest.mark.parametrize("rising", [True, False])
@pytest.mark.parametrize("wide", [300, 900])
def test_labels_of_a_trade_stay_inside(qtbot: QtBot, rising: bool, wide: int) -> None:
    marks = tuple(Mark(1_000 + 90 * n, n if rising else -n, f"{1_000 + 90 * n:,}  №{n}") for n in range(4))
    plot = Plot("", PlainNumbers(), rising=rising)
    plot.ink(LIGHT)
    qtbot.addWidget(plot.widget)
    plot.widget.resize(wide, 150)
    plot.widget.show()
    plot.show_trade(Trade(marks, "", "", ((0, "0"),)), LIGHT)
    plot.widget.grab()
    inside = plot.widget.getViewBox().sceneBoundingRect().adjusted(-1, 0, 1, 0)
    for label in plot.labels:
        box = label.mapRectToScene(label.boundingRect())
        assert (box.left() >= inside.left(), box.right() <= inside.right()) == (True, True)


def test_steps_do_not_stand_on_each_other(qtbot: QtBot) -> None:
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    strip = StepsStrip(PlainNumbers())
    qtbot.addWidget(strip)
    strip.show_route(plan, None)
    lanes = max(map(lane_count, plan.routes))
    assert strip.sizeHint().height() >= lanes * 0.8 * QFontMetricsF(fonts.sans(fonts.FORM)).height()

"""What is painted in lengths of its own has room for text at 200 % too."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import pytest
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QScrollArea
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan
from desktop import fonts
from desktop.assumptions.page import AssumptionsPage
from desktop.assumptions.sections import SECTIONS
from desktop.carrying.rows import ChoiceRow, Shown
from desktop.editor.head import Head
from desktop.find.trade import Mark, Plot, Trade
from desktop.lanes import lane_count
from desktop.panels.routes.delegate import pill_height
from desktop.panels.routes.header import head_height
from desktop.panels.steps.strip import StepsStrip
from desktop.plan_files import SAMPLE, open_plan
from desktop.theme import LIGHT
from desktop.why.headline import Headline
from desktop.widgets.labels import PlainLabel
from desktop.widgets.runs_text import RunsText
from desktop.words.numbers import PlainNumbers
from desktop.words.runs import Run


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


def test_heads_and_the_word_for_the_cheapest_have_room() -> None:
    high = QFontMetricsF(fonts.sans(fonts.HEAD, bold=True)).height()
    assert head_height() > high
    assert pill_height() > high


def test_the_axis_of_a_trade_has_room(qtbot: QtBot) -> None:
    plot = Plot("", PlainNumbers(), rising=True)
    qtbot.addWidget(plot.widget)
    plot.widget.show()
    plot.widget.grab()
    assert plot.widget.getAxis("bottom").height() > QFontMetricsF(fonts.sans(fonts.NOTE)).height()


def test_names_of_genes_are_whole(qtbot: QtBot) -> None:
    row = ChoiceRow()
    qtbot.addWidget(row)
    row.show_row(Shown("Anerythristic", "recessive", ("normal", "het", "visual"), 0))
    row.show()
    (name,) = (label for label in row.findChildren(PlainLabel) if label.text() == "Anerythristic")
    for wide in (240, 700):
        row.resize(wide, row.heightForWidth(wide))
        assert name.width() >= QFontMetricsF(name.font()).horizontalAdvance(name.text())


def test_no_line_of_a_headline_begins_with_a_stop(qtbot: QtBot) -> None:
    head = Headline("Season")
    qtbot.addWidget(head)
    head.say("Textbook odds say more than 99 in 100", "by season", ". Real odds are 62 in 100.")
    wide = head.mark.sizeHint().width() + sum(
        one.sizeHint().width() + 8 for one in (head.before, head.link, head.choice)
    )
    head.resize(wide + 20, 400)
    head.show()
    assert head.mark.geometry().center().y() == pytest.approx(head.choice.geometry().center().y(), abs=2)
    assert head.after.y() > head.choice.y()
    assert head.text().endswith("by season –. Real odds are 62 in 100.")


def test_small_sums_have_ticks_of_their_own(qtbot: QtBot) -> None:
    plot = Plot("", PlainNumbers(), rising=True)
    plot.ink(LIGHT)
    qtbot.addWidget(plot.widget)
    plot.show_trade(Trade((Mark(1.95, 1, "a"), Mark(2.5, 2, "b")), "", "", ((0, "0"),)), LIGHT)
    low, high = plot.widget.getViewBox().viewRange()[0]
    assert 1 < low < 1.95
    assert 2.5 < high < 3
    assert [text for _, text in plot.ticks] == ["2", "2.20", "2.40", "2.60"]


def test_names_of_assumptions_are_whole(start: Open) -> None:
    window = start()
    window.show_assumptions()
    page = window.views.page()
    assert isinstance(page, AssumptionsPage)
    widest = max(QFontMetricsF(page.sections.font()).horizontalAdvance(section.title) for section in SECTIONS)
    assert page.sections.width() >= widest + 20


def test_a_long_name_of_a_route_gives_way_to_what_stands_beside_it(qtbot: QtBot) -> None:
    head = Head()
    qtbot.addWidget(head)
    head.name.hold("Flint and a bought lavender, daughters back to him in the fourth year")
    head.show()
    for wide in (1232, 1000):
        head.resize(max(wide, head.minimumSizeHint().width()), head.sizeHint().height())
        for one in (head.name, head.why, head.undo, head.done):
            assert head.rect().contains(one.geometry())
        assert not head.name.geometry().intersects(head.why.geometry())
    assert head.minimumSizeHint().width() <= 1232


def test_a_percent_sign_stays_with_its_number(qtbot: QtBot) -> None:
    font = fonts.serif(fonts.SENTENCE)
    text = RunsText(font, font)
    qtbot.addWidget(text)
    wide = QFontMetricsF(font).horizontalAdvance
    room = wide("aaaa 80") + 2
    assert wide("% bbb") < room < wide("80 % bbb")
    text.set_runs((Run("aaaa 80 % bbb"),))
    line = text.heightForWidth(10_000)
    assert text.heightForWidth(int(room)) > 2.5 * line
    assert text.text() == "aaaa 80 % bbb"


LONG = "Highway het ghost male to yellow-bellied het ghost females in the hope of highways that are ghosts"


def test_long_names_widen_no_window(start: Open, qtbot: QtBot) -> None:
    window = start()
    route = window.document.plan.routes[0]
    named = (msgspec.structs.replace(route, name=LONG), *window.document.plan.routes[1:])
    notes = "Seen at the northern fair, with papers. " * 20
    window.document.edit(msgspec.structs.replace(window.document.plan, routes=named, notes=notes), "rename")
    window.document.select(window.document.found[0])
    window.resize(1280, 800)
    for opens in (window.show_why, window.edit_route, window.show_worth, window.show_season, window.find_routes):
        opens()
        page = window.views.page()
        assert page is not None
        assert page.minimumSizeHint().width() <= 1280, type(page).__name__
        inside = [area.widget() for area in page.findChildren(QScrollArea)]
        # Some of it is laid out a moment later.
        qtbot.waitUntil(lambda inside=inside: all(one.minimumSizeHint().width() <= 1280 for one in inside))
        window.views.close_page()

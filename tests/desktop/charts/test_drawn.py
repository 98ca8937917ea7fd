"""What is drawn: which routes, how strongly, with which words under it, and no words over each other."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from itertools import combinations

import msgspec
import numpy as np
import pytest
from gallery_charts import NAMES, answers
from msgspec.structs import replace
from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan, Route
from core.routes.result import PLAYS_A_RUN
from desktop.at_chance import at_chance, reach
from desktop.evaluation import Engine, RouteAnswer, answer_route, core_engine
from desktop.findings import Finding, findings, verdict
from desktop.panels.charts import axes, end_labels, labels
from desktop.panels.charts.cheapest_here import segments
from desktop.panels.charts.frame import Frame
from desktop.panels.charts.image import chart_image
from desktop.panels.charts.pictures import Draw, eggs_picture, money_picture, season_picture
from desktop.panels.charts.showing import MOST_DRAWN, Showing
from desktop.panels.charts.viewport import Sight
from desktop.plan_files import SAMPLE, open_plan
from desktop.theme import DARK
from desktop.words.numbers import PlainNumbers

DRAWS = (money_picture, eggs_picture, season_picture)


def sample(routes: int = 7, names: tuple[str, ...] = ()) -> Plan:
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    chosen = [msgspec.structs.replace(plan.routes[i % 7], id=f"r{i}") for i in range(routes)]
    named = [
        msgspec.structs.replace(route, name=names[i % len(names)] if names else route.name)
        for i, route in enumerate(chosen)
    ]
    return msgspec.structs.replace(plan, routes=tuple(named))


def showing(plan: Plan, runs: int | None = None, **changes: object) -> Showing:
    found = findings(plan, {one.id: one for one in answers(plan, runs)})
    shown = Showing(plan, found, 0.8, PlainNumbers(), verdict(found, complete=True).winner)
    return replace(shown, **changes)  # type: ignore[arg-type]


def test_at_most_eight_and_the_selected_are_drawn() -> None:
    shown = showing(sample(12))
    assert len(shown.drawn()) == MOST_DRAWN
    assert money_picture(shown).notes[0].startswith("Not drawn: ")
    last = shown.left_out()[-1].id
    assert len(replace(shown, selected=last).drawn()) == MOST_DRAWN + 1


def test_noise_is_in_words_and_in_every_chart() -> None:
    shown = showing(sample(), runs=400 // PLAYS_A_RUN)
    for draw in DRAWS:
        picture = draw(shown)
        assert "Simulated, ± 5.0 at most" in picture.notes[-1]
        assert all(one.noise is not None for one in picture.series)
    y = money_picture(shown).series[0]
    assert y.noise == pytest.approx(2 * np.sqrt(y.y * (1 - y.y) / 400))


def test_a_route_without_any_chance_takes_no_place() -> None:
    shown = showing(sample(2))
    with_it = replace(shown, found=(*shown.found, _hopeless(shown.found[0])))
    for draw in (money_picture, eggs_picture):
        assert (draw(with_it).low, draw(with_it).high) == (draw(shown).low, draw(shown).high)
    assert money_picture(with_it).segments == money_picture(shown).segments
    alone = replace(shown, found=(_hopeless(shown.found[0]),))
    assert money_picture(alone).segments == ()
    assert eggs_picture(alone).high > 0


def test_where_the_goal_is_reached_is_in_sight_beside_a_route_that_soon_ends() -> None:
    shown = showing(sample(2))
    few = dataclasses.replace(_hopeless(shown.found[0]).result, chance_by_eggs=np.array([0.0, 0.01, 0.02]))
    soon = replace(_hopeless(shown.found[0]), result=few)
    high = eggs_picture(replace(shown, found=(*shown.found, soon))).high
    assert high == eggs_picture(shown).high


def test_stairs_of_the_same_sums_do_not_take_turns() -> None:
    shown = showing(sample(1))
    stairs = money_picture(shown).series[0]
    other = replace(stairs, id="other", mark=3, x=stairs.x + 0.2 * np.sin(np.arange(stairs.x.size)))
    dearer = replace(stairs, id="dearer", mark=2, x=stairs.x + 20)
    low, high = float(stairs.x[0]), float(stairs.x[-1])
    assert [one.mark for one in segments([other, stairs, dearer], low, high)] == [stairs.mark]


def test_one_number_is_said_once_and_the_unit_has_room(appearance: object) -> None:
    assert appearance
    shown = showing(sample(7))
    alike = tuple(one for one in shown.found[:3] for _ in range(3))
    picture = money_picture(replace(shown, found=alike, winner=None))
    frame = Frame(QRectF(60, 30, 700, 260), Sight(picture.low, picture.high), 950)
    said = [label.lines for label in labels.lay_out(frame, picture)]
    assert len(said) == len(set(said))
    huge = replace(picture, series=(), low=0.0, high=2e9, grid=1.0)
    frame = Frame(QRectF(60, 30, 330, 260), Sight(huge.low, huge.high), 580)
    written = axes.round_numbers(frame, huge, PlainNumbers())
    assert [text for _, text in written] == ["0", "500,000,000", "1,000,000,000", "1,500,000,000"]
    assert all(box.right < axes.unit_from(frame) for box, _ in written)


@pytest.mark.parametrize("seasons", [4, 12, 30, 60])
def test_numbers_of_many_seasons_do_not_run_into_each_other(appearance: object, seasons: int) -> None:
    assert appearance
    marked = tuple(float(one) for one in range(1, seasons + 1))
    picture = replace(season_picture(showing(sample(1))), marked=marked, low=0.7, high=seasons + 0.3)
    frame = Frame(QRectF(60, 30, 330, 260), Sight(picture.low, picture.high), 580)
    written = axes.round_numbers(frame, picture, PlainNumbers())
    assert len(written) == seasons if seasons < 12 else len(written) >= 4
    assert not any(one.touches(other, 3) for (one, _), (other, _) in combinations(written, 2))


def _hopeless(one: Finding) -> Finding:
    """The same route beside it, with nothing that can come of it."""
    assert one.result is not None
    money = dataclasses.replace(one.result.chance_by_money, chance=np.zeros_like(one.result.chance_by_money.chance))
    nothing = dataclasses.replace(
        one.result, id="never", chance_by_eggs=np.zeros_like(one.result.chance_by_eggs), chance_by_money=money
    )
    return replace(one, route=msgspec.structs.replace(one.route, id="never"), result=nothing, to_goal=None)


def test_outdated_curves_are_marked() -> None:
    picture = money_picture(showing(sample(), stale=frozenset({"r0"})))
    assert [one.id for one in picture.series if one.is_stale] == ["r0"]
    assert picture.notes[0] == "Grey until worked out anew: Double hets, bred together."


def test_at_the_plans_own_chance_nothing_moves() -> None:
    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    engine = core_engine()
    for route in plan.routes[:2]:
        *_, answer = answer_route_steps(plan, route, engine)
        result = answer.cheapest
        assert result.to_goal is not None
        assert reach(result, 0.8, result.to_goal.count) == result.to_goal


def answer_route_steps(plan: Plan, route: Route, engine: Engine) -> Iterator[RouteAnswer]:
    yield (yield from answer_route(plan, route, engine))  # type: ignore[misc]


@pytest.mark.parametrize("draw", DRAWS)
@pytest.mark.parametrize("size", [(330, 110), (330, 300), (700, 260)])
@pytest.mark.parametrize("chance", [0.3, 0.55, 0.8, 0.92])
def test_words_never_overlap_nor_leave(appearance: object, draw: Draw, size: tuple[int, int], chance: float) -> None:
    assert appearance
    for routes, names in ((7, ()), (12, ()), (8, NAMES)):
        shown = showing(sample(routes, names))
        picture = draw(replace(shown, found=at_chance(shown.found, chance), chance=chance, selected="r0"))
        frame = Frame(QRectF(60, 30, *size), Sight(picture.low, picture.high), size[0] + 250)
        boxes = [label.box for label in labels.lay_out(frame, picture)]
        ends = [end.box for end in end_labels.lay_out(frame, picture)]
        for one, other in combinations(boxes, 2):
            assert not one.intersects(other)
        for one, other in combinations(ends, 2):
            assert not one.adjusted(0, 0.2, 0, -0.2).intersects(other)
        inside = frame.area.adjusted(0, -9, 0, 0)
        assert all(inside.contains(box) for box in boxes)
        assert all(box.right() <= frame.width for box in ends)


def test_a_picture_is_sharp_and_in_its_colours(start: Open) -> None:
    window = start()
    picture = window.page.money.chart.canvas.picture
    assert picture is not None
    image = chart_image(picture, PlainNumbers(), DARK, QSize(500, 240), 2.0)
    assert (image.width(), image.height(), image.devicePixelRatio()) == (1000, 480, 2.0)
    assert image.pixelColor(3, 3) == QColor(DARK.page)
    colours = {image.pixel(x, y) for x in range(0, 1000, 3) for y in range(0, 480, 3)}
    assert len(colours) > 20


def test_three_charts_where_there_is_room(start: Open, qtbot: QtBot) -> None:
    window = start()
    evidence = window.page.evidence
    assert not evidence.seasons.isVisible()
    window.resize(1920, 1080)
    qtbot.waitUntil(evidence.seasons.isVisible)
    assert evidence.seasons.chart.isVisible()
    assert not window.page.eggs.tabs.isVisible()
    window.resize(1280, 800)
    qtbot.waitUntil(window.page.eggs.tabs.isVisible)
    assert window.page.eggs.chart.isVisible()
    assert window.page.eggs.chart.name == "Chance by eggs"

"""The counter view: journeys by taps alone, and what every one of its states keeps to."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import gallery_counter
import msgspec
import pytest
import window_double as double
from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.appearance import Appearance
from desktop.counter.taps import RowTap, height_of
from desktop.counter.type import type_for
from desktop.counter.window import CounterView
from desktop.document import Document
from desktop.evaluator import Evaluator
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, TABLE
from desktop.words import counter as words

LEAST_TARGET, LEAST_FONT = 56, 16
SIZE = QSize(1280, 800)


def tap(widget: QWidget) -> None:
    """With the mouse, as a thumb is for Qt."""
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton)


@pytest.fixture
def view(qtbot: QtBot, appearance: Appearance) -> Iterator[CounterView]:
    appearance.choose(Qt.ColorScheme.Light)
    made = opened(load_plan(TABLE))
    qtbot.addWidget(made)
    yield made
    made.close()


def opened(plan: Plan) -> CounterView:
    made = CounterView(Document(plan), Evaluator(double.engine), LocaleNumbers(), 2031, SIZE)
    made.resize(SIZE)
    made.show()
    return made


def taps_of(top: QWidget) -> list[QAbstractButton]:
    return [one for one in top.findChildren(QAbstractButton) if one.isVisibleTo(top)]


@pytest.mark.parametrize("size", [QSize(1280, 800), QSize(1920, 1080)], ids=["small", "large"])
def test_every_target_and_every_letter_is_large_in_every_state(
    qapp: QApplication, appearance: Appearance, size: QSize
) -> None:
    small: set[str] = set()
    for screen, _ in gallery_counter.screens(qapp, appearance, size):
        top = next(one for one in qapp.topLevelWidgets() if isinstance(one, CounterView) and one.isVisible())
        for one in taps_of(top):
            if one.height() < LEAST_TARGET or one.width() < LEAST_TARGET:
                small.add(f"{screen}: {one.text()} is {one.width()} × {one.height()}")
        for text in (*taps_of(top), *top.findChildren(QLabel)):
            if text.font().pixelSize() < LEAST_FONT:
                small.add(f"{screen}: {text.text()} is {text.font().pixelSize()} px")
        assert top.findChildren(QLineEdit) == []
    assert small == set()
    type_ = type_for(size)
    faces = (type_.title, type_.name, type_.strong, type_.text, type_.note, type_.figure, type_.number)
    assert min(face.pixelSize() for face in faces) >= LEAST_FONT


def test_thirty_animals_stand_on_two_screens(view: CounterView) -> None:
    area = view.table.area
    assert len(view.table.lots) == 30
    assert area.widget().height() <= 2 * area.viewport().height()


def test_from_the_start_to_a_saved_card_in_five_taps(
    start: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("desktop.counter.card_page.card_folder", lambda: tmp_path)
    window = start(SAMPLE)
    window.menus.counter.trigger()  # 1
    view = window.findChild(CounterView)
    assert isinstance(view, CounterView)
    assert view.isFullScreen()
    male, female = (view.stall.plan.for_sale[place].id for place in (0, 1))
    assert view.table.title.text() == "Pick a male and a female"
    tap(view.table.lots[male].row)  # 2
    assert view.table.title.text() == "Now pick a female"
    tap(view.table.lots[female].row)  # 3
    assert view.pages.currentWidget() is view.pair
    tap(view.pair.card)  # 4
    tap(view.card.pdf)  # 5
    kept = list(tmp_path.glob("*.pdf"))
    assert len(kept) == 1
    assert kept[0].read_bytes().startswith(b"%PDF")
    assert str(kept[0]) in view.card.told.text()
    QTest.keyClick(view, Qt.Key.Key_Escape)
    assert not view.isVisible()


def test_a_picture_is_kept_beside_the_one_before(
    view: CounterView, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("desktop.counter.card_page.card_folder", lambda: tmp_path / "cards")
    for id_ in ("m8", "f19"):
        tap(view.table.lots[id_].row)
    tap(view.pair.card)
    tap(view.card.picture)
    tap(view.card.picture)
    names = sorted(path.name for path in (tmp_path / "cards").iterdir())
    first = "odds-card-lavender-het-amel-male-double-het-amel-lavender-female"
    assert names == [f"{first}-2.png", f"{first}.png"]
    picture = QImage(str(tmp_path / "cards" / names[0]))
    assert picture.width() == round(105 * 300 / 25.4)


def test_what_cannot_be_saved_is_said(view: CounterView, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way")
    monkeypatch.setattr("desktop.counter.card_page.card_folder", lambda: blocked)
    for id_ in ("m8", "f19"):
        tap(view.table.lots[id_].row)
    tap(view.pair.card)
    tap(view.card.pdf)
    assert "could not be saved" in view.card.told.text()


def test_sold_is_one_less_and_can_be_put_back(view: CounterView) -> None:
    lot = view.table.lots["m1"]
    before = view.stall.plan
    assert not view.table.put_back.isVisible()
    tap(lot.sell)
    assert "1 left" in lot.row.accessibleName()
    assert view.stall.document.history.undo_what == "the sale of one amel male"
    tap(lot.sell)
    assert "sold out" in lot.row.accessibleName()
    assert not lot.sell.isEnabled()
    tap(view.table.put_back)
    tap(view.table.put_back)
    assert view.stall.plan == before
    assert not view.table.put_back.isVisible()


def test_a_sale_is_a_step_of_the_plan_in_the_window(start: Open) -> None:
    window = start(SAMPLE)
    view = window.show_counter()
    first = window.document.plan.for_sale[0]
    tap(view.table.lots[first.id].sell)
    view.close()
    assert window.document.plan.for_sale[0].quantity == first.quantity - 1
    assert window.document.has_unsaved_changes
    window.menus.undo.trigger()
    assert window.document.plan.for_sale[0] == first


@pytest.mark.parametrize("by", ["a tap", "Escape"])
def test_the_question_what_should_hatch_can_be_left_without_a_choice(view: CounterView, by: str) -> None:
    tap(view.table.home)
    tap(view.home.best)
    before = view.best.goal.text()
    tap(view.best.goal)
    assert view.pages.currentWidget() is view.goal
    if by == "a tap":
        tap(view.goal.back)
    else:
        QTest.keyClick(QApplication.focusWidget() or view.goal, Qt.Key.Key_Escape)
    assert view.isVisible()
    assert view.pages.currentWidget() is view.best
    assert view.best.goal.text() == before
    # Elsewhere it leaves.
    QTest.keyClick(view, Qt.Key.Key_Escape)
    assert not view.isVisible()


def test_a_tapped_look_is_the_goal(view: CounterView) -> None:
    for id_ in ("m4", "f19"):
        tap(view.table.lots[id_].row)
    pair = view.pair
    assert [look.text() for look in pair.looks] == ["Normal", "Lavender", "Amel", "Opal"]
    assert pair.goal.text() == "At least one opal"
    before = pair.chances[0].number.text()
    tap(pair.looks[1])
    assert pair.goal.text() == "At least one lavender"
    assert pair.looks[1].isChecked()
    assert not pair.looks[3].isChecked()
    assert int(pair.chances[0].number.text()) > int(before)


def test_one_at_home_is_said_by_taps_and_the_table_ranked_for_it(view: CounterView) -> None:
    tap(view.table.home)
    buttons = {one.accessibleName(): one for one in view.home.findChildren(QAbstractButton)}
    tap(buttons["Lavender: het"])
    tap(buttons["Amelanistic: 66 % het"])
    assert view.stall.at_home is not None
    assert view.stall.at_home.carries == {"amel": {"a/+": "2/3", "+/+": "1/3"}, "lav": "l/+"}
    tap(view.home.best)
    best = [row for row in view.best.ranked if row.isVisible()]
    assert best[0].text() == "Opal"
    assert len(best) == 12
    tap(view.best.goal)
    tap(next(row for row in view.goal.rows if row.text() == "Lavender"))
    assert "lavender" in view.best.goal.text()
    tap(view.best.ranked[0])
    assert view.pages.currentWidget() is view.pair
    assert "at home" in view.pair.fields["female"].accessibleName()
    assert not view.pair.sum.isVisible()
    tap(view.pair.best)
    assert view.pages.currentWidget() is view.best
    tap(view.best.start)
    assert view.stall.at_home is None
    assert view.pages.currentWidget() is view.table


def test_one_at_home_of_the_other_sex(view: CounterView) -> None:
    tap(view.table.home)
    male = next(one for one in view.home.findChildren(QAbstractButton) if one.text() == words.MALE)
    tap(male)
    assert view.home.best.text() == "Best for this male"
    tap(view.home.table)
    shown = [id_ for id_, lot in view.table.lots.items() if lot.isVisible()]
    assert shown
    assert all(id_.startswith("f") for id_ in shown)
    tap(view.table.lots[shown[0]].row)
    assert view.pages.currentWidget() is view.pair


def test_another_partner(view: CounterView) -> None:
    for id_ in ("m4", "f19"):
        tap(view.table.lots[id_].row)
    tap(view.pair.fields["male"])
    assert view.pages.currentWidget() is view.table
    assert view.table.lots["f19"].row.isChecked()
    tap(view.table.lots["m12"].row)
    assert view.pair.fields["male"].text() == "Opal"


def test_without_anything_for_sale_it_stands_on_a_table_of_its_own(qtbot: QtBot, appearance: Appearance) -> None:
    _ = appearance
    view = opened(msgspec.structs.replace(load_plan(SAMPLE), for_sale=()))
    qtbot.addWidget(view)
    assert "invented" in view.table.remark.text()
    assert len(view.table.lots) == 30
    tap(view.table.lots["m1"].sell)
    assert view.stall.document.plan.for_sale[0].quantity == 1


def test_what_is_private_never_shows(qtbot: QtBot, appearance: Appearance) -> None:
    _ = appearance
    plan = load_plan(SAMPLE.parent / "boa-my-animals.plan.json")
    secret = "Between ourselves"
    view = opened(msgspec.structs.replace(plan, notes=secret, title=secret))
    qtbot.addWidget(view)
    males, females = ([one.id for one in plan.for_sale if one.sex == sex] for sex in ("male", "female"))
    for id_ in (males[0], females[0]):
        tap(view.table.lots[id_].row)
    tap(view.pair.card)
    said = " ".join(
        [
            *(one.text() for one in view.findChildren(QLabel)),
            *(one.accessibleName() for one in view.findChildren(QWidget)),
        ]
    )
    assert secret not in said
    assert not any(animal.name and animal.name in said for animal in plan.my_animals)


def test_markup_and_long_names_stand_as_typed(qtbot: QtBot, appearance: Appearance) -> None:
    _ = appearance
    plan = load_plan(TABLE)
    name = "<img src=x> =1+1 " + "long" * 20
    hostile = msgspec.structs.replace(plan.for_sale[0], label=name)
    view = opened(msgspec.structs.replace(plan, for_sale=(hostile, *plan.for_sale[1:])))
    qtbot.addWidget(view)
    row = view.table.lots["m1"].row
    assert isinstance(row, RowTap)
    assert name in row.accessibleName()


def test_by_keys_alone(view: CounterView) -> None:
    view.table.lots["m8"].row.setFocus()
    QTest.keyClick(view.table.lots["m8"].row, Qt.Key.Key_Return)
    QTest.keyClick(view.table.lots["f19"].row, Qt.Key.Key_Space)
    assert view.pages.currentWidget() is view.pair
    QTest.keyClick(view.pair.card, Qt.Key.Key_Return)
    assert view.card.sheet.card is not None
    assert "Lavender het amel male" in view.card.sheet.accessibleName()


def test_lines_break_between_words_where_every_word_has_room(appearance: Appearance) -> None:
    assert appearance
    face = type_for(SIZE).text
    for text in ("Motley double het amel hypo (amel + hypo apart)", "65 % het amel, 65 % het hypo and more of it"):
        wide = QFontMetrics(face).horizontalAdvance(text)
        # As high as Qt's own lines between words, at every width that has room for each word.
        for width in range(wide // 3, wide, 7):
            box = QRect(0, 0, width, 10_000)
            between = QFontMetrics(face).boundingRect(box, Qt.TextFlag.TextWordWrap, text).height()
            assert height_of(face, text, width) == between
    long = "Jungletigerpastelhighwayfirefly" * 3
    assert height_of(face, long, 200) > 2 * QFontMetrics(face).height()

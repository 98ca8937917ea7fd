"""A list of thirty lines, three of them unclear, becomes what is for sale."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.plan.read import load_plan
from desktop.document import Document
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE

LINES = ["0.1 amel het lav 230", "1.0 opal 700"] * 14 + ["0.1 amel ph lav 150", "1.2 double het 500"]


def test_thirty_lines_are_added_in_one_step(qtbot: QtBot) -> None:
    document = Document(load_plan(SAMPLE))
    before = document.plan
    window = PasteWindow(document, "for sale")
    qtbot.addWidget(window)
    window.text.setPlainText("\n".join(LINES))
    assert window.summary.text() == "28 lines are clear, 2 still to settle."
    assert window.question.text() == "Line 29, “ph”: how likely it is het is not said."
    assert not window.use.isEnabled()
    window.choices.setCurrentIndex(0)
    qtbot.mouseClick(window.use, Qt.MouseButton.LeftButton)
    window.choices.setCurrentIndex(0)
    qtbot.mouseClick(window.use, Qt.MouseButton.LeftButton)
    assert window.question.text() == "Every line is clear."
    assert window.add.text() == "Add 30 to what is for sale"
    qtbot.mouseClick(window.add, Qt.MouseButton.LeftButton)
    assert len(document.plan.for_sale) == len(before.for_sale) + 30
    document.undo()
    assert document.plan == before


def test_the_unclear_stays_in_the_list(qtbot: QtBot) -> None:
    document = Document(load_plan(SAMPLE))
    window = PasteWindow(document, "mine")
    qtbot.addWidget(window)
    window.text.setPlainText("0.2 amel\n0.1 what")
    qtbot.mouseClick(window.add, Qt.MouseButton.LeftButton)
    assert [animal.sex for animal in document.plan.my_animals] == ["female", "female"]
    assert window.text.toPlainText() == "0.1 what"


def test_unclear_words_are_underlined_where_they_stand(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "mine")
    qtbot.addWidget(window)
    window.text.setPlainText("0.1 amel\n\n  \U0001f40d\U0001f40d 0.1 amel what")
    underlined = [stretch.cursor.selectedText() for stretch in window.text.extraSelections()]
    assert underlined == ["\U0001f40d\U0001f40d", "what"]

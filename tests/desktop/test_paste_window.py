"""A list of thirty lines, three of them unclear, becomes what is for sale."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QMimeData, Qt, QUrl
from pytestqt.qtbot import QtBot

from core.paste.parts import MOST_LINES
from core.plan.read import load_plan
from desktop.document import Document
from desktop.locale_numbers import LocaleNumbers
from desktop.paste.window import PasteWindow
from desktop.plan_files import SAMPLE

LINES = ["0.1 amel het lav 230", "1.0 opal 700"] * 14 + ["0.1 amel ph lav 150", "1.2 double het 500"]


def enter(qtbot: QtBot, window: PasteWindow, text: str) -> None:
    window.text.setPlainText(text)
    read(qtbot, window)


def read(qtbot: QtBot, window: PasteWindow) -> None:
    """Waits until all is read: on a busy machine even a short list takes more than one slice."""
    qtbot.waitUntil(lambda: not window.summary.text().startswith("Reading: "), timeout=20_000)


def test_thirty_lines_are_added_in_one_step(qtbot: QtBot) -> None:
    document = Document(load_plan(SAMPLE))
    before = document.plan
    window = PasteWindow(document, "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "\n".join(LINES))
    assert window.summary.text() == "28 lines are clear, 2 still to settle."
    assert window.asking.question.text() == "Line 29, “ph”: how likely it is het is not said."
    window.asking.choices[0].click()
    read(qtbot, window)
    window.asking.choices[0].click()
    read(qtbot, window)
    assert window.asking.question.text() == "Every line is clear."
    assert window.asking.choices == []
    assert window.add.text() == "Add 30 to what is for sale"
    qtbot.mouseClick(window.add, Qt.MouseButton.LeftButton)
    assert len(document.plan.for_sale) == len(before.for_sale) + 30
    document.undo()
    assert document.plan == before


def test_the_unclear_stays_in_the_list(qtbot: QtBot) -> None:
    document = Document(load_plan(SAMPLE))
    window = PasteWindow(document, "mine", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "0.2 amel\n0.1 what")
    qtbot.mouseClick(window.add, Qt.MouseButton.LeftButton)
    assert [animal.sex for animal in document.plan.my_animals] == ["female", "female"]
    assert window.text.toPlainText() == "0.1 what"


def test_unclear_words_are_underlined_where_they_stand(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "mine", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "0.1 amel\n\n  \U0001f40d\U0001f40d 0.1 amel what")
    underlined = [stretch.cursor.selectedText() for stretch in window.text.extraSelections()]
    assert underlined == ["\U0001f40d\U0001f40d", "what"]


def test_the_same_unclear_word_is_settled_in_all_its_lines(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "0.1 amel ph lav 150\n1.0 amel 90\n1.0 ph lav 70")
    assert window.asking.question.text().startswith("Lines 1 and 3, “ph”")
    window.asking.choices[0].click()
    read(qtbot, window)
    assert window.summary.text() == "3 lines are clear, 0 still to settle."
    window.text.undo()
    assert "0.1 amel ph lav 150" in window.text.toPlainText()


def test_a_row_that_is_chosen_is_asked_about(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "0.1 amel ph lav 150\n1.0 amel 90\n0.1 double het")
    window.table.selectRow(2)
    assert window.asking.question.text().startswith("Line 3")
    assert window.asking.question.text().endswith("Write it more clearly in the list above.")


def test_a_long_list_is_read_in_slices(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    window.text.setPlainText("\n".join(f"0.1 amel 66% het lav {number}" for number in range(MOST_LINES + 5)))
    assert window.summary.text().startswith("Reading: ")
    assert not window.add.isEnabled()
    read(qtbot, window)
    assert window.summary.text() == "1000 lines are clear, 0 still to settle. 5 more were not read."
    assert window.rows.rowCount() == MOST_LINES


def test_a_file_is_dropped_on_the_list(qtbot: QtBot, tmp_path: Path) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    for name, data in (("list.csv", b"sex,genes,price\r\nfemale,amel,90\r\n"), ("picture.png", b"\x89PNG\0\0")):
        (tmp_path / name).write_bytes(data)
        mime = QMimeData()
        mime.setUrls([QUrl.fromLocalFile(str(tmp_path / name))])
        assert window.text.canInsertFromMimeData(mime)
        window.text.insertFromMimeData(mime)
        read(qtbot, window)
    assert window.summary.text().startswith("picture.png is not a text or CSV file")
    assert window.add.text() == "Add 1 to what is for sale"


def test_what_a_list_is_of_can_be_changed(qtbot: QtBot) -> None:
    window = PasteWindow(Document(load_plan(SAMPLE)), "for sale", LocaleNumbers())
    qtbot.addWidget(window)
    enter(qtbot, window, "0.2 amel")
    assert not window.add.isEnabled()
    window.target.setCurrentIndex(1)
    read(qtbot, window)
    assert window.add.text() == "Add 2 to my animals"

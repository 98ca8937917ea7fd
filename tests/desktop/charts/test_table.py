"""The numbers behind a chart: the same as in it, and to be taken along."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from windows import Open

from desktop.words.charts import AS_CHART, AS_TABLE


def test_the_table_says_what_the_chart_says(start: Open) -> None:
    place = start().page.eggs
    assert place.tools.table.text() == AS_TABLE
    place.tools.table.click()
    assert place.tools.table.text() == AS_CHART
    table = place.chart.table
    model = table.model()
    row = 39
    assert model.headerData(row, Qt.Orientation.Vertical) == "39"
    said = {
        model.headerData(column, Qt.Orientation.Horizontal): model.index(row, column).data()
        for column in range(model.columnCount())
    }
    place.chart.canvas.show()
    place.tools.table.click()
    place.chart.canvas.read_at(row)
    spoken = place.chart.canvas.view.accessibleDescription()
    assert len(said) == 6
    for name, value in said.items():
        assert f"{name}: {value}" in spoken


def test_a_route_is_at_its_goal_in_the_table_too(start: Open) -> None:
    chart = start().page.money.chart
    chart.show_table(True)
    model = chart.table.model()
    heads = [model.headerData(row, Qt.Orientation.Vertical) for row in range(model.rowCount())]
    row = heads.index("1,556")
    names = [model.headerData(column, Qt.Orientation.Horizontal) for column in range(model.columnCount())]
    assert model.index(row, names.index("Lavender sire, double hets")).data() == "80 %"
    assert model.index(row, names.index("cheapest")).data() == "Lavender sire, double hets"


def test_all_or_the_chosen_cells_are_copied(start: Open) -> None:
    chart = start().page.eggs.chart
    chart.show_table(True)
    QTest.keyClick(chart.table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().split("\n")
    assert lines[0].split("\t")[:2] == ["eggs laid", "Double hets, bred together"]
    assert lines[1].split("\t")[:2] == ["0", "0 %"]
    assert len(lines) == chart.table.model().rowCount() + 1
    for row in (1, 2):
        chosen = chart.table.model().index(row, 1)
        chart.table.selectionModel().select(chosen, QItemSelectionModel.SelectionFlag.Select)
    QTest.keyClick(chart.table, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    copied = QGuiApplication.clipboard().text().split("\n")
    assert [line.count("\t") for line in copied] == [1, 1, 1]


def test_the_menu_copies_and_turns(start: Open) -> None:
    chart = start().page.money.chart
    menu = chart.menu()
    words = {action.text(): action for action in menu.actions() if action.text()}
    saving = ["Save as picture…", "Save as drawing…", "Save the numbers…"]
    turning = ["Zoom in", "Zoom out", "Whole chart", "As a table"]
    assert list(words) == ["Copy picture", "Copy table", *saving, *turning]
    words["Copy table"].trigger()
    assert QGuiApplication.clipboard().text().startswith("USD set aside\t")
    words["Copy picture"].trigger()
    image = QGuiApplication.clipboard().image()
    assert image.width() == chart.canvas.width() * 2
    words["As a table"].trigger()
    assert chart.as_table
    menu.deleteLater()

"""What leaves the program, read back by other tools: PDF, pictures, drawings, tables; and plans that mean harm."""

from __future__ import annotations

import csv
import io
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from main_run import play
from pypdf import PdfReader
from PySide6.QtCore import QLocale, QRectF
from PySide6.QtGui import QAction, QColor, QGuiApplication, QImage, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QDialog, QFileDialog, QMessageBox, QWidget
from pytestqt.qtbot import QtBot
from windows import Open

from core.counter.card import Parent, odds_card
from core.plan.limits import LONGEST_NAME
from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.cells import harmless
from desktop.exports.asking import file_name
from desktop.exports.desk import Desk
from desktop.exports.odds_card import card_sheet
from desktop.exports.paper import as_pdf, as_picture, card_paper, page_paper
from desktop.exports.tables import Table, as_csv, as_text
from desktop.files.saving import save_plan
from desktop.plan_files import SAMPLE
from desktop.window import MainWindow
from desktop.words.numbers import PlainNumbers

HOSTILE = '<b>x</b> & "q", =1+1\n\t@SUM(A1) \u202eabc ' + "W" * LONGEST_NAME


@pytest.fixture
def chosen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Path]:
    """Answers the next file dialog with a file of this name."""

    def choose(name: str) -> Path:
        path = tmp_path / name
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
        return path

    return choose


def words_of(path: Path) -> str:
    """All text of a PDF on one line."""
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(path).pages)


def written(qtbot: QtBot, path: Path) -> Path:
    qtbot.waitUntil(path.is_file, timeout=10_000)
    return path


def desk_of(window: MainWindow) -> Desk:
    return window._leaving._desk


def test_one_page_as_pdf(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, chosen: Callable[[str], Path]) -> None:
    path = chosen("page.pdf")

    def journey(window: MainWindow) -> None:
        qtbot.waitUntil(lambda: window.document.complete, timeout=30_000)
        window.menus.export_pdf.trigger()
        written(qtbot, path)
        text = words_of(path)
        # The same words and figures as on screen.
        assert window.page.answer.head.text() in text
        rows = window.page.routes.rows
        for row in range(rows.rowCount()):
            for place in (2, 3, 4, 5):
                assert str(rows.index(row, place).data()) in text
        # Grey ink tells no colours: what is over the budget is said.
        assert "over budget 1,900" in text
        assert "Odds, not promises." in text
        assert "ask your authority" in text

    play(monkeypatch, journey)
    (page,) = PdfReader(path).pages
    # Lines and letters, with every font in the file.
    assert not page["/Resources"].get("/XObject")  # type: ignore[union-attr]
    fonts = page["/Resources"]["/Font"]  # type: ignore[index]
    for font in fonts.values():
        (inner,) = font.get_object()["/DescendantFonts"]
        assert "/FontFile2" in inner.get_object()["/FontDescriptor"]
    millimetres = [round(float(side) / 72 * 25.4) for side in page.mediabox[2:]]
    assert millimetres == [round(side) for side in page_paper().size(QPageSize.Unit.Millimeter).toTuple()]


def test_the_paper_is_the_locales() -> None:
    american, german = QLocale("en_US"), QLocale("de_DE")
    assert page_paper(american).id() == QPageSize.PageSizeId.Letter
    assert page_paper(german).id() == QPageSize.PageSizeId.A4
    assert card_paper(german).id() == QPageSize.PageSizeId.A6
    assert card_paper(american).size(QPageSize.Unit.Inch).toTuple() == (4.25, 5.5)


def test_page_and_charts_as_pictures_are_light(start: Open, qtbot: QtBot, chosen: Callable[[str], Path]) -> None:
    window = start()
    window.menus.schemes.actions()[2].trigger()
    path = chosen("page.png")
    window.menus.export_png.trigger()
    page = QImage(str(written(qtbot, path)))
    assert page.width() > 2400
    assert page.pixelColor(5, 5) == QColor("white")
    chart = chosen("chart.png")
    action(window, "Save as picture…").trigger()
    assert QImage(str(written(qtbot, chart))).width() == 2700


def test_a_chart_as_drawing_and_as_numbers(start: Open, qtbot: QtBot, chosen: Callable[[str], Path]) -> None:
    window = start()
    drawing = chosen("chart.svg")
    action(window, "Save as drawing…").trigger()
    tree = ElementTree.parse(written(qtbot, drawing)).getroot()
    kinds = {one.tag.rpartition("}")[2] for one in tree.iter()}
    assert {"path", "polyline", "title", "desc"} <= kinds
    # Letters are outlines, so that no font is missing anywhere.
    assert "text" not in kinds
    picture = QImage(900, 420, QImage.Format.Format_RGB32)
    picture.fill(QColor("white"))
    painter = QPainter(picture)
    QSvgRenderer(str(drawing)).render(painter, QRectF(0, 0, 900, 420))
    painter.end()
    assert len({picture.pixel(x, y) for x in range(0, 900, 7) for y in range(0, 420, 7)}) > 12
    numbers = chosen("chart.csv")
    action(window, "Save the numbers…").trigger()
    heads, *rows = read_csv(written(qtbot, numbers))
    assert heads[1:-1] == [one.name for one in window.page.money.chart.picture().series]
    assert len(rows) == window.page.money.chart.picture().stops.size


def test_the_table_of_routes_reads_as_on_screen(start: Open, qtbot: QtBot, chosen: Callable[[str], Path]) -> None:
    window = start()
    path = chosen("routes.csv")
    window.menus.export_routes.trigger()
    heads, *rows = read_csv(written(qtbot, path))
    model = window.page.routes.rows
    assert [row[0] for row in rows] == [model.index(row, 0).data() for row in range(model.rowCount())]
    assert heads[:4] == ["Route", "You buy", "Set aside", "Up front"]
    window.page.route_actions.copy.trigger()
    lines = QGuiApplication.clipboard().text().splitlines()
    assert [line.split("\t")[0] for line in lines[1:]] == [row[0] for row in rows]


def test_a_page_is_printed_through_the_systems_dialog(
    start: Open, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    window, out = start(), tmp_path / "printed.pdf"

    def accept(dialog: QPrintDialog) -> int:
        dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        dialog.printer().setOutputFileName(str(out))
        return QDialog.DialogCode.Accepted

    monkeypatch.setattr(QPrintDialog, "exec", accept)
    window.menus.print_page.trigger()
    assert window.page.answer.head.text() in words_of(out)


def test_a_folder_that_takes_nothing_is_said(
    start: Open, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = start()
    path = tmp_path / "missing" / "page.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    window.menus.export_pdf.trigger()
    qtbot.waitUntil(lambda: window.findChild(QMessageBox) is not None)
    box = window.findChild(QMessageBox)
    assert box is not None
    assert box.text().startswith("page.pdf was not written: ")
    box.close()


def hostile_plan(tmp_path: Path) -> Path:
    """A plan in which every name means harm, with as many routes as fill two pages."""
    plan = load_plan(SAMPLE)
    name = HOSTILE[:LONGEST_NAME]
    routes = tuple(
        msgspec.structs.replace(plan.routes[0], id=f"r{number}", name=name if number % 2 else f"={number}+1")
        for number in range(20)
    )
    species = msgspec.structs.replace(plan.species, name=name)
    path = tmp_path / "hostile.plan.json"
    changed = msgspec.structs.replace(plan, title=name, notes=name, species=species, routes=routes)
    assert save_plan(changed, path) is None
    return path


def test_a_plan_that_means_harm_is_written_as_typed(
    start: Open, qtbot: QtBot, tmp_path: Path, chosen: Callable[[str], Path]
) -> None:
    window = start(hostile_plan(tmp_path))
    desk = desk_of(window)
    table = as_csv(desk.routes()).decode("utf-8-sig")
    rows = list(csv.reader(io.StringIO(table, newline="")))
    assert len(rows) == 21
    assert all(not cell.startswith(("=", "+", "@", "\t")) for row in rows for cell in row)
    sheet = desk.sheet()
    assert len(sheet.pages) == 2
    path = tmp_path / "hostile.pdf"
    path.write_bytes(as_pdf(sheet))
    assert "<b>x</b>" in words_of(path)
    # Nothing runs off the page.
    for page in range(2):
        picture = as_picture(sheet, page, 60)
        edge = {picture.pixel(picture.width() - 2, y) for y in range(picture.height())}
        edge |= {picture.pixel(x, picture.height() - 2) for x in range(picture.width())}
        assert edge == {QColor("white").rgb()}
    drawing = chosen("chart.svg")
    action(window, "Save as drawing…").trigger()
    title = ElementTree.parse(written(qtbot, drawing)).getroot().find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text is not None
    assert "<b>x</b>" in title.text


def test_a_card_that_means_harm_stays_on_its_paper(tmp_path: Path) -> None:
    plan: Plan = load_plan(SAMPLE)
    genes = tuple(msgspec.structs.replace(gene, name=HOSTILE[:LONGEST_NAME]) for gene in plan.genes)
    species = msgspec.structs.replace(plan.species, name=HOSTILE[:LONGEST_NAME])
    plan = msgspec.structs.replace(plan, genes=genes, species=species, combinations=())
    male, female = plan.for_sale[0], plan.for_sale[1]
    card = odds_card(
        plan, Parent("male", male.carries, 1e8), Parent("female", female.carries, 1e8),
        plan.goal.want[0].forms, PlainNumbers(),
    )  # fmt: skip
    picture = as_picture(card_sheet(card), 0, 100)
    edge = {picture.pixel(picture.width() - 2, y) for y in range(picture.height())}
    edge |= {picture.pixel(x, picture.height() - 2) for x in range(picture.width())}
    assert edge == {QColor("white").rgb()}
    path = tmp_path / "card.pdf"
    path.write_bytes(as_pdf(card_sheet(card)))
    assert "Odds, not promises." in words_of(path)


def test_csv_is_as_the_standard_has_it() -> None:
    # RFC 4180: lines end in CR LF, cells with commas, quotes or line breaks are quoted, quotes doubled.
    data = as_csv(Table(("a", "b"), (("x,y", 'say "hi"'), ("two\nlines", "=1+1"), ("-5", "− 5"))))
    text = data.decode("utf-8-sig")
    assert text == 'a,b\r\n"x,y","say ""hi"""\r\n"two\nlines",\'=1+1\r\n-5,− 5\r\n'
    assert list(csv.reader(io.StringIO(text, newline="")))[1] == ["x,y", 'say "hi"']


@pytest.mark.parametrize(
    ("cell", "kept"),
    [("=1+1", "'=1+1"), ("+cmd", "'+cmd"), ("-2+3", "'-2+3"), ("@x", "'@x"), ("\tx", "'\tx"), (" =1", "' =1"),
     ("-5", "-5"), ("-5 %", "-5 %"), ("1,556", "1,556"), ("+3", "+3"), ("–", "–"), ("plain", "plain"),
     ("\n=1", "'\n=1"), ("\u200f=1", "'\u200f=1"), ("\xa0=1", "'\xa0=1"), ("＝1", "'＝1"),
     ("＠x", "'＠x"), ("− 5", "− 5")],
)  # fmt: skip
def test_cells_that_look_like_formulas(cell: str, kept: str) -> None:
    assert harmless(cell) == kept


def test_copied_cells_stay_in_their_rows() -> None:
    assert as_text(Table(("a\tb", "c"), (("x\ny", "z"),))) == "a b\tc\nx y\tz"


@pytest.mark.parametrize(
    ("title", "name"),
    [("A plan", "A plan.pdf"), ("../../etc/passwd", "etc passwd.pdf"), ('a<b>:"c"|?*', "a b c.pdf"),
     ("", "Pairwright.pdf"), ("...", "Pairwright.pdf"), ("x" * 300, "x" * 80 + ".pdf"), ("a\n\tb", "a b.pdf")],
)  # fmt: skip
def test_file_names_that_every_system_takes(title: str, name: str) -> None:
    assert file_name(title, "pdf") == name


def read_csv(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.reader(file))


def action(window: MainWindow, text: str) -> QAction:
    """An action of the money chart's menu."""
    menu: QWidget = window.page.money.chart.menu()
    return next(one for one in menu.actions() if one.text() == text)

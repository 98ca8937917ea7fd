"""The comparison, painted: one page to print or to send, further pages where there are many routes."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from desktop import fonts
from desktop.exports.column import Column, drawn
from desktop.exports.comparison import ComparisonSheet, RouteRow
from desktop.exports.paper import Sheet, page_paper
from desktop.marks import LIST_MARK_WIDTH, draw_list_mark, mark_of
from desktop.panels.charts.drawing import draw_chart
from desktop.panels.charts.series import Picture
from desktop.theme import LIGHT, colour
from desktop.words import exports as words
from desktop.words.numbers import Numbers

# Units of the page: 6 to a millimetre, whatever the paper.
_UNIT = 6.0
_MARGIN = 90.0
_FIRST_ROWS, _FURTHER_ROWS, _ROW = 12, 38, 34.0
_CHART = QSizeF(560, 340)
_LEFT, _RIGHT = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight


def comparison_pages(sheet: ComparisonSheet, numbers: Numbers) -> Sheet:
    """The sheet on the paper of the place."""
    paper = page_paper()
    first, rest = sheet.rows[:_FIRST_ROWS], sheet.rows[_FIRST_ROWS:]
    further = [rest[at : at + _FURTHER_ROWS] for at in range(0, len(rest), _FURTHER_ROWS)]
    pages = 1 + len(further)
    paints = [partial(_first, sheet, first, numbers, pages)]
    paints += [partial(_further, sheet, rows, page, pages) for page, rows in enumerate(further, 2)]
    return Sheet(sheet.title, tuple(paints), paper)


def _first(sheet: ComparisonSheet, rows: tuple[RouteRow, ...], numbers: Numbers, pages: int,
           painter: QPainter, rect: QRectF) -> None:  # fmt: skip
    with_size = _begin(painter, rect)
    column = Column(_MARGIN, with_size.width() - _MARGIN, 70)
    _head(column, sheet, 1, pages)
    column.text(sheet.goal, _sans(21), LIGHT.second, most=3, gap=10)
    column.text(sheet.head, _serif(40), most=3, gap=6)
    column.text(sheet.lead, _sans(21), most=4, gap=16)
    _table(column, sheet, rows)
    column.space(22)
    _charts(column, sheet, numbers)
    _said(column, sheet, with_size.height())
    column.paint(painter)
    painter.restore()


def _further(sheet: ComparisonSheet, rows: tuple[RouteRow, ...], page: int, pages: int,
             painter: QPainter, rect: QRectF) -> None:  # fmt: skip
    size = _begin(painter, rect)
    column = Column(_MARGIN, size.width() - _MARGIN, 70)
    _head(column, sheet, page, pages)
    _table(column, sheet, rows)
    column.space(20)
    column.text(sheet.promise, _sans(18, bold=True))
    column.paint(painter)
    painter.restore()


def _begin(painter: QPainter, rect: QRectF) -> QSizeF:
    """Sets the painter to the page's units, on white; gives the page's size in them."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillRect(rect, Qt.GlobalColor.white)
    painter.translate(rect.topLeft())
    # Every paper is as wide as A4 in these units, and as high as it is.
    scale = rect.width() / (210 * _UNIT)
    painter.scale(scale, scale)
    return QSizeF(rect.width() / scale, rect.height() / scale)


def _head(column: Column, sheet: ComparisonSheet, page: int, pages: int) -> None:
    right = ", ".join(part for part in (sheet.date, words.page_of(page, pages)) if part)
    column.row(sheet.title, right, _sans(22, bold=True), LIGHT.second, right_font=_sans(20))
    column.space(8)
    column.rule(LIGHT.accent, 4, gap=20)


def _table(column: Column, sheet: ComparisonSheet, rows: tuple[RouteRow, ...]) -> None:
    widths = _widths(column, sheet)
    _cells(column, sheet.heads, widths, _sans(17), LIGHT.second)
    column.rule(LIGHT.rule, 1.5, gap=0)
    for row in rows:
        if row.is_cheapest:
            column.add(partial(_fill, QRectF(column.left - 8, column.y + 1, column.width + 16, _ROW - 1)))
        middle = QPointF(column.left + LIST_MARK_WIDTH / 2, column.y + _ROW / 2)
        column.add(partial(_mark, row.mark, middle))
        _cells(column, row.cells, widths, _sans(19, bold=row.is_cheapest), LIGHT.text)
        column.rule(gap=0)


def _widths(column: Column, sheet: ComparisonSheet) -> list[float]:
    """As wide as what stands in them; the name gets the rest."""
    heads, body = QFontMetricsF(_sans(17)), QFontMetricsF(_sans(19, bold=True))
    widths = [
        max(heads.horizontalAdvance(head), *(body.horizontalAdvance(row.cells[place]) for row in sheet.rows)) + 20
        if sheet.rows else heads.horizontalAdvance(head) + 20
        for place, head in enumerate(sheet.heads)
    ]  # fmt: skip
    widths[0] = max(column.width - sum(widths[1:]), 160)
    return widths


def _cells(column: Column, texts: tuple[str, ...], widths: list[float], font: QFont, ink: str) -> None:
    x, metrics = column.left, QFontMetricsF(font)
    for place, (text, wide) in enumerate(zip(texts, widths, strict=True)):
        start = LIST_MARK_WIDTH + 16 if not place else 0
        shown = metrics.elidedText(" ".join(text.split()), Qt.TextElideMode.ElideRight, wide - start - 8)
        box = QRectF(x + start, column.y, wide - start, _ROW)
        column.add(drawn(box, shown, font, ink, _RIGHT if place else _LEFT))
        x += wide
    column.space(_ROW)


def _charts(column: Column, sheet: ComparisonSheet, numbers: Numbers) -> None:
    gap = 24.0
    wide = (column.width - gap) / 2
    scale = wide / _CHART.width()
    for place, (title, picture) in enumerate(((words.BY_MONEY, sheet.money), (sheet.by_eggs, sheet.eggs))):
        left = column.left + place * (wide + gap)
        column.add(drawn(QRectF(left, column.y, wide, 28), title, _sans(19, bold=True), LIGHT.text))
        column.add(partial(_chart, QPointF(left, column.y + 32), scale, picture, numbers))
    column.space(32 + _CHART.height() * scale + 8)
    column.text(" ".join(sheet.notes), _sans(15), LIGHT.notes, most=2, gap=10)


def _said(column: Column, sheet: ComparisonSheet, high: float) -> None:
    """What the figures rest on at the left, what to mind at the right; what always has to be said below."""
    gap = 40.0
    middle = (column.left + column.right) / 2
    bottom = high - 70
    foot = Column(column.left, column.right, 0)
    foot.text(sheet.promise, _serif(26, bold=True), gap=2)
    for line in sheet.always:
        foot.text(line, _sans(15), LIGHT.notes)
    room = bottom - foot.y
    for left, right, title, lines in (
        (column.left, middle - gap / 2, words.RECKONED_WITH, sheet.assumptions),
        (middle + gap / 2, column.right, words.TO_MIND, sheet.cautions),
    ):
        part = Column(left, right, column.y)
        if lines:
            part.text(title, _sans(19, bold=True), gap=4)
        for line in lines:
            before = part.y
            part.text(line, _sans(17), LIGHT.second, most=3, gap=4)
            if part.y > room:
                part.y = before
                break
        column.add(part.paint)
    column.add(partial(_below, foot, bottom - foot.y))


def _below(foot: Column, y: float, painter: QPainter) -> None:
    painter.save()
    painter.translate(0, y)
    foot.paint(painter)
    painter.restore()


def _chart(at: QPointF, scale: float, picture: Picture, numbers: Numbers, painter: QPainter) -> None:
    painter.save()
    painter.translate(at)
    painter.scale(scale, scale)
    draw_chart(painter, _CHART, picture, numbers, LIGHT)
    painter.restore()


def _mark(number: int, middle: QPointF, painter: QPainter) -> None:
    draw_list_mark(painter, mark_of(number), LIGHT, middle)


def _fill(box: QRectF, painter: QPainter) -> None:
    painter.fillRect(box, colour(LIGHT.selected))


def _sans(size: int, *, bold: bool = False) -> QFont:
    return fonts.printed(size, bold=bold)


def _serif(size: int, *, bold: bool = False) -> QFont:
    return fonts.printed(size, bold=bold, serif=True)

"""The odds card, painted: one A6 page, dark on white, to be photographed, printed or taken home."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from core.counter.card import OddsCard
from desktop import fonts
from desktop.exports.column import Column, drawn, lines_of
from desktop.exports.dots import paint_dots
from desktop.exports.paper import Sheet, card_paper
from desktop.theme import LIGHT, colour
from desktop.words import exports as words

# In the units of the card: 8 to a millimetre of A6 portrait.
WIDTH, HEIGHT = 840.0, 1184.0
_MARGIN, _TOP = 64.0, 44.0
# Dots in a row under each look.
_DOTS = 50
_INK = "#1D201A"


def paint_card(painter: QPainter, rect: QRectF, card: OddsCard) -> None:
    """Paints the card into `rect`, as large as fits."""
    column = _laid_out(card)
    foot = _foot(card)
    # A card with much on it is drawn a little smaller, rather than past its edge.
    shrink = min(1.0, HEIGHT / (column.y + foot))
    scale = min(rect.width() / WIDTH, rect.height() / HEIGHT)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(
        rect.left() + (rect.width() - WIDTH * scale) / 2, rect.top() + (rect.height() - HEIGHT * scale) / 2
    )
    painter.scale(scale, scale)
    painter.fillRect(QRectF(0, 0, WIDTH, HEIGHT), Qt.GlobalColor.white)
    painter.translate(WIDTH * (1 - shrink) / 2, 0)
    painter.scale(shrink, shrink)
    column.paint(painter)
    _paint_foot(painter, card, HEIGHT / shrink - foot)
    painter.restore()


def _laid_out(card: OddsCard) -> Column:
    column = Column(_MARGIN, WIDTH - _MARGIN, _TOP)
    _head(column, card)
    _odds(column, card)
    _looks(column, card)
    column.space(18)
    column.rule(gap=14)
    column.text(words.RECKONED, _sans(26, bold=True), gap=4)
    for line in card.reckoned:
        column.text(line, _sans(22), LIGHT.second, most=3, gap=2)
    column.space(12)
    high = 60.0
    column.add(partial(_band, QRectF(column.left, column.y, column.width, high), card.promise))
    column.space(high)
    return column


def _head(column: Column, card: OddsCard) -> None:
    column.row(
        words.CARD, f"{card.species}, {words.ONE_PAIR}", _sans(25, bold=True), LIGHT.second, right_font=_sans(25)
    )
    column.space(8)
    column.rule(LIGHT.accent, 4, gap=22)
    column.text(card.male, _serif(46, bold=True), most=2)
    column.text(f"× {card.female}", _serif(38), most=2, gap=4)
    if card.price:
        column.text(card.price, _sans(26), LIGHT.second)
    column.space(20)


def _odds(column: Column, card: OddsCard) -> None:
    number, font = str(card.dots), _serif(132)
    wide, high = QFontMetricsF(font).horizontalAdvance("100"), 140.0
    column.add(drawn(QRectF(column.left, column.y - 8, wide, high), number, font, _INK))
    left = column.left + wide + 20
    step = (column.right - left) / 20
    column.add(partial(_hundred, QPointF(left, column.y), card.dots, step))
    column.space(max(high, 5 * step) + 8)
    column.text(card.headline, _sans(28, bold=True), most=2, gap=4)
    column.text(card.more, _sans(27), most=2, gap=14)
    column.rule(gap=14)


def _looks(column: Column, card: OddsCard) -> None:
    column.text(card.out_of_100, _sans(26, bold=True), gap=6)
    step = column.width / _DOTS
    for row in card.rows:
        look = ", ".join(part for part in (row.look, row.hides) if part)
        column.row(look, row.share, _sans(24, bold=row.is_goal))
        ink = LIGHT.accent if row.is_goal else LIGHT.notes
        column.add(partial(_some, QPointF(column.left, column.y), row.dots, step, ink))
        column.space(step * -(-row.dots // _DOTS) + 8)
    if card.others:
        column.text(card.others, _sans(22), LIGHT.second)


def _foot(card: OddsCard) -> float:
    """The room that is kept at the bottom."""
    return 100.0 + 24.0 * len(_foot_lines(card))


def _paint_foot(painter: QPainter, card: OddsCard, y: float) -> None:
    y += 16
    for text, start, end in ((words.FROM, _MARGIN, 452.0), (words.DATE, 476.0, WIDTH - _MARGIN)):
        drawn(QRectF(start, y, 120, 34), text, _sans(22), LIGHT.second)(painter)
        wide = QFontMetricsF(_sans(22)).horizontalAdvance(text) + 12
        painter.fillRect(QRectF(start + wide, y + 32, end - start - wide, 1.5), colour(LIGHT.rule))
    y += 54
    for line in _foot_lines(card):
        drawn(QRectF(_MARGIN, y, WIDTH - 2 * _MARGIN, 24), line, _sans(17), LIGHT.notes)(painter)
        y += 24


def _foot_lines(card: OddsCard) -> list[str]:
    column = Column(_MARGIN, WIDTH - _MARGIN, 0)
    return [line for text in (*card.cautions, card.foot) if text for line in lines_of(text, _sans(17), column.width)]


def _band(box: QRectF, text: str, painter: QPainter) -> None:
    painter.fillRect(box, colour(LIGHT.selected))
    drawn(box.adjusted(20, 0, -20, 0), text, _serif(30, bold=True), LIGHT.text)(painter)


def _hundred(at: QPointF, filled: int, step: float, painter: QPainter) -> None:
    paint_dots(painter, at, filled, 100, 20, step, LIGHT, LIGHT.accent)


def _some(at: QPointF, dots: int, step: float, ink: str, painter: QPainter) -> None:
    paint_dots(painter, at, dots, dots, _DOTS, step, LIGHT, ink)


def _sans(size: int, *, bold: bool = False) -> QFont:
    return fonts.printed(size, bold=bold)


def _serif(size: int, *, bold: bool = False) -> QFont:
    return fonts.printed(size, bold=bold, serif=True)


def card_sheet(card: OddsCard) -> Sheet:
    """The card on its paper."""
    return Sheet(words.card_title(card.male, card.female), (partial(_painted, card),), card_paper())


def _painted(card: OddsCard, painter: QPainter, rect: QRectF) -> None:
    paint_card(painter, rect, card)

"""What goes to paper: the page of a comparison, and an odds card."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QApplication

from core.counter.card import Parent, odds_card
from core.plan.model import Plan
from desktop.appearance import Appearance
from desktop.evaluation import evaluation_steps
from desktop.exports.desk import Desk
from desktop.exports.odds_card import card_sheet
from desktop.exports.paper import as_picture
from desktop.locale_numbers import LocaleNumbers
from desktop.plan_files import SAMPLE, open_plan


def screens(app: QApplication, appearance: Appearance, size: QSize) -> Iterator[tuple[str, QPixmap]]:
    """Both as high as the screen, whatever the scheme: paper is always light."""
    from gallery import double, show

    plan = open_plan(SAMPLE)
    assert isinstance(plan, Plan)
    window = show(app, appearance, size, plan)
    window.document.take(list(evaluation_steps(plan, double.engine())))
    desk = Desk(window.document, window.minder, window.page, LocaleNumbers(), window)
    yield "export-page", _shown(as_picture(desk.sheet(), 0, 150), size)
    male, female = plan.for_sale[4], plan.for_sale[1]
    pair = Parent("male", male.carries, male.price), Parent("female", female.carries, female.price)
    card = odds_card(plan, *pair, plan.goal.want[0].forms, LocaleNumbers())
    yield "export-card", _shown(as_picture(card_sheet(card), 0, 200), size)
    window.close()


def _shown(picture: object, size: QSize) -> QPixmap:
    return QPixmap.fromImage(picture).scaledToHeight(size.height(), Qt.TransformationMode.SmoothTransformation)  # type: ignore[call-overload, no-any-return]

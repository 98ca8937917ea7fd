"""The table: every animal for sale, to be picked or marked as sold."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from core.explain.numbers import Numbers, price
from core.plan.model import ForSale, Sex
from desktop.counter import parts
from desktop.counter.stall import Stall
from desktop.counter.taps import Button, RowTap
from desktop.counter.type import Type
from desktop.words import counter as words

_SEXES: tuple[tuple[Sex, str], ...] = (("male", words.MALES), ("female", words.FEMALES))
_COLUMNS = 2


class Lot(QWidget):
    """One row of what is for sale: a tap picks it, another marks one as sold."""

    picked = Signal(object)
    sold = Signal(str)

    def __init__(self, type_: Type, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._offer: ForSale | None = None
        self.row = RowTap(type_, "")
        self.row.setCheckable(True)
        self.sell = Button(type_, words.SOLD)
        self.sell.setFont(type_.note)
        layout = parts.side_by_side(type_.px(4))
        layout.addWidget(self.row, 1)
        layout.addWidget(self.sell, 0, Qt.AlignmentFlag.AlignVCenter)
        self.setLayout(layout)
        self.row.clicked.connect(self._pick)
        self.sell.clicked.connect(self._sell)

    def show_offer(self, stall: Stall, offer: ForSale, numbers: Numbers) -> None:
        """Shows it as it stands now."""
        self._offer = offer
        plan = stall.plan
        note = words.offer_note(plan, offer, stall.year)
        self.row.show_words(words.for_sale(plan, offer), note, price(offer.price, numbers))
        chosen = stall.picked.get(offer.sex)
        self.row.setChecked(chosen is not None and chosen.offer == offer.id)
        self.row.setEnabled(offer.quantity > 0 or self.row.isChecked())
        self.sell.setEnabled(offer.quantity > 0)
        self.sell.setAccessibleName(words.sell(plan, offer))

    def _pick(self) -> None:
        if self._offer is not None:
            self.picked.emit(self._offer)

    def _sell(self) -> None:
        if self._offer is not None:
            self.sold.emit(self._offer.id)


class TablePage(QWidget):
    """Males above females, in two columns; the taps keep their places while things are sold."""

    home_wanted = Signal()

    def __init__(self, type_: Type, stall: Stall, numbers: Numbers, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._type, self._stall, self._numbers = type_, stall, numbers
        self.title = parts.title(type_)
        self.foot = parts.Actions(type_)
        self.put_back = self.foot.add(words.PUT_BACK)
        self.home = self.foot.add(words.AT_HOME)
        self.remark = parts.note(type_)
        self.lots: dict[str, Lot] = {}
        self._heads: dict[Sex, QWidget] = {}
        self._inside = QWidget()
        self._grid = QGridLayout(self._inside)
        self._grid.setContentsMargins(0, 0, type_.px(8), 0)
        self._grid.setHorizontalSpacing(type_.px(24))
        self._grid.setVerticalSpacing(0)
        self.area = parts.touched(self._inside, words.PICK_TWO)
        self._lay_out()
        self.put_back.clicked.connect(stall.put_back)
        self.home.clicked.connect(self.home_wanted)
        stall.changed.connect(self._follow)
        self._follow()

    def _lay_out(self) -> None:
        top = parts.side_by_side(self._type.px(24))
        top.addWidget(self.title, 1)
        top.addWidget(self.foot, 1 if not self._type.is_wide else 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(self._type.px(4))
        layout.addLayout(top)
        layout.addWidget(self.remark)
        layout.addWidget(self.area, 1)

    def _follow(self) -> None:
        stall = self._stall
        offers = stall.plan.for_sale
        if {one.id for one in offers} != set(self.lots):
            self._build()
        for offer in offers:
            self.lots[offer.id].show_offer(stall, offer, self._numbers)
        self.title.setText(words.PICK_ONE if stall.at_home else words.to_pick(tuple(stall.picked)))
        self.remark.setText(words.INVENTED if stall.is_invented else "")
        self.remark.setVisible(bool(self.remark.text()))
        self.put_back.setVisible(stall.can_put_back)
        for sex, head in self._heads.items():
            here = stall.at_home is None or stall.at_home.sex != sex
            head.setVisible(here)
            for offer in offers:
                if offer.sex == sex:
                    self.lots[offer.id].setVisible(here)

    def _build(self) -> None:
        for gone in (*self.lots.values(), *self._heads.values()):
            self._grid.removeWidget(gone)
            gone.hide()
            gone.deleteLater()
        self.lots, self._heads = {}, {}
        columns = _COLUMNS if self._type.is_wide else 1
        line = 0
        for sex, name in _SEXES:
            head = parts.head(self._type, name)
            head.setContentsMargins(0, self._type.px(16) if line else 0, 0, 0)
            self._heads[sex] = head
            self._grid.addWidget(head, line, 0, 1, columns)
            line += 1
            of_sex = [one for one in self._stall.plan.for_sale if one.sex == sex]
            for place, offer in enumerate(of_sex):
                lot = Lot(self._type)
                lot.picked.connect(self._stall.toggle)
                lot.sold.connect(self._stall.sell)
                self.lots[offer.id] = lot
                self._grid.addWidget(lot, line + place // columns, place % columns)
            line += -(-len(of_sex) // columns)
        for column in range(columns):
            self._grid.setColumnStretch(column, 1)
        self._grid.setRowStretch(line, 1)

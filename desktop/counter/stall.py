"""What is picked at the counter: a pair, one at home, a goal; and what is sold."""

from __future__ import annotations

import msgspec
from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal

from core.counter.answer import Goal, goals
from core.counter.card import Parent
from core.explain.carrying import with_sex
from core.plan.model import Carries, ForSale, Plan, Sex
from desktop.document import Document
from desktop.words import counter as words


class Pick(msgspec.Struct, frozen=True):
    """One of the pair: on the table under `offer`, or at home where that is empty."""

    sex: Sex
    carries: Carries
    offer: str = ""


class Stall(QObject):
    """The table in front of the customer; a sale is a step of the document."""

    changed = Signal()
    paired = Signal()

    def __init__(self, document: Document, year: int, *, is_invented: bool, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.document, self.year, self.is_invented = document, year, is_invented
        self.picked: dict[Sex, Pick] = {}
        self.at_home: Pick | None = None
        self.goal: Goal | None = None
        self._sold: list[str] = []
        document.plan_changed.connect(self.changed)

    @property
    def plan(self) -> Plan:
        """The plan whose animals are for sale."""
        return self.document.plan

    @property
    def is_paired(self) -> bool:
        """Whether both of a pair are picked."""
        return len(self.picked) == 2

    @property
    def can_put_back(self) -> bool:
        """Whether a sale of this sitting can be taken back."""
        return bool(self._sold)

    def offer(self, pick: Pick) -> ForSale | None:
        """What the pick is on the table."""
        return next((one for one in self.plan.for_sale if one.id == pick.offer), None)

    def parent_of(self, sex: Sex) -> Parent:
        """One of the pair, as odds want it."""
        pick = self.picked[sex]
        offer = self.offer(pick)
        return Parent(sex, pick.carries, None if offer is None else float(offer.price))

    def toggle(self, offer: ForSale) -> None:
        """Picks an animal on the table, or lets go of it."""
        now = self.picked.get(offer.sex)
        if now is not None and now.offer == offer.id:
            self.let_go(offer.sex)
        else:
            self.pick(Pick(offer.sex, offer.carries, offer.id))

    def pick(self, pick: Pick) -> None:
        """One of the pair."""
        self.picked[pick.sex] = pick
        self.changed.emit()
        if self.is_paired:
            self.paired.emit()

    def let_go(self, sex: Sex) -> None:
        """Another is to be picked in its place."""
        self.picked.pop(sex, None)
        self.changed.emit()

    def start_over(self) -> None:
        """The next customer: nothing picked, nothing at home, no goal."""
        self.picked.clear()
        self.at_home = self.goal = None
        self.changed.emit()

    def bring_home(self, sex: Sex, carries: Carries) -> None:
        """What the customer says of the one at home; it is one of the pair, and the other is to be picked."""
        self.at_home = Pick(sex, carries)
        self.picked.clear()
        self.picked[sex] = self.at_home
        self.changed.emit()

    def turn_home(self, sex: Sex) -> None:
        """The one at home is of the other sex."""
        carries = {} if self.at_home is None else with_sex(self.plan, self.at_home.carries, sex)
        self.bring_home(sex, carries)

    def aim(self, goal: Goal) -> None:
        """Another look is wanted."""
        self.goal = goal
        self.changed.emit()

    def rank_goal(self) -> Goal:
        """What a ranking is about when nothing was tapped yet: what the plan wants first."""
        return self.goal or next(iter(goals(self.plan)), Goal({}))

    def sell(self, id_: str) -> None:
        """One less of them; a step of the plan that can be undone, here or later."""
        offer = next((one for one in self.plan.for_sale if one.id == id_ and one.quantity), None)
        if offer is None:
            return
        rest = replace(offer, quantity=offer.quantity - 1)
        rows = tuple(rest if one.id == id_ else one for one in self.plan.for_sale)
        # Before the document tells of it.
        self._sold.append(id_)
        self.document.edit(replace(self.plan, for_sale=rows), words.sold_step(self.plan, offer))

    def put_back(self) -> None:
        """Takes the last sale of this sitting back."""
        if self._sold:
            self._sold.pop()
            self.document.undo()

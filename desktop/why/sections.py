"""The left column of a chance explained: the crosses, the product, the misses, the trap."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.explain.crosses import Cross
from core.explain.grids import Grid
from core.explain.rungs import in_100
from core.explain.trap import Trap
from core.explain.why import (
    Why,
    average_sentence,
    cross_title,
    factor_words,
    nothing_bred_sentence,
    product_text,
)
from core.plan.model import Plan, Route
from desktop import fonts
from desktop.theme import SECOND
from desktop.why.grid_view import GridView
from desktop.why.parts import Section
from desktop.why.trap_view import TrapView
from desktop.widgets.flow import Flow
from desktop.widgets.labels import PlainLabel
from desktop.words import why as words
from desktop.words.numbers import Numbers


def sections(plan: Plan, route: Route, why: Why, numbers: Numbers) -> Iterator[Section]:
    """The numbered sections, those that have nothing to say left out."""
    if not why.crosses:
        nothing = Section(1, words.CROSSES)
        nothing.say(nothing_bred_sentence(route))
        yield nothing
        return
    yield _crosses(why, numbers)
    yield _products(why, numbers)
    yield _misses(plan, why)
    for number, trap in enumerate(why.traps, start=4):
        yield _trap(number, trap, numbers)


def next_number(why: Why) -> int:
    """The number of the first section after these."""
    return 4 + len(why.traps) if why.crosses else 2


def _crosses(why: Why, numbers: Numbers) -> Section:
    section = Section(1, words.CROSSES)
    for cross in why.crosses:
        section.name(cross_title(cross))
        if cross.grids:
            section.body.addWidget(_grids(cross, numbers))
        else:
            section.say(words.only_sex(product_text(cross, numbers)), quiet=True)
    for sentence in why.legend:
        section.note(sentence)
    for pairing in why.idle:
        section.note(words.never_breeds(pairing))
    for pairing in why.fruitless:
        section.note(words.gives_nothing(pairing))
    return section


def _grids(cross: Cross, numbers: Numbers) -> QWidget:
    row = QWidget()
    # Three grids fit a column of a window 1,280 wide.
    flow = Flow(row, gap=16, line_gap=12)
    for grid in cross.grids:
        flow.addWidget(_grid(grid, numbers))
    return row


def _grid(grid: Grid, numbers: Numbers) -> QWidget:
    block = QWidget()
    layout = QVBoxLayout(block)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(4)
    layout.addWidget(PlainLabel(grid.title, font=fonts.sans(fonts.HEAD), ink=SECOND))
    if grid.cells:
        layout.addWidget(GridView(grid, numbers))
    layout.addWidget(PlainLabel(grid.sentence(numbers), font=fonts.sans(fonts.FORM, bold=True)))
    if losses := grid.losses(numbers):
        layout.addWidget(PlainLabel(losses, font=fonts.sans(fonts.HEAD), ink=SECOND))
    layout.setAlignment(Qt.AlignmentFlag.AlignTop)
    return block


def _products(why: Why, numbers: Numbers) -> Section:
    section = Section(2, words.MULTIPLY)
    for cross in why.crosses:
        if len(why.crosses) > 1:
            section.name(cross_title(cross))
        section.formula(product_text(cross, numbers))
        section.say(factor_words(cross), quiet=True)
        section.say(average_sentence(cross, numbers))
    return section


def _misses(plan: Plan, why: Why) -> Section:
    section = Section(3, words.all_miss(plan))
    for row in why.misses:
        if len(why.misses) > 1:
            section.name(row.wanted)
        for step in row.steps:
            section.say(step.words)
            section.formula(step.formula)
    several = len(plan.goal.want) > 1 or plan.goal.want[0].count > 1
    textbook = in_100(float(why.ladder.textbook[why.season - 1]))
    section.say(words.textbook_result(textbook, several=several))
    return section


def _trap(number: int, trap: Trap, numbers: Numbers) -> Section:
    section = Section(number, trap.title)
    section.say(trap.lead)
    if trap.lines:
        section.body.addWidget(TrapView(trap, numbers))
    section.say(trap.none)
    if trap.right:
        section.name(words.RIGHT)
        for line in trap.right:
            section.reckon(line)
    if trap.wrong:
        section.name(words.WRONG)
        for line in trap.wrong:
            section.reckon(line, quiet=True)
    return section

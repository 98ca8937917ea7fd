"""The plan itself: its title, its currency, notes, and how long to simulate."""

from __future__ import annotations

from core.text import tr
from desktop.forms.kinds import Money, Panel, Prose, Whole, Words
from desktop.forms.table import Field, Form, Line

ABOUT = (
    Form(
        tr("This plan"),
        (
            Line((Field("title", tr("Title"), Words(empty=""), before=tr("Called"), hint=tr("no title")),)),
            Line((Field("currency", tr("Currency"), Words(empty=""), before=tr("All money is in"),
                        hint=tr("no currency")),),
                 help=tr("Only the name changes: no sum is converted.")),
            Line(
                (Field("already_spent", tr("Money already spent"), Money(), before=tr("Spent before season 1:"),
                       unit="{currency}"),),
                help=tr("Shown beside the answer; part of no figure."),
            ),
        ),
    ),
    Form(
        tr("Notes"),
        (
            Line((Field("notes", tr("Notes"), Prose(),
                        hint=tr("Where the numbers come from, what to ask the seller …")),),
                 help=tr("The first line stands at the foot of the comparison.")),
        ),
    ),
    Form(
        tr("Simulation"),
        (
            Line(
                (
                    Field("simulation.runs", tr("Runs to simulate"), Whole(),
                          before=tr("Where no exact answer is in reach, play"),
                          unit=tr("run|runs")),
                    Field("simulation.seed", tr("Seed of the simulation"), Whole(), before=tr("from seed")),
                ),
                help=tr("More runs narrow the ± and take longer. The same seed gives the same answer."),
            ),
        ),
    ),
    Form(
        tr("Cautions"),
        (Line((Field("cautions_read", tr("Cautions marked as read"), Panel("cautions read")),)),),
    ),
)  # fmt: skip

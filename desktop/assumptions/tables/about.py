"""The plan itself: its title, its currency, notes, and how long to simulate."""

from __future__ import annotations

from desktop.forms.kinds import Money, Panel, Prose, Whole, Words
from desktop.forms.table import Field, Form, Line

ABOUT = (
    Form(
        "This plan",
        (
            Line((Field("title", "Title", Words(empty=""), before="Called", hint="no title"),)),
            Line((Field("currency", "Currency", Words(empty=""), before="All money is in", hint="no currency"),),
                 help="Only the name changes: no sum is converted."),
            Line(
                (Field("already_spent", "Money already spent", Money(), before="Spent before season 1:",
                       unit="{currency}"),),
                help="Shown beside the answer; part of no figure.",
            ),
        ),
    ),
    Form(
        "Notes",
        (
            Line((Field("notes", "Notes", Prose(), hint="Where the numbers come from, what to ask the seller …"),),
                 help="The first line stands at the foot of the comparison."),
        ),
    ),
    Form(
        "Simulation",
        (
            Line(
                (
                    Field("simulation.runs", "Runs to simulate", Whole(),
                          before="Where no exact answer is in reach, play",
                          unit="run|runs"),
                    Field("simulation.seed", "Seed of the simulation", Whole(), before="from seed"),
                ),
                help="More runs narrow the ± and take longer. The same seed gives the same answer.",
            ),
        ),
    ),
    Form(
        "Cautions",
        (Line((Field("cautions_read", "Cautions marked as read", Panel("cautions read")),)),),
    ),
)  # fmt: skip

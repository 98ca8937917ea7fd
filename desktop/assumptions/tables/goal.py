"""The goal but for what is wanted: how sure, how soon, and the limits."""

from __future__ import annotations

from core.text import tr
from desktop.forms.goal_fields import BUDGET, CHANGE, HOUSING, OUTRIGHT, SEASONS, SURE
from desktop.forms.table import Form, Line, worded

GOAL = (
    Form(
        tr("How sure and how soon"),
        (
            Line((worded(SURE, tr("You want to be"), tr("% sure")),
                  worded(SEASONS, tr("within"), tr("season|seasons")))),
        ),
    ),
    Form(
        tr("Limits"),
        (
            Line((worded(BUDGET, tr("For at most"), "{currency}"),),
                 help=tr("The cash you can have in hand. It changes no figure; routes over it are marked.")),
            Line((worded(HOUSING, tr("Room for"), tr("animal at once|animals at once")),),
                 help=tr("It changes no figure; routes that need more are cautioned about.")),
        ),
    ),
    Form(
        tr("Bought finished"),
        (
            Line((worded(OUTRIGHT, tr("What you want costs"), tr("{currency} ready-made in season 1;")),
                  worded(CHANGE, tr("its price changes by"), tr("% each season after"))),
                 help=tr("All the wanted animals together. Below 0 it falls. Routes can buy finished, now or later.")),
        ),
    ),
)  # fmt: skip

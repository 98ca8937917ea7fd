"""The goal but for what is wanted: how sure, how soon, and the limits."""

from __future__ import annotations

from desktop.forms.goal_fields import BUDGET, CHANGE, HOUSING, OUTRIGHT, SEASONS, SURE
from desktop.forms.table import Form, Line, worded

GOAL = (
    Form(
        "How sure and how soon",
        (
            Line((worded(SURE, "You want to be", "% sure"), worded(SEASONS, "within", "season|seasons"))),
        ),
    ),
    Form(
        "Limits",
        (
            Line((worded(BUDGET, "For at most", "{currency}"),),
                 help="The cash you can have in hand. It changes no figure; routes over it are marked."),
            Line((worded(HOUSING, "Room for", "animal at once|animals at once"),),
                 help="It changes no figure; routes that need more are cautioned about."),
        ),
    ),
    Form(
        "Bought finished",
        (
            Line((worded(OUTRIGHT, "What you want costs", "{currency} ready-made in season 1;"),
                  worded(CHANGE, "its price changes by", "% each season after")),
                 help="All the wanted animals together. Below 0 it falls. Routes can buy finished, now or later."),
        ),
    ),
)  # fmt: skip

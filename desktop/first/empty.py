"""A plan in which nothing is decided yet."""

from __future__ import annotations

from PySide6.QtCore import QLocale

from core.plan.model import Clutch, Goal, Matures, Plan, Species, Want
from desktop.words.first import NEW_TITLE


def empty_plan() -> Plan:
    """No genes, no animals, no routes; the few numbers a plan cannot do without are placeholders to be set."""
    return Plan(
        format="pairwright-plan",
        version=1,
        title=NEW_TITLE,
        currency=_currency(QLocale()),
        genes=(),
        species=Species(name="", sex_system="ZW", clutch=Clutch(fixed=1), matures=Matures(male=1, female=1)),
        goal=Goal(want=(Want(forms={}),), chance=0.8, seasons=5),
    )


def _currency(locale: QLocale) -> str:
    return locale.currencySymbol(QLocale.CurrencySymbolFormat.CurrencyIsoCode) or "USD"

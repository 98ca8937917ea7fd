"""Putting a value that was typed or chosen into the plan, or saying why it cannot be."""

from __future__ import annotations

from typing import Any

from desktop.document import Document
from desktop.forms.kinds import Refused
from desktop.forms.table import Field
from desktop.words.numbers import Numbers
from desktop.words.told import told


def take(document: Document, numbers: Numbers, field: Field, subject: int, value: Any) -> str:
    """Makes it one step of the plan; the refusal in words, or nothing."""
    if refusal := field.refusal(value, numbers):
        return refusal
    changed = field.edited(document.plan, subject, value)
    if isinstance(changed, Refused):
        return changed.sentence
    faults = document.edit(changed, field.step(value), merge=field.at(subject))
    return told(changed, field.name, faults[0]) if faults else ""

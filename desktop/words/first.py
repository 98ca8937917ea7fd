"""Words for the first minutes with the program."""

from __future__ import annotations

NEW_TITLE = "New plan"

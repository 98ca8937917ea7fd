"""The words of everything that leaves the program."""

from __future__ import annotations

CARD, ONE_PAIR = "Odds card", "one pair"
OUT_OF_100 = "What hatches, out of 100 young"
RECKONED = "Reckoned with"
FROM, DATE = "From", "Date"
UNNAMED = "Pairwright"
SAVE_TITLE = "Save as a file"
FILTERS = {
    "pdf": "PDF (*.pdf)",
    "png": "Picture (*.png)",
    "svg": "Drawing (*.svg)",
    "csv": "Table (*.csv)",
}


def not_written(name: str, reason: str) -> str:
    """Why a file was not written."""
    return f"{name} was not written: {reason}. Nothing was changed; try another folder or name."


def card_title(male: str, female: str) -> str:
    """What a card is called as a file and in a printer's list."""
    return f"Odds card, {male} × {female}"

"""The words of everything that leaves the program."""

from __future__ import annotations

CARD, ONE_PAIR = "Odds card", "one pair"
OUT_OF_100 = "What hatches, out of 100 young"
RECKONED = "Reckoned with"
FROM, DATE = "From", "Date"

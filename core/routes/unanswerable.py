"""What keeps a sound plan from having an answer; anything else that goes wrong is a fault of the program, and shows."""

from __future__ import annotations

from core.genetics.beliefs import ImpossibleEvidence
from core.genetics.elimination import TooEntangled
from core.routes.prepare import TooManyGenotypes

UNANSWERABLE = (TooManyGenotypes, TooEntangled, ImpossibleEvidence)

"""Writing a plan to its file, whole or not at all."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QIODevice, QSaveFile

from core.plan.model import Plan
from core.plan.write import write_plan

SUFFIX = ".plan.json"


def save_plan(plan: Plan, path: Path) -> str | None:
    """Replaces the file by the plan; where that cannot be, the old file stays and the reason comes back."""
    file = QSaveFile(str(path))
    if not file.open(QIODevice.OpenModeFlag.WriteOnly):
        return file.errorString()
    file.write(write_plan(plan))
    return None if file.commit() else file.errorString()


def with_suffix(path: Path) -> Path:
    """The name a plan is saved under: as given where it ends in .json, else with the plan's own ending."""
    return path if path.suffix == ".json" else path.with_name(path.name + SUFFIX)

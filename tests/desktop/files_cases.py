"""Plans in files of their own, for the tests of saving and recovery."""

from __future__ import annotations

import resource
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import msgspec

from core.plan.model import Plan
from core.plan.read import load_plan
from desktop.document import Document
from desktop.files.saving import save_plan
from desktop.plan_files import SAMPLE


def plan_file(folder: Path, name: str = "mine.plan.json", title: str = "Mine") -> Path:
    """The sample as somebody's own file."""
    path = folder / name
    assert save_plan(msgspec.structs.replace(load_plan(SAMPLE), title=title), path) is None
    return path


def with_seasons(plan: Plan, seasons: int) -> Plan:
    """The plan with another horizon."""
    return msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, seasons=seasons))


def change(document: Document, seasons: int) -> None:
    """One edit."""
    assert document.edit(with_seasons(document.plan, seasons), "change the seasons") == ()


@contextmanager
def full_disk() -> Iterator[None]:
    """No file may grow beyond a few letters, as on a disk with no room left."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

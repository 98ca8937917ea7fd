"""Own species and genes, kept on disk."""

from __future__ import annotations

from pathlib import Path

from core.plan.library import Library
from core.plan.model import Gene
from desktop.files.library import KeptLibrary

ASH = Gene(id="ash", name="Ash", alleles=("a",), forms={"a/a": "ash"})


def test_kept_from_one_start_to_the_next(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "library.json"
    assert KeptLibrary(path).read() == Library()
    library = Library().with_gene("Corn snake", ASH)
    assert KeptLibrary(path).write(library) is None
    assert KeptLibrary(path).read() == library


def test_a_broken_file_is_set_aside(tmp_path: Path) -> None:
    path = tmp_path / "library.json"
    path.write_bytes(b'{"genes": 3')
    assert KeptLibrary(path).read() == Library()
    assert (tmp_path / "library-unreadable.json").read_bytes() == b'{"genes": 3'
    path.write_bytes(b"[")
    assert KeptLibrary(path).read() == Library()
    assert (tmp_path / "library-unreadable.json").read_bytes() == b'{"genes": 3'
    assert (tmp_path / "library-unreadable1.json").read_bytes() == b"["


def test_where_nothing_can_be_written_it_says_why(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_bytes(b"")
    assert KeptLibrary(blocked / "library.json").write(Library())

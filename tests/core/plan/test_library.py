"""Own species and genes, kept for other plans."""

from __future__ import annotations

import pytest

from core.plan.faults import PlanError
from core.plan.library import Library, read_library, write_library
from core.plan.model import Clutch, Gene, Matures, Species

MINE = Species(name="My line", sex_system="XY", clutch=Clutch(fixed=6), matures=Matures(male=1, female=2))
ASH = Gene(id="ash", name="Ash", alleles=("a",), forms={"a/a": "ash"})
ONE_COPY = Gene(
    id="band", name="Band", alleles=("b",), forms={"b/b": "band", "b/Y": "pale"}, placement="sex-chromosome"
)


def test_kept_and_read_again() -> None:
    library = Library().with_species(MINE).with_gene("My line", ASH).with_gene("my line", ONE_COPY)
    assert read_library(write_library(library)) == library
    assert library.genes_of("MY LINE") == (ASH, ONE_COPY)
    assert library.genes_of("another") == ()


def test_one_of_the_same_name_is_replaced() -> None:
    longer = Species(name="my line ", sex_system="XY", clutch=Clutch(fixed=8), matures=Matures(male=1, female=2))
    library = Library().with_species(MINE).with_species(longer)
    assert library.species == (longer,)
    darker = Gene(id="ash", name="Ash", alleles=("a",), forms={"a/a": "dark ash"})
    assert Library().with_gene("My line", ASH).with_gene("My line", darker).genes_of("My line") == (darker,)


def test_let_go() -> None:
    library = Library().with_species(MINE).with_gene("My line", ASH)
    assert library.without_species("my line").without_gene("My line", "ash") == Library()


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"[]",
        b'{"species": 3}',
        b'{"plans": []}',
        b'{"species": [{"name": "x", "sex_system": "ZW", "clutch": {"fixed": 6}, "matures": {"male": 0}}]}',
        b'{"genes": [{"species": "x", "gene": {"id": "a b", "name": "A", "alleles": ["a"], "forms": {}}}]}',
        b'{"genes": [{"species": "x", "gene": {"id": "a", "name": "A", "alleles": ["a"], "forms": {"q/q": "odd"}}}]}',
        b"[" * 100_000,
    ],
)
def test_what_cannot_be_read_says_so(data: bytes) -> None:
    with pytest.raises(PlanError):
        read_library(data)


def test_too_many() -> None:
    kept = ", ".join(
        '{"species": "x", "gene": {"id": "a", "name": "A", "alleles": ["a"], "forms": {}}}' for _ in range(401)
    )
    with pytest.raises(PlanError, match="more species or genes"):
        read_library(f'{{"genes": [{kept}]}}'.encode())

"""Inbreeding of the usual matings, and of repeated ones, against published coefficients."""

from __future__ import annotations

from graphlib import CycleError

import pytest

from core.genetics.kinship import kinship
from core.genetics.pedigree import Pedigree

FOUNDERS = dict.fromkeys(["a", "b", "c", "d", "e", "f"])
SIBS = FOUNDERS | {"s1": ("a", "b"), "s2": ("a", "b")}
COUSINS = SIBS | {"x": ("s1", "c"), "y": ("s2", "d")}
HALF = FOUNDERS | {"h1": ("a", "b"), "h2": ("a", "c")}
HALF_COUSINS = HALF | {"x": ("h1", "d"), "y": ("h2", "e")}

# The coefficients follow from Wright S 1922, American Naturalist 56:330-338, and are recomputed. Full sibs, double
# first cousins, uncle x niece and first cousins also stand in an encyclopedia entry, "coefficient of inbreeding"
# (secondary); half sibs in BMC Genetics 11:85, Table 4. One paper prints 0.0625 for aunt x nephew: that is the
# half-aunt value.
MATINGS: list[tuple[str, Pedigree, tuple[str, str], float]] = [
    ("parent x offspring", SIBS, ("a", "s1"), 1 / 4),
    ("full sibs", SIBS, ("s1", "s2"), 1 / 4),
    ("half sibs", HALF, ("h1", "h2"), 1 / 8),
    (
        "double first cousins",
        SIBS | {"t1": ("c", "d"), "t2": ("c", "d"), "x": ("s1", "t1"), "y": ("s2", "t2")},
        ("x", "y"),
        1 / 8,
    ),
    ("uncle x niece", COUSINS, ("s1", "y"), 1 / 8),
    ("grandparent x grandchild", COUSINS, ("a", "x"), 1 / 8),
    ("three-quarter sibs", SIBS | {"x": ("s1", "c"), "y": ("s2", "c")}, ("x", "y"), 3 / 16),
    ("first cousins", COUSINS, ("x", "y"), 1 / 16),
    ("half uncle x niece", HALF_COUSINS, ("h1", "y"), 1 / 16),
    ("half first cousins", HALF_COUSINS, ("x", "y"), 1 / 32),
    ("second cousins", COUSINS | {"v": ("x", "e"), "w": ("y", "f")}, ("v", "w"), 1 / 64),
    ("unrelated", FOUNDERS, ("a", "b"), 0),
]


@pytest.mark.parametrize(("name", "pedigree", "pair", "expected"), MATINGS)
def test_usual_matings(name: str, pedigree: Pedigree, pair: tuple[str, str], expected: float) -> None:
    assert kinship(pedigree).between(*pair) == pytest.approx(expected), name
    young = kinship({"young": pair, **pedigree})
    assert young.inbreeding("young") == pytest.approx(expected), name


def selfing(n: int) -> Pedigree:
    return {"0": None} | {str(k): (str(k - 1), str(k - 1)) for k in range(1, n + 1)}


def full_sibs(n: int) -> Pedigree:
    pairs = {"m0": None, "f0": None} | {f"{x}{k}": (f"m{k - 1}", f"f{k - 1}") for k in range(1, n + 1) for x in "mf"}
    return pairs | {str(n): (f"m{n}", f"f{n}")}


def younger_parent(n: int) -> Pedigree:
    """Each young put back to the younger of its parents; the first one with related parents is "2"."""
    return {"-1": None, "0": None, "1": ("-1", "0")} | {str(k): (str(k - 1), str(k - 2)) for k in range(2, n + 2)}


def half_sibs(n: int) -> Pedigree:
    """One sire a generation, put to dams that are half-sisters of his and of each other."""
    rows: dict[str, tuple[str, str] | None] = {"s0": None}
    width = n + 2
    rows |= {f"d0.{j}": None for j in range(width)}
    for k in range(1, n + 1):
        rows[f"s{k}"] = (f"s{k - 1}", f"d{k - 1}.0")
        rows |= {f"d{k}.{j}": (f"s{k - 1}", f"d{k - 1}.{j + 1}") for j in range(width - k)}
    return rows | {str(n): (f"s{n}", f"d{n}.0")}


def back_to_one_parent(n: int) -> Pedigree:
    return {"p": None, "q": None, "0": ("p", "q")} | {str(k): ("p", str(k - 1)) for k in range(1, n + 1)}


# Layout after Falconer & Mackay 1996, Table 5.1, from memory; values recomputed. The half-sib recursion:
# Crow & Kimura and Falconer 1996, pp. 82-92, by way of an encyclopedia.
REPEATED = [
    (selfing, (0.5, 0.75, 0.875, 0.938, 0.969, 0.984, 0.992, 0.996, 0.998, 0.999)),
    (full_sibs, (1 / 4, 3 / 8, 1 / 2, 19 / 32, 43 / 64, 47 / 64, 201 / 256, 423 / 512, 55 / 64, 1815 / 2048)),
    (half_sibs, (1 / 8, 7 / 32, 0.305, 0.381, 0.449, 0.509, 0.563, 0.611, 0.654, 0.691)),
    (back_to_one_parent, (1 / 4, 3 / 8, 7 / 16, 0.469, 0.484, 0.492, 0.496, 0.498, 0.499, 0.500)),
]


@pytest.mark.parametrize(("pedigree", "expected"), REPEATED)
def test_repeated_matings(pedigree: object, expected: tuple[float, ...]) -> None:
    found = [kinship(pedigree(n)).inbreeding(str(n)) for n in range(1, 11)]
    assert found == pytest.approx(expected, abs=5.1e-4)


def test_young_by_younger_parent_is_as_full_sibs() -> None:
    found = [kinship(younger_parent(n)).inbreeding(str(n + 1)) for n in range(1, 11)]
    assert found == pytest.approx([kinship(full_sibs(n)).inbreeding(str(n)) for n in range(1, 11)])


def test_an_animal_among_its_own_ancestors() -> None:
    with pytest.raises(CycleError):
        kinship({"a": ("b", "c"), "b": ("a", "c"), "c": None})

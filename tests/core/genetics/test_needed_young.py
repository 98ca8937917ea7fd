"""How many young, and how sure: per-egg chances of real crosses against printed and recomputed tables."""

from __future__ import annotations

from math import ceil, log

import pytest
from genetics_cases import chance_of, genetics, het, recessive, vis, visual
from scipy.stats import nbinom

LEVELS = (0.80, 0.90, 0.95, 0.99)
GENES = tuple(map(recessive, "abc"))
ONE, TWO, THREE = genetics(*GENES[:1]), genetics(*GENES[:2]), genetics(*GENES)

# Per-egg chance q, and a cross that has it.
CROSSES = {
    "1/4": (ONE, {"a": "visual"}, het("a"), het("a")),
    "3/16": (TWO, {"a": "visual", "b": "normal"}, het("a", "b"), het("a", "b")),
    "1/8": (TWO, visual("a", "b"), het("a", "b"), vis("a") | het("b")),
    "1/16": (TWO, visual("a", "b"), het("a", "b"), het("a", "b")),
    "1/32": (THREE, visual("a", "b", "c"), het("a", "b", "c"), vis("a") | het("b", "c")),
    "1/64": (THREE, visual("a", "b", "c"), het("a", "b", "c"), het("a", "b", "c")),
}

# Recomputed exactly: the smallest n with at least k of chance q at 80, 90, 95 and 99 %. The question and the binomial
# rule: Schwager SJ et al. 1993, Theor Appl Genet 86(8):964-974. The k = 1 formula on a plant-breeding teaching page,
# which prints "about 190" for 1/64 at 95 %: the smallest whole number is 191.
NEEDED = {
    ("1/4", 1): (6, 9, 11, 17), ("1/4", 2): (11, 15, 18, 24), ("1/4", 3): (16, 20, 23, 31),
    ("1/4", 5): (26, 30, 34, 43), ("1/4", 10): (49, 55, 60, 70),
    ("3/16", 1): (8, 12, 15, 23), ("3/16", 2): (15, 20, 24, 33), ("3/16", 3): (22, 27, 32, 42),
    ("3/16", 5): (35, 41, 47, 58), ("3/16", 10): (65, 74, 81, 96),
    ("1/8", 1): (13, 18, 23, 35), ("1/8", 2): (23, 30, 37, 51), ("1/8", 3): (34, 41, 49, 64),
    ("1/8", 5): (53, 62, 71, 89), ("1/8", 10): (99, 111, 123, 146),
    ("1/16", 1): (25, 36, 47, 72), ("1/16", 2): (47, 61, 75, 104), ("1/16", 3): (68, 84, 99, 132),
    ("1/16", 5): (107, 126, 144, 182), ("1/16", 10): (199, 225, 248, 296),
    ("1/32", 1): (51, 73, 95, 146), ("1/32", 2): (95, 124, 150, 210), ("1/32", 3): (136, 169, 200, 266),
    ("1/32", 5): (214, 254, 291, 368), ("1/32", 10): (399, 452, 500, 597),
    ("1/64", 1): (103, 147, 191, 293), ("1/64", 2): (191, 248, 302, 423), ("1/64", 3): (273, 339, 401, 535),
    ("1/64", 5): (429, 510, 584, 739), ("1/64", 10): (800, 907, 1002, 1198),
}  # fmt: skip

# Recomputed: the same for at least one male and one female of the kind.
NEEDED_BOTH_SEXES = {
    "1/4": (17, 23, 28, 40),
    "3/16": (23, 31, 38, 54),
    "1/8": (35, 47, 58, 83),
    "1/16": (71, 94, 116, 167),
    "1/32": (143, 189, 234, 337),
    "1/64": (287, 379, 469, 676),
}


def per_egg(name: str, sex: str = "any") -> float:
    return chance_of(*CROSSES[name], sex)


@pytest.mark.parametrize(("name", "k"), NEEDED)
def test_needed_for_k(name: str, k: int) -> None:
    q = per_egg(name)
    top, bottom = map(int, name.split("/"))
    assert q == pytest.approx(top / bottom, rel=1e-14)
    assert tuple(int(nbinom.ppf(level, k, q)) + k for level in LEVELS) == NEEDED[name, k]
    if k == 1:
        assert tuple(ceil(log(1 - level) / log(1 - q)) for level in LEVELS) == NEEDED[name, k]


@pytest.mark.parametrize("name", NEEDED_BOTH_SEXES)
def test_needed_for_both_sexes(name: str) -> None:
    male, female = per_egg(name, "male"), per_egg(name, "female")

    def reached(n: int) -> float:
        return 1 - (1 - male) ** n - (1 - female) ** n + (1 - male - female) ** n

    for level, n in zip(LEVELS, NEEDED_BOTH_SEXES[name], strict=True):
        assert reached(n) >= level > reached(n - 1)


def test_the_ninety_five_percent_edge_of_1_in_64() -> None:
    q = per_egg("1/64")
    assert [1 - (1 - q) ** n for n in (190, 191)] == pytest.approx([0.949822, 0.950606], abs=5e-7)


# Common practice (no published source): about 6 eggs a clutch; recomputed as 1 - (1 - p)^n.
COMMON = [
    (het("a", "b"), het("a", "b"), (0.3211, 0.5390, 0.7875)),
    (vis("a") | het("b"), het("a", "b"), (0.5512, 0.7986, 0.9594)),
    (vis("a", "b"), het("a", "b"), (0.8220, 0.9683, 0.9990)),
    (vis("a", "b"), vis("a") | het("b"), (0.9844, 0.9998, 1.0000)),
]


@pytest.mark.parametrize(("sire", "dam", "expected"), COMMON)
def test_common_practice(sire: dict[str, str], dam: dict[str, str], expected: tuple[float, ...]) -> None:
    p = chance_of(TWO, visual("a", "b"), sire, dam)
    assert [1 - (1 - p) ** n for n in (6, 12, 24)] == pytest.approx(expected, abs=5e-5)


def test_hidden_hets_are_one_draw_per_animal() -> None:
    # Common practice, recomputed: four daughters, each 50 % het for b, back to a double het sire, six eggs each.
    possible = vis("a") | {"b": {"b/+": 0.5, "+/+": 0.5}}
    of_het = chance_of(TWO, visual("a", "b"), het("a", "b"), vis("a") | het("b"))
    of_not = chance_of(TWO, visual("a", "b"), het("a", "b"), vis("a"))
    average = chance_of(TWO, visual("a", "b"), het("a", "b"), possible)
    assert (of_het, of_not, average) == pytest.approx((1 / 8, 0, 1 / 16))
    miss = (1 - of_het) ** 6 / 2 + (1 - of_not) ** 6 / 2
    assert 1 - miss**4 == pytest.approx(0.7246, abs=5e-5)
    assert 1 - (1 - of_het) ** 12 == pytest.approx(0.7986, abs=5e-5)
    assert 1 - (1 - average) ** 24 == pytest.approx(0.7875, abs=5e-5)


def test_two_possible_hets_cannot_pass_four_ninths() -> None:
    # Recomputed: two animals each "2/3 het" keep one true genotype; the per-egg average would give .561538.
    q = chance_of(ONE, {"a": "visual"}, het("a"), het("a"))
    possible = {"a": {"a/+": "2/3", "+/+": "1/3"}}
    average = chance_of(ONE, {"a": "visual"}, possible, possible)
    assert 4 / 9 * (1 - (1 - q) ** 7) == pytest.approx(0.385118, abs=5e-7)
    assert 1 - (1 - average) ** 7 == pytest.approx(0.561538, abs=5e-7)

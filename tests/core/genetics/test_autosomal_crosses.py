"""Crosses of unlinked genes against published ratios."""

from __future__ import annotations

from itertools import product

import pytest
from genetics_cases import chance_of, genetics, genotypes, het, looks, pairs, recessive, unsexed, vis, visual

from core.genetics.young import Judge
from core.plan.model import Gene

A, B, C, D = (recessive(name) for name in "abcd")


def approx(expected: dict[object, float]) -> object:
    return pytest.approx(expected, abs=1e-12)


def test_monohybrid_3_to_1() -> None:
    # OpenStax Biology, "Laws of Inheritance" (12.3): 3:1, genotypes 1:2:1.
    one = genetics(A, sex_system="temperature")
    assert looks(one, het("a"), het("a")) == approx({("normal",): 3 / 4, ("visual",): 1 / 4})
    assert genotypes(one, het("a"), het("a")) == approx({("a/a",): 1 / 4, ("a/+",): 1 / 2, ("+/+",): 1 / 4})


def test_dihybrid_9_3_3_1() -> None:
    # OpenStax Biology 12.3. Corn snake amelanism with anerythrism: OMIA 002130-94885 (Bechtel & Bechtel 1962, 1989).
    found = unsexed(looks(genetics(A, B), het("a", "b"), het("a", "b")))
    expected = {("normal", "normal"): 9, ("normal", "visual"): 3, ("visual", "normal"): 3, ("visual", "visual"): 1}
    assert found == approx({key: n / 16 for key, n in expected.items()})


def test_trihybrid_27_9_9_9_3_3_3_1() -> None:
    # OpenStax Biology 12.3, forked-line figure.
    found = unsexed(looks(genetics(A, B, C), het("a", "b", "c"), het("a", "b", "c")))
    every = product(("normal", "visual"), repeat=3)
    assert found == approx({key: 3 ** key.count("normal") / 64 for key in every})


def test_four_loci_1_in_256() -> None:
    # OpenStax Biology 12.3.
    one = genetics(A, B, C, D)
    assert chance_of(one, visual(*"abcd"), het(*"abcd"), het(*"abcd")) == pytest.approx(1 / 256)


@pytest.mark.parametrize("n", [1, 2, 3, 4])
def test_numbers_of_gametes_genotypes_and_phenotypes(n: int) -> None:
    # 2^n, 3^n, 2^n: recomputed (OpenStax Biology 12.3 is cited from memory for this row).
    ids = "abcd"[:n]
    one = genetics(*map(recessive, ids), sex_system="temperature")
    assert len(genotypes(one, het(*ids), het(*ids))) == 3**n
    assert len(looks(one, het(*ids), het(*ids))) == 2**n
    assert len(genotypes(one, het(*ids), vis(*ids))) == 2**n


def test_test_cross() -> None:
    # OpenStax Biology 12.2, Art Connection answer: 1:1, and three dominant offspring of a het by chance: 1/8.
    normal = looks(genetics(A, sex_system="temperature"), het("a"), vis("a"))["normal",]
    assert normal == pytest.approx(1 / 2)
    assert normal**3 == pytest.approx(1 / 8)


@pytest.mark.parametrize(
    ("sire", "dam", "expected"),
    [
        (het("a", "b"), vis("a", "b"), 1 / 4),
        (vis("a") | het("b"), het("a") | vis("b"), 1 / 4),
        (vis("a") | het("b"), vis("a") | het("b"), 1 / 4),
        (het("a", "b"), vis("a") | het("b"), 1 / 8),
        (vis("a", "b"), vis("a") | het("b"), 1 / 2),
    ],
)
def test_double_visual(sire: dict[str, str], dam: dict[str, str], expected: float) -> None:
    # Recomputed.
    assert chance_of(genetics(A, B), visual("a", "b"), sire, dam) == pytest.approx(expected)


def test_hets_among_the_normal_looking() -> None:
    # 2/3: usual in genetic counselling revision notes (secondary). 4/9 and 2/3 for two genes: recomputed.
    one = genetics(A, B, sex_system="temperature")
    young = genotypes(one, het("a", "b"), het("a", "b"))
    normal = {key: p for key, p in young.items() if "a/a" not in key and "b/b" not in key}
    total = sum(normal.values())
    assert normal["a/+", "b/+"] / total == pytest.approx(4 / 9)
    assert sum(p for key, p in normal.items() if key[0] == "a/+") / total == pytest.approx(2 / 3)


def test_incomplete_dominance_1_2_1() -> None:
    # OpenStax Concepts of Biology 8.3.
    pastel = Gene(id="p", name="p", alleles=("P",), forms={"P/P": "super", "P/+": "one"})
    one = genetics(pastel, sex_system="temperature")
    found = looks(one, {"p": "P/+"}, {"p": "+/P"})
    assert found == approx({("super",): 1 / 4, ("one",): 1 / 2, ("normal",): 1 / 4})


CURLY = Gene(id="l", name="l", alleles=("L",), forms={"L/+": "curly"}, lethal=("L/L",))


def test_lethal_2_to_1() -> None:
    # OpenStax Biology 12.2, "Lethality" (Drosophila Curly).
    found = looks(genetics(CURLY, sex_system="temperature"), {"l": "L/+"}, {"l": "L/+"})
    assert found == approx({("curly",): 2 / 3, ("normal",): 1 / 3})


def test_lethal_with_a_recessive_6_2_3_1() -> None:
    # Recomputed: survivors 6:2:3:1 of 12, and a quarter of the fertile eggs lost.
    one = genetics(CURLY, B, sex_system="temperature")
    parent = {"l": "L/+", "b": "b/+"}
    expected = {("curly", "normal"): 6, ("curly", "visual"): 2, ("normal", "normal"): 3, ("normal", "visual"): 1}
    assert looks(one, parent, parent) == approx({key: n / 12 for key, n in expected.items()})
    ((sire, dam),) = pairs(one, parent, parent)
    assert sum(Judge(one, ()).masks(sire, dam).values()) == pytest.approx(3 / 4)


def test_epistasis_9_3_4() -> None:
    # 9:3:4 is from memory (a standard result); recomputed here by leaving c visual young undivided.
    found = unsexed(looks(genetics(B, C), het("b", "c"), het("b", "c")))
    hidden = found["normal", "visual"] + found["visual", "visual"]
    assert [found["normal", "normal"], found["visual", "normal"], hidden] == approx([9 / 16, 3 / 16, 4 / 16])


def test_two_genes_with_one_look_do_not_make_it_together() -> None:
    # Recomputed, with the separate albino loci of the royal python in Brown AR et al. 2022, PLoS ONE 17(10):e0276376.
    genes = [Gene(id=i, name=i, alleles=(i,), forms={f"{i}/{i}": "albino"}) for i in ("tyr", "oca2")]
    one = genetics(*genes, sex_system="temperature")
    assert genotypes(one, {"tyr": "tyr/tyr"}, {"oca2": "oca2/oca2"}) == approx({("tyr/+", "oca2/+"): 1})
    assert looks(one, {"tyr": "tyr/tyr"}, {"oca2": "oca2/oca2"}) == approx({("normal", "normal"): 1})


RABBIT = Gene(
    id="c",
    name="Rabbit C",
    alleles=("ch", "h", "c"),
    forms={"ch/ch": "chinchilla", "ch/h": "light", "ch/c": "light", "h/h": "himalayan", "h/c": "himalayan"}
    | {"c/c": "albino"},
)


def test_rabbit_series() -> None:
    # Order of dominance: OpenStax Biology 12.2; the fractions are recomputed.
    one = genetics(RABBIT, sex_system="temperature")
    assert looks(one, {"c": "+/h"}, {"c": "+/c"}) == approx({("normal",): 3 / 4, ("himalayan",): 1 / 4})
    young = genotypes(one, {"c": "ch/c"}, {"c": "h/c"})
    assert young == approx({("ch/h",): 1 / 4, ("ch/c",): 1 / 4, ("h/c",): 1 / 4, ("c/c",): 1 / 4})
    assert looks(one, {"c": "c/ch"}, {"c": "c/h"})["himalayan",] == pytest.approx(1 / 4)


def test_abo_series() -> None:
    # Three alleles, six genotypes, each group 1/4: OpenStax Concepts of Biology 8.3; the fractions are recomputed.
    forms = {"A/A": "A", "A/+": "A", "B/B": "B", "B/+": "B", "A/B": "AB", "+/+": "O"}
    one = genetics(Gene(id="abo", name="ABO", alleles=("A", "B"), forms=forms), sex_system="temperature")
    assert one.units[0].size == 6
    found = looks(one, {"abo": "A/+"}, {"abo": "B/+"})
    assert found == approx({("A",): 1 / 4, ("B",): 1 / 4, ("AB",): 1 / 4, ("O",): 1 / 4})


def test_motley_and_stripe_are_alleles() -> None:
    # One locus, two recessive alleles: Montandon SA et al. 2025, Genome Biology 26:73; the fractions are recomputed.
    forms = {"m/m": "motley", "s/s": "stripe", "m/s": "motley"}
    one = genetics(Gene(id="ms", name="ms", alleles=("m", "s"), forms=forms), sex_system="temperature")
    young = genotypes(one, {"ms": "m/s"}, {"ms": "s/m"})
    assert young == approx({("m/m",): 1 / 4, ("m/s",): 1 / 2, ("s/s",): 1 / 4})
    assert looks(one, {"ms": "+/m"}, {"ms": "+/s"}) == approx({("normal",): 3 / 4, ("motley",): 1 / 4})

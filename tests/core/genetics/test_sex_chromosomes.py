"""Genes on the sex chromosomes, and sex where there are none."""

from __future__ import annotations

import pytest
from genetics_cases import chance_of, genetics, genotypes, looks, recessive

from core.plan.model import Gene

WHITE = Gene(id="w", name="White", alleles=("w",), forms={"w/w": "white"}, placement="sex-chromosome")
BARRED = Gene(
    id="b", name="Barred", alleles=("B",), forms={"B/B": "barred", "B/+": "barred"}, placement="sex-chromosome"
)
XY = genetics(WHITE, sex_system="XY")
ZW = genetics(BARRED, sex_system="ZW")


def approx(expected: dict[tuple[str, ...], float]) -> object:
    return pytest.approx(expected, abs=1e-12)


def test_white_male_by_red_female() -> None:
    # OpenStax Biology 12.2: F1 all red; F2 all daughters red, half of the sons white.
    assert genotypes(XY, {"w": "w/Y"}, {}) == approx({("w/+",): 1 / 2, ("+/Y",): 1 / 2})
    f2 = looks(XY, {}, {"w": "w/+"})
    assert f2 == approx({("normal", "female"): 1 / 2, ("normal", "male"): 1 / 4, ("white", "male"): 1 / 4})


def test_white_female_by_red_male() -> None:
    # OpenStax Biology 12.2: F1 daughters red, sons white; F2 half white in each sex.
    f1 = looks(XY, {}, {"w": "w/w"})
    assert f1 == approx({("normal", "female"): 1 / 2, ("white", "male"): 1 / 2})
    f2 = looks(XY, {"w": "w/Y"}, {"w": "w/+"})
    assert f2 == approx({(form, sex): 1 / 4 for form in ("normal", "white") for sex in ("male", "female")})


def test_carrier_mother() -> None:
    # OpenStax Biology 12.2: half of the sons affected, half of the daughters carriers, no daughter affected.
    young = genotypes(XY, {"w": "+/Y"}, {"w": "+/w"})
    assert young == approx({(text,): 1 / 4 for text in ("w/Y", "+/Y", "w/+", "+/+")})


def test_barred_hen_by_plain_cock() -> None:
    # Poultry genetics (secondary): all sons barred, no daughter; F2 half and half in both sexes.
    f1 = looks(ZW, {}, {"b": "B/W"})
    assert f1 == approx({("barred", "male"): 1 / 2, ("normal", "female"): 1 / 2})
    f2 = looks(ZW, {"b": "B/+"}, {"b": "+/W"})
    assert f2 == approx({(form, sex): 1 / 4 for form in ("normal", "barred") for sex in ("male", "female")})


def test_plain_hen_by_barred_cock() -> None:
    # Poultry genetics (secondary): F1 all barred; F2 sons all barred, daughters 1:1.
    assert looks(ZW, {"b": "B/B"}, {}) == approx({("barred", "male"): 1 / 2, ("barred", "female"): 1 / 2})
    f2 = looks(ZW, {"b": "B/+"}, {"b": "B/W"})
    expected = {("barred", "male"): 1 / 2, ("barred", "female"): 1 / 4, ("normal", "female"): 1 / 4}
    assert f2 == approx(expected)


def test_barred_hen_by_heterozygous_cock() -> None:
    # Poultry genetics (secondary): 1 : 1 : 1 : 1.
    young = genotypes(ZW, {"b": "B/+"}, {"b": "W/B"})
    assert young == approx({(text,): 1 / 4 for text in ("B/W", "+/W", "B/B", "B/+")})


def test_a_lone_copy_may_look_and_die_on_its_own() -> None:
    gene = Gene(id="s", name="s", alleles=("s",), forms={"s/s": "pale", "s/W": "pink"}, placement="sex-chromosome")
    assert looks(genetics(gene), {"s": "s/s"}, {})["pink", "female"] == pytest.approx(1 / 2)
    deadly = Gene(id="s", name="s", alleles=("s",), forms={}, lethal=("s/s",), placement="sex-chromosome")
    assert looks(genetics(deadly), {"s": "s/+"}, {"s": "s/W"}) == approx(
        {("normal", "male"): 1 / 3, ("normal", "female"): 2 / 3}
    )


@pytest.mark.parametrize("r", [0, 0.04, "1/10", 0.5])
def test_both_sex_chromosomes(r: float | str) -> None:
    # Pattern: Mallery & Carrillo 2016, Phyllomedusa (royal python, abstract); the shares 1 - r are recomputed.
    glow = Gene(
        id="g",
        name="g",
        alleles=("g",),
        forms={"g/+": "glow", "g/g": "super"},
        placement="both-sex-chromosomes",
        recombination=r,
    )
    one = genetics(glow, sex_system="XY")
    fraction = 0.1 if isinstance(r, str) else r
    for sire, usual in (("g Y/+ X", "male"), ("g X/+ Y", "female")):
        found = looks(one, {"g": sire}, {})
        assert found["glow", usual] == pytest.approx((1 - fraction) / 2)
    unknown = looks(one, {"g": "g/+"}, {})
    assert unknown == approx({(form, sex): 1 / 4 for form in ("normal", "glow") for sex in ("male", "female")})


def test_recombination_between_two_alike_changes_nothing() -> None:
    gene = recessive("g", placement="both-sex-chromosomes", recombination=0.3)
    one = genetics(gene, sex_system="XY")
    (mother,) = one.prior({"g": "g/+"}, "female")
    gametes = one.units[0].gametes(int(mother.argmax()))
    found = {one.units[0].haplotypes[k]: gametes[k] for k in gametes.nonzero()[0]}
    assert found == pytest.approx({("g", "X"): 1 / 2, ("+", "X"): 1 / 2})


def test_sex_by_temperature_is_a_draw() -> None:
    one = genetics(recessive("a"), sex_system="temperature", female_share=0.9)
    het = {"a": "a/+"}
    assert chance_of(one, {"a": "visual"}, het, het, "female") == pytest.approx(0.25 * 0.9)
    assert chance_of(one, {}, het, het, "male") == pytest.approx(0.1)
    assert chance_of(one, {}, het, het) == pytest.approx(1)


def test_sex_by_chromosomes_is_even() -> None:
    one = genetics(recessive("a"), sex_system="XY")
    assert chance_of(one, {"a": "visual"}, {"a": "a/+"}, {"a": "a/a"}, "female") == pytest.approx(1 / 4)

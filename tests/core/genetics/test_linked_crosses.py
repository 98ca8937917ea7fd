"""Linked genes: both phases, unknown phase, and genes left out of a row."""

from __future__ import annotations

import numpy as np
import pytest
from genetics_cases import chance_of, genetics, het, looks, pairs, recessive, unsexed, visual

from core.genetics.compile import Genetics
from core.plan.model import Linkage

COUPLING, REPULSION = {"a b": "a b/+ +"}, {"a b": "a +/+ b"}
BOTH = {"a b": "a b/a b"}


def linked(r: float | str) -> Genetics:
    return genetics(recessive("a"), recessive("b"), linkage=(Linkage(genes=("a", "b"), recombination=(r,)),))


# Formulas for repulsion: NDSU genetics course page mlm07; the table is recomputed from them.
# r, double recessive of coupling x coupling, repulsion x repulsion, mixed, and test crosses in both phases.
F2 = [
    (0, 1 / 4, 0, 0, 1 / 2, 0),
    (0.01, 9801 / 40000, 1 / 40000, 99 / 40000, 0.495, 0.005),
    (0.05, 361 / 1600, 1 / 1600, 19 / 1600, 0.475, 0.025),
    (0.10, 81 / 400, 1 / 400, 9 / 400, 0.45, 0.05),
    (0.20, 4 / 25, 1 / 100, 1 / 25, 0.40, 0.10),
    (0.30, 49 / 400, 9 / 400, 21 / 400, 0.35, 0.15),
    (0.50, 1 / 16, 1 / 16, 1 / 16, 1 / 4, 1 / 4),
]


@pytest.mark.parametrize("row", F2)
def test_f2_and_test_crosses(row: tuple[float, ...]) -> None:
    one = linked(row[0])
    crosses = [(COUPLING, COUPLING), (REPULSION, REPULSION), (COUPLING, REPULSION), (COUPLING, BOTH), (REPULSION, BOTH)]
    found = [chance_of(one, visual("a", "b"), sire, dam) for sire, dam in crosses]
    assert found == pytest.approx(row[1:], abs=1e-12)


@pytest.mark.parametrize("row", F2)
def test_all_four_classes_of_f2(row: tuple[float, ...]) -> None:
    # A_B_ (2 + t)/4, A_bb and aaB_ (1 - t)/4, aabb t/4: NDSU course page mlm07.
    for phase, t in ((COUPLING, (1 - row[0]) ** 2), (REPULSION, row[0] ** 2)):
        found = unsexed(looks(linked(row[0]), phase, phase))
        assert found["normal", "normal"] == pytest.approx((2 + t) / 4)
        assert found.get(("normal", "visual"), 0) == pytest.approx((1 - t) / 4)
        assert found.get(("visual", "normal"), 0) == pytest.approx((1 - t) / 4)


def test_visual_a_by_visual_b_gives_repulsion() -> None:
    one = linked(0.1)
    ((sire, dam),) = pairs(one, {"a": "a/a"}, {"b": "b/b"})
    young = one.units[0].cross(sire[0], dam[0])
    assert [one.units[0].text(int(g)) for g in young.nonzero()[0]] == ["a +/+ b"]


@pytest.mark.parametrize(
    ("counts", "phase", "r"),
    [
        # Counts: Griffiths et al., Introduction to Genetic Analysis, ch. 4; r recomputed.
        ((1339, 1195, 151, 154), COUPLING, 0.10743),
        # Counts from memory; r recomputed.
        ((157, 146, 965, 1067), REPULSION, 0.12976),
    ],
)
def test_morgan_test_crosses(counts: tuple[int, ...], phase: dict[str, str], r: float) -> None:
    alike, total = counts[0] + counts[1], sum(counts)
    parental = alike if phase is COUPLING else total - alike
    assert 1 - parental / total == pytest.approx(r, abs=5e-6)
    found = looks(linked(1 - parental / total), phase, BOTH)
    same = sum(chance for (a, b, _), chance in found.items() if a == b)
    assert same == pytest.approx(alike / total)


def test_fisher_maize_f2() -> None:
    # Counts from memory; t and r recomputed: the likelihood of an F2 in repulsion is highest there.
    counts = {("normal", "normal"): 1997, ("normal", "visual"): 906, ("visual", "normal"): 904}
    counts[("visual", "visual")] = 32

    def log_likelihood(r: float) -> float:
        found = unsexed(looks(linked(r), REPULSION, REPULSION))
        return float(sum(n * np.log(found[key]) for key, n in counts.items()))

    best = 0.188977
    assert log_likelihood(best) > max(log_likelihood(best - 1e-4), log_likelihood(best + 1e-4))


def test_unknown_phase_is_either_phase() -> None:
    one = linked(0.1)
    (prior, _) = one.prior(het("a", "b"), "male")
    assert {one.units[0].text(int(g)): prior[g] for g in prior.nonzero()[0]} == {"a b/+ +": 0.5, "a +/+ b": 0.5}


def test_hidden_genotypes_given_singly_are_independent() -> None:
    one = linked(0.1)
    prior, _ = one.prior({"a": {"a/+": "2/3", "+/+": "1/3"}, "b": {"b/+": 0.5, "+/+": 0.5}}, "female")
    found = {one.units[0].text(int(g)): prior[g] for g in prior.nonzero()[0]}
    sixth = 1 / 6
    expected = {"a b/+ +": sixth, "a +/+ b": sixth, "a +/+ +": 2 * sixth, "+ b/+ +": sixth, "+ +/+ +": sixth}
    assert found == pytest.approx(expected)


def test_hidden_phase_written_whole() -> None:
    one = linked(0.1)
    prior, _ = one.prior({"a b": {"+ +/a b": 0.75, "+ b/a +": 0.25}}, "male")
    assert {one.units[0].text(int(g)): prior[g] for g in prior.nonzero()[0]} == {"a b/+ +": 0.75, "a +/+ b": 0.25}


def test_a_gene_left_out_joins_the_gaps() -> None:
    row = Linkage(genes=("a", "b", "c"), recombination=(0.1, 0.2))
    whole = genetics(*map(recessive, "abc"), linkage=(row,))
    without = whole.restrict(["a", "c"])
    assert without.units[0].between == pytest.approx((0.1 * 0.8 + 0.9 * 0.2,))
    for carries in ({"a b c": "a b c/+ + +"}, het("a", "b", "c"), {"a b c": "a b +/+ + c"}):
        for forms in (visual("a", "c"), {"a": "visual", "c": "normal"}):
            expected = chance_of(whole, forms, carries, carries)
            assert chance_of(without, forms, carries, carries) == pytest.approx(expected)

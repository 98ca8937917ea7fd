"""What a pair gives, beside Mendel's shares and beside the route engine."""

from __future__ import annotations

import itertools
from fractions import Fraction

import msgspec
import pytest

from core.counter.pair import MOST_LOOKS, Pair, is_quick
from core.counter.ranking import partners
from core.plan.model import Bought, Carries, Linkage, Pairing, Plan, Route, Want
from core.plan.read import load_plan
from core.routes.evaluate import evaluate_route
from desktop.plan_files import SAMPLES

DOUBLE = {"amel": "a/+", "lav": "l/+"}
VISUAL = {"amel": "a/a", "lav": "l/l"}
POSSIBLE = {"amel": {"a/+": "2/3", "+/+": "1/3"}, "lav": {"l/+": "1/2", "+/+": "1/2"}}
BOTH = {"amel": "amel", "lav": "lavender"}


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLES / "amel-lavender.plan.json")


@pytest.fixture(scope="module")
def genes(plan: Plan) -> dict[str, str]:
    """The sample's own ids and forms."""
    return {gene.id: next(iter(gene.forms.values())) for gene in plan.genes}


def test_a_dihybrid_cross_gives_9_3_3_1(plan: Plan, genes: dict[str, str]) -> None:
    # Mendel G 1866, Versuche über Pflanzenhybriden: two hets of two genes; read as textbook knowledge.
    amel, lav = genes
    pair = Pair(plan, {amel: "a/+", lav: "l/+"}, {amel: "a/+", lav: "l/+"})
    assert [round(16 * one.share) for one in pair.hatches] == [9, 3, 3, 1]
    assert sum(one.share for one in pair.hatches) == pytest.approx(1)
    normal = pair.hatches[0]
    assert normal.hides[amel]["a/+"] == pytest.approx(2 / 3)


def test_possible_hets_are_drawn_once_for_all_clutches(plan: Plan, genes: dict[str, str]) -> None:
    # One egg a clutch, nothing lost: a 1/2 het to a visual. Twice normal is 1/2 + 1/2 * 1/4, not (3/4) squared.
    amel, _ = genes
    species = msgspec.structs.replace(plan.species, clutch=msgspec.convert({"fixed": 1}, type(plan.species.clutch)),
                                      clutch_lost=0, fertile=1, hatches=1,
                                      breeds=msgspec.structs.replace(plan.species.breeds, male=1))  # fmt: skip
    small = msgspec.structs.replace(plan, species=species)
    pair = Pair(small, {amel: "a/a"}, {amel: {"a/+": "1/2", "+/+": "1/2"}})
    one, two = pair.at_least_one({amel: genes[amel]}, 2)
    assert one == pytest.approx(1 / 4)
    assert two == pytest.approx(1 - (Fraction(1, 2) + Fraction(1, 2) * Fraction(1, 4)))


@pytest.mark.parametrize("possible", [False, True])
def test_clutches_agree_with_a_route_whose_female_always_lays(
    plan: Plan, genes: dict[str, str], possible: bool
) -> None:
    amel, lav = genes
    het = {amel: "a/+", lav: "l/+"}
    dam = {amel: {"a/+": "2/3", "+/+": "1/3"}, lav: {"l/+": "1/2", "+/+": "1/2"}} if possible else het
    # A male that never sires lays waste to every clutch; a female that never lays has none to count.
    breeds = msgspec.structs.replace(plan.species.breeds, female=1)
    species = msgspec.structs.replace(plan.species, lays=1, clutches_per_season=1, breeds=breeds)
    goal = msgspec.structs.replace(plan.goal, want=(Want(forms=genes),), seasons=3)
    route = Route(
        id="pair", name="Pair",
        groups=(
            Bought(id="m", sex="male", count=1, carries=het, price=0),
            Bought(id="f", sex="female", count=1, carries=dam, price=0),
        ),
        pairings=(Pairing(id="p", males=("m",), females=("f",)),),
    )  # fmt: skip
    always = msgspec.structs.replace(plan, species=species, goal=goal, routes=(route,))
    by_season = evaluate_route(always, route).chance_by_season
    assert Pair(always, het, dam).at_least_one(genes, 3) == pytest.approx(tuple(by_season), abs=1e-9)


def test_sexes_are_told_apart_where_a_gene_sits_on_the_sex_chromosomes() -> None:
    plan = load_plan(SAMPLES / "gecko-sex-linked.plan.json")
    gene = next(one for one in plan.genes if one.placement == "sex-chromosome")
    allele = gene.alleles[0]
    # ZW: a visual female to a normal male gives het males and normal females.
    pair = Pair(plan, {}, {gene.id: f"{allele}/W"})
    assert {(one.sex, one.forms[gene.id]) for one in pair.hatches} == {("male", "normal"), ("female", "normal")}
    back = Pair(plan, {gene.id: f"{allele}/{allele}"}, {})
    looks = {one.sex: one.forms[gene.id] for one in back.hatches}
    assert looks["female"] != "normal"
    assert looks["male"] == "normal"
    assert back.share({gene.id: looks["female"]}, "female") == pytest.approx(1 / 2)


def test_partners_are_ranked_dearer_and_cheaper_alike(plan: Plan, genes: dict[str, str]) -> None:
    amel, lav = genes
    at_home = {amel: "a/+", lav: "l/+"}
    ranked = partners(plan, at_home, "female", genes)
    assert ranked[0].offer.label == "Amel lavender male"
    assert all(one.chance >= other.chance for one, other in itertools.pairwise(ranked))
    assert {one.offer.sex for one in ranked} == {"male"}
    sold = msgspec.structs.replace(ranked[0].offer, quantity=0)
    rest = tuple(sold if offer.id == sold.id else offer for offer in plan.for_sale)
    again = partners(msgspec.structs.replace(plan, for_sale=rest), at_home, "female", genes)
    assert ranked[0].offer.id not in {one.offer.id for one in again}


def test_too_much_in_doubt_is_said_before_it_is_worked_out(plan: Plan) -> None:
    genes = tuple(msgspec.structs.replace(plan.genes[0], id=f"g{n}", name=f"G{n}") for n in range(6))
    linked = Linkage(genes=tuple(gene.id for gene in genes), recombination=(0.1,) * 5)
    wide = msgspec.structs.replace(plan, genes=genes, linkage=(linked,), goal=msgspec.structs.replace(
        plan.goal, want=(Want(forms={"g0": next(iter(plan.genes[0].forms.values()))}),)))  # fmt: skip
    doubtful: Carries = {gene.id: {"a/+": "1/2", "+/+": "1/2"} for gene in genes}
    assert not is_quick(wide, doubtful)
    with pytest.raises(ValueError, match="Too much is only possible"):
        Pair(wide, doubtful, doubtful)


def test_many_genes_in_doubt_are_no_work_where_they_are_not_linked(plan: Plan) -> None:
    form = next(iter(plan.genes[0].forms.values()))
    genes = tuple(msgspec.structs.replace(plan.genes[0], id=f"g{n}", name=f"G{n}") for n in range(12))
    forms = {gene.id: form for gene in genes}
    wide = msgspec.structs.replace(
        plan, genes=genes, combinations=(), goal=msgspec.structs.replace(plan.goal, want=(Want(forms=forms),))
    )
    doubtful: Carries = {gene.id: {"a/+": "1/2", "+/+": "1/2"} for gene in genes}
    assert is_quick(wide, doubtful)
    pair = Pair(wide, doubtful, doubtful)
    # Both are hets in a quarter of cases, which then show in a quarter of the young; each gene for itself.
    assert pair.share(forms) == pytest.approx((1 / 16) ** 12, abs=0)
    assert len(pair.hatches) <= MOST_LOOKS


def test_a_goal_that_neither_carries_never_comes(plan: Plan, genes: dict[str, str]) -> None:
    amel, lav = genes
    free = msgspec.structs.replace(plan, goal=msgspec.structs.replace(plan.goal, want=(Want(forms={}),)))
    pair = Pair(free, {amel: "a/a"}, {amel: "a/a"})
    assert pair.at_least_one(genes, 2) == (0.0, 0.0)
    assert pair.share({lav: "normal"}) == 1.0


def test_a_form_of_the_wild_type_shows_where_nobody_carries_the_gene(plan: Plan) -> None:
    amel = msgspec.structs.replace(plan.genes[0], forms={"+/+": "grey", "a/a": "amel"})
    grey = msgspec.structs.replace(plan, genes=(amel, plan.genes[1]), goal=msgspec.structs.replace(
        plan.goal, want=(Want(forms={plan.genes[1].id: "lavender"}),)))  # fmt: skip
    assert Pair(grey, {}, {}).share({amel.id: "grey"}) == 1

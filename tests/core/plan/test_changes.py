"""Names followed, parts taken out and sets relinked: a sound plan stays sound, and says the same."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from core.plan.check import check_plan
from core.plan.model import ForSale, Gene, Linkage, Plan
from core.plan.places import value_at, with_value
from core.plan.read import load_plan
from core.plan.refit import with_placement, with_sex_system
from core.plan.relink import with_linkage, without_linked
from core.plan.removals import animal_users, gene_users, without_animal, without_gene
from core.plan.renames import rename_allele, rename_animal, rename_gene, reshape_gene

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "assets" / "samples").glob("*.plan.json"))


@pytest.fixture(params=SAMPLES, ids=lambda path: path.name.partition(".")[0])
def plan(request: pytest.FixtureRequest) -> Plan:
    return load_plan(request.param)


@pytest.fixture
def linked() -> Plan:
    return load_plan(next(path for path in SAMPLES if path.name.startswith("corn-linked")))


def for_sale(plan: Plan, carries: dict[str, object]) -> Plan:
    return replace(plan, for_sale=(ForSale(id="x", sex="male", carries=carries, price=1),), routes=())  # type: ignore[arg-type]


def test_a_value_is_read_and_put_at_its_place(plan: Plan) -> None:
    assert value_at(plan, "species.breeds.male") == plan.species.breeds.male
    changed = with_value(plan, "for_sale[1].price", 7)
    assert changed.for_sale[1].price == 7
    assert replace(changed, for_sale=plan.for_sale) == plan


def test_names_there_and_back_change_nothing(plan: Plan) -> None:
    for index, gene in enumerate(plan.genes):
        there = rename_gene(plan, index, "elsewhere")
        assert check_plan(there) == ()
        assert rename_gene(there, index, gene.id) == plan
        for allele in gene.alleles:
            other = rename_allele(plan, index, allele, "q9")
            assert check_plan(other) == ()
            assert rename_allele(other, index, "q9", allele) == plan
    for index, animal in enumerate(plan.my_animals):
        there = rename_animal(plan, index, "elsewhere")
        assert check_plan(there) == ()
        assert rename_animal(there, index, animal.id) == plan


def test_a_form_is_followed_under_its_new_name(plan: Plan) -> None:
    for index, gene in enumerate(plan.genes):
        forms = {text: f"{form} two" for text, form in gene.forms.items()}
        renamed = reshape_gene(plan, index, replace(gene, forms=forms))
        assert check_plan(renamed) == ()
        assert reshape_gene(renamed, index, gene) == plan


def test_a_gene_taken_out_leaves_a_sound_plan(plan: Plan) -> None:
    for gene in plan.genes:
        assert gene_users(plan, gene.id).is_used
        left = without_gene(plan, gene.id)
        assert check_plan(left) == ()
        assert not gene_users(left, gene.id).is_used


def test_an_animal_taken_out_leaves_a_sound_plan(plan: Plan) -> None:
    for animal in plan.my_animals:
        left = without_animal(plan, animal.id)
        assert check_plan(left) == ()
        assert not animal_users(left, animal.id).is_used


def test_another_sex_system_and_another_place(plan: Plan) -> None:
    if all(gene.placement == "autosome" for gene in plan.genes):
        for system in ("ZW", "XY", "temperature"):
            assert check_plan(with_sex_system(plan, system)) == ()
        unlinked = with_linkage(with_sex_system(plan, "XY"), ())
        on_x = with_placement(unlinked, 0, "sex-chromosome")
        assert check_plan(on_x) == ()
        assert check_plan(with_placement(unlinked, 0, "both-sex-chromosomes")) == ()
        assert check_plan(with_sex_system(on_x, "ZW")) == ()
    else:
        assert check_plan(with_sex_system(plan, "XY")) == ()
        assert check_plan(with_placement(plan, 1, "autosome")) == ()


def test_a_lone_copy_keeps_its_look() -> None:
    plan = load_plan(next(path for path in SAMPLES if path.name.startswith("gecko-sex")))
    female = replace(for_sale(plan, {"ash": "s/W"}).for_sale[0], sex="female")
    moved = with_placement(replace(plan, for_sale=(female,), routes=()), 1, "autosome")
    assert moved.for_sale[0].carries == {"ash": "s/s"}


def test_sides_are_kept_where_they_still_say_something(linked: Plan) -> None:
    extra = Gene(id="third", name="Third", alleles=("t",), forms={"t/t": "third"})
    key = "amber slate"
    plan = for_sale(replace(linked, genes=(*linked.genes, extra)), {key: "a s/+ +", "third": "t/t"})
    three = (Linkage(genes=("amber", "third", "slate"), recombination=(0.1, 0.1)),)
    wide = with_linkage(plan, three)
    assert wide.for_sale[0].carries == {"amber third slate": "a t s/+ t +"}
    assert check_plan(wide) == ()
    turned = with_linkage(plan, (Linkage(genes=("slate", "amber"), recombination=(0.12,)),))
    assert turned.for_sale[0].carries == {"slate amber": "s a/+ +", "third": "t/t"}
    apart = with_linkage(plan, ())
    assert apart.for_sale[0].carries == {"amber": "a/+", "slate": "s/+", "third": "t/t"}
    assert with_linkage(for_sale(linked, {key: "a +/+ s"}), ()).for_sale[0].carries == {"amber": "a/+", "slate": "s/+"}


def test_hidden_sides_are_summed_exactly(linked: Plan) -> None:
    hidden = {"a s/+ +": "1/3", "a +/+ s": "1/3", "+ +/+ +": "1/3"}
    apart = with_linkage(for_sale(linked, {"amber slate": hidden}), ())
    assert apart.for_sale[0].carries == {"amber": {"a/+": "2/3", "+/+": "1/3"}, "slate": {"s/+": "2/3", "+/+": "1/3"}}
    assert check_plan(apart) == ()


def test_neighbours_of_a_gene_that_goes_become_neighbours() -> None:
    # Between the outer two of three: r1 + r2 - 2 r1 r2, without interference (Haldane 1919; from memory).
    row = Linkage(genes=("a", "b", "c"), recombination=(0.1, 0.2))
    assert without_linked((row,), "b") == (Linkage(genes=("a", "c"), recombination=(0.26,)),)
    assert without_linked((row,), "a") == (Linkage(genes=("b", "c"), recombination=(0.2,)),)
    assert without_linked((row,), "c") == (Linkage(genes=("a", "b"), recombination=(0.1,)),)
    assert without_linked((Linkage(genes=("a", "b"), recombination=(0.1,)),), "a") == ()

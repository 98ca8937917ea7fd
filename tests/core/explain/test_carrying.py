"""What an animal carries: every choice of every kind of gene, there and back."""

from __future__ import annotations

import itertools

import msgspec
import pytest

from core.explain.carrying import gene_rows, phase_rows, with_gene, with_phase, with_sex
from core.explain.options import Option
from core.plan.check import check_plan
from core.plan.model import (
    Carries,
    Clutch,
    ForSale,
    Gene,
    Goal,
    Linkage,
    Matures,
    Plan,
    Sex,
    Species,
    Want,
)

RECESSIVE = Gene(id="lav", name="Lavender", alleles=("l",), forms={"l/l": "lavender"})
DOMINANT = Gene(id="tig", name="Tiger", alleles=("T",), forms={"T/+": "tiger", "T/T": "tiger"})
INCOMPLETE = Gene(id="saf", name="Saffron", alleles=("S",), forms={"S/+": "saffron", "S/S": "super saffron"})
SERIES = Gene(id="amel", name="Amel", alleles=("a", "u"), forms={"a/a": "amel", "a/u": "ultramel", "u/u": "ultra"})
LINKED = Gene(id="em", name="Ember", alleles=("e",), forms={"e/e": "ember"}, placement="sex-chromosome")
BOTH = Gene(
    id="bo", name="Both", alleles=("b",), forms={"b/b": "both"}, placement="both-sex-chromosomes", recombination=0.1
)
LETHAL = Gene(id="sp", name="Spider", alleles=("P",), forms={"P/+": "web"}, lethal=("P/P",))
OTHER = Gene(id="an", name="Anery", alleles=("n",), forms={"n/n": "anery"})
THIRD = Gene(id="mo", name="Moon", alleles=("m",), forms={"m/m": "moon"})


def plan_of(*genes: Gene, linkage: tuple[Linkage, ...] = ()) -> Plan:
    species = Species(name="s", sex_system="ZW", clutch=Clutch(fixed=4), matures=Matures(male=1, female=1))
    want = (Want(forms={}),)
    return Plan(
        format="pairwright-plan", version=1, title="", currency="", genes=genes, linkage=linkage, species=species,
        goal=Goal(want=want, chance=0.5, seasons=3),
    )  # fmt: skip


SET = plan_of(RECESSIVE, OTHER, THIRD, linkage=(Linkage(genes=("lav", "an", "mo"), recombination=(0.1, 0.2)),))


def options(gene: Gene, sex: Sex) -> tuple[Option, ...]:
    return gene_rows(plan_of(gene), {}, sex)[0].options


def texts(gene: Gene, sex: Sex) -> list[str]:
    return [f"{o.genotype} or {o.otherwise}" if o.otherwise else o.genotype for o in options(gene, sex)]


@pytest.mark.parametrize(
    ("gene", "sex", "offered"),
    [
        (RECESSIVE, "male", ["+/+", "l/+", "l/l", "l/+ or +/+"]),
        (DOMINANT, "male", ["+/+", "T/+", "T/T", "T/T or T/+"]),
        (INCOMPLETE, "male", ["+/+", "S/+", "S/S"]),
        (SERIES, "male", ["+/+", "a/+", "u/+", "a/a", "a/u", "u/u", "a/+ or +/+", "u/+ or +/+"]),
        (LINKED, "female", ["+/W", "e/W"]),
        (LINKED, "male", ["+/+", "e/+", "e/e", "e/+ or +/+"]),
        (BOTH, "female", ["+/+", "b/+", "b Z/+ W", "+ Z/b W", "b/b", "b/+ or +/+"]),
        (BOTH, "male", ["+/+", "b/+", "b/b", "b/+ or +/+"]),
        (LETHAL, "male", ["+/+", "P/+"]),
    ],
)
def test_the_choices_of_every_kind_of_gene(gene: Gene, sex: Sex, offered: list[str]) -> None:
    assert texts(gene, sex) == offered


def sold(plan: Plan, carries: Carries, sex: Sex) -> Plan:
    return msgspec.structs.replace(plan, for_sale=(ForSale(id="x", sex=sex, carries=carries, price=1),))


EVERY = (RECESSIVE, DOMINANT, INCOMPLETE, SERIES, LINKED, BOTH, LETHAL)


@pytest.mark.parametrize(("gene", "sex"), [*itertools.product(EVERY, ("male", "female"))])
def test_every_choice_is_a_plan_and_reads_back_as_itself(gene: Gene, sex: Sex) -> None:
    plan = plan_of(gene, OTHER)
    for option in gene_rows(plan, {}, sex)[0].options:
        for percent in (66, 50, 33, 12.5) if option.otherwise else (None,):
            carries = with_gene(plan, {"an": "n/n"}, sex, gene.id, option, percent)
            row = gene_rows(plan, carries, sex)[0]
            assert (row.chosen, row.percent) == (option, percent)
            assert not check_plan(sold(plan, carries, sex))
            assert carries["an"] == "n/n"


def test_shares_are_written_as_the_trade_means_them() -> None:
    plan = plan_of(RECESSIVE)
    possible = options(RECESSIVE, "male")[-1]

    def at(percent: float) -> object:
        return with_gene(plan, {}, "male", "lav", possible, percent)["lav"]

    assert at(66) == {"l/+": "2/3", "+/+": "1/3"}
    assert at(67) == {"l/+": "2/3", "+/+": "1/3"}
    assert at(50) == {"l/+": "1/2", "+/+": "1/2"}
    assert at(33) == {"l/+": "1/3", "+/+": "2/3"}
    assert at(40) == {"l/+": 0.4, "+/+": 0.6}


def test_normal_is_left_out_as_a_plan_does() -> None:
    plan = plan_of(RECESSIVE)
    assert with_gene(plan, {"lav": "l/l"}, "male", "lav", options(RECESSIVE, "male")[0]) == {}
    linked = plan_of(LINKED)
    assert with_gene(linked, {"em": "e/W"}, "female", "em", options(LINKED, "female")[0]) == {}


@pytest.mark.parametrize(
    "entry", [{"l/l": 0.2, "l/+": 0.5, "+/+": 0.3}, {"l/l": 0.5, "+/+": 0.5}], ids=["three", "no choice"]
)
def test_what_no_choice_covers_stands_as_written(entry: dict[str, float]) -> None:
    plan = plan_of(RECESSIVE, OTHER)
    row = gene_rows(plan, {"lav": entry}, "male")[0]
    assert row.chosen is None
    assert "l/l" in row.as_written
    other = gene_rows(plan, {}, "male")[1].options[1]
    assert with_gene(plan, {"lav": entry}, "male", "an", other) == {"lav": entry, "an": "n/+"}


def test_spelling_does_not_matter() -> None:
    plan = plan_of(RECESSIVE)
    for entry in ("+/l", {"+/l": 1}, {"l/+": "1/1", "+/+": 0}):
        chosen = gene_rows(plan, {"lav": entry}, "male")[0].chosen
        assert chosen is not None
        assert chosen.genotype == "l/+"


def test_a_linked_set_has_a_row_for_its_sides() -> None:
    assert phase_rows(SET, {"lav": "l/+"}) == ()
    (row,) = phase_rows(SET, {"lav": "l/+", "an": "n/+"})
    assert [phase.genotype for phase in row.options] == ["l n +/+ + +", "l + +/+ n +", ""]
    assert row.chosen == row.options[2]
    assert row.options[1].sides == (("lav",), ("an",))
    together = with_phase(SET, {"lav": "l/+", "an": "n/+"}, row, "l n +/+ + +")
    assert together == {"lav an mo": "l n +/+ + +"}
    again = phase_rows(SET, together)[0]
    assert again.chosen == again.options[0]
    assert with_phase(SET, together, again, "") == {"lav": "l/+", "an": "n/+"}


def test_sides_stay_while_two_genes_need_them() -> None:
    whole: Carries = {"lav an mo": "l n +/+ + m"}
    rows = gene_rows(SET, whole, "male")
    assert [row.chosen and row.chosen.genotype for row in rows] == ["l/+", "n/+", "m/+"]
    visual = rows[0].options[2]
    assert with_gene(SET, whole, "male", "lav", visual) == {"lav an mo": "l n +/l + m"}
    normal = rows[2].options[0]
    assert with_gene(SET, whole, "male", "mo", normal) == {"lav an mo": "l n +/+ + +"}
    possible = rows[2].options[-1]
    apart = with_gene(SET, whole, "male", "mo", possible, 50)
    assert apart == {"lav": "l/+", "an": "n/+", "mo": {"m/+": "1/2", "+/+": "1/2"}}


def test_a_hidden_set_stands_as_written_until_it_is_changed() -> None:
    whole: Carries = {"lav an mo": {"l n +/+ + +": "1/2", "l + +/+ n +": "1/2"}}
    (row,) = phase_rows(SET, whole)
    assert row.chosen is None
    assert "l + +/+ n +" in row.as_written
    assert with_gene(SET, whole, "male", "mo", gene_rows(SET, {}, "male")[2].options[1]) == {
        "lav": "l/+", "an": "n/+", "mo": "m/+",
    }  # fmt: skip


def test_another_sex_keeps_what_shows() -> None:
    plan = plan_of(LINKED, RECESSIVE)
    assert with_sex(plan, {"em": "e/W", "lav": "l/+"}, "male") == {"em": "e/e", "lav": "l/+"}
    assert with_sex(plan, {"em": "e/+"}, "female") == {"em": "e/W"}
    assert with_sex(plan, {"em": {"e/+": "1/2", "+/+": "1/2"}}, "female") == {"em": {"e/W": "1/2", "+/W": "1/2"}}
    assert with_sex(plan, {"em": {"e/+": "1/2", "e/e": "1/2"}}, "female") == {"em": "e/W"}
    assert with_sex(plan_of(BOTH), {"bo": "b Z/+ W"}, "male") == {"bo": "b/+"}

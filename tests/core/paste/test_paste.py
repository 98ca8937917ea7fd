"""Pasted lists: understood, or marked; never guessed, never slow."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from core.paste.parts import Line, Target, settle
from core.paste.read import read_line, read_list
from core.paste.take import add_for_sale, add_my_animals
from core.plan.check import check_plan
from core.plan.model import Plan
from core.plan.read import load_plan, read_plan
from core.plan.write import write_plan
from tests.core.plan.plan_cases import SAMPLE

PLAN = load_plan(SAMPLE)
SAMPLES = Path(__file__).parents[3] / "assets" / "samples"
HALF = {"l/+": "1/2", "+/+": "1/2"}
TWO_THIRDS = {"l/+": "2/3", "+/+": "1/3"}


def read(text: str, target: Target = "for sale") -> Line:
    return read_line(text, PLAN, target)


@pytest.mark.parametrize(
    ("text", "sex", "quantity", "carries", "price"),
    [
        ("1.0 Lavender het amel $340 2x", "male", 2, {"amel": "a/+", "lav": "l/l"}, 340),
        ("0.2 double het 230", "female", 2, {"amel": "a/+", "lav": "l/+"}, 230),
        ("m dh 160 qty 2", "male", 2, {"amel": "a/+", "lav": "l/+"}, 160),
        ("female amel 66% het lav 150", "female", 1, {"amel": "a/a", "lav": TWO_THIRDS}, 150),
        ("f amel 66 % ph lav 150", "female", 1, {"amel": "a/a", "lav": TWO_THIRDS}, 150),
        ("0.1 visual amel, 50% possible het lav, $1,250.50", "female", 1, {"amel": "a/a", "lav": HALF}, 1250.5),
        ("males opal 700 usd", "male", 1, {"amel": "a/a", "lav": "l/l"}, 700),
        ("0.1 het for lavender 80 x3", "female", 3, {"lav": "l/+"}, 80),
        ("0.1 amel/lav 80", "female", 1, {"amel": "a/a", "lav": "l/l"}, 80),
        ("0.1 wild type 15", "female", 1, {}, 15),
        ("0.1 normal het amel 15", "female", 1, {"amel": "a/+"}, 15),
        ("3 females het amel 120", "female", 3, {"amel": "a/+"}, 120),
    ],
)
def test_sellers_words_are_understood(
    text: str, sex: str, quantity: int, carries: dict[str, object], price: float
) -> None:
    line = read(text)
    assert not line.marks
    assert (line.sex, line.quantity, line.carries, line.price) == (sex, quantity, carries, price)


@pytest.mark.parametrize(
    ("text", "unclear"),
    [
        ("0.1 amel het anery 230", "het anery"),
        ("0.1 amel ph lav 230", "ph"),
        ("0.1 amel 1.200", "1.200"),
        ("0.1 amel 15 20", "20"),
        ("1.2 double het 230", "1.2"),
        ("0.1 66% het amel lav 230", "lav"),
        ("0.1 double het amel 230", "double het"),
        ("0.1 amel yearling 230", "yearling"),
        ("amel 230", ""),
        ("0.1 amel", ""),
        ("0.1 amel het amel 20", "amel"),
        ("0.1 =SUM(A1) 20", "=SUM"),
        ("0.1 amel/+ 20", "/+"),
        ("0.1 normal amel 20", "normal"),
        ("0.1 amel % het lav 20", "% het"),
        ("2 male amel 20", "2"),
    ],
)
def test_the_unclear_is_marked_and_not_taken(text: str, unclear: str) -> None:
    line = read(text)
    assert unclear in [text[mark.start : mark.end] for mark in line.marks]
    assert add_for_sale(PLAN, [line]) == PLAN


@pytest.mark.parametrize(
    ("text", "currency", "unclear"),
    [
        ("0.1 amel 160 eur", "USD", ["eur"]),
        ("0.1 amel €1,250.50", "USD", ["€"]),
        ("0.1 amel 160£", "USD", ["£"]),
        ("0.1 amel € 160", "USD", ["€"]),
        ("0.1 amel 160 usd", "EUR", ["usd"]),
        ("0.1 amel price $160", "EUR", ["$"]),
        ("0.1 amel $160", "USD", []),
        ("0.1 amel $160 cad", "CAD", []),
        ("0.1 amel 160 EUR", "€", []),
        ("0.1 amel 160 eur", "", []),
    ],
)
def test_a_price_in_another_currency_is_for_the_person_to_settle(text: str, currency: str, unclear: list[str]) -> None:
    plan = replace(PLAN, currency=currency)
    line = read_line(text, plan, "for sale")
    assert [text[mark.start : mark.end] for mark in line.marks] == unclear
    for found in line.marks:
        (as_it_stands,) = found.choices
        settled = read_line(settle(line, found, as_it_stands), plan, "for sale")
        assert (settled.marks, settled.price) == ((), line.price)
    # Of what is mine no price is kept.
    assert not read_line(text, plan, "mine").marks


def test_each_choice_settles_what_it_is_for() -> None:
    line = read("0.1 amel ph lav 230")
    (mark,) = line.marks
    assert read(settle(line, mark, mark.choices[0])).carries == {"amel": "a/a", "lav": TWO_THIRDS}


def test_young_wait_until_they_can_breed() -> None:
    assert read("0.1 amel hatchling 20").ready_in == PLAN.species.matures.female
    assert read("0.1 amel 20 ready in 2").ready_in == 2


def test_csv_with_a_header_row() -> None:
    text = 'Sex,Genes,Price,Qty,Name\n0.1,"amel, het lav","1,250",2,Juno\nm,lav,90,,=HYPERLINK()'
    first, second = read_list(text, PLAN, "for sale").lines
    assert (first.price, first.quantity, first.label, first.marks) == (1250, 2, "Juno", ())
    assert (second.label, second.carries) == ("=HYPERLINK()", {"lav": "l/l"})


@pytest.mark.parametrize(
    ("text", "price", "unclear"),
    [
        ("male,amel het lav,340,2", 340, ["2"]),
        ("female,amel,1,200", 1, ["200"]),
        ('male,"amel, het lav","1,250"', 1250, []),
        ('male;"amel, het lav";340,50', 340.5, []),
        ("0.1 amel, het lav, $1,200", 1200, []),
    ],
)
def test_cells_without_a_header_row_stay_apart(text: str, price: float, unclear: list[str]) -> None:
    (line,) = read_list(text, PLAN, "for sale").lines
    assert line.price == price
    assert line.label == ""
    assert [line.text[mark.start : mark.end] for mark in line.marks] == unclear


def test_what_is_taken_over_is_a_sound_plan() -> None:
    lines = read_list("0.2 double het 230\n1.0 amel 20\n", PLAN, "for sale").lines
    for plan in (add_for_sale(PLAN, lines), add_my_animals(PLAN, lines)):
        assert check_plan(plan) == ()
        assert read_plan(write_plan(plan)) == plan
    assert len(add_my_animals(PLAN, lines).my_animals) == 3


WORDS = st.sampled_from(
    ["0.1", "1.0", "1.2", "amel", "lav", "het", "66%", "ph", "double", "opal", "230", "x2", "$1,000", "foo", "/", '"a"',
     "amel=a/+", "lav=l/l", "hatchling", "ready in 2", "male", "f", "99999999999999", "x0", "0.0", "normal", "ready"]
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(st.one_of(st.text(max_size=80), st.lists(WORDS, max_size=9).map(" ".join)))
def test_any_line_is_marked_or_sound(text: str) -> None:
    for target, add in (("for sale", add_for_sale), ("mine", add_my_animals)):
        lines = read_list(text, PLAN, target).lines  # type: ignore[arg-type]
        for line in lines:
            assert all(0 <= mark.start <= mark.end <= len(line.text) for mark in line.marks)
        assert check_plan(add(PLAN, lines)) == ()


@pytest.mark.parametrize("text", ["a/" * 500_000, '"' * 10**6, "\0\1," * 300_000, "1," * 500_000, "a,b\n" * 10_000])
def test_hostile_lists_are_bounded(text: str) -> None:
    start = time.process_time()
    listing = read_list(text, PLAN, "mine")
    assert len(listing.lines) <= 1_000
    assert time.process_time() - start < 3


def sample(name: str) -> Plan:
    return load_plan(SAMPLES / f"{name}.plan.json")


def test_one_copy_sex_is_never_het() -> None:
    plan = sample("gecko-sex-linked")
    assert read_line("0.1 ash het dusk 90", plan, "mine").carries == {"dusk": "d/+", "ash": "s/W"}
    assert read_line("1.0 het ash 90", plan, "mine").carries == {"ash": "s/+"}
    assert read_line("0.1 het ash 90", plan, "mine").marks


def test_an_allelic_series_by_its_forms() -> None:
    plan = sample("hognose-series")
    assert read_line("m caramel het axanthic", plan, "mine").carries == {"sand": "f/t", "axan": "x/+"}
    assert read_line("m het frosted", plan, "mine").carries == {"sand": "f/+"}
    (mark,) = read_line("m het sand", plan, "mine").marks
    assert [choice.text for choice in mark.choices] == ["sand=t/+", "sand=f/+", ""]
    assert read_line("m sand=f/+", plan, "mine").carries == {"sand": "f/+"}


@pytest.mark.parametrize(
    "name", ["royal-possible-hets", "corn-linked", "gecko-three-generations", "boa-my-animals", "hognose-series"]
)
def test_each_sample_understands_its_own_words(name: str) -> None:
    plan = sample(name)
    for gene in plan.genes:
        line = read_line(f"0.1 het {gene.name} 20", plan, "for sale")
        assert check_plan(add_for_sale(plan, [line])) == ()

"""Words of forms: units after one and many, numbers as short as they can be, and rules of the file in plain words."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from core.explain.numbers import PLAIN
from core.plan.check import check_plan
from core.plan.model import Plan
from core.plan.places import with_value
from core.plan.read import load_plan
from desktop.forms.kinds import Amount, Id, Money, Refused, Share, Whole, Words
from desktop.plan_files import SAMPLE
from desktop.words import assumptions, genes
from desktop.words.forms import unit
from desktop.words.numbers import PlainNumbers
from desktop.words.origins import origin
from desktop.words.told import told


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLE)


def test_units() -> None:
    assert unit("season|seasons", 1, "EUR") == "season"
    assert unit("season|seasons", 0, "EUR") == "seasons"
    assert unit("{currency} a season", 1, "EUR") == "EUR a season"


@pytest.mark.parametrize(
    ("share", "shown"),
    [(0.85, "85"), (1, "100"), (0, "0"), (0.0125, "1.25"), ("2/3", "66.67"), ("1/2", "50"), (-0.05, "-5")],
)
def test_shares_in_percent(share: float | str, shown: str) -> None:
    assert Share().show(share, PlainNumbers()) == shown


@pytest.mark.parametrize(
    ("kind", "typed", "value"),
    [
        (Share(), "72.5", 0.725),
        (Share(), " 2 / 3 ", "2/3"),
        (Share(), "100 %", 1),
        (Share(), "-2.5", -0.025),
        (Money(), "1,800", 1800),
        (Money(empty="any"), " ", None),
        (Amount(), "2.25", 2.25),
        (Whole(), "12", 12),
        (Words(empty=""), "  a name ", "a name"),
    ],
)
def test_what_is_typed_is_read(kind: Share | Amount | Whole | Words, typed: str, value: object) -> None:
    assert kind.read(typed) == value


@pytest.mark.parametrize(("kind", "typed"), [(Whole(), "1.5"), (Money(), ""), (Share(), "1/0"), (Id(), " ")])
def test_what_is_no_value_is_told(kind: Share | Amount | Whole | Words, typed: str) -> None:
    assert isinstance(kind.read(typed), Refused)


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        ("goal.seasons", 2, "the route “Double hets, then buy” buys the finished animal after season 2"),
        ("goal.want[0].forms", {"amel": "gone"}, "the goal asks for “gone”, which no animal would show any more"),
        ("species.clutch.min", 30, "the most would be below the least, 30: change the other first"),
        ("goal.chance", 1, "must lie between 0 and 100 % and be neither"),
        ("for_sale[1].id", "dh-m", "“Double het female” for sale “dh-m” is already taken"),
    ],
)
def test_rules_of_the_file_in_plain_words(plan: Plan, place: str, value: object, said: str) -> None:
    changed = with_value(plan, place, value)
    assert said in told(changed, "Field", check_plan(changed)[0])


def test_where_numbers_came_from(plan: Plan) -> None:
    assert origin(plan, ("species.lays",), PLAIN, "lays") == "Invented for this example."
    mine = replace(plan, notes="All mine.")
    assert origin(mine, ("species.lays",), PLAIN, "lays") == ""
    assert origin(mine, ("species.clutch",), PLAIN, "clutch").startswith("Known: 10 to 15. Source: A zoo leaflet")
    royal = with_value(mine, "species.name", "Royal python")
    assert origin(royal, ("species.hatches",), PLAIN, "hatches").startswith("Known: 81 %. Source: Hatching success")


def test_genotypes_in_words() -> None:
    assert genes.genotype(("+", "a"), ("a",)) == "One copy looks"
    assert genes.genotype(("f", "t"), ("t", "f")) == "t and f together look"
    assert genes.genotype(("W", "b"), ("b",)) == "One copy (its only one, with W) looks"


def test_counts_in_words() -> None:
    assert assumptions.read_cautions(0) == "No caution is marked as read."
    assert assumptions.read_cautions(1) == "1 caution is marked as read."
    assert assumptions.read_cautions(3) == "3 cautions are marked as read."
    assert assumptions.sexed("male", 1) == "a male"
    assert assumptions.sexed("female", 2) == "2 females"


def test_an_entry_is_known_wherever_it_stands_in_its_list(plan: Plan) -> None:
    last = len(plan.for_sale) - 1
    assert origin(plan, (f"for_sale[{last}].price",), PLAIN) == "Invented for this example."
    turned = replace(plan, for_sale=tuple(reversed(plan.for_sale)))
    assert origin(turned, ("for_sale[0].price",), PLAIN) == "Invented for this example."
    dearer = with_value(turned, "for_sale[0].price", turned.for_sale[0].price + 1)
    assert origin(dearer, ("for_sale[0].price",), PLAIN) == ""
    own = with_value(turned, "for_sale[0].id", "my-own")
    assert origin(own, ("for_sale[0].price",), PLAIN) == ""

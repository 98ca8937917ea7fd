"""What one more clutch tells, against the carrier table and against adding the clutch."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.genetics.beliefs import belief_report
from core.season.learned import changes
from core.season.telling import telling
from tests.core.season.season_cases import PAIR, dominant, plan, record

# Prior 2/3 with a visual mate, recomputed by Bayes' rule: 2/(2 + 2^n).
VISUAL_MATE = ["2/3", "1/2", "1/3", "1/5", "1/9", "1/17", "1/33", "1/65", "1/129", "1/257", "1/513"]
# Prior 2/3 with one normal mate that is het with chance 1/2, recomputed.
UNKNOWN_MATE = ["2/3", "7/11", "25/41", "91/155", "337/593", "1267/2291"]


def test_possible_het_with_a_visual_mate() -> None:
    told = telling(plan(my_animals=PAIR), "M", "F", "lav", most=10)
    assert told.dam == pytest.approx([float(Fraction(one)) for one in VISUAL_MATE])
    assert told.sire == pytest.approx([1.0] * 11)
    assert told.visual[1] == pytest.approx(1 / 3)
    # Test sizes, recomputed: 6 normal young bring two thirds down to 5 in 100, 8 to 1 in 100.
    assert told.needed(told.dam, 0.05) == 6
    assert told.needed(told.dam, 0.01) == 8
    assert told.needed(told.sire, 0.5) is None


def test_unknown_mate() -> None:
    mate = {"id": "M", "sex": "male", "carries": {"lav": {"l/+": 0.5, "+/+": 0.5}}}
    told = telling(plan(my_animals=[mate, PAIR[1]]), "M", "F", "lav", most=5)
    assert told.dam == pytest.approx([float(Fraction(one)) for one in UNKNOWN_MATE])


@pytest.mark.parametrize("n", [1, 4, 9])
def test_as_if_the_young_were_recorded(n: int) -> None:
    told = telling(plan(my_animals=PAIR), "M", "F", "lav")
    after = belief_report(plan(my_animals=PAIR, clutch_records=[record("M", "F", ("normal", n))]))
    assert told.dam[n] == pytest.approx(after["F"]["lav"]["l/+"])


def test_one_clutch_with_losses() -> None:
    # Each of 4 eggs hatches with .5 and shows it with 1/2 where she is het, which she is with 2/3.
    told = telling(plan(my_animals=PAIR, species={"fertile": 0.5}), "M", "F", "lav")
    assert told.clutch == pytest.approx(2 / 3 * (1 - 0.75**4))


def test_what_a_record_changed() -> None:
    before = plan(my_animals=PAIR)
    after = plan(my_animals=PAIR, clutch_records=[record("M", "F", ("normal", 4))])
    (change,) = changes(before, after)
    assert (change.animal, change.gene) == ("F", "lav")
    assert (change.before, change.after) == (pytest.approx(2 / 3), pytest.approx(1 / 9))
    assert changes(after, after) == ()


def test_one_clutch_with_eggs_that_cannot_hatch() -> None:
    # Of each four eggs of two carriers one is lethal, so that an egg of a het dam shows it with 3/4 × 1/2.
    lav = {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}
    deadly = {"id": "p", "name": "Pied", "alleles": ["p"], "forms": {"p/+": "pied"}, "lethal": ["p/p"]}
    mine = [{**one, "carries": {**one["carries"], "p": "p/+"}} for one in PAIR]
    told = telling(plan(genes=[lav, deadly], my_animals=mine), "M", "F", "lav")
    assert told.clutch == pytest.approx(2 / 3 * (1 - (1 - 3 / 8) ** 4))
    of_itself = telling(plan(genes=[lav, deadly], my_animals=mine), "M", "F", "p")
    assert of_itself.clutch == pytest.approx(1 - 0.5**4)


@pytest.mark.parametrize(("sire", "chances"), [("D/+", [1 / 2, 1 / 3, 1 / 5]), ("D/D", [1 / 2, 0, 0])])
def test_a_look_that_the_mate_may_give_alone_proves_nothing(sire: str, chances: list[float]) -> None:
    told = telling(plan(**dominant(sire)), "M", "F", "d", most=2)
    assert told.dam == pytest.approx(chances)
    assert told.sire_shown == pytest.approx(1)
    # Of two carriers 3/4 of the young show it, of him and a normal dam 1/2; whatever she is, all of a D/D sire's do.
    assert told.dam_shown == pytest.approx(3 / 5 if sire == "D/+" else 1 / 2)


def test_a_visual_daughter_says_nothing_of_her_dam() -> None:
    sexed = {"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}
    mine = [PAIR[0] | {"carries": {"lav": "l/+"}}, PAIR[1] | {"carries": {"lav": {"l/W": 0.5, "+/W": 0.5}}}]
    told = telling(plan(genes=[sexed | {"placement": "sex-chromosome"}], my_animals=mine), "M", "F", "lav", most=1)
    # Of a carrier 1/2 of the young show it, of the other 1/4: daughters only.
    assert told.dam_shown == pytest.approx(2 / 3)


def test_a_visual_of_a_recessive_gene_proves_both() -> None:
    told = telling(plan(my_animals=PAIR), "M", "F", "lav", most=1)
    assert (told.sire_shown, told.dam_shown) == (pytest.approx(1), pytest.approx(1))

"""What is believed of animals, said by state; what their young can look like."""

from __future__ import annotations

import pytest
from season_cases import PAIR, plan, record

from core.season.believed import Believed, believed
from core.season.hatching import looks


def hazel(*records: object, **parts: object) -> Believed:
    found = believed(plan(my_animals=PAIR, clutch_records=list(records), **parts))
    return next(one for one in found if one.animal.id == "F")


def test_four_normal_young_of_a_visual_male() -> None:
    # Bayes: 2/3 halved four times beside 1/3, which is 1/9.
    (gene,) = hazel(record("M", "F", ("normal", 4))).genes
    assert gene.state == "open"
    assert (gene.before, gene.now) == (pytest.approx(2 / 3), pytest.approx(1 / 9))
    assert gene.normal_young == 4


def test_one_visual_young_proves_her() -> None:
    one = hazel(record("M", "F", ("normal", 4), ("lavender", 1)))
    assert [gene.state for gene in one.genes] == ["proven"]
    # What is certain is written as one genotype, however it was summed.
    assert one.carries == {"lav": "l/+"}


def test_what_shows_and_what_never_was_in_question() -> None:
    flint = believed(plan(my_animals=PAIR))[0]
    assert [gene.state for gene in flint.genes] == ["shows"]
    normal = [{"id": "N", "name": "Moss", "sex": "male"}]
    assert believed(plan(my_animals=normal))[0].genes == ()


def test_a_look_clears_a_possible_visual() -> None:
    young = [
        {"id": "M", "sex": "male", "carries": {"lav": "l/l"}},
        {"id": "F", "sex": "female"},
        {"id": "D", "sex": "female", "sire": "M", "dam": "F", "forms": {"lav": "normal"}},
    ]
    (daughter,) = believed(plan(my_animals=young))[2].genes
    assert daughter.state == "carries"
    assert daughter.now == pytest.approx(1)


def test_looks_of_the_young_are_shares_of_what_hatches() -> None:
    # A visual to a 66 % het: a third of all young are visual, and every look is there.
    found = looks(plan(my_animals=PAIR), "M", "F")
    assert [(one.forms, pytest.approx(one.share)) for one in found] == [
        ({"lav": "normal"}, 2 / 3),
        ({"lav": "lavender"}, 1 / 3),
    ]


def test_looks_leave_out_genes_that_cannot_show() -> None:
    pair = [{"id": "M", "sex": "male"}, {"id": "F", "sex": "female", "carries": {"lav": "l/+"}}]
    assert [(one.forms, one.share) for one in looks(plan(my_animals=pair), "M", "F")] == [({}, pytest.approx(1))]


def test_lethal_young_are_no_look() -> None:
    # A het cross of a gene that is lethal twice: 2 to 1 among those that hatch.
    genes = [
        {
            "id": "lav",
            "name": "Lavender",
            "alleles": ["l"],
            "forms": {"l/l": "super", "l/+": "lavender"},
            "lethal": ["l/l"],
        }
    ]
    pair = [
        {"id": "M", "sex": "male", "carries": {"lav": "l/+"}},
        {"id": "F", "sex": "female", "carries": {"lav": "l/+"}},
    ]
    goal = {"want": [{"forms": {"lav": "lavender"}}]}
    found = looks(plan(genes=genes, my_animals=pair, goal=goal), "M", "F")
    assert {one.forms["lav"]: pytest.approx(one.share) for one in found} == {"normal": 1 / 3, "lavender": 2 / 3}

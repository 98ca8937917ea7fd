"""Cautions on genes: what is lethal, and what is documented of health."""

from __future__ import annotations

from typing import Any

import pytest

from core.advice.caution import Caution
from core.plan.gene_notes import gene_notes, notes_of
from core.plan.presets import species_presets
from tests.core.advice.advice_cases import bought, found, held, pairing, plan, read, route

Json = dict[str, Any]
# Dominant with a lethal pair, invented.
CURL = {"id": "curl", "name": "Curl", "alleles": ["C"], "forms": {"C/+": "curl"}, "lethal": ["C/C"]}
FROST = {"id": "frost", "name": "Lemon frost", "alleles": ["F"], "forms": {"F/+": "frost", "F/F": "super frost"}}
GECKO = {"name": "Leopard gecko", "sex_system": "temperature"}


def told(genes: list[Json], him: Json, her: Json, **parts: Any) -> dict[str, Caution]:
    """The cautions on one pair."""
    animals = [bought("sire", "male", carries=him), bought("dams", "female", carries=her)]
    goal = {"want": [{"forms": {genes[0]["id"]: next(iter(genes[0]["forms"].values()))}}]}
    drawn = route(animals, [pairing("first", "sire", "dams")])
    return found(plan(genes=genes, routes=[drawn], **{"goal": goal, **parts}))


def test_lethal_quarter() -> None:
    # OpenStax Biology m44478, "Lethality": two carriers give survivors 2:1, so that one of four is lost.
    caution = told([CURL], {"curl": "C/+"}, {"curl": "C/+"})["lethal/r/first"]
    assert caution.sentence == "1 of 4 fertile eggs of sire × dams cannot hatch: they get a lethal genotype (Curl)."


def test_only_the_gene_they_die_of_is_named() -> None:
    other = {"id": "bent", "name": "Bent", "alleles": ["B"], "forms": {"B/+": "bent"}, "lethal": ["B/B"]}
    caution = told([CURL, other], {"curl": "C/+", "bent": "B/+"}, {"curl": "C/+"})["lethal/r/first"]
    assert caution.sentence.endswith("(Curl).")
    both = told([CURL, other], {"curl": "C/+", "bent": "B/+"}, {"curl": "C/+", "bent": "B/+"})["lethal/r/first"]
    assert both.sentence.startswith("7 of 16 fertile eggs")
    assert both.sentence.endswith("(Curl and Bent).")


def test_a_live_bearer_has_no_eggs_to_lose() -> None:
    species = {"name": "Some boa nobody knows", "young": "live"}
    caution = told([CURL], {"curl": "C/+"}, {"curl": "C/+"}, species=species)["lethal/r/first"]
    assert caution.sentence.startswith("1 of 4 young of sire × dams cannot live")
    assert not any("egg" in said or "laid" in said for said in (caution.short, caution.sentence, caution.why))


def test_one_carrier_loses_nothing() -> None:
    assert "lethal/r/first" not in told([CURL], {"curl": "C/+"}, {})


def test_lethal_share_of_a_possible_carrier() -> None:
    hidden = {"curl": {"C/+": 0.3, "+/+": 0.7}}
    caution = told([CURL], {"curl": "C/+"}, hidden)["lethal/r/first"]
    assert caution.short == "About 7.5 % of the eggs cannot hatch"


def test_later_groups_of_a_pairing_count() -> None:
    carrier, plain = {"curl": "C/+"}, dict[str, str]()
    animals = [bought("sire", "male", carries=carrier), bought("dams", "female", carries=plain)]
    animals.append(bought("others", "female", carries=carrier))
    drawn = route(animals, [pairing("first", "sire", "dams") | {"females": ["dams", "others"]}])
    cautions = found(plan(genes=[CURL], routes=[drawn], goal={"want": [{"forms": {"curl": "curl"}}]}))
    assert cautions["lethal/r/first"].short == "Up to 1 of 4 eggs cannot hatch"


def test_documented_problem_names_the_paper() -> None:
    caution = told([FROST], {"frost": "F/+"}, {}, species=GECKO)["health/r/lemon-frost"]
    assert "Guo and others 2021" in caution.source
    assert "tumours" in caution.why


@pytest.mark.parametrize("him", [{}, {"frost": "+/+"}, {"frost": {"+/+": 1, "F/+": 0}}])
def test_no_carrier_no_caution(him: Json) -> None:
    assert "health/r/lemon-frost" not in told([FROST], him, {}, species=GECKO)


@pytest.mark.parametrize(("form", "words"), [("frost", "would show"), ("super frost", "would have two copies of")])
def test_goal_animals(form: str, words: str) -> None:
    goal = {"want": [{"forms": {"frost": form}}]}
    caution = told([FROST], {"frost": "F/+"}, {"frost": "F/+"}, species=GECKO, goal=goal)["health-of-the-goal/frost"]
    assert words in caution.sentence


def test_a_goal_without_the_gene() -> None:
    goal = {"want": [{"forms": {"frost": "normal"}}]}
    cautions = told([FROST], {"frost": "F/+"}, {}, species=GECKO, goal=goal)
    assert "health-of-the-goal/frost" not in cautions


def test_a_goal_that_looks_normal_does_not_show_a_recessive() -> None:
    hidden = {"id": "frost", "name": "Lemon frost", "alleles": ["f"], "forms": {"f/f": "frost"}}
    goal = {"want": [{"forms": {"frost": "normal"}}]}
    told_of = told([hidden], {"frost": "f/+"}, {"frost": "f/+"}, species=GECKO, goal=goal)
    assert "health-of-the-goal/frost" not in told_of


def test_another_species_with_a_gene_of_that_name() -> None:
    assert not notes_of(read(plan(genes=[FROST], goal={"want": [{"forms": {"frost": "frost"}}]})))
    unknown = {"name": "Some gecko nobody knows", "sex_system": "temperature"}
    assert notes_of(read(plan(genes=[FROST], species=unknown, goal={"want": [{"forms": {"frost": "frost"}}]})))


def test_my_animals_may_carry_it_by_their_parents() -> None:
    mine = [
        {"id": "old", "sex": "male", "carries": {"frost": "F/+"}},
        {"id": "mate", "sex": "female"},
        {"id": "him", "sex": "male", "sire": "old", "dam": "mate"},
    ]
    animals = [{"id": "sire", "sex": "male", "animals": ["him"], "origin": "own"}, bought("dams", "female", carries={})]
    drawn = route(
        [*animals, held("young", "female", "first")],
        [pairing("first", "sire", "dams"), pairing("back", "sire", "young")],
    )
    goal = {"want": [{"forms": {"frost": "frost"}}]}
    assert "health/r/lemon-frost" in found(
        plan(genes=[FROST], species=GECKO, my_animals=mine, goal=goal, routes=[drawn])
    )


def test_every_note_has_source_and_status() -> None:
    species = {preset.id for preset in species_presets()}
    for notes in gene_notes():
        assert notes.species in species
        assert len({note.id for note in notes.genes}) == len(notes.genes)
        for note in notes.genes:
            for value in (note.locus, note.mode):
                assert value.source
                assert (value.value is None) == (value.status == "unknown")
            for welfare in note.welfare:
                assert welfare.text.endswith(".")
                assert welfare.source
                assert welfare.status == "verified"

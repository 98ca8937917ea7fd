"""Inbreeding beside a route, by the route's own drawing and by the pedigree of my animals."""

from __future__ import annotations

from typing import Any

import pytest

from tests.core.advice.advice_cases import bought, found, held, pair, pairing, plan, route

Json = dict[str, Any]
FOUNDERS = [bought("sire", "male"), bought("dam", "female"), bought("other", "female")]
FIRST = [pairing("first", "sire", "dam", 1, 1), pairing("second", "sire", "other", 1, 1)]
SON, DAUGHTER = held("son", "male", "first"), held("daughter", "female", "first")
HALF_SISTER = held("half", "female", "second")
# The matings as routes; coefficients after Wright S 1922, American Naturalist 56:330-338, recomputed. Full sibs: an
# encyclopedia entry, "coefficient of inbreeding" (secondary); half sibs: BMC Genetics 11:85, Table 4.
DRAWN = [
    ("back to the sire", [DAUGHTER], pairing("back", "sire", "daughter"), "Father to daughter", "25 %"),
    ("back to the dam", [SON], pairing("back", "son", "dam"), "Mother to son", "25 %"),
    ("full sibs", [SON, DAUGHTER], pairing("back", "son", "daughter"), "Siblings paired", "25 %"),
    ("half sibs", [SON, HALF_SISTER], pairing("back", "son", "half"), "Relatives paired", "12.5 %"),
]


@pytest.mark.parametrize(("name", "kept", "last", "relation", "share"), DRAWN)
def test_by_route(name: str, kept: list[Json], last: Json, relation: str, share: str) -> None:
    told = found(plan(routes=[route([*FOUNDERS, *kept], [*FIRST, last])]))
    assert [key for key in told if key.startswith("inbreeding")] == ["inbreeding/r/back"], name
    assert told["inbreeding/r/back"].short == f"{relation}, {share} inbred"
    assert f"are {share} inbred" in told["inbreeding/r/back"].sentence


def test_young_held_back_into_their_own_pairing() -> None:
    groups = [bought("sire", "male"), bought("dams", "female"), held("daughters", "female", "first")]
    mixed = {**pairing("first", "sire", "dams"), "females": ["dams", "daughters"]}
    again = route([*groups, bought("other", "male")], [mixed, pairing("fresh", "other", "daughters")])
    told = found(plan(routes=[again]))
    assert told["inbreeding/r/first"].sentence == (
        "Young of sire × dams and daughters can be inbred, more so with every generation."
    )
    assert "inbreeding/r/fresh" not in told


def test_of_several_groups_the_closest_count() -> None:
    last = {**pairing("back", "sire", "daughter"), "females": ["other", "daughter"]}
    told = found(plan(routes=[route([*FOUNDERS, DAUGHTER], [*FIRST[:1], last])]))
    assert told["inbreeding/r/back"].sentence.startswith("Young of sire × other and daughter are up to 25 % inbred")


def test_unrelated_animals_are_no_matter() -> None:
    assert not [key for key in found(plan(routes=[pair()])) if key.startswith("inbreeding")]


def test_sibs_of_one_sire_and_two_dams_are_between_full_and_half() -> None:
    two = [bought("sire", "male"), bought("dams", "female", 2), SON, held("daughter", "female", "first")]
    told = found(
        plan(routes=[route(two, [pairing("first", "sire", "dams", 1, 1), pairing("back", "son", "daughter")])])
    )
    assert "18.75 %" in told["inbreeding/r/back"].sentence


# (animal, sex, sire, dam); animals without parents are unrelated.
SIBS = [("a", "male", "", ""), ("b", "female", "", ""), ("s", "male", "a", "b"), ("t", "female", "a", "b")]
MATES = [("c", "female", "", ""), ("d", "male", "", ""), ("e", "female", "", "")]
COUSINS = [*SIBS, *MATES, ("x", "male", "s", "c"), ("y", "female", "d", "t")]
# Sources as above; uncle x niece and first cousins stand in the encyclopedia entry too, the rest is recomputed.
PEDIGREES = [
    ("parent x offspring", SIBS, ("a", "t"), "25 %"),
    ("full sibs", SIBS, ("s", "t"), "25 %"),
    ("half sibs", [*SIBS, *MATES, ("h", "female", "a", "c")], ("s", "h"), "12.5 %"),
    ("uncle x niece", COUSINS, ("s", "y"), "12.5 %"),
    ("grandparent x grandchild", COUSINS, ("a", "y"), "12.5 %"),
    ("first cousins", COUSINS, ("x", "y"), "6.25 %"),
    ("unrelated", COUSINS, ("d", "c"), ""),
]


@pytest.mark.parametrize(("name", "pedigree", "mated", "share"), PEDIGREES)
def test_by_pedigree(name: str, pedigree: list[tuple[str, str, str, str]], mated: tuple[str, str], share: str) -> None:
    mine = [{"id": one, "sex": sex} | ({"sire": sire, "dam": dam} if sire else {}) for one, sex, sire, dam in pedigree]
    groups = [
        {"id": "him", "sex": "male", "animals": [mated[0]], "origin": "own"},
        {"id": "her", "sex": "female", "animals": [mated[1]], "origin": "own"},
    ]
    told = found(plan(my_animals=mine, routes=[route(groups, [pairing("p", "him", "her")])]))
    sentences = [caution.sentence for key, caution in told.items() if key.startswith("inbreeding")]
    assert len(sentences) == bool(share), name
    assert all(f"{share} inbred" in sentence for sentence in sentences)

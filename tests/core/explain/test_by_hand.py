"""Hand-worked chains stand literally in the explanation of the plan they belong to.

The figures are common practice of the trade or recomputed from the sources named beside the outside values of whole
routes (`tests/core/routes/test_outside_values.py`); fractions of crosses are recomputed.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from explain_cases import (
    A_B,
    BOTH,
    DOUBLE_HET,
    HALF_HET,
    Json,
    back_plan,
    bought,
    held,
    pair_plan,
    pairing,
    plan_of,
    why_of,
)

from core.explain.crosses import Cross
from core.explain.grids import Grid
from core.explain.rungs import rung_label, rung_note, textbook_label
from core.explain.why import average_sentence, cross_title, nothing_bred_sentence, product_text, season_to_explain
from core.plan.model import Animal, Owned, Plan

VISUAL_HET = {"a": "a/a", "b": "b/+"}
DOUBLE_VISUAL = {"a": "a/a", "b": "b/b"}


def chains(plan: Plan, season: int | None = None) -> list[str]:
    return [step.formula for row in why_of(plan, season).misses for step in row.steps]


def only_cross(plan: Plan) -> Cross:
    (cross,) = why_of(plan).crosses
    return cross


def only_grid(plan: Plan) -> Grid:
    (grid,) = only_cross(plan).grids
    return grid


# Two recessive genes, 6, 12 and 24 eggs (common practice, recomputed as 1 - (1 - p)^n).
PAIRS = {
    "double het × double het": (DOUBLE_HET, DOUBLE_HET, "1/4 × 1/4 = 1/16", "15/16", (0.3211, 0.5390, 0.7875)),
    "visual-and-het × double het": (VISUAL_HET, DOUBLE_HET, "1/2 × 1/4 = 1/8", "7/8", (0.5512, 0.7986, 0.9594)),
    "double visual × double het": (DOUBLE_VISUAL, DOUBLE_HET, "1/2 × 1/2 = 1/4", "3/4", (0.8220, 0.9683, 0.9990)),
    "double visual × visual-and-het": (DOUBLE_VISUAL, VISUAL_HET, "1 × 1/2 = 1/2", "1/2", (0.9844, 0.9998, 1.0)),
}


@pytest.mark.parametrize("pair", PAIRS)
def test_the_product_and_all_eggs_missing(pair: str) -> None:
    sire, dam, product, miss, chances = PAIRS[pair]
    for eggs, raised, chance in zip((6, 12, 24), ("⁶", "¹²", "²⁴"), chances, strict=True):
        plan = pair_plan(sire, dam, eggs=eggs)
        assert product_text(only_cross(plan)) == product
        (formula,) = chains(plan)
        power, _, value = formula.partition(" = ")
        assert power == f"({miss}){raised}"
        assert 1 - float(value) == pytest.approx(chance, abs=1e-4)


def test_the_sentence_before_the_power() -> None:
    (row,) = why_of(pair_plan(DOUBLE_HET, DOUBLE_HET, dams=4, eggs=12, seasons=4)).misses
    assert row.steps[0].words == "4 females × 12 eggs × 4 seasons = 192 eggs, each missing 15 times in 16."
    assert row.steps[0].formula == "(15/16)¹⁹² = 0.000004"


def test_one_of_everything_is_singular() -> None:
    (row,) = why_of(pair_plan(DOUBLE_HET, DOUBLE_HET, eggs=1)).misses
    assert row.steps[0].words == "1 female × 1 egg × 1 season = 1 egg, each missing 15 times in 16."
    assert row.steps[0].formula == "15/16 = 0.9375"


def test_four_daughters_each_half_het() -> None:
    """Right: .7246. "Two hets and two normals" gives .7986, averaging per egg .7875: both wrong."""
    plan = pair_plan(DOUBLE_HET, HALF_HET, dams=4)
    (trap,) = why_of(plan).traps
    assert trap.title == "The trap: 4 dams, each with 1 chance in 2 to carry b-form"
    assert trap.lead.startswith("They are not “2 hets and 2 normals”.")
    assert trap.right == (
        "One female misses with all her 6 eggs: 1/2 + 1/2 × (7/8)⁶ = 0.7244.",
        "All 4 miss: 0.7244⁴ = 0.2754.",
        "So the chance is 1 − 0.2754 = 0.7246.",
    )
    assert trap.wrong == (
        "Counting 2 as carriers and 2 as not gives 1 − (7/8)¹² = 0.7986.",
        "Averaging gives 0.7875.",
    )
    assert [line.chance * 16 for line in trap.lines] == [1, 4, 6, 4, 1]
    assert trap.none == "When none carries it, no number of young helps. That is 1 in 16 of those who try it."


def test_the_same_daughters_held_back() -> None:
    why = why_of(back_plan(seasons=3, matures={"male": 1, "female": 2}, females_per_male=4), season=2)
    (trap,) = why.traps
    assert trap.title == "The trap: 4 daughters, each with 1 chance in 2 to carry b-form"
    assert trap.right[-1] == "So the chance is 1 − 0.2754 = 0.7246."
    goal = next(cross for cross in why.crosses if cross.purpose == "goal")
    assert cross_title(goal) == "sire × daughters: a-form + b-form visual"
    assert average_sentence(goal) == (
        "That is if one of the daughters carries what is needed, which has a chance of 1 in 2. "
        "Averaged over all of them, the textbook writes 1/16 for each."
    )
    hold = next(cross for cross in why.crosses if cross.purpose == "hold")
    assert cross_title(hold) == "sire × dams: female a-form visual, to hold back"
    assert product_text(hold) == "1/2 × 1/2 = 1/4"


def test_daughters_of_one_possible_het_are_no_coins_thrown_apart() -> None:
    """None of four carries it in 1/3 + 2/3 × 1/16 of all cases, not in (2/3)⁴; of one daughter it is 2/3 either way."""
    visual, open_ = {"a": "a/a"}, {"a": {"a/+": "2/3", "+/+": "1/3"}}
    for many, told in ((4, []), (1, ["2 in 3", "1 in 3"])):
        plan = plan_of(
            [
                bought("sire", "male", 1, {}),
                bought("dam", "female", 1, open_, origin="own"),
                held("daughters", many, [{}]),
                bought("mate", "male", 1, visual),
            ],
            [pairing("first", "sire", "dam"), pairing("back", "mate", "daughters")],
            want=[{"forms": {"a": "a-form"}}],
            seasons=2,
        )
        assert [line.share for trap in why_of(plan).traps for line in trap.lines] == told


def test_what_carries_less_gives_some_too() -> None:
    """A dam that is a visual or a het: the grid shows the visual, and the het is not said to give nothing."""
    either = {"a": {"a/a": "1/4", "a/+": "3/4"}, "b": "b/+"}
    (cross,) = why_of(pair_plan(DOUBLE_HET, either)).crosses
    assert average_sentence(cross) == (
        "That is if the female carries all that the grids show, which has a chance of 1 in 4; with less it gives "
        "fewer. Averaged over all of them, the textbook writes 5/64 for each."
    )


def test_one_letter_for_several_genes() -> None:
    genes = [{"id": name, "name": name, "alleles": ["x"], "forms": {"x/x": f"{name}-form"}} for name in "ab"]
    double = {"a": "x/+", "b": "x/+"}
    assert why_of(pair_plan(double, double, genes=genes)).legend[0].startswith("In each grid x is the copy that the")


def test_two_animals_each_two_thirds_het() -> None:
    """(4/9)(1 - (3/4)^7) = .385118, where averaging says .561538 (recomputed)."""
    possible = {"a": {"a/+": "2/3", "+/+": "1/3"}}
    females, males = reversed(why_of(pair_plan(possible, possible, eggs=7, want=[{"forms": {"a": "a-form"}}])).traps)
    assert males.right == (
        "One female misses with all her 7 eggs: 1/3 + 2/3 × (3/4)⁷ = 0.4223.",
        "If he carries it: 1 − 0.4223 = 0.5777.",
        "The chance that he does is 2 in 3: 2/3 × 0.5777 = 0.3851.",
    )
    assert males.wrong == ("Averaging gives 0.5615.",)
    assert females.title == "The trap: one female (dams), with 2 chances in 3 to carry a-form"


def test_several_wanted() -> None:
    """At least 2 of frequency 1/16 in 24 eggs (binomial, recomputed)."""
    plan = pair_plan(DOUBLE_HET, DOUBLE_HET, eggs=24, want=[{"forms": BOTH, "count": 2}])
    assert chains(plan) == ["(15/16)²⁴ = 0.2125", "(15/16)²⁴ + 24 × 1/16 × (15/16)²³ = 0.5524"]


def test_a_mean_that_is_no_whole_number() -> None:
    why = why_of(pair_plan(DOUBLE_HET, DOUBLE_HET, eggs={"counts": {"6": 0.2, "7": 0.8}}))
    (row,) = why.misses
    assert row.steps[0].words.startswith("A clutch has 6.8 eggs on average, 6 or 7, each missing 15 times in 16.")
    assert row.steps[0].formula == "1/5 × (15/16)⁶ + 4/5 × (15/16)⁷ = 0.6450"
    assert row.miss == pytest.approx(1 - why.ladder.textbook[0], abs=1e-12)


# Grids


def cells(grid: Grid) -> list[list[str]]:
    return [[cell.words for cell in row] for row in grid.cells]


def test_a_recessive_gene() -> None:
    grid = only_grid(pair_plan({"a": "a/+"}, {"a": "a/+"}, want=[{"forms": {"a": "a-form"}}]))
    assert cells(grid) == [["a-form", "het"], ["het", "normal"]]
    assert grid.sentence() == "a-form: 1 of 4 = 1/4"


def test_sexes_multiply_where_no_gene_is_on_the_sex_chromosomes() -> None:
    cross = only_cross(pair_plan(DOUBLE_HET, DOUBLE_HET, want=[{"forms": BOTH, "sex": "female"}]))
    assert product_text(cross) == "1/4 × 1/4 × 1/2 = 1/32"
    assert cross.factors[-1].words == "female"


BARRED = [
    {"id": "b", "name": "Barred", "alleles": ["B"], "forms": {"B/B": "barred", "B/+": "barred"},
     "placement": "sex-chromosome"}
]  # fmt: skip


def test_a_gene_on_z() -> None:
    """Barring in poultry: barred hen x non-barred cock, all sons barred, no daughter (a poultry page, read)."""
    want = [{"forms": {"b": "barred"}, "sex": "male"}]
    grid = only_grid(pair_plan({}, {"b": "B/W"}, genes=BARRED, want=want))
    assert [gamete.text for gamete in grid.sire] == ["+", "+"]
    assert [gamete.text for gamete in grid.dam] == ["B", "W"]
    assert cells(grid) == [["barred male", "normal female"]] * 2
    assert grid.sentence() == "barred male: 2 of 4 = 1/2"
    assert (
        "W is a sex chromosome without this gene: a young that gets it is a daughter."
        in why_of(pair_plan({}, {"b": "B/W"}, genes=BARRED, want=want)).legend
    )


def test_a_copy_is_called_by_what_one_of_it_shows() -> None:
    snow = {"id": "s", "name": "Snow", "alleles": ["S"], "forms": {"S/+": "snow", "S/S": "super snow"}}
    plan = pair_plan({"s": "S/+"}, {"s": "S/+"}, genes=[snow], want=[{"forms": {"s": "super snow"}}])
    assert why_of(plan).legend[0].startswith("S is the snow copy of a gene, + is the normal copy.")


def test_a_gene_on_both_sex_chromosomes() -> None:
    gene = {"id": "g", "name": "Glow", "alleles": ["g"], "forms": {"g/+": "glow"}}
    gene |= {"placement": "both-sex-chromosomes", "recombination": 0.1}
    plan = pair_plan({"g": "+ X/g Y"}, {}, genes=[gene], want=[{"forms": {"g": "glow"}}], sex_system="XY")
    grid = only_grid(plan)
    assert {gamete.text: round(gamete.chance, 12) for gamete in grid.sire} == {
        "+ X": 0.45, "g Y": 0.45, "g X": 0.05, "+ Y": 0.05,
    }  # fmt: skip
    assert grid.chance == pytest.approx(0.5, abs=1e-12)


SERIES = [
    {"id": "p", "name": "Pattern", "alleles": ["m", "s"], "forms": {"m/m": "motley", "m/s": "both", "s/s": "stripe"}}
]


@pytest.mark.parametrize(("form", "share"), [("motley", "1 of 4 = 1/4"), ("both", "2 of 4 = 1/2")])
def test_an_allelic_series(form: str, share: str) -> None:
    """Motley and stripe, one locus (Montandon et al. 2025, abstract read): 1/4 mm, 1/2 ms, 1/4 ss (recomputed)."""
    grid = only_grid(pair_plan({"p": "m/s"}, {"p": "m/s"}, genes=SERIES, want=[{"forms": {"p": form}}]))
    assert cells(grid) == [["motley", "both"], ["both", "stripe"]]
    assert grid.sentence() == f"{form}: {share}"


@pytest.mark.parametrize(
    ("r", "sire", "sentence"),
    [
        (0.1, "a b/+ +", "9/20 × 9/20 = 81/400"),
        (0.1, "a +/+ b", "1/20 × 1/20 = 1/400"),
        (0.2, "a b/+ +", "2/5 × 2/5 = 4/25"),
        (0.05, "a +/+ b", "1/40 × 1/40 = 1/1600"),
    ],
)
def test_linked_genes(r: float, sire: str, sentence: str) -> None:
    """F2 double recessive: (1 - r)^2 / 4 in coupling, r^2 / 4 in repulsion (a course page, read; recomputed)."""
    linkage = [{"genes": ["a", "b"], "recombination": [r]}]
    plan = pair_plan({"a b": sire}, {"a b": sire}, linkage=linkage)
    grid = only_grid(plan)
    assert grid.sentence() == f"a-form + b-form: {sentence}"
    assert f"{100 * r:g} in 100 times it is not." in why_of(plan).legend[-1]


def test_a_lethal_genotype() -> None:
    """Het x het, survivors 2:1 (OpenStax Biology, "Lethality": read); a quarter of the eggs lost (recomputed)."""
    curly = [{"id": "c", "name": "Curly", "alleles": ["C"], "forms": {"C/+": "curly"}, "lethal": ["C/C"]}]
    grid = only_grid(pair_plan({"c": "C/+"}, {"c": "C/+"}, genes=curly, want=[{"forms": {"c": "curly"}}]))
    assert cells(grid) == [["never hatches", "curly"], ["curly", "normal"]]
    assert grid.sentence() == "curly: 2 of 4 = 1/2"
    assert grid.losses() == "Never hatches: 1/4 of them."
    want = [{"forms": {"c": "curly"}}]
    plan = pair_plan({"c": "C/+"}, {"c": "C/+"}, genes=curly, want=want)
    grid = only_grid(msgspec.structs.replace(plan, species=msgspec.structs.replace(plan.species, young="live")))
    assert cells(grid)[0][0] == "never born alive"
    assert grid.losses() == "Never born alive: 1/4 of them."


def test_a_pair_that_cannot_give_it() -> None:
    why = why_of(pair_plan({"a": "a/+"}, DOUBLE_HET))
    (cross,) = why.crosses
    assert product_text(cross) == "1/4 × 0 = 0"
    assert cross.grids[1].sentence() == "b-form: 0 of 4 = none"
    assert why.misses[0].steps[0].words == "No egg can be one, so every egg misses."
    assert why.people.reached == 0


def test_temperature_decides_the_sex() -> None:
    plan = pair_plan(
        DOUBLE_HET, DOUBLE_HET, want=[{"forms": BOTH, "sex": "female"}], sex_system="temperature", female_share=0.7
    )
    assert product_text(only_cross(plan)) == "1/4 × 1/4 × 7/10 = 7/160"


def test_nothing_is_bred() -> None:
    groups: list[Json] = [bought("sire", "male", 1, DOUBLE_HET), bought("dams", "female", 1, DOUBLE_HET, ready_in=3)]
    plan = plan_of(groups, [pairing("first", "sire", "dams", [1, 1])], seasons=2)
    why = why_of(plan)
    assert why.idle == ("sire × dams",)
    assert nothing_bred_sentence(plan.routes[0]).startswith("No male and female are ever breeder-size together")


def test_names_of_genes_are_the_plans_own() -> None:
    genes: list[Any] = [{**A_B[0], "name": "<b>First</b>"}, A_B[1]]
    why = why_of(pair_plan(DOUBLE_HET, DOUBLE_HET, genes=genes))
    assert why.crosses[0].grids[0].title == "<b>First</b>"


def test_a_live_bearer_has_young_where_others_have_eggs() -> None:
    plan = pair_plan(DOUBLE_HET, HALF_HET, young="live", eggs={"counts": {"6": 0.2, "7": 0.8}}, dams=2)
    why = why_of(plan)
    assert why.misses[0].steps[0].words.startswith("A clutch has 6.8 young on average, 6 or 7")
    assert textbook_label(plan) == "Textbook: average per young"
    assert rung_label(plan, "losses") == "Clutches and young lost"
    notes = [rung_note(plan, rung.truth, applies=True) for rung in why.ladder.rungs]
    assert not [note for note in notes if "egg" in note]


def test_a_coin_on_which_not_everything_hangs() -> None:
    groups: list[Json] = [
        bought("sire", "male", 1, DOUBLE_HET),
        bought("hets", "female", 1, DOUBLE_HET),
        bought("maybe", "female", 1, HALF_HET),
    ]
    why = why_of(plan_of(groups, [pairing("first", "sire", "hets"), pairing("second", "sire", "maybe")]))
    (trap,) = why.traps
    assert trap.lead == "It is a coin, thrown once and kept for life."
    assert trap.none == "When it does not, no number of its own young helps. That is so for 1 in 2 who try it."
    alone = why_of(pair_plan(DOUBLE_HET, HALF_HET)).traps[0]
    assert alone.lead == "It is a coin, thrown once and kept for life: everything hangs on that one throw."
    assert alone.none == "When it does not, no number of young helps. That is 1 in 2 of those who try it."


def own_pair(*dams: Json) -> Plan:
    """A double het male with named dams that carry this."""
    ids = tuple(f"F{place}" for place in range(len(dams)))
    plan = pair_plan(DOUBLE_HET, {})
    (route,) = plan.routes
    owned = Owned(id="dams", sex="female", animals=ids)
    return msgspec.structs.replace(
        plan,
        my_animals=tuple(Animal(id=id_, sex="female", carries=dam) for id_, dam in zip(ids, dams, strict=True)),
        routes=(msgspec.structs.replace(route, groups=(route.groups[0], owned), scale=None),),
    )


def test_named_animals_that_differ_are_told_one_by_one() -> None:
    (trap,) = why_of(own_pair(HALF_HET, {"a": "a/+"}, DOUBLE_HET)).traps
    assert trap.title == "The trap: who carries b-form? F0 with 1 chance in 2, F1 not at all and F2 for sure"
    assert trap.lead == "What is open of one is a coin, thrown once and kept for life:"
    assert [line.chance for line in trap.lines] == pytest.approx([0, 0.5, 0.5, 0])
    (trap,) = why_of(own_pair(HALF_HET, HALF_HET)).traps
    assert trap.title == "The trap: 2 dams, each with 1 chance in 2 to carry b-form"


def test_what_is_known_of_named_animals_is_no_trap() -> None:
    assert why_of(own_pair({"a": "a/+"}, DOUBLE_HET)).traps == ()


def test_half_of_the_eggs_miss_one_time_in_two() -> None:
    why = why_of(pair_plan({"a": "a/+"}, {"a": "a/a"}, want=[{"forms": {"a": "a-form"}}]))
    assert why.misses[0].steps[0].words == "1 female × 6 eggs × 1 season = 6 eggs, each missing 1 time in 2."


def test_only_buying_is_told_of_the_season_of_the_goal() -> None:
    plan = pair_plan(DOUBLE_HET, DOUBLE_HET, seasons=4)
    only = msgspec.structs.replace(plan.routes[0], groups=(), pairings=(), buy_outright=3)
    assert season_to_explain(plan, only) == 4
    assert season_to_explain(plan, msgspec.structs.replace(plan.routes[0], buy_outright=3)) == 2


def test_a_pairing_that_is_of_no_use() -> None:
    groups: list[Json] = [
        bought("sire", "male", 1, DOUBLE_HET),
        bought("hets", "female", 1, DOUBLE_HET),
        bought("normals", "female", 1, {}),
    ]
    why = why_of(plan_of(groups, [pairing("first", "sire", "hets"), pairing("second", "sire", "normals")]))
    assert [cross.words for cross in why.crosses] == ["sire × hets"]
    assert why.fruitless == ("sire × normals",)


def test_the_preference_that_can_be_met_is_the_one_shown() -> None:
    groups: list[Json] = [
        bought("sire", "male", 1, {"b": "b/b"}),
        bought("dams", "female", 1, {"a": "a/a"}),
        held("daughters", 2, [{"a": "a-form"}, {}]),
    ]
    why = why_of(plan_of(groups, [pairing("first", "sire", "dams"), pairing("back", "sire", "daughters")], seasons=3))
    assert cross_title(why.crosses[0]) == "sire × dams: any female, to hold back"

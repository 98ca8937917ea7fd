"""Whole routes against values from outside the project; what each value rests on is said beside it."""

from __future__ import annotations

import json
from itertools import product
from math import exp, factorial
from typing import Any

import numpy as np
import pytest
from scipy.stats import nbinom

from core.plan.read import read_plan
from core.routes.evaluate import evaluate_route
from core.routes.result import RouteResult

Json = dict[str, Any]


def recessive(*names: str) -> list[Json]:
    return [{"id": name, "name": name, "alleles": [name], "forms": {f"{name}/{name}": "visual"}} for name in names]


def visual(*names: str) -> dict[str, str]:
    return dict.fromkeys(names, "visual")


def het(*names: str) -> Json:
    return {name: f"{name}/+" for name in names}


def vis(*names: str) -> Json:
    return {name: f"{name}/{name}" for name in names}


def plan_of(
    genes: list[Json],
    sire: Json,
    dam: Json,
    want: list[Json],
    *,
    eggs: Any = 6,
    dams: int = 1,
    seasons: int = 1,
    sex_system: str = "ZW",
    linkage: list[Json] | None = None,
    **species: Any,
) -> Json:
    """One bought male with some bought females, at the counts as drawn; `eggs`: of a clutch."""
    clutch = {"fixed": eggs} if isinstance(eggs, int) else eggs
    groups = [
        {"id": name, "sex": sex, "count": count, "carries": carries, "origin": "buy", "price": 100}
        for name, sex, count, carries in (("sire", "male", 1, sire), ("dam", "female", dams, dam))
    ]
    return {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Outside values",
        "currency": "USD",
        "genes": genes,
        "linkage": linkage or [],
        "species": {
            "name": "Test",
            "sex_system": sex_system,
            "clutch": clutch,
            "matures": {"male": 2, "female": 3},
            "females_per_male": 99,
        }
        | species,
        "goal": {"want": want, "chance": 0.8, "seasons": seasons},
        "routes": [
            {
                "id": "r",
                "name": "Route",
                "groups": groups,
                "pairings": [{"id": "p", "males": ["sire"], "females": ["dam"]}],
                "scale": {"groups": ["dam"], "counts": [dams]},
            }
        ],
    }


def answer(plan: Json) -> RouteResult:
    read = read_plan(json.dumps(plan).encode())
    result = evaluate_route(read, read.routes[0])
    assert result.method == "exact"
    return result


def chance(plan: Json) -> float:
    """That the goal is met by the end."""
    return float(answer(plan).chance_by_season[-1])


def an_egg(*args: Any, **more: Any) -> float:
    """The chance that a single egg meets the goal."""
    result = answer(plan_of(*args, eggs=1, **more))
    assert result.per_egg["p"] == pytest.approx(result.chance_by_season[0], abs=1e-12)
    return float(result.chance_by_season[0])


TWO = recessive("a", "b")
THREE = recessive("a", "b", "c")
BOTH = [{"forms": visual("a", "b")}]

# Common practice, no source: clutches of 6, one male to as many as 4 females. Recomputed as 1 - (1 - p)^n.
COMMON = {
    "double het x double het": (het("a", "b"), het("a", "b"), (0.3211, 0.5390, 0.7875)),
    "visual-and-het x double het": (vis("a") | het("b"), het("a", "b"), (0.5512, 0.7986, 0.9594)),
    "double visual x double het": (vis("a", "b"), het("a", "b"), (0.8220, 0.9683, 0.9990)),
    "double visual x visual-and-het": (vis("a", "b"), vis("a") | het("b"), (0.9844, 0.9998, 1.0000)),
}


@pytest.mark.parametrize("pairing", COMMON)
def test_common_practice_pairings(pairing: str) -> None:
    sire, dam, expected = COMMON[pairing]
    got = [chance(plan_of(TWO, sire, dam, BOTH, dams=dams, females_per_male=4)) for dams in (1, 2, 4)]
    assert got == pytest.approx(expected, abs=5e-5)


def test_four_possible_het_daughters() -> None:
    """Common practice, no source; recomputed as 1 - (1/2 + 1/2 (7/8)^6)^4.

    Two tempting answers are wrong: two hets and two normals for sure, and every egg by itself.
    """
    daughters = vis("a") | {"b": {"b/+": 0.5, "+/+": 0.5}}
    got = chance(plan_of(TWO, het("a", "b"), daughters, BOTH, dams=4))
    assert got == pytest.approx(0.7246, abs=5e-5)
    two_hets, egg_by_egg = 1 - (7 / 8) ** 12, 1 - (15 / 16) ** 24
    assert (two_hets, egg_by_egg) == pytest.approx((0.7986, 0.7875), abs=5e-5)
    assert got < egg_by_egg < two_hets


@pytest.mark.parametrize("eggs", [1, 2, 7, 20, 60])
def test_two_possible_hets_share_their_luck(eggs: int) -> None:
    """Two animals, each het with chance 2/3: (4/9)(1 - (3/4)^n), recomputed; never above 4/9."""
    maybe = {"a": {"a/+": "2/3", "+/+": "1/3"}}
    got = chance(plan_of(recessive("a"), maybe, maybe, [{"forms": visual("a")}], eggs=eggs))
    assert got == pytest.approx(4 / 9 * (1 - (3 / 4) ** eggs), abs=1e-12)
    if eggs == 7:
        assert got == pytest.approx(0.385118, abs=5e-7)
        egg_by_egg = 1 - (8 / 9) ** 7  # wrong
        assert egg_by_egg == pytest.approx(0.561538, abs=5e-7)


# How many eggs for at least k of chance q

LEVELS = (0.80, 0.90, 0.95, 0.99)
A, B = visual("a"), {"a": "visual", "b": "normal"}
CROSSES: dict[str, tuple[list[Json], Json, Json, dict[str, str]]] = {
    "1/4": (TWO, het("a"), het("a"), A),
    "3/16": (TWO, het("a", "b"), het("a", "b"), B),
    "1/8": (TWO, het("a", "b"), vis("a") | het("b"), visual("a", "b")),
    "1/16": (TWO, het("a", "b"), het("a", "b"), visual("a", "b")),
    "1/32": (THREE, het("a", "b", "c"), vis("a") | het("b", "c"), visual("a", "b", "c")),
    "1/64": (THREE, het("a", "b", "c"), het("a", "b", "c"), visual("a", "b", "c")),
}
# The smallest n at 80, 90, 95 and 99 %, recomputed exactly (binomial). The question and the rule: Schwager SJ et al.
# 1993, Theor Appl Genet 86(8):964-974 (abstract read). Sedcole JR 1977, Crop Science 17:667-668, asks the same (from
# memory, not read).
NEEDED = {
    "1/4": {1: (6, 9, 11, 17), 2: (11, 15, 18, 24), 3: (16, 20, 23, 31), 5: (26, 30, 34, 43), 10: (49, 55, 60, 70)},
    "3/16": {
        1: (8, 12, 15, 23), 2: (15, 20, 24, 33), 3: (22, 27, 32, 42), 5: (35, 41, 47, 58), 10: (65, 74, 81, 96),
    },
    "1/8": {
        1: (13, 18, 23, 35), 2: (23, 30, 37, 51), 3: (34, 41, 49, 64), 5: (53, 62, 71, 89), 10: (99, 111, 123, 146),
    },
    "1/16": {
        1: (25, 36, 47, 72), 2: (47, 61, 75, 104), 3: (68, 84, 99, 132), 5: (107, 126, 144, 182),
        10: (199, 225, 248, 296),
    },
    "1/32": {
        1: (51, 73, 95, 146), 2: (95, 124, 150, 210), 3: (136, 169, 200, 266), 5: (214, 254, 291, 368),
        10: (399, 452, 500, 597),
    },
    "1/64": {
        1: (103, 147, 191, 293), 2: (191, 248, 302, 423), 3: (273, 339, 401, 535), 5: (429, 510, 584, 739),
        10: (800, 907, 1002, 1198),
    },
}  # fmt: skip


def egg_curve(cross: str, want: list[Json], least: int, **species: Any) -> Any:
    """Chance by eggs, of at least so many eggs: clutches of 60, one a season."""
    genes, sire, dam, _ = CROSSES[cross]
    plan = plan_of(genes, sire, dam, want, eggs=60, seasons=-(-least // 60), **species)
    return answer(plan).chance_by_eggs


def first_reached(curve: Any) -> tuple[int, ...]:
    return tuple(int(np.argmax(curve >= level)) for level in LEVELS)


@pytest.mark.parametrize(("cross", "k"), [(cross, k) for cross in CROSSES for k in (1, 2, 3, 5, 10)])
def test_eggs_for_at_least_k(cross: str, k: int) -> None:
    expected = NEEDED[cross][k]
    top, bottom = map(int, cross.split("/"))
    assert expected == tuple(int(n) + k for n in nbinom.ppf(LEVELS, k, top / bottom))
    curve = egg_curve(cross, [{"forms": CROSSES[cross][3], "count": k}], expected[-1])
    assert first_reached(curve) == expected
    assert curve[k] == pytest.approx((top / bottom) ** k, abs=1e-12)


def test_one_in_64_needs_191_eggs() -> None:
    """A plant-breeding teaching page prints "about 190" for 95 % (read); 190 is not enough (recomputed)."""
    curve = egg_curve("1/64", [{"forms": visual("a", "b", "c")}], 191)
    assert (curve[190], curve[191]) == pytest.approx((0.949822, 0.950606), abs=5e-7)


# At least one of each sex, sexes equal: P = 1 - 2(1 - q/2)^n + (1 - q)^n, recomputed.
BOTH_SEXES = {
    "1/4": (17, 23, 28, 40),
    "3/16": (23, 31, 38, 54),
    "1/8": (35, 47, 58, 83),
    "1/16": (71, 94, 116, 167),
    "1/32": (143, 189, 234, 337),
    "1/64": (287, 379, 469, 676),
}


@pytest.mark.parametrize("cross", CROSSES)
def test_eggs_for_a_male_and_a_female(cross: str) -> None:
    expected, forms = BOTH_SEXES[cross], CROSSES[cross][3]
    curve = egg_curve(cross, [{"forms": forms, "sex": sex} for sex in ("male", "female")], expected[-1])
    assert first_reached(curve) == expected


# Hatch rate .81 (Morrill BH et al. 2011, Herpetological Review 42:226-231; its summary was read). Recomputed.
THINNED = {
    ("1/16", 1): (45, 58, 89),
    ("1/16", 2): (76, 92, 129),
    ("1/4", 1): (11, 14, 21),
    ("1/4", 2): (18, 22, 30),
    ("1/64", 1): (181, 236, 362),
}


@pytest.mark.parametrize(("cross", "k"), THINNED)
@pytest.mark.parametrize("losses", [{"hatches": 0.81}, {"fertile": 0.9, "hatches": 0.9}])
def test_eggs_that_do_not_hatch_thin_the_chance(cross: str, k: int, losses: Json) -> None:
    expected = THINNED[cross, k]
    curve = egg_curve(cross, [{"forms": CROSSES[cross][3], "count": k}], expected[-1], **losses)
    assert first_reached(curve)[1:] == expected


# Random clutch size, q = 1/16, hatch rate .81: 1 - G(1 - q h)^c. Recomputed.
POISSON = {str(n): exp(-6.825) * 6.825**n / factorial(n) for n in range(41)}
POISSON["0"] += 1 - sum(POISSON.values())
CLUTCHES: dict[str, tuple[Any, Json, dict[int, float]]] = {
    "fixed 7": (7, {"hatches": 0.81}, {1: 0.304872, 3: 0.664113, 5: 0.837698, 8: 0.945485, 9: 0.962105}),
    "Poisson 6.825": (
        {"counts": POISSON},
        {"hatches": 0.81},
        {1: 0.292145, 3: 0.645323, 5: 0.822286, 8: 0.936969, 9: 0.955383},
    ),
    "1 in 10 lays nothing": (
        7,
        {"hatches": 0.81, "lays": 0.9},
        {1: 0.274385, 3: 0.617952, 5: 0.798845, 8: 0.923149, 9: 0.944236},
    ),
    "all or none hatch": (7, {"clutch_lost": 0.19}, {1: 0.294434, 3: 0.648753, 5: 0.825141, 8: 0.938581}),
}


@pytest.mark.parametrize("clutch", CLUTCHES)
def test_random_clutch_sizes(clutch: str) -> None:
    eggs, losses, expected = CLUTCHES[clutch]
    for dams, value in expected.items():
        plan = plan_of(TWO, het("a", "b"), het("a", "b"), BOTH, eggs=eggs, dams=dams, **losses)
        assert chance(plan) == pytest.approx(value, abs=5e-7)


# Linked genes. F2 double recessive t/4 with t = (1 - r)^2, r^2 or r (1 - r): the formula on a university genetics
# course page (read for repulsion); recomputed for the rest.

COUPLING, REPULSION = {"a b": "a b/+ +"}, {"a b": "a +/+ b"}


@pytest.mark.parametrize("r", [0, 0.01, 0.05, 0.1, 0.2, 0.3, 0.5])
def test_linked_double_recessive(r: float) -> None:
    linkage = [{"genes": ["a", "b"], "recombination": [r]}]

    def of(sire: Json, dam: Json) -> float:
        return an_egg(TWO, sire, dam, BOTH, linkage=linkage)

    assert of(COUPLING, COUPLING) == pytest.approx((1 - r) ** 2 / 4, abs=1e-12)
    assert of(REPULSION, REPULSION) == pytest.approx(r**2 / 4, abs=1e-12)
    assert of(COUPLING, REPULSION) == pytest.approx(r * (1 - r) / 4, abs=1e-12)
    assert of(COUPLING, vis("a", "b")) == pytest.approx((1 - r) / 2, abs=1e-12)
    assert of(REPULSION, vis("a", "b")) == pytest.approx(r / 2, abs=1e-12)
    # Phase unknown: each animal is one or the other for good.
    assert of(het("a", "b"), vis("a", "b")) == pytest.approx(1 / 4, abs=1e-12)


def test_unknown_phase_is_drawn_once() -> None:
    """Six eggs of one phase or of the other, not of their mean (recomputed)."""
    linkage = [{"genes": ["a", "b"], "recombination": [0.1]}]
    got = chance(plan_of(TWO, het("a", "b"), vis("a", "b"), BOTH, linkage=linkage))
    assert got == pytest.approx(1 - (0.55**6 + 0.95**6) / 2, abs=1e-12)


# Lethal genotypes: het x het, survivors 2:1 (OpenStax Biology, "Lethality": read); with a recessive beside it 6:2:3:1
# of 12, and a quarter of the fertile eggs lost (recomputed).

LETHAL = [
    {"id": "curly", "name": "Curly", "alleles": ["C"], "forms": {"C/+": "curly"}, "lethal": ["C/C"]},
    *recessive("b"),
]


@pytest.mark.parametrize(
    ("forms", "twelfths"),
    [
        ({"curly": "curly", "b": "normal"}, 6),
        ({"curly": "curly", "b": "visual"}, 2),
        ({"curly": "normal", "b": "normal"}, 3),
        ({"curly": "normal", "b": "visual"}, 1),
    ],
)
def test_lethal_genotypes_never_hatch(forms: dict[str, str], twelfths: int) -> None:
    both = {"curly": "C/+", "b": "b/+"}
    result = answer(plan_of(LETHAL, both, both, [{"forms": forms}], eggs=8))
    assert result.per_egg["p"] == pytest.approx(twelfths / 16, abs=1e-12)
    assert result.young == pytest.approx(8 * 12 / 16, abs=1e-12)
    assert result.chance_by_season[0] == pytest.approx(1 - (1 - twelfths / 16) ** 8, abs=1e-12)


# Sex linkage


def shares(genes: list[Json], sire: Json, dam: Json, forms: dict[str, str], system: str) -> tuple[float, float]:
    """Share of sons and of daughters that show these forms."""
    sons, daughters = (
        2 * an_egg(genes, sire, dam, [{"forms": forms, "sex": sex}], sex_system=system) for sex in ("male", "female")
    )
    return sons, daughters


def on_sex_chromosome(forms: dict[str, str]) -> list[Json]:
    return [{"id": "b", "name": "b", "alleles": ["b"], "forms": forms, "placement": "sex-chromosome"}]


def test_recessive_on_x() -> None:
    """OpenStax Biology, "Laws of Inheritance" (read)."""
    white = on_sex_chromosome({"b/b": "white"})
    red_mother, white_father = {}, {"b": "b/Y"}
    assert shares(white, white_father, red_mother, {"b": "white"}, "XY") == pytest.approx((0, 0), abs=1e-12)
    assert shares(white, {}, {"b": "b/+"}, {"b": "white"}, "XY") == pytest.approx((0.5, 0), abs=1e-12)
    assert shares(white, {}, {"b": "b/b"}, {"b": "white"}, "XY") == pytest.approx((1, 0), abs=1e-12)
    assert shares(white, white_father, {"b": "b/+"}, {"b": "white"}, "XY") == pytest.approx((0.5, 0.5), abs=1e-12)


def test_dominant_on_z() -> None:
    """Barring in poultry: ZW, dominant (a poultry-genetics page, read)."""
    barred = on_sex_chromosome({"b/b": "barred", "b/+": "barred"})
    assert shares(barred, {}, {"b": "b/W"}, {"b": "barred"}, "ZW") == pytest.approx((1, 0), abs=1e-12)
    assert shares(barred, {"b": "b/b"}, {}, {"b": "barred"}, "ZW") == pytest.approx((1, 1), abs=1e-12)
    assert shares(barred, {"b": "b/+"}, {}, {"b": "barred"}, "ZW") == pytest.approx((0.5, 0.5), abs=1e-12)
    assert shares(barred, {"b": "b/+"}, {"b": "b/W"}, {"b": "barred"}, "ZW") == pytest.approx((1, 0.5), abs=1e-12)


@pytest.mark.parametrize(("r", "on_y"), [*product([0, 0.05, 0.5], [True, False])])
def test_gene_on_both_sex_chromosomes(r: float, on_y: bool) -> None:
    """The father's mutant on Y: 1 - r of the young that have it are sons; shares recomputed, r invented.

    The pattern in a royal python colour: Mallery and Carrillo 2016, Phyllomedusa (abstract read).
    """
    gene = {"id": "b", "name": "b", "alleles": ["b"], "forms": {"b/+": "glow", "b/b": "bright"}}
    gene |= {"placement": "both-sex-chromosomes", "recombination": r}
    sire = {"b": "+ X/b Y" if on_y else "b X/+ Y"}
    sons, daughters = shares([gene], sire, {}, {"b": "glow"}, "XY")
    assert sons / (sons + daughters) == pytest.approx(1 - r if on_y else r, abs=1e-12)


def test_sex_linked_goal_over_a_season() -> None:
    """ZW: daughters of a het male are visual with chance 1/2 each (recomputed); sons never, from a normal female."""
    gene = on_sex_chromosome({"b/b": "visual"})
    got = chance(plan_of(gene, {"b": "b/+"}, {}, [{"forms": {"b": "visual"}}], eggs=6))
    assert got == pytest.approx(1 - (3 / 4) ** 6, abs=1e-12)
    sons = plan_of(gene, {"b": "b/+"}, {}, [{"forms": {"b": "visual"}, "sex": "male"}], eggs=6)
    assert chance(sons) == 0


def test_motley_and_stripe_are_one_locus() -> None:
    """Montandon SA et al. 2025, Genome Biology 26:73 (abstract read); fractions recomputed."""
    gene = {"id": "p", "name": "p", "alleles": ["m", "s"], "forms": {"m/m": "motley", "m/s": "both", "s/s": "stripe"}}
    both = {"p": "m/s"}
    looks = [an_egg([gene], both, both, [{"forms": {"p": form}}]) for form in ("motley", "both", "stripe")]
    assert looks == pytest.approx([1 / 4, 1 / 2, 1 / 4], abs=1e-12)
    assert an_egg([gene], {"p": "m/+"}, {"p": "s/+"}, [{"forms": {"p": "both"}}]) == pytest.approx(1 / 4, abs=1e-12)

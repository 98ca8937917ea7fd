"""Carrier chances against Bayes' rule, and whole pedigrees against brute force."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import numpy as np
import pytest
from genetics_cases import recessive, species
from hypothesis import given, settings
from hypothesis import strategies as st

from core.genetics.beliefs import ImpossibleEvidence, belief_report, beliefs, draw, joint
from core.genetics.compile import Genetics, compile_genetics
from core.genetics.elimination import TooEntangled
from core.genetics.young import Condition, Judge
from core.plan.model import Animal, ClutchRecord, Gene, Goal, Linkage, Plan, SexSystem, Want, YoungSeen

A, B = recessive("a"), recessive("b")


def plan(
    animals: list[Animal],
    clutches: list[ClutchRecord] = (),
    *,
    genes: tuple[Gene, ...] = (A,),
    linkage: tuple[Linkage, ...] = (),
    system: SexSystem = "ZW",
    **more: float,
) -> Plan:
    return Plan(
        format="pairwright-plan",
        version=1,
        title="Test",
        currency="USD",
        genes=genes,
        linkage=linkage,
        species=species(system, **more),
        goal=Goal(want=(Want(forms={}),), chance=0.8, seasons=3),
        my_animals=tuple(animals),
        clutch_records=tuple(clutches),
    )


def compiled(one: Plan) -> Genetics:
    return compile_genetics(one.genes, one.linkage, one.species)


def clutch(normal: int, visual: int = 0, *, sire: str = "M", dam: str = "F") -> ClutchRecord:
    rows = [YoungSeen(forms={"a": form}, count=n) for form, n in (("normal", normal), ("visual", visual)) if n]
    return ClutchRecord(sire=sire, dam=dam, season=0, young=tuple(rows))


def male(animal: str = "M", **more: object) -> Animal:
    return Animal(id=animal, sex="male", **more)


def female(animal: str = "F", **more: object) -> Animal:
    return Animal(id=animal, sex="female", **more)


def maybe(chance: str) -> dict[str, dict[str, str | float]]:
    return {"a": {"a/+": chance, "+/+": float(1 - Fraction(chance))}}


# Posterior of a carrier after n normal young, recomputed by Bayes' rule. Prior 1/2 with three normal young, 1/9: set-up
# in Ogino S & Wilson RB 2004, J Mol Diagn 6(1):1-9. Columns: prior 2/3 with a visual mate, with a het mate; prior 1/2
# with a visual mate, with a het mate; prior 2/3 with one normal mate that is het with chance 1/2.
CARRIER = {
    0: ("2/3", "2/3", "1/2", "1/2", "2/3"),
    1: ("1/2", "3/5", "1/3", "3/7", "7/11"),
    2: ("1/3", "9/17", "1/5", "9/25", "25/41"),
    3: ("1/5", "27/59", "1/9", "27/91", "91/155"),
    4: ("1/9", "81/209", "1/17", "81/337", "337/593"),
    5: ("1/17", "243/755", "1/33", "243/1267", "1267/2291"),
    6: ("1/33", "729/2777", "1/65", "729/4825", "4825/8921"),
    7: ("1/65", "2187/10379", "1/129", "2187/18571", "18571/34955"),
    8: ("1/129", "6561/39329", "1/257", "6561/72097", "72097/137633"),
    9: ("1/257", "19683/150755", "1/513", "19683/281827", "281827/543971"),
    10: ("1/513", "59049/583337", "1/1025", "59049/1107625", "1107625/2156201"),
}
MATES = [
    ("2/3", {"a": "a/a"}),
    ("2/3", {"a": "a/+"}),
    ("1/2", {"a": "a/a"}),
    ("1/2", {"a": "a/+"}),
    ("2/3", maybe("1/2")),
]


@pytest.mark.parametrize("n", CARRIER)
def test_carrier_after_normal_young(n: int) -> None:
    for (prior, mate), expected in zip(MATES, CARRIER[n], strict=True):
        one = plan([male(carries=maybe(prior)), female(carries=mate)], [clutch(n)])
        assert belief_report(one)["M"]["a"]["a/+"] == pytest.approx(float(Fraction(expected)))


# Recomputed: two normal siblings from het x het, mated, n normal young: both het, and one given sib het.
SIBS = {
    0: ("4/9", "2/3"),
    1: ("3/8", "5/8"),
    2: ("9/29", "17/29"),
    3: ("27/107", "59/107"),
    4: ("81/401", "209/401"),
    5: ("243/1523", "755/1523"),
    6: ("729/5849", "2777/5849"),
    7: ("2187/22667", "10379/22667"),
    8: ("6561/88481", "39329/88481"),
    9: ("19683/347363", "150755/347363"),
    10: ("59049/1369769", "583337/1369769"),
}


@pytest.mark.parametrize("n", SIBS)
def test_two_siblings_mated(n: int) -> None:
    parents = [male("S", carries={"a": "a/+"}), female("D", carries={"a": "a/+"})]
    sibs = [make(sire="S", dam="D", forms={"a": "normal"}) for make in (male, female)]
    one = plan([*sibs, *parents], [clutch(n)])
    unit = compiled(one).units[0]
    both = joint(one, compiled(one), ["M", "F"])[0]
    het = [unit.text(g) for g in range(unit.size)].index("a/+")
    assert both[het, het] == pytest.approx(float(Fraction(SIBS[n][0])))
    assert belief_report(one)["M"]["a"]["a/+"] == pytest.approx(float(Fraction(SIBS[n][1])))


def test_one_visual_young_proves_both() -> None:
    one = plan([male(carries=maybe("2/3")), female(carries=maybe("1/2"))], [clutch(9, 1)])
    assert belief_report(one) == {"M": {"a": {"a/+": 1.0}}, "F": {"a": {"a/+": 1.0}}}


def test_unknown_mate_keeps_the_carrier_above_its_floor() -> None:
    # Recomputed: with one unknown mate the posterior never falls below p(1 - m)/(1 - p m), here 1/2.
    one = plan([male(carries=maybe("2/3")), female(carries=maybe("1/2"))], [clutch(10_000)])
    assert belief_report(one)["M"]["a"]["a/+"] == pytest.approx(1 / 2)


def test_opposed_records_of_many_young_do_not_underflow() -> None:
    animals = [male(carries=maybe("1/2")), female(carries={"a": "a/a"}), female("G", carries={"a": "a/a"})]
    one = plan(animals, [clutch(3000), clutch(2999, 1, dam="G")])
    assert belief_report(one)["M"]["a"] == {"a/+": 1.0}


def test_visual_child_makes_both_parents_carry() -> None:
    animals = [male("S", carries=maybe("1/2")), female("D", carries=maybe("1/2"))]
    young = male("Y", sire="S", dam="D", forms={"a": "visual"})
    assert belief_report(plan([young, *animals]))["S"]["a"] == {"a/+": 1.0}


@pytest.mark.parametrize(
    ("animals", "clutches", "place"),
    [
        ([male(), female(forms={"a": "visual"})], [], "my_animals[1] (F)"),
        (
            [male("Y", name="Flint", sire="M", dam="F", forms={"a": "visual"}), male(), female()],
            [],
            "my_animals[0] (Flint)",
        ),
        ([male(carries={"a": "a/+"}), female()], [clutch(5), clutch(5, 1), clutch(3)], "clutch_records[1]"),
        ([male(carries=maybe("1/2")), female(carries={"a": "a/a"})], [clutch(1, 1), clutch(0, 1)], None),
    ],
)
def test_impossible_evidence_names_its_place(animals: list[Animal], clutches: list[ClutchRecord], place: str) -> None:
    one = plan(animals, clutches)
    if place is None:
        beliefs(one, compiled(one))
        return
    with pytest.raises(ImpossibleEvidence) as caught:
        beliefs(one, compiled(one))
    assert caught.value.place == place
    assert str(caught.value).startswith(place)


def test_a_sex_that_temperature_never_gives() -> None:
    rows = (YoungSeen(forms={}, sex="male", count=1),)
    record = ClutchRecord(sire="M", dam="F", season=0, young=rows)
    one = plan([male(), female()], [record], system="temperature", female_share=1)
    with pytest.raises(ImpossibleEvidence, match=r"clutch_records\[0\]"):
        beliefs(one, compiled(one))


def test_too_many_at_once() -> None:
    one = plan([male(f"m{k}", carries=maybe("1/2")) for k in range(20)])
    with pytest.raises(TooEntangled):
        joint(one, compiled(one), [f"m{k}" for k in range(20)])


def test_a_herd_too_entangled_names_its_animals() -> None:
    # Possible carriers of an allelic series, every male put to every female, and every clutch evidence on both.
    shown = Gene(id="a", name="A", alleles=tuple("abcdef"), forms={f"{x}/{x}": x for x in "abcdef"})
    carries = {"a": {f"{allele}/+": 1 / 6 for allele in "abcdef"}}
    animals = [make(f"{x}{k}", carries=carries) for x, make in (("m", male), ("f", female)) for k in range(10)]
    records = [clutch(3, sire=f"m{i}", dam=f"f{j}") for i in range(10) for j in range(10)]
    one = plan(animals, records, genes=(shown,))
    with pytest.raises(TooEntangled, match=r"m\d, .* hang together too closely") as caught:
        beliefs(one, compiled(one))
    assert len(caught.value.variables) > 5


def test_draws_follow_the_joint_posterior() -> None:
    parents = [male("S", carries=maybe("1/2")), female("D", carries={"a": "a/+"})]
    sibs = [make(sire="S", dam="D", forms={"a": "normal"}) for make in (male, female)]
    one = plan([*sibs, *parents], [clutch(2)])
    ids = ["F", "S", "M", "D"]
    expected = joint(one, compiled(one), ids)[0]
    runs = 40_000
    drawn = draw(one, compiled(one), ids, runs, np.random.default_rng(1))[0]
    assert drawn.shape == (runs, 4)
    found = np.zeros_like(expected)
    np.add.at(found, tuple(drawn.T), 1 / runs)
    assert not found[expected == 0].any()
    # Five standard errors of the likeliest cell.
    assert found == pytest.approx(expected, abs=5 * 0.5 / runs**0.5)


def test_a_long_line_of_inbred_clutches_is_quick() -> None:
    animals = [male("m0", carries=maybe("1/2")), female("f0", carries=maybe("2/3"))]
    for k in range(1, 40):
        animals += [make(f"{x}{k}", sire=f"m{k - 1}", dam=f"f{k - 1}") for x, make in (("m", male), ("f", female))]
    one = plan(animals, [clutch(4, sire=f"m{k}", dam=f"f{k}") for k in range(40)])
    found = beliefs(one, compiled(one))
    assert all(chances.sum() == pytest.approx(1) for per_unit in found.values() for chances in per_unit)


LETHAL = Gene(id="l", name="l", alleles=("L",), forms={"L/+": "one"}, lethal=("L/L",))
HEMI = Gene(id="s", name="s", alleles=("s",), forms={}, lethal=("s/W",), placement="sex-chromosome")
BOTH = recessive("s", placement="both-sex-chromosomes", recombination=0.2)
LINKED = (Linkage(genes=("a", "b"), recombination=(0.1,)),)
SETS = [((A, B), LINKED), ((A, LETHAL), ()), ((A, HEMI), ()), ((A, BOTH), ())]
FORMS = {"a": ("normal", "visual"), "b": ("normal", "visual"), "l": ("normal", "one"), "s": ("normal",)}


@st.composite
def records(draw: st.DrawFn) -> Plan:
    """A small pedigree with a loop (mates that are siblings), hidden founders and mixed rows."""
    genes, linkage = draw(st.sampled_from(SETS))
    forms = st.fixed_dictionaries({}, optional={gene.id: st.sampled_from(FORMS[gene.id]) for gene in genes})

    def founder(sex: str) -> dict[str, object]:
        carries: dict[str, object] = {}
        for gene in genes:
            mutant = gene.alleles[0]
            one_copy = f"{mutant}/+" if gene.id != "s" or gene is BOTH or sex == "male" else "+/W"
            carries[gene.id] = draw(st.sampled_from([one_copy, {one_copy: 0.5, one_copy.replace(mutant, "+"): 0.5}]))
        return carries

    animals = [male("S", carries=founder("male")), female("D", carries=founder("female"))]
    animals += [make(sire="S", dam="D", forms=draw(forms)) for make in (male, female)]
    row = st.builds(YoungSeen, forms=forms, count=st.integers(1, 3), sex=st.sampled_from(["any", "male", "female"]))
    pairs = st.sampled_from([("M", "F"), ("S", "D"), ("M", "D")])
    clutches = [
        ClutchRecord(sire=sire, dam=dam, season=0, young=tuple(draw(st.lists(row, max_size=2))))
        for sire, dam in draw(st.lists(pairs, max_size=2))
    ]
    return plan(animals, clutches, genes=genes, linkage=linkage)


def brute_force(one: Plan) -> dict[tuple[tuple[int, ...], ...], float]:
    """Weight of every choice of whole genotypes (all units at once) of S, D, M and F."""
    genetics = compiled(one)
    rows = [(c, row) for c in one.clutch_records for row in c.young]
    mine = one.my_animals[2:]
    judge = Judge(genetics, [Condition(a.forms, a.sex) for a in mine] + [Condition(r.forms, r.sex) for _, r in rows])
    founders = [
        [(g, p) for g, p in whole(genetics, genetics.prior(animal.carries, animal.sex))]
        for animal in one.my_animals[:2]
    ]
    total: dict[tuple[tuple[int, ...], ...], float] = {}
    for (s, p), (d, q) in product(*founders):
        young = judge.genotypes(s, d)
        hatched = sum(young.values())
        for ((mask_m, m), r), ((mask_f, f), t) in product(young.items(), repeat=2):
            if mask_m & 1 and mask_f & 2:
                who = {"S": s, "D": d, "M": m, "F": f}
                weight = p * q * r * t / hatched**2
                for bit, (record, row) in enumerate(rows, start=2):
                    masks = judge.masks(who[record.sire], who[record.dam])
                    fit = sum(chance for mask, chance in masks.items() if mask >> bit & 1)
                    weight *= (fit / sum(masks.values())) ** row.count
                total[s, d, m, f] = total.get((s, d, m, f), 0.0) + weight
    return total


def whole(genetics: Genetics, prior: tuple[np.ndarray, ...]) -> list[tuple[tuple[int, ...], float]]:
    every = product(*(range(unit.size) for unit in genetics.units))
    weighed = [(g, float(np.prod([p[k] for p, k in zip(prior, g, strict=True)]))) for g in every]
    return [(g, weight) for g, weight in weighed if weight > 0]


@settings(max_examples=60, deadline=None)
@given(records())
def test_whole_pedigrees_against_brute_force(one: Plan) -> None:
    genetics = compiled(one)
    weights = brute_force(one)
    total = sum(weights.values())
    if total == 0:
        with pytest.raises(ImpossibleEvidence):
            beliefs(one, genetics)
        return
    found, pair = beliefs(one, genetics), joint(one, genetics, ["F", "S"])
    for place, name in enumerate(["S", "D", "M", "F"]):
        for u, unit in enumerate(genetics.units):
            expected = np.zeros(unit.size)
            for key, weight in weights.items():
                expected[key[place][u]] += weight / total
            assert found[name][u] == pytest.approx(expected, abs=1e-9)
    # Not only each unit by itself: the product of the units' tables is the whole posterior.
    expected_pair: dict[tuple[tuple[int, ...], tuple[int, ...]], float] = {}
    for (s, _, _, f), weight in weights.items():
        expected_pair[f, s] = expected_pair.get((f, s), 0.0) + weight / total
    for (f, s), chance in expected_pair.items():
        product_of_units = np.prod([pair[u][f[u], s[u]] for u in range(len(genetics.units))])
        assert product_of_units == pytest.approx(chance, abs=1e-9)


@settings(max_examples=30, deadline=None)
@given(records())
def test_restricted_genetics_keep_linked_evidence(one: Plan) -> None:
    genetics = compiled(one)
    less = genetics.restrict(["a"])
    try:
        found = beliefs(one, genetics)
    except ImpossibleEvidence:
        return
    for name, (chances, *_) in beliefs(one, less).items():
        for form in ("normal", "visual"):
            fits, fits_less = genetics.units[0].fits({"a": form}), less.units[0].fits({"a": form})
            assert chances[fits_less].sum() == pytest.approx(found[name][0][fits].sum())


def test_report_of_a_linked_set_shows_phase() -> None:
    one = plan([male(carries={"a": "a/+", "b": "b/+"}), female()], genes=(A, B), linkage=LINKED)
    assert belief_report(one)["M"] == {"a b": {"a b/+ +": 0.5, "a +/+ b": 0.5}}

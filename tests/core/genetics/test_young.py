"""Properties of gametes and of what one egg can become, for any genes."""

from __future__ import annotations

from itertools import product

import pytest
from genetics_cases import genetics, recessive
from hypothesis import given, settings
from hypothesis import strategies as st

from core.genetics.compile import Genetics
from core.genetics.young import Condition, Judge, young_genotypes, young_masks
from core.plan.model import Gene, Linkage

LETHAL = Gene(id="l", name="l", alleles=("L", "k"), forms={"L/+": "one", "k/k": "kay"}, lethal=("L/L", "L/k"))
SEXED = recessive("s", placement="both-sex-chromosomes", recombination=0.2)
HEMI = Gene(id="s", name="s", alleles=("s",), forms={"s/s": "visual"}, lethal=("s/W",), placement="sex-chromosome")
ROW = (Linkage(genes=("a", "b"), recombination=("1/8",)),)
KINDS = [
    genetics(recessive("a"), recessive("b"), LETHAL, linkage=ROW),
    genetics(recessive("a"), recessive("b"), LETHAL, SEXED, linkage=ROW),
    genetics(recessive("a"), recessive("b"), HEMI, LETHAL),
    genetics(recessive("a"), LETHAL, sex_system="temperature", female_share=0.3),
]
FORM = {"a": ("normal", "visual"), "b": ("normal", "visual"), "s": ("normal", "visual"), "l": ("one", "kay")}


@st.composite
def cases(draw: st.DrawFn) -> tuple[Genetics, list[Condition], tuple[int, ...], tuple[int, ...]]:
    one = draw(st.sampled_from(KINDS))
    forms = st.fixed_dictionaries({}, optional={gene: st.sampled_from(FORM[gene]) for gene in one.genes})
    condition = st.builds(Condition, forms, st.sampled_from(["any", "male", "female"]))
    sire, dam = (tuple(draw(st.sampled_from(unit.of_sex(sex))) for unit in one.units) for sex in ("male", "female"))
    return one, draw(st.lists(condition, max_size=3)), sire, dam


@pytest.mark.parametrize("one", KINDS)
def test_gametes_and_crosses_sum_to_one(one: Genetics) -> None:
    for unit in one.units:
        assert all(unit.gametes(g).sum() == pytest.approx(1) for g in range(unit.size))
        table = unit.cross_table()
        for sire, dam in product(unit.of_sex("male"), unit.of_sex("female")):
            assert table[sire, dam].sum() == pytest.approx(1)


@pytest.mark.parametrize("one", KINDS)
def test_autosomal_crosses_work_both_ways_round(one: Genetics) -> None:
    for unit in one.units:
        if unit.sexes is None:
            table = unit.cross_table()
            assert table == pytest.approx(table.transpose(1, 0, 2))


def brute_force(one: Genetics, conditions: list[Condition], sire: tuple[int, ...], dam: tuple[int, ...]) -> dict:
    """Every genotype of all units at once, each looked at as one animal."""
    total: dict[tuple[int, tuple[int, ...]], float] = {}
    draws = [("male", 1 - one.female_share), ("female", one.female_share)] if one.sex_unit is None else [(None, 1)]
    for young in product(*(range(unit.size) for unit in one.units)):
        if any(unit.lethal[g] for unit, g in zip(one.units, young, strict=True)):
            continue
        chance = 1.0
        forms: dict[str, str] = {}
        for unit, s, d, g in zip(one.units, sire, dam, young, strict=True):
            chance *= unit.cross(s, d)[g]
            forms |= zip(unit.genes, unit.forms[g], strict=True)
        for drawn, share in draws:
            sex = drawn or one.units[-1].sex[young[-1]]
            fits = [c.forms.items() <= forms.items() and c.sex in ("any", sex) for c in conditions]
            key = sum(fit << bit for bit, fit in enumerate(fits)), young
            total[key] = total.get(key, 0.0) + chance * share
    return {key: chance for key, chance in total.items() if chance > 0}


@settings(max_examples=60, deadline=None)
@given(cases())
def test_unit_by_unit_is_the_whole_product(case: tuple) -> None:
    one, conditions, sire, dam = case
    expected = brute_force(one, conditions, sire, dam)
    assert young_genotypes(one, conditions, sire, dam) == pytest.approx(expected)
    masks: dict[int, float] = {}
    for (mask, _), chance in expected.items():
        masks[mask] = masks.get(mask, 0.0) + chance
    found = young_masks(one, conditions, sire, dam)
    assert found == pytest.approx(masks)
    assert sum(found.values()) <= 1 + 1e-12


@settings(max_examples=40, deadline=None)
@given(cases())
def test_leaving_out_what_is_not_asked_changes_nothing(case: tuple) -> None:
    one, conditions, sire, dam = case
    less = one.restrict({gene for condition in conditions for gene in condition.forms})
    carried = [
        {gene: text for unit, g in zip(one.units, parent, strict=True) for gene, text in written(unit, g)}
        for parent in (sire, dam)
    ]
    parents = [
        tuple(int(prior.argmax()) for prior in less.prior(carries, sex))
        for carries, sex in zip(carried, ("male", "female"), strict=True)
    ]
    assert young_masks(less, conditions, *parents) == pytest.approx(young_masks(one, conditions, sire, dam))


def written(unit: object, genotype: int) -> list[tuple[str, str]]:
    return [(" ".join(unit.genes), unit.text(genotype))] if unit.genes else []


def test_mask_of_an_animal() -> None:
    one = KINDS[1]
    judge = Judge(one, [Condition({"a": "visual"}), Condition({}, "male"), Condition({"a": "normal"}, "female")])
    animal = tuple(int(prior.argmax()) for prior in one.prior({"a": "a/a"}, "male"))
    assert judge.mask(animal) == 0b011


def test_twenty_genes_are_cheap() -> None:
    names = [f"g{k}" for k in range(20)]
    one = genetics(*map(recessive, names))
    carries = {name: f"{name}/+" for name in names}
    parents = [tuple(int(prior.argmax()) for prior in one.prior(carries, sex)) for sex in ("male", "female")]
    conditions = [Condition(dict.fromkeys(names, "visual")), Condition(dict.fromkeys(names[:3], "visual"), "female")]
    assert young_masks(one, conditions, *parents)[2] == pytest.approx(0.25**3 / 2 * (1 - 0.25**17))


def test_restrict_keeps_lethal_genes_and_the_sex() -> None:
    assert KINDS[0].restrict([]).genes == ("l",)
    assert KINDS[1].restrict(["a"]).sex_unit == 2
    assert KINDS[1].restrict(["a"]).genes == ("a", "l")


def test_a_long_linked_set_is_only_laid_out_as_far_as_asked() -> None:
    names = [f"g{k}" for k in range(30)]
    row = Linkage(genes=tuple(names), recombination=(0.01,) * 29)
    less = genetics(*map(recessive, names), linkage=(row,)).restrict(["g3", "g20"])
    (unit, _) = less.units
    assert unit.genes == ("g3", "g20")
    assert unit.between == pytest.approx(((1 - 0.98**17) / 2,))

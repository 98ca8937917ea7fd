"""Strategies for the parts of a plan: genes, what an animal carries, species, goal and costs."""

from __future__ import annotations

import itertools
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

Part = dict[str, Any]

RARELY = [False, False, False, True]
SHARES: dict[int, list[list[float | str]]] = {
    2: [["2/3", "1/3"], [0.5, 0.5], [0.25, "3/4"], ["1/2", "1/2"], [0.9, 0.1]],
    3: [["1/4", "1/2", "1/4"], [0.5, 0.3, 0.2]],
}
FORMS: dict[str, Part] = {
    "recessive": {"alleles": ["a"], "forms": {"a/a": "A"}},
    "dominant": {"alleles": ["a"], "forms": {"a/+": "A", "a/a": "A"}},
    "incomplete": {"alleles": ["a"], "forms": {"+/a": "half", "a/a": "full"}},
    "deadly": {"alleles": ["a"], "forms": {"a/+": "A"}, "lethal": ["a/a"]},
    "series": {"alleles": ["a", "b"], "forms": {"a/a": "A", "b/b": "B", "b/a": "AB"}},
    "ranked": {"alleles": ["a", "b"], "forms": {"a/a": "A", "a/b": "A", "b/b": "B"}},
    "deadly-series": {"alleles": ["a", "b"], "forms": {"a/+": "A", "b/+": "B", "b/b": "B"}, "lethal": ["a/a", "a/b"]},
}


def some(values: list[Any]) -> SearchStrategy[Any]:
    return st.sampled_from(values)


def turned(draw: DrawFn, genotype: str) -> str:
    """The genotype in either order."""
    return "/".join(draw(st.permutations(genotype.split("/"))))


@st.composite
def genes(draw: DrawFn, most: int, system: str) -> list[Part]:
    rows = []
    for number in range(draw(st.integers(1, most))):
        gene = {"id": f"g{number}", "name": f"Gene {number}"} | _copy(FORMS[draw(some(list(FORMS)))])
        rows.append(gene)
    placement = draw(some(["autosome", "sex-chromosome", "both-sex-chromosomes"]))
    if system != "temperature" and placement != "autosome":
        gene = draw(some(rows))
        gene["placement"] = placement
        if placement == "both-sex-chromosomes":
            gene["recombination"] = draw(some([0, 0.1, 0.5]))
        else:
            _one_copy_forms(draw, gene, "W" if system == "ZW" else "Y")
    return rows


def _copy(form: Part) -> Part:
    return {"alleles": list(form["alleles"]), "forms": dict(form["forms"])} | (
        {"lethal": list(form["lethal"])} if "lethal" in form else {}
    )


def _one_copy_forms(draw: DrawFn, gene: Part, odd: str) -> None:
    choice = draw(some(["as two copies", "own form", "lethal"]))
    if choice == "own form":
        gene["forms"][f"a/{odd}"] = "single"
    if choice == "lethal":
        gene["lethal"] = [*gene.get("lethal", []), f"{odd}/a"]


@st.composite
def linkage(draw: DrawFn, rows: list[Part]) -> list[Part]:
    free = [gene["id"] for gene in rows if gene.get("placement", "autosome") == "autosome"]
    if len(free) < 2 or draw(st.booleans()):
        return []
    linked = draw(st.permutations(free))[: draw(st.integers(2, len(free)))]
    fractions = [draw(some([0, 0.05, 0.25, "1/2", 0.5])) for _ in linked[1:]]
    return [{"genes": list(linked), "recombination": fractions}]


# What an animal carries


def living(gene: Part, sex: str, system: str) -> list[str]:
    """The genotypes an animal of this sex can have, as written."""
    placement = gene.get("placement", "autosome")
    odd = {"ZW": "W", "XY": "Y"}.get(system)
    two = {"ZW": "male", "XY": "female"}.get(system)
    alleles = [*gene["alleles"], "+"]
    if placement == "sex-chromosome" and sex != two:
        every = [f"{allele}/{odd}" for allele in alleles]
    else:
        every = ["/".join(pair) for pair in itertools.combinations_with_replacement(alleles, 2)]
    lethal = {frozenset(text.split("/")) for text in gene.get("lethal", [])}
    return [text for text in every if frozenset(text.split("/")) not in lethal]


def with_chromosomes(genotype: str, sex: str, system: str) -> str:
    both = {"ZW": {"male": "ZZ", "female": "ZW"}, "XY": {"male": "XY", "female": "XX"}}[system][sex]
    return "/".join(f"{allele} {chromosome}" for allele, chromosome in zip(genotype.split("/"), both, strict=True))


@st.composite
def carries(draw: DrawFn, plan: Part, sex: str, hidden: bool) -> Part:
    system = plan["species"]["sex_system"]
    told: Part = {}
    for gene in plan["genes"]:
        if not draw(some(RARELY)):
            texts = [turned(draw, text) for text in living(gene, sex, system)]
            if gene.get("placement") == "both-sex-chromosomes" and draw(st.booleans()):
                texts = [with_chromosomes(text, sex, system) for text in texts]
            told[gene["id"]] = draw(_sure_or_hidden(texts, hidden))
    for row in plan["linkage"]:
        if draw(st.booleans()):
            by_id = {gene["id"]: gene for gene in plan["genes"]}
            for gene in row["genes"]:
                told.pop(gene, None)
            wholes = [
                [draw(some(living(by_id[gene], sex, system))) for gene in row["genes"]]
                for _ in range(draw(some([1, 2])))
            ]
            told[" ".join(row["genes"])] = draw(_sure_or_hidden([_joined(draw, whole) for whole in wholes], hidden))
    return told


def _joined(draw: DrawFn, singles: list[str]) -> str:
    """Genotypes of a linked set put together, haplotype by haplotype."""
    turns = [turned(draw, text).split("/") for text in singles]
    return "/".join(" ".join(haplotype) for haplotype in zip(*turns, strict=True))


def _sure_or_hidden(texts: list[str], hidden: bool) -> SearchStrategy[Any]:
    distinct = list({_sorted_halves(text): text for text in texts}.values())
    sure = some([text for text in distinct if _mutant(text)] or distinct)
    if not hidden or len(distinct) < 2:
        return sure
    maps = [
        dict(zip(ways, shares, strict=True))
        for n in (2, 3)
        for ways in itertools.permutations(distinct[:4], n)
        for shares in SHARES[n]
    ]
    return st.one_of(sure, some(maps))


def _mutant(genotype: str) -> bool:
    return any(allele in "ab" for allele in genotype.replace("/", " ").split(" "))


def _sorted_halves(text: str) -> tuple[str, ...]:
    return tuple(sorted(text.split("/")))


# Species, goal, costs


@st.composite
def species(draw: DrawFn, system: str, tiny: bool, losses: bool) -> Part:
    most = 2 if tiny else 5
    row: Part = {
        "name": "Some reptile",
        "sex_system": system,
        "clutch": draw(clutch(most)),
        "matures": {"male": draw(some([1, 1, 2])), "female": draw(some([1, 1, 2]))},
    }
    chances = [1, 0.9, 0.5, "2/3"]
    optional: Part = {"clutches_per_season": [1, 2], "females_per_male": [1, 2, 4], "young": ["eggs", "live"]}
    if losses:
        optional |= {"lays": chances, "clutch_lost": [0, 0.1, "1/3"], "fertile": chances, "hatches": chances}
        optional |= {
            "reaches_breeding": chances,
            "breeds": [{"male": 0.9, "female": "3/4"}, {"male": "1/2", "female": 1}],
        }
    if system == "temperature":
        optional["female_share"] = [0.3, "2/3", 1]
    for key, values in optional.items():
        if draw(st.booleans()):
            row[key] = draw(some(values))
    return row


def clutch(most: int) -> SearchStrategy[Part]:
    return st.one_of(
        st.integers(1, most).map(lambda n: {"fixed": n}),
        some(["0", "1"]).map(lambda least: {"counts": {least: 0.25, str(most): 0.75}}),
        some([0.5, 1.0, 2.0]).map(lambda sd: {"mean": most / 2, "sd": sd, "min": 1, "max": most}),
    )


def shown(gene: Part, sex: str, system: str) -> list[str]:
    """The forms that a living animal of the sex ("any": of either) can show."""
    if sex == "any":
        return [*dict.fromkeys(shown(gene, "male", system) + shown(gene, "female", system))]
    listed = {frozenset(text.split("/")): form for text, form in gene["forms"].items()}
    forms = []
    for text in living(gene, sex, system):
        alleles = frozenset(text.split("/"))
        forms.append(listed.get(alleles, listed.get(alleles - {"W", "Y"}, "normal")))
    return [*dict.fromkeys(forms)]


@st.composite
def condition(draw: DrawFn, rows: list[Part], system: str, sex: str = "any", least: int = 0) -> dict[str, str]:
    named = draw(st.permutations(rows))[: max(least, draw(some([0, 1, 1, 2])))]
    return {gene["id"]: draw(some(shown(gene, sex, system))) for gene in named}


@st.composite
def goal(draw: DrawFn, rows: list[Part], system: str, tiny: bool, seasons: int) -> Part:
    want = []
    for _ in range(draw(some([1, 1, 2] if tiny else [1, 2, 3]))):
        row: Part = {}
        if draw(st.booleans()):
            row["sex"] = draw(some(["any", "male", "female"]))
        row["forms"] = draw(condition(rows, system, row.get("sex", "any"), least=1))
        if draw(st.booleans()):
            row["count"] = draw(some([1, 1, 2]))
        want.append(row)
    told: Part = {"want": want, "chance": draw(some([0.1, 0.5, 0.8])), "seasons": seasons}
    if draw(st.booleans()):
        told |= {"outright_price": draw(some([50, 300.5])), "outright_change": draw(some([-0.5, 0, 0.1]))}
    if draw(st.booleans()):
        told["budget"] = draw(some([0, 60, 150.5]))
    return told


@st.composite
def costs(draw: DrawFn, rows: list[Part], system: str) -> Part:
    told: Part = {}
    amounts: Part = {
        "setup": [0, 30],
        "keep_adult": [0, 7],
        "keep_young": [0, 2.5],
        "per_egg": [0, 0.5],
        "per_young": [0, 1.25],
    }
    for key, values in (amounts | {"sold_share": [0, 0.3, 1]}).items():
        if not draw(some(RARELY)):
            told[key] = draw(some(values))
    surplus = []
    for _ in range(draw(st.integers(0, 3))):
        row: Part = {"price": draw(some([0, 5, 40.5]))}
        if draw(st.booleans()):
            row["sex"] = draw(some(["any", "male", "female"]))
        if draw(st.booleans()):
            row["forms"] = draw(condition(rows, system, row.get("sex", "any")))
        surplus.append(row)
    return told | {"surplus": surplus}


@st.composite
def shop(draw: DrawFn, plan: Part, hidden: bool) -> Part:
    """What can be bought, trade names, and the rest that changes no evaluation."""
    for_sale = []
    for number in range(draw(st.integers(0, 3))):
        sex = draw(some(["male", "female"]))
        row: Part = {"id": f"s{number}", "sex": sex, "carries": draw(carries(plan, sex, hidden)), "price": 25}
        if draw(st.booleans()):
            row |= {"label": "Some animal", "ready_in": draw(st.integers(0, 2)), "quantity": draw(st.integers(1, 3))}
        for_sale.append(row)
    system = plan["species"]["sex_system"]
    named = {gene["id"]: shown(gene, "any", system)[0] for gene in plan["genes"]}
    combinations = [{"name": "All at once", "forms": named}] if len(named) > 1 else []
    return {"for_sale": for_sale, "combinations": combinations, "notes": "Invented.", "already_spent": 12.5}

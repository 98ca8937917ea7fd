"""Beliefs beside a general library for Bayesian networks, where it is installed: `pip install -e ".[outside]"`.

The network is written from Mendel's rules alone: an animal has two copies, passes on either with a chance of one half,
and shows the form when both are mutant. Every young seen is a node of its own.
"""

from __future__ import annotations

import json
import random
from itertools import product
from typing import Any

import pytest

from core.genetics.beliefs import belief_report
from core.plan.read import read_plan

network = pytest.importorskip("pyagrum", reason="the outside library is optional")

# Copies of the mutant allele: the chance of passing one on.
_PASSES = {0: 0.0, 1: 0.5, 2: 1.0}
_WRITTEN = {"+/+": 0, "l/+": 1, "l/l": 2}


def herd(rng: random.Random) -> dict[str, Any]:
    """Founders in doubt, a daughter bred back to her sire, sibs together, and their young."""
    possible = {"lav": {"l/+": "1/2", "+/+": "1/2"}}
    animals = [
        {"id": "M", "sex": "male", "carries": {"lav": "l/+"} if rng.random() < 0.5 else possible},
        {"id": "F", "sex": "female", "carries": possible},
        {"id": "D", "sex": "female", "sire": "M", "dam": "F", "forms": {"lav": "normal"}},
        {"id": "S", "sex": "male", "sire": "M", "dam": "F"},
        {"id": "B", "sex": "female", "sire": "M", "dam": "D"},
        {"id": "G", "sex": "male", "sire": "S", "dam": "D"},
    ]
    pairs = [("M", "F"), ("M", "D"), ("S", "D"), ("G", "B")]
    records = []
    for sire, dam in rng.sample(pairs, 3):
        young = [{"forms": {"lav": "normal"}, "count": rng.randint(1, 5)}]
        if rng.random() < 0.3:
            young.append({"forms": {"lav": "lavender"}, "count": 1})
        records.append({"sire": sire, "dam": dam, "season": 1, "young": young})
    return {
        "format": "pairwright-plan", "version": 1, "title": "Invented", "currency": "USD",
        "genes": [{"id": "lav", "name": "Lavender", "alleles": ["l"], "forms": {"l/l": "lavender"}}],
        "species": {"name": "Any", "sex_system": "ZW", "clutch": {"fixed": 4}, "matures": {"male": 1, "female": 2}},
        "goal": {"want": [{"forms": {"lav": "lavender"}}], "chance": 0.8, "seasons": 4},
        "costs": {}, "my_animals": animals, "clutch_records": records,
    }  # fmt: skip


def outside(whole: dict[str, Any]) -> dict[str, list[float]]:
    """Per animal, the chances of 0, 1 and 2 copies, from the library."""
    net = network.BayesNet()
    evidence: dict[str, int] = {}
    for animal in whole["my_animals"]:
        net.add(network.LabelizedVariable(animal["id"], "", 3))
    for animal in whole["my_animals"]:
        if "sire" in animal:
            _inherits(net, animal["id"], animal["sire"], animal["dam"])
        else:
            carries = animal["carries"]["lav"]
            chances = [0.0, 0.0, 0.0]
            for genotype, share in ({carries: "1"} if isinstance(carries, str) else carries).items():
                one, _, two = share.partition("/")
                chances[_WRITTEN[genotype]] = float(one) / float(two or 1)
            net.cpt(animal["id"]).fillWith(chances)
        if "forms" in animal:
            _sees(net, animal["id"], f"{animal['id']}-look", evidence, animal["forms"]["lav"])
    number = 0
    for record in whole["clutch_records"]:
        for row in record["young"]:
            for _ in range(row["count"]):
                number += 1
                young = f"y{number}"
                net.add(network.LabelizedVariable(young, "", 3))
                _inherits(net, young, record["sire"], record["dam"])
                _sees(net, young, f"{young}-look", evidence, row["forms"]["lav"])
    engine = network.LazyPropagation(net)
    engine.setEvidence(evidence)
    engine.makeInference()
    return {animal["id"]: list(engine.posterior(animal["id"]).toarray()) for animal in whole["my_animals"]}


def _inherits(net: Any, young: str, sire: str, dam: str) -> None:
    net.addArc(sire, young)
    net.addArc(dam, young)
    for s, d in product(range(3), range(3)):
        p, q = _PASSES[s], _PASSES[d]
        net.cpt(young)[{sire: s, dam: d}] = [(1 - p) * (1 - q), p * (1 - q) + q * (1 - p), p * q]


def _sees(net: Any, animal: str, look: str, evidence: dict[str, int], form: str) -> None:
    net.add(network.LabelizedVariable(look, "", 2))
    net.addArc(animal, look)
    for copies in range(3):
        net.cpt(look)[{animal: copies}] = [0.0, 1.0] if copies == 2 else [1.0, 0.0]
    evidence[look] = int(form != "normal")


@pytest.mark.parametrize("seed", range(40))
def test_looped_pedigrees_beside_a_general_library(seed: int) -> None:
    whole = herd(random.Random(seed))
    plan = read_plan(json.dumps(whole).encode())
    try:
        told = outside(whole)
    except network.GumException:
        pytest.skip("what was drawn cannot be")
    for animal, report in belief_report(plan).items():
        ours = [report["lav"].get(genotype, 0.0) for genotype in _WRITTEN]
        assert ours == pytest.approx(told[animal], abs=1e-9)

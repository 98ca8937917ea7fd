"""Random valid plans, small, that between them use everything the page describes."""

from __future__ import annotations

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from . import plan_parts as parts
from .beliefs import elders_first
from .genetics import Genome, Genotype
from .plan_parts import RARELY, Part, some

NEVER = 999


@st.composite
def plans(
    draw: DrawFn,
    *,
    tiny: bool = False,
    holding: bool = True,
    generations: int = 2,
    hidden: bool = True,
    losses: bool = True,
    animals: bool = True,
    outright: bool = True,
    genes: int = 3,
    seasons: int = 4,
    routes: int = 1,
) -> Part:
    """A valid plan as json.load would give it.

    `tiny`: small enough to take every way, mostly. `holding`: groups held back, over at most so many `generations`.
    `hidden`: maps of chances in `carries`. `losses`: the risks of the species below 1. `animals`: a pedigree with
    clutch records, and own groups from it. `outright`: buying outright. `genes`, `seasons`: the most of each.
    `routes`: the number of them.
    """
    if tiny:
        genes, seasons, generations = min(genes, 2), min(seasons, 3), min(generations, 1)
    system = draw(some(["ZW", "XY", "temperature"]))
    rows = draw(parts.genes(genes, system))
    plan: Part = {
        "format": "pairwright-plan",
        "version": 1,
        "title": "Some plan",
        "currency": "USD",
        "genes": rows,
        "linkage": draw(parts.linkage(rows)),
        "species": draw(parts.species(system, tiny, losses)),
        "goal": draw(parts.goal(rows, system, tiny, draw(some([seasons, *range(1, seasons + 1)])))),
    }
    if draw(st.booleans()):
        plan |= draw(parts.shop(plan, hidden))
    if not draw(some(RARELY)):
        plan["costs"] = draw(parts.costs(rows, system))
    if animals and draw(st.booleans()):
        plan |= draw(pedigrees(plan, hidden))
    options = _Options(tiny, generations if holding else 0, hidden, outright)
    plan["routes"] = [draw(_routes(plan, options, f"r{number}")) for number in range(routes)]
    return plan


# Animals of one's own


@st.composite
def pedigrees(draw: DrawFn, plan: Part, hidden: bool) -> Part:
    """A pedigree and clutch records that can have come about: true genotypes are drawn, and what they show is told."""
    genome = Genome(plan)
    truth: dict[str, Genotype] = {}
    rows: list[Part] = []
    for sex in ("male", "female", *draw(st.lists(some(["male", "female"]), max_size=2))):
        row: Part = {"id": f"A{len(rows)}", "sex": sex}
        parents = [[other["id"] for other in rows if other["sex"] == one] for one in ("male", "female")]
        if all(parents) and draw(st.booleans()):
            row |= {"sire": draw(some(parents[0])), "dam": draw(some(parents[1]))}
            young = [g for born, g in _young(genome, truth, row) if born == sex]
            if not young:
                continue
            truth[row["id"]] = draw(some(young))
        else:
            row["carries"] = draw(parts.carries(plan, sex, hidden))
            truth[row["id"]] = draw(some(genome.prior(row["carries"], sex).values))
        if draw(st.booleans()):
            row["forms"] = draw(_seen(genome, truth[row["id"]]))
        rows.append(row)
    records = [draw(_record(genome, truth, rows)) for _ in range(draw(st.integers(0, 2)))]
    listed = draw(st.permutations(rows))
    return {"my_animals": list(listed), "clutch_records": [record for record in records if record["young"]]}


def _young(genome: Genome, truth: dict[str, Genotype], parents: Part) -> list[tuple[str, Genotype]]:
    both = genome.offspring(truth[parents["sire"]], truth[parents["dam"]])
    return [(sex, genotype) for sex, genotype in both.values if genome.viable(genotype)]


@st.composite
def _seen(draw: DrawFn, genome: Genome, genotype: Genotype) -> dict[str, str]:
    named = draw(st.lists(some(list(genome.genes)), unique=True))
    return {gene: genome.form(gene, genotype) for gene in named}


@st.composite
def _record(draw: DrawFn, genome: Genome, truth: dict[str, Genotype], rows: list[Part]) -> Part:
    sires, dams = ([row["id"] for row in rows if row["sex"] == sex] for sex in ("male", "female"))
    record: Part = {"sire": draw(some(sires)), "dam": draw(some(dams)), "season": draw(st.integers(-2, 1)), "young": []}
    born = _young(genome, truth, record)
    for _ in range(draw(st.integers(1, 3)) if born else 0):
        sex, genotype = draw(some(born))
        row: Part = {"forms": draw(_seen(genome, genotype)), "count": draw(st.integers(1, 3))}
        if draw(st.booleans()):
            row["sex"] = sex
        record["young"].append(row)
    if draw(st.booleans()):
        record["slugs"] = draw(st.integers(0, 3))
    return record


# Routes


class _Options:
    def __init__(self, tiny: bool, generations: int, hidden: bool, outright: bool) -> None:
        self.tiny, self.generations, self.hidden, self.outright = tiny, generations, hidden, outright


@st.composite
def _routes(draw: DrawFn, plan: Part, options: _Options, name: str) -> Part:
    route: Part = {"id": name, "name": "Some route", "groups": [], "pairings": []}
    if draw(st.booleans()):
        route["setup"] = draw(some([0, 12.5]))
    if options.outright and "outright_price" in plan["goal"] and draw(some(RARELY)):
        route["buy_outright"] = draw(st.integers(1, plan["goal"]["seasons"]))
    founders = [draw(_founders(plan, options, sex, number)) for sex in ("male", "female") for number in range(2)]
    males = [draw(some(founders[:2]))] if options.tiny or draw(st.booleans()) else founders[:2]
    females = founders[2:3] if draw(st.booleans()) else founders[2:]
    _share_out_animals(draw, plan, [*males, *females])
    route["groups"] = [*males, *females]
    ids = [[group["id"] for group in groups] for groups in (males, females)]
    route["pairings"] = [draw(_pairing(plan, "p0", *ids))]
    if len(females) > 1 and draw(st.booleans()):
        route["pairings"].append(draw(_pairing(plan, "p1", *ids)))
    for generation in range(draw(st.integers(0, options.generations))):
        _next_generation(draw, plan, route, generation, options)
    route["groups"] = list(draw(st.permutations(route["groups"])))
    scaled = [group["id"] for group in route["groups"] if "count" in group]
    if scaled and (options.tiny or draw(st.booleans())):
        groups = draw(st.lists(some(scaled), min_size=1, max_size=2, unique=True))
        route["scale"] = {"groups": groups, "counts": sorted(draw(st.sets(st.integers(1, 3), min_size=1)))}
    return route


@st.composite
def _founders(draw: DrawFn, plan: Part, options: _Options, sex: str, number: int) -> Part:
    seasons = plan["goal"]["seasons"]
    most = (1 if sex == "male" else 2) if options.tiny else 3
    group: Part = {
        "id": f"{sex}s-{number}",
        "sex": sex,
        "count": draw(st.integers(1, most)),
        "carries": draw(parts.carries(plan, sex, options.hidden)),
        "origin": draw(some(["buy", "buy", "own"])),
        "price": draw(some([0, 20, 35.5])),
    }
    if group["origin"] == "own" and draw(st.booleans()):
        group["kept_anyway"] = draw(st.booleans())
    if draw(some(RARELY)):
        group["season"] = draw(st.integers(1, seasons + 1))
    if draw(some(RARELY)):
        group["ready_in"] = draw(st.integers(0, 3))
    if draw(some(RARELY)):
        group["until"] = draw(st.integers(group.get("season", 1), seasons + 1))
    return group


def _share_out_animals(draw: DrawFn, plan: Part, groups: list[Part]) -> None:
    """Some own groups are animals of the pedigree; each animal is in one group at a time."""
    left = [(row["id"], row["sex"], 0) for row in elders_first(plan.get("my_animals", []))]
    for group in groups:
        able = [name for name, sex, until in left if sex == group["sex"] and until < group.get("season", 1)]
        if draw(st.booleans()) and able:
            taken = draw(st.lists(some(able), min_size=1, unique=True))
            until = group.get("until", NEVER)
            left = [(name, sex, until if name in taken else last) for name, sex, last in left]
            del group["count"], group["carries"]
            group |= {"origin": "own", "animals": taken}


@st.composite
def _pairing(draw: DrawFn, plan: Part, name: str, males: list[str], females: list[str]) -> Part:
    row: Part = {
        "id": name,
        "males": list(draw(st.permutations(males))),
        "females": list(draw(st.permutations(females))),
    }
    if draw(some(RARELY)):
        first = draw(st.integers(1, plan["goal"]["seasons"] + 1))
        last = draw(st.integers(first, plan["goal"]["seasons"] + 1))
        row["seasons"] = draw(some([[first, last], [first, None], [None, last], [None, None]]))
    return row


def first_season(plan: Part, route: Part, name: str) -> int:
    """The first season in which the pairing can have young, held groups that feed themselves aside."""
    pairing = next(row for row in route["pairings"] if row["id"] == name)
    groups = {group["id"]: group for group in route["groups"]}

    def ready(group: Part) -> int:
        if group["origin"] != "hold":
            return int(group.get("season", 1) + group.get("ready_in", 0))
        sources = [source for source in group["from"] if source != name]
        born = min((first_season(plan, route, source) for source in sources), default=NEVER)
        return born + int(plan["species"]["matures"][group["sex"]])

    first, last = pairing.get("seasons", [None, None])
    males, females = (min(ready(groups[group]) for group in pairing[sex]) for sex in ("males", "females"))
    season = max(first or 1, males, females)
    return season if last is None or season <= last else NEVER


def _next_generation(draw: DrawFn, plan: Part, route: Part, generation: int, options: _Options) -> None:
    """Held groups from the pairings so far, and a pairing that uses them."""
    sources = [pairing["id"] for pairing in route["pairings"]]
    name = f"q{generation}"
    own_young = [name] if not options.tiny and draw(some(RARELY)) else []
    held: dict[str, list[str]] = {"male": [], "female": []}
    sexes: list[list[str]] = [["female"], ["male"], ["male", "female"]]
    for sex in sexes[draw(st.integers(0, 2))]:
        for number in range(draw(some([1, 1, 2]))):
            group: Part = {
                "id": f"held-{sex}s-{generation}-{number}",
                "sex": sex,
                "count": 1 if options.tiny else draw(st.integers(1, 3)),
                "origin": "hold",
                "from": draw(st.lists(some([*sources, *own_young]), min_size=1, unique=True)),
                "pick": draw(
                    st.lists(
                        parts.condition(plan["genes"], plan["species"]["sex_system"], sex),
                        min_size=1,
                        max_size=1 if options.tiny else 3,
                    )
                ),
            }
            first = min(
                (first_season(plan, route, source) for source in group["from"] if source != name), default=NEVER
            )
            if first < NEVER and draw(some(RARELY)):
                group["until"] = first + draw(st.integers(0, 2))
            held[sex].append(group["id"])
            route["groups"].append(group)
    known = {sex: [g["id"] for g in route["groups"] if g["sex"] == sex] for sex in ("male", "female")}
    males = held["male"] + draw(
        st.lists(some(known["male"]), min_size=1 - len(held["male"][:1]), max_size=2, unique=True)
    )
    females = held["female"] + draw(
        st.lists(some(known["female"]), min_size=1 - len(held["female"][:1]), max_size=2, unique=True)
    )
    row = draw(_pairing(plan, name, list(dict.fromkeys(males)), list(dict.fromkeys(females))))
    place = draw(st.integers(0, len(route["pairings"])))
    route["pairings"].insert(place, row)

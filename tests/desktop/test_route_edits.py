"""Changes of a route as values: whatever the editor offers leads to a plan that can be saved."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec
import pytest

from core.plan.check import check_plan
from core.plan.model import Bought, Held, Owned, Pairing, Plan, Route, Scale
from core.plan.read import load_plan
from desktop.editor import fields, groups, pairings, table
from desktop.editor.change import Change, Refused, never_come, pairing_of, route_of, with_group, with_route
from desktop.editor.parts import Chosen, Part, Typed, Where
from desktop.plan_files import SAMPLE, SAMPLES
from desktop.words import editor as words
from desktop.words.names import id_of, name_of, titled
from desktop.words.numbers import PlainNumbers

NUMBERS = PlainNumbers()
BACK = "daughters-back"
TYPED = ("", "0", "1", "3", "60", "400", "end", "never", "1-8", "none", "99999", "2.5", "old sire")


@pytest.fixture(scope="module")
def plan() -> Plan:
    return load_plan(SAMPLE)


@pytest.fixture
def back(plan: Plan) -> Route:
    route = route_of(plan, BACK)
    assert route is not None
    return route


def sentences(plan: Plan, route: Route) -> Iterator[tuple[Part, ...]]:
    whole = Where(plan, route, "", NUMBERS)
    yield (fields.name_of_route(whole),)
    yield table.finished_sentence(whole)
    yield table.counts_sentence(whole)
    for group in route.groups:
        at = Where(plan, route, group.id, NUMBERS)
        yield (fields.name_of_line(at, "group"), *table.group_sentence(at), *table.group_more(at))
    for pairing in route.pairings:
        at = Where(plan, route, pairing.id, NUMBERS)
        yield (fields.name_of_line(at, "pairing"), *table.pairing_sentence(at))


def changes(parts: tuple[Part, ...]) -> Iterator[Change]:
    for part in parts:
        if isinstance(part, Chosen):
            yield from (option.make() for option in part.options)
        elif isinstance(part, Typed):
            yield from (part.put(text) for text in TYPED)


@pytest.mark.parametrize("sample", sorted(path.name for path in SAMPLES.glob("*.plan.json")))
def test_whatever_is_offered_can_be_saved(sample: str) -> None:
    plan = load_plan(SAMPLES / sample)
    seen = 0
    for route in plan.routes:
        for parts in sentences(plan, route):
            for change in changes(parts):
                if isinstance(change, Refused):
                    assert change.sentence.endswith(".")
                    continue
                alone = msgspec.structs.replace(with_route(plan, change), routes=(change,))
                assert check_plan(alone) == ()
                assert never_come(change) <= never_come(route)
                seen += 1
    assert seen > 50


def test_every_removal_leaves_a_plan_that_can_be_saved(plan: Plan) -> None:
    for route in plan.routes:
        shorter = [groups.without(route, one.id) for one in route.groups]
        shorter += [pairings.without(route, one.id) for one in route.pairings]
        for change in shorter:
            assert check_plan(msgspec.structs.replace(plan, routes=(change,))) == ()


def test_nothing_in_a_route_is_out_of_reach() -> None:
    """Every key of a route in the file is changed by some field; two are changed gene by gene and name by name."""
    plan = load_plan(SAMPLES / "boa-my-animals.plan.json")
    goal = msgspec.structs.replace(plan.goal, outright_price=900)
    first, second = plan.my_animals[:2]
    rich = Route(
        id="rich",
        name="Rich",
        groups=(
            Owned(id="he", sex=first.sex, animals=(first.id,)),
            Owned(id="more", sex=second.sex, count=2, carries={}),
            Owned(id="loose", sex=first.sex, count=1, carries={}),
            Bought(id="dams", sex="female", count=1, carries={}, price=10),
            Held(id="young", sex="female", count=1, source=("first",), pick=({},)),
            Bought(id="spare", sex="female", count=1, carries={}, price=10),
            Held(id="later", sex="female", count=1, source=("first",), pick=({},)),
        ),
        pairings=(
            Pairing(id="first", males=("he",), females=("dams",)),
            Pairing(id="second", males=("he",), females=("young",), seasons=(2, 3)),
        ),
        scale=Scale(groups=("dams",), counts=(1, 2)),
    )
    plan = msgspec.structs.replace(plan, goal=goal, routes=(rich,))
    assert check_plan(plan) == ()
    reached: dict[str, set[str]] = {}
    for parts in sentences(plan, rich):
        for change in changes(parts):
            if isinstance(change, Route):
                _compare(rich, change, reached)
    below = {"carries", "animals"}
    for struct in (Route, Scale, Bought, Owned, Held, Pairing):
        # Which route it is never changes.
        wanted = set(struct.__struct_fields__) - below - ({"id"} if struct is Route else set())
        assert reached[struct.__name__] - below >= wanted, struct


def _compare(one: object, other: object, reached: dict[str, set[str]]) -> None:
    """Which keys of which struct differ."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        for before, after in zip(one, other, strict=False):
            _compare(before, after, reached)
    elif isinstance(one, msgspec.Struct) and type(one) is type(other):
        for key in one.__struct_fields__:
            if getattr(one, key) != getattr(other, key):
                reached.setdefault(type(one).__name__, set()).add(key)
                _compare(getattr(one, key), getattr(other, key), reached)


def test_a_group_that_becomes_another_kind_keeps_what_applies(plan: Plan, back: Route) -> None:
    held = groups.with_origin(plan, back, "dams", "hold")
    assert isinstance(held, Refused)
    own = groups.with_origin(plan, back, "dams", "own")
    assert isinstance(own, Route)
    dams = own.groups[1]
    assert isinstance(dams, Owned)
    assert (dams.count, dams.carries, dams.until) == (2, {"amel": "a/a"}, 1)


def test_the_other_sex_carries_what_fits_it() -> None:
    plan = load_plan(SAMPLES / "gecko-sex-linked.plan.json")
    gene = next(one.id for one in plan.genes if one.placement == "sex-chromosome")
    allele = next(one for one in plan.genes if one.id == gene).alleles[0]
    route = Route(
        id="x",
        name="x",
        groups=(Bought(id="m", sex="male", count=1, price=1, carries={gene: f"{allele}/{allele}"}),),
    )
    turned = groups.with_group_sex(plan, route, "m", "female")
    assert isinstance(turned, Route)
    female = turned.groups[0]
    assert isinstance(female, Bought)
    assert female.carries == {gene: f"{allele}/W"}


def test_removing_a_sire_takes_his_pairings_and_their_young_along(back: Route) -> None:
    left = groups.without(back, "sire")
    assert [one.id for one in left.groups] == ["dams"]
    assert left.pairings == ()
    assert pairings.taken_along(back, left) == ("sire", "daughters", "first", "back")


def test_another_male_keeps_a_pairing(back: Route) -> None:
    more = groups.added(back, Bought(id="sire", sex="male", count=1, carries={}, price=0))
    assert more.groups[-1].id == "sire-1"
    both = pairings.with_side(more, "back", "males", ("sire-1", "sire"))
    assert isinstance(both, Route)
    left = groups.without(both, "sire-1")
    assert pairing_of(left, "back").males == ("sire",)


def test_a_circle_of_held_groups_never_comes(back: Route) -> None:
    held = Held(id="more", sex="female", count=1, source=("back",), pick=({},))
    route = groups.added(back, held)
    assert never_come(route) == frozenset()
    circle = with_group(route, msgspec.structs.replace(back.groups[2], source=("loop",)))
    loop = Pairing(id="loop", males=("sire",), females=("more",))
    circle = msgspec.structs.replace(circle, pairings=(*circle.pairings, loop))
    assert never_come(circle) == {"daughters", "more"}


@pytest.mark.parametrize("typed", ["old sire", "Mum's 2-year-olds", "<b>x<", "شبل الفجر", "A-B", "one/two", "&amp;"])
def test_a_name_reads_back_as_typed(typed: str) -> None:
    identifier = id_of(f"  {typed} ")
    assert not any(map(str.isspace, identifier))
    assert "/" not in identifier
    assert name_of(identifier) == typed.replace("/", "∕")


def test_names_of_the_file_read_as_before() -> None:
    assert titled("young-sire") == "Young sire"
    assert titled("young_sire") == "Young sire"
    assert id_of("   ") == ""


def test_counts_to_try() -> None:
    assert words.read_counts("1-3, 8", 24) == (1, 2, 3, 8)
    assert words.counts_text((1, 2, 3, 4)) == "1–4"
    assert words.counts_text((1, 2, 4)) == "1, 2, 4"
    for wrong in ("", "0", "two", "5-1", "1-400"):
        assert isinstance(words.read_counts(wrong, 24), str)

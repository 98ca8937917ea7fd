"""What the members of a held herd may be, given when each came."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations_with_replacement, groupby, product
from typing import NamedTuple

from core.routes.calendar import Animal
from core.routes.exact.chain.course import ANY, Kind, Lot, Member
from core.routes.exact.clusters import States


class Choice(NamedTuple):
    """What members are; `times`: in how many ways those of the lots may change places, all of which are as likely."""

    members: tuple[Member, ...]
    lots: tuple[Lot, ...] = ()
    times: int = 1


class Levels(NamedTuple):
    """What young may be that are held, by their place in the herd's preferences, where each is held at one of them.

    Those of one season and one place in the preferences come in any order, one as likely as another, those of a better
    place before them. merged: a season that stands for those before it, too.
    """

    kinds: tuple[tuple[States, ...], ...]
    merged: int | None


def choices(herd: int, whens: Sequence[int], kinds: Sequence[Sequence[Kind]], levels: Levels | None) -> list[Choice]:
    """Every choice for members that came in these seasons; kinds: what each may be."""
    if levels is None:
        return [Choice(tuple(map(Member, whens, own))) for own in product(*kinds)]
    found = [Choice(())]
    for season, ranks in _by_season(whens):
        some = list(_of_season(herd, season, {rank: ANY not in kinds[rank] for rank in ranks}, levels))
        found = [
            Choice((*one.members, *more.members), (*one.lots, *more.lots), one.times * more.times)
            for one, more in product(found, some)
        ]
    return found


def count_choices(whens: Sequence[int], kinds: Sequence[Sequence[Kind]], levels: Levels | None) -> int:
    """How many choices there are, without listing them."""
    if levels is None:
        return math.prod(map(len, kinds))
    many, every = 1, sum(map(len, levels.kinds))
    for season, ranks in _by_season(whens):
        told = sum(ANY not in kinds[rank] for rank in ranks)
        many *= math.comb(told + every - 1, told) if _in_any_order(season, levels) else every**told
    return many


def _by_season(whens: Sequence[int]) -> Iterator[tuple[int, Iterator[int]]]:
    return groupby(range(len(whens)), key=whens.__getitem__)


def _in_any_order(season: int, levels: Levels) -> bool:
    """Whether how many there are of each kind tells all there is to tell of those of a season."""
    return len(levels.kinds) == 1 or season != levels.merged


def _of_season(herd: int, season: int, ranks: Mapping[int, bool], levels: Levels) -> Iterator[Choice]:
    """Those that came in one season; ranks: whether it makes a difference what they are."""
    told, every = [rank for rank, is_told in ranks.items() if is_told], [own for kinds in levels.kinds for own in kinds]
    mixed = _in_any_order(season, levels)
    for own in combinations_with_replacement(every, len(told)) if mixed else product(every, repeat=len(told)):
        by_rank: dict[int, Kind] = dict(zip(told, own, strict=True))
        members = tuple(Member(season, by_rank.get(rank, ANY)) for rank in ranks)
        if not mixed:
            yield Choice(members)
            continue
        lots, times = [], 1
        for kinds in levels.kinds:
            animals = tuple(Animal(herd, rank) for rank, kind in zip(told, own, strict=True) if kind in kinds)
            counts = Counter(kind for kind in own if kind in kinds)
            times *= math.factorial(len(animals)) // math.prod(map(math.factorial, counts.values()))
            if len(counts) > 1:
                lots.append(Lot(animals, tuple(counts.items())))
        yield Choice(members, tuple(lots), times)

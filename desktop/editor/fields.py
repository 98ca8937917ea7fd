"""The fields of the route editor, one row each: what they are called, what they hold, how they are put in.

Everything that a route of the file can say about its animals and pairings is here or in `choices`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec
from msgspec.structs import replace

from core.explain.numbers import price
from core.plan import limits
from core.plan.model import Held, Owned, Route, Scale
from core.plan.scale import scale_of
from desktop.editor import groups, pairings
from desktop.editor.change import Change, Refused, with_group
from desktop.editor.parts import Part, Typed, Where
from desktop.locale_reading import read_number
from desktop.words import editor as words
from desktop.words.names import titled

Value = int | float | None


class NumberField(msgspec.Struct, frozen=True):
    """A number of a group, a pairing or the route; `open` is the word for none, where there may be none."""

    key: str
    name: str
    least: int
    most: int
    get: Callable[[Where], Value]
    put: Callable[[Where, Value], Change]
    open: str = ""
    kind: Literal["whole", "money"] = "whole"
    help: str = ""

    def __call__(self, at: Where) -> tuple[Part, ...]:
        """The field as a part of a sentence."""
        value = self.get(at)

        def put(text: str) -> Change:
            return self._read_and_put(at, text)

        return (
            Typed(
                self.key,
                words.field_name(self.name, at.id),
                words.step(self.name, at.id),
                self.shown(at, value),
                put,
                hint=self.open,
                help=self.help,
            ),
        )

    def shown(self, at: Where, value: Value) -> str:
        """The value as it stands in the field."""
        if value is None:
            return ""
        return price(value, at.numbers) if self.kind == "money" else at.numbers.whole(int(value))

    def _read_and_put(self, at: Where, text: str) -> Change:
        if self.open and text.strip().casefold() in ("", self.open.casefold()):
            return self.put(at, None)
        value = read_number(text, whole=self.kind == "whole")
        if value is None:
            return Refused(words.not_a_number(text, whole=self.kind == "whole", open_word=self.open))
        if not self.least <= value <= self.most:
            return Refused(words.out_of_range(self.name, self.shown(at, self.least), self.shown(at, self.most)))
        return self.put(at, value)


def _of_group(attribute: str) -> tuple[Callable[[Where], Value], Callable[[Where, Value], Change]]:
    def get(at: Where) -> Value:
        value: Value = getattr(at.group, attribute)
        return value

    def put(at: Where, value: Value) -> Change:
        return with_group(at.route, replace(at.group, **{attribute: value}))

    return get, put


def _put_season(at: Where, value: Value) -> Change:
    group = at.group
    assert not isinstance(group, Held)
    assert value is not None
    if group.until is not None and group.until < value:
        return Refused(words.gone_before(int(value), group.until))
    return with_group(at.route, replace(group, season=int(value)))


def _put_until(at: Where, value: Value) -> Change:
    group = at.group
    if value is not None and not isinstance(group, Held) and value < group.season:
        return Refused(words.gone_before(group.season, int(value)))
    return with_group(at.route, replace(group, until=None if value is None else int(value)))


def _season_of_pairing(end: Literal[0, 1]) -> tuple[Callable[[Where], Value], Callable[[Where, Value], Change]]:
    def get(at: Where) -> Value:
        return at.pairing.seasons[end]

    def put(at: Where, value: Value) -> Change:
        seasons = [*at.pairing.seasons]
        seasons[end] = None if value is None else int(value)
        return pairings.with_seasons(at.route, at.id, seasons[0], seasons[1])

    return get, put


def _put_setup(at: Where, value: Value) -> Change:
    return replace(at.route, setup=value or 0)


def _put_finished(at: Where, value: Value) -> Change:
    goal = at.plan.goal
    if value is not None and goal.outright_price is None:
        return Refused(words.NO_OUTRIGHT_PRICE)
    if value is not None and value > goal.seasons:
        return Refused(words.after_the_goal(goal.seasons))
    return replace(at.route, buy_outright=None if value is None else int(value))


_SEASONS, _SUMS = (1, limits.MOST_SEASONS), (0, limits.MOST_MONEY)
COUNT = NumberField("count", words.COUNT, 1, limits.MOST_ANIMALS_IN_GROUP, *_of_group("count"))
PRICE = NumberField("price", words.PRICE, *_SUMS, *_of_group("price"), kind="money")
SEASON = NumberField("season", words.ARRIVAL, *_SEASONS, _of_group("season")[0], _put_season)
UNTIL = NumberField("until", words.LAST_SEASON, *_SEASONS, _of_group("until")[0], _put_until, open=words.END)
READY = NumberField("ready", words.GROWS, 0, limits.MOST_SEASONS, *_of_group("ready_in"), help=words.GROWS_HELP)
FIRST = NumberField("first", words.FIRST_SEASON, *_SEASONS, *_season_of_pairing(0), open=words.START)
LAST = NumberField("last", words.LAST_SEASON, *_SEASONS, *_season_of_pairing(1), open=words.END)
SETUP = NumberField("setup", words.SETUP_NAME, *_SUMS, lambda at: at.route.setup, _put_setup, kind="money")
FINISHED = NumberField(
    "finished", words.FINISHED_NAME, *_SEASONS, lambda at: at.route.buy_outright, _put_finished, open=words.NEVER
)
NUMBERS = (COUNT, PRICE, SEASON, UNTIL, READY, FIRST, LAST, SETUP, FINISHED)


def name_of_line(at: Where, kind: Literal["group", "pairing"]) -> Typed:
    """The name of a group or a pairing, which is its id in the file."""
    rename = groups.renamed if kind == "group" else pairings.renamed

    def put(text: str) -> Change:
        return rename(at.route, at.id, text)

    return Typed("name", words.field_name(words.NAME, at.id), words.step(words.NAME, at.id), titled(at.id), put)


def name_of_route(at: Where) -> Typed:
    """The name of the route."""

    def put(text: str) -> Change:
        typed = text.strip()
        if not typed:
            return Refused(words.ROUTE_NAME_NEEDED)
        if len(typed) > limits.LONGEST_NAME:
            return Refused(words.too_long(limits.LONGEST_NAME))
        return replace(at.route, name=typed)

    return Typed("route name", words.ROUTE_NAME, words.RENAME_ROUTE, at.route.name, put)


def counts(at: Where) -> tuple[Part, ...]:
    """How many animals the route is tried with."""
    scale = scale_of(at.route)
    if scale is None:
        return ()

    def put(text: str) -> Change:
        read = words.read_counts(text, limits.MOST_SCALE_COUNTS)
        if isinstance(read, str):
            return Refused(read)
        return replace(at.route, scale=Scale(groups=scale.groups, counts=read))

    return (Typed("counts", words.COUNTS_NAME, words.COUNTS_STEP, words.counts_text(scale.counts), put),)


def can_be_tried(route: Route) -> tuple[str, ...]:
    """Groups whose count may be tried out: all but those that name their animals."""
    return tuple(one.id for one in route.groups if not (isinstance(one, Owned) and one.animals is not None))

"""The choices of the route editor, one row each, and lists of groups and looks as choices in a row; no Qt."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace

from core.plan.book import Book
from core.plan.model import Bought, Forms, Held, Owned, Plan, Scale, Sex
from core.plan.scale import scale_of
from desktop.editor import groups, pairings
from desktop.editor.change import Change, Make, with_group
from desktop.editor.fields import FIRST, LAST, can_be_tried
from desktop.editor.parts import Chosen, Opens, Option, Part, Where, Word
from desktop.words import editor as words
from desktop.words.animals import animal_title
from desktop.words.names import titled

Ids = tuple[str, ...]
SEXES: tuple[Sex, Sex] = ("male", "female")


def origin(at: Where) -> tuple[Part, ...]:
    """Bought, mine, or held back."""

    def make(wanted: groups.Origin) -> Make:
        return lambda: groups.with_origin(at.plan, at.route, at.id, wanted)

    options = tuple(Option(words.ORIGINS[one], make(one)) for one in groups.ORIGINS)
    return (_chosen(at, "origin", words.ORIGIN, options, groups.ORIGINS.index(groups.origin_of(at.group))),)


def sex(at: Where) -> tuple[Part, ...]:
    """Male or female, in the number that the count asks for."""

    def make(wanted: Sex) -> Make:
        return lambda: groups.with_group_sex(at.plan, at.route, at.id, wanted)

    count = groups.size(at.group)
    options = tuple(Option(words.sex_word(one, count), make(one)) for one in SEXES)
    return (_chosen(at, "sex", words.SEX, options, SEXES.index(at.group.sex)),)


def carries(at: Where) -> tuple[Part, ...]:
    """What bought animals or mine carry; chosen gene by gene below."""
    group = at.group
    assert isinstance(group, Bought | Owned)
    text = animal_title(at.plan, group.carries or {})
    return (Opens("carries", words.field_name(words.CARRIES, at.id), text, words.CARRIES_HELP),)


def animals(at: Where) -> tuple[Part, ...]:
    """Which animals of mine; chosen below."""
    group = at.group
    assert isinstance(group, Owned)
    text = words.animals_text(at.plan, group.animals or ())
    return (Opens("animals", words.field_name(words.ANIMALS, at.id), text, words.ANIMALS_HELP),)


def kept(at: Where) -> tuple[Part, ...]:
    """Whether animals of mine would be kept without the route too."""
    group = at.group
    assert isinstance(group, Owned)

    def make(anyway: bool) -> Make:
        return lambda: with_group(at.route, replace(group, kept_anyway=anyway))

    options = tuple(Option(words.KEPT[one], make(one)) for one in (True, False))
    return (_chosen(at, "kept", words.KEPT_NAME, options, 0 if group.kept_anyway else 1, words.KEPT_HELP),)


def sources(at: Where) -> tuple[Part, ...]:
    """Whose young are held back."""
    group = at.group
    assert isinstance(group, Held)

    def put(names: Ids) -> Change:
        return groups.with_sources(at.route, at.id, names)

    known = [one.id for one in at.route.pairings]
    return _list_of(at, "from", words.SOURCE, group.source, known, put, words.OR, words.pairing)


def picks(at: Where) -> tuple[Part, ...]:
    """Which young are held back first, and which where there are not enough of those."""
    group = at.group
    assert isinstance(group, Held)
    found: list[Part] = [Word(words.TAKING)]
    for place, forms in enumerate(group.pick):
        if place:
            found.append(Word(words.FIRST_THEN if place == 1 else words.THEN))
        found.append(_pick(at, group, place, forms))
    if group.pick[-1]:
        found += [Word(words.THEN), _pick(at, group, len(group.pick), None)]
    return tuple(found)


def males(at: Where) -> tuple[Part, ...]:
    """The males of a pairing: the first of these groups that is there."""
    return _side(at, "males", words.MALES, words.ELSE)


def females(at: Where) -> tuple[Part, ...]:
    """The females of a pairing: all of these groups, in this order."""
    return _side(at, "females", words.FEMALES, words.AND)


def when(at: Where) -> tuple[Part, ...]:
    """In every season, or in some seasons only."""
    first, last = at.pairing.seasons

    def make(start: int | None) -> Make:
        return lambda: pairings.with_seasons(at.route, at.id, start, None)

    is_open = first is None and last is None
    options = (Option(words.EVERY_SEASON, make(None)), Option(words.SOME_SEASONS, make(1)))
    choice = _chosen(at, "when", words.WHEN, options, 0 if is_open else 1)
    return (choice,) if is_open else (choice, *FIRST(at), Word(words.TO), *LAST(at))


def tried(at: Where) -> tuple[Part, ...]:
    """The groups whose count is tried out."""
    scale = scale_of(at.route)
    assert scale is not None

    def put(names: Ids) -> Change:
        return replace(at.route, scale=Scale(groups=names, counts=scale.counts))

    return _list_of(at, "tried", words.TRIED, scale.groups, can_be_tried(at.route), put, words.AND)


def not_tried(at: Where) -> tuple[Part, ...]:
    """For a route that is worked out as drawn only: a group to try several counts of."""

    def make(name: str) -> Make:
        return lambda: replace(at.route, scale=Scale(groups=(name,), counts=(1, 2, 3, 4)))

    options = [Option(words.NOTHING, lambda: at.route)]
    options += [Option(titled(name), make(name)) for name in can_be_tried(at.route)]
    return (_chosen(at, "tried.0", words.TRIED, tuple(options), 0),)


def looks(plan: Plan, sex: Sex) -> list[Forms]:
    """Looks that young are picked by: any, each that the goal asks for and all of them, then every other form."""
    wanted = {gene: form for row in plan.goal.want for gene, form in row.forms.items()}
    found: list[Forms] = [{}]
    if len(wanted) > 1:
        found.append(wanted)
    found += [{gene: form} for gene, form in wanted.items()]
    found += [{gene.id: form} for gene in plan.genes for form in dict.fromkeys(gene.forms.values())]
    tables = Book(plan).tables
    can = [one for one in found if all(form in tables[gene].shown[sex] for gene, form in one.items())]
    return [one for place, one in enumerate(can) if one not in can[:place]]


def _pick(at: Where, group: Held, place: int, now: Forms | None) -> Chosen:
    def make(forms: Forms | None) -> Make:
        return lambda: groups.with_pick(at.route, at.id, place, forms)

    found = looks(at.plan, group.sex)
    if now is not None and now not in found:
        found.insert(1, now)
    options = [Option(words.look(at.plan, forms), make(forms)) for forms in found]
    if now is None:
        options.insert(0, Option(words.NO_OTHERS, lambda: at.route))
        chosen = 0
    else:
        chosen = found.index(now)
        if len(group.pick) > 1:
            options.append(Option(words.TAKE_OUT_LOOK, make(None)))
    return _chosen(at, f"pick.{place}", words.pick_name(place), tuple(options), chosen, words.PICK_HELP)


def _side(at: Where, side: pairings.Side, name: str, joint: str) -> tuple[Part, ...]:
    wanted: Sex = "male" if side == "males" else "female"
    known = [group.id for group in at.route.groups if group.sex == wanted]

    def put(names: Ids) -> Change:
        return pairings.with_side(at.route, at.id, side, names)

    return _list_of(at, side, name, getattr(at.pairing, side), known, put, joint)


def _list_of(
    at: Where,
    key: str,
    name: str,
    now: Ids,
    known: Sequence[str],
    put: Callable[[Ids], Change],
    joint: str,
    called: Callable[[str], str] = titled,
) -> tuple[Part, ...]:
    """A list as choices with a word between; one more is chosen in the last of them, an order by choosing again."""
    found: list[Part] = []
    for place, current in enumerate(now):
        if place:
            found.append(Word(joint))
        options = [Option(called(one), _making(put, _put_at(now, place, one))) for one in known]
        if place == len(now) - 1:
            more = [one for one in known if one not in now]
            options += [Option(words.also(joint, called(one)), _making(put, (*now, one))) for one in more]
        if len(now) > 1:
            rest = (*now[:place], *now[place + 1 :])
            options.append(Option(words.without(called(current)), _making(put, rest)))
        found.append(_chosen(at, f"{key}.{place}", name, tuple(options), known.index(current)))
    return tuple(found)


def _put_at(now: Ids, place: int, wanted: str) -> Ids:
    """`wanted` at `place`; where it stands elsewhere, the two change places."""
    return tuple(wanted if i == place else now[place] if one == wanted else one for i, one in enumerate(now))


def _making(put: Callable[[Ids], Change], names: Ids) -> Make:
    return lambda: put(names)


def _chosen(at: Where, key: str, name: str, options: tuple[Option, ...], chosen: int, help: str = "") -> Chosen:
    return Chosen(key, words.field_name(name, at.id), words.step(name, at.id), options, chosen, help)

"""The sentences of the route editor: which words and fields each line has, and which stand below it; no Qt."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import wrap

from core.plan.scale import scale_of
from desktop.editor import choices, fields
from desktop.editor.groups import origin_of, size
from desktop.editor.parts import Part, Row, Where, Word
from desktop.words import editor as words

Sentence = tuple[str | Row, ...]
_LONGEST_PIECE = 24

_STAY: Sentence = (words.FROM_SEASON, fields.SEASON, words.TO, fields.UNTIL)
GROUPS: dict[str, Sentence] = {
    "buy": (choices.origin, fields.COUNT, choices.sex, choices.carries, words.AT, fields.PRICE, *_STAY),
    "own": (choices.origin, fields.COUNT, choices.sex, choices.carries, *_STAY),
    "named": (choices.origin, choices.animals, *_STAY),
    "hold": (choices.origin, fields.COUNT, choices.sex, words.FROM, choices.sources, choices.picks),
}
_KEPT: Sentence = (words.TO_USE, choices.kept, words.AND_GROWN, fields.READY, words.GROWS_UNIT)
MORE: dict[str, Sentence] = {
    "buy": (words.GROWS_FOR, fields.READY, words.GROWS_UNIT),
    "own": (words.COST, fields.PRICE, words.EACH, *_KEPT),
    "named": (words.THEY_ARE, choices.sex, words.COST_TOO, fields.PRICE, words.EACH, *_KEPT),
    "hold": (words.STAY_UNTIL, fields.UNTIL),
}
PAIRING: Sentence = (words.PAIR, choices.males, words.WITH, choices.females, choices.when)
FINISHED: Sentence = (words.BUY_FINISHED, fields.FINISHED)
_TRIED: Sentence = (words.TRY, fields.counts, words.OF, choices.tried, words.TRY_END)
_NOT_TRIED: Sentence = (words.TRY_COUNTS_OF, choices.not_tried)
_SETUP: Sentence = (words.SETUP, fields.SETUP)


def group_sentence(at: Where) -> tuple[Part, ...]:
    """What a line of animals says."""
    return told(GROUPS[origin_of(at.group)], at)


def group_more(at: Where) -> tuple[Part, ...]:
    """What is said of animals below."""
    return told(MORE[origin_of(at.group)], at)


def pairing_sentence(at: Where) -> tuple[Part, ...]:
    """What a line of who breeds whom says."""
    return told(PAIRING, at)


def finished_sentence(at: Where) -> tuple[Part, ...]:
    """Buying the finished animals."""
    return told(FINISHED, at)


def counts_sentence(at: Where) -> tuple[Part, ...]:
    """Which counts are tried, and what the route costs beside its animals."""
    tried = _TRIED if scale_of(at.route) else _NOT_TRIED if fields.can_be_tried(at.route) else ()
    return told((*tried, *_SETUP), at)


def told(sentence: Sentence, at: Where) -> tuple[Part, ...]:
    """A sentence about one thing, word by word and field by field."""
    return tuple(part for piece in sentence for part in _parts(piece, at))


def _parts(piece: str | Row, at: Where) -> Iterable[Part]:
    if not isinstance(piece, str):
        return piece(at)
    each = at.id and piece == words.EACH and size(at.group) == 1
    # Where text is large, a long piece goes on in the next row.
    return () if each else (Word(part) for part in wrap(piece, _LONGEST_PIECE))

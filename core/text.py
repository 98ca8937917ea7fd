"""Every text that a person reads goes through `tr`: as written, or as a catalogue says it in another language.

The catalogue is the one thing that is the same for a whole process, as with gettext; everything else in core depends on
its arguments alone. It is chosen once, before any text is asked for, so texts at the top of a module are translated
when the module is loaded. Without one every text stays as it is written here, in English.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

# Gives a text in another language, from the text, its note and, for a text with a number, that number (else -1);
# empty where it has none.
Catalogue = Callable[[str, str, int], str]

_PLACE = re.compile(r"\{(\w+)\}")
_catalogue: Catalogue | None = None
_asked = False


def use(catalogue: Catalogue) -> None:
    """Choose the language of all texts of this process. Raises RuntimeError once a text was asked for."""
    global _catalogue
    if _asked:
        raise RuntimeError("the language must be chosen before the first text")
    _catalogue = catalogue


def tr(text: str, note: str = "", n: int | None = None, /, **values: object) -> str:
    """Give a text in the reader's language, with `values` put in where it says `{name}`.

    note: tells apart texts that are alike in English but not elsewhere.
    n: the number that the text is about, which stands in for `{n}` too; `text` is then said of none or many, `note` of
       one: `tr("{n} seasons", "{n} season", seasons)`. Other languages have as many forms as they need.
    values: put in as they are, so a name may hold braces. The text itself must be written out in the call, with no
       value of a plan in it: Qt's lupdate reads it from there.
    """
    global _asked
    _asked = True
    said = _catalogue(text, note, -1 if n is None else n) if _catalogue is not None else ""
    said = said or (note if n == 1 else text)
    if n is not None:
        values.setdefault("n", n)
    return fill(said, values) if values else said


def fill(said: str, values: Mapping[str, object]) -> str:
    """Put values in where a text says `{name}`; a name without a value stays."""
    return _PLACE.sub(lambda place: str(values.get(place[1], place[0])), said)

"""A language that nobody speaks, made by Qt's own tools: texts a third longer, in marks, in no letter of English.

What still stands in English letters on a screen goes through no translation, and what has no room in this language will
have none in a real one. It comes in by the same door as a real one: a file beside a locale with a comma in its numbers.
"""

from __future__ import annotations

import os
import re
from itertools import cycle, islice
from pathlib import Path
from xml.etree import ElementTree

from tests.desktop.translations import gather, release

LOCALE = "de_DE"
# Each in both of the program's own fonts, so that none brings another font's height.
_LETTERS = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "áбçđéƒğĥíĵķļмñóрøŕšťúνŵхýžÁВÇĐÉΦĞĤÍĴĶĻМÑÓРØŔŠŤÚѴŴХÝŽ",
)
_PLACE = re.compile(r"(\{\w+\})")
_LETTER = re.compile("[A-Za-z]")
_VOWELS = re.compile("[aeiouyAEIOUY]")
_LONGER = 0.35


def said(text: str) -> str:
    """A text in this language; what stands in braces is put in later and stays."""
    if not _LETTER.search(_PLACE.sub("", text)):
        return text
    parts = _PLACE.split(text)
    parts[::2] = [_stretched(part).translate(_LETTERS) for part in parts[::2]]
    return f"«{''.join(parts)}»"


def _stretched(part: str) -> str:
    """A text with its vowels said longer, from the first to the last of them, until it is a third longer."""
    vowels = [found.start() for found in _VOWELS.finditer(part)]
    more = islice(cycle(vowels), round(len(part) * _LONGER)) if vowels else ()
    times = dict.fromkeys(vowels, 1)
    for place in more:
        times[place] += 1
    return "".join(letter * times.get(place, 1) for place, letter in enumerate(part))


def make(folder: Path) -> None:
    """Writes the file of this language that the program reads."""
    file = folder / f"pairwright_{LOCALE.partition('_')[0]}.ts"
    gather(file)
    tree = ElementTree.parse(file)
    for message in tree.iter("message"):
        translation = message.find("translation")
        assert translation is not None
        del translation.attrib["type"]
        # The number's second form stands where other texts have their note, as `core.text.tr` says.
        many, one = message.findtext("source", ""), message.findtext("comment", "")
        forms = translation.findall("numerusform")
        for form, text in zip(forms, (one, many), strict=False):
            form.text = said(text or many)
        if not forms:
            translation.text = said(many)
    tree.write(file, encoding="utf-8", xml_declaration=True)
    release(file)


def speak(folder: Path) -> None:
    """Has this process speak it; to be called before Qt or any module with texts is loaded."""
    os.environ.update(LC_ALL=f"{LOCALE}.UTF-8", LANGUAGE=LOCALE)
    from desktop import language

    assert language.choose(folder) is not None

"""Texts in the reader's language: what stands in for them, and what is put into them."""

from __future__ import annotations

import pytest

from core import text
from core.text import tr


def test_a_text_without_values_is_as_written() -> None:
    assert tr("in braces { } and {unknown}") == "in braces { } and {unknown}"


def test_values_are_put_in_as_they_are() -> None:
    assert tr("“{route}” needs {money}", route="{money} {0} %s", money="12") == "“{money} {0} %s” needs 12"


@pytest.mark.parametrize(("n", "said"), [(0, "0 seasons"), (1, "1 season"), (2, "2 seasons")])
def test_one_and_many(n: int, said: str) -> None:
    assert tr("{n} seasons", "{n} season", n) == said


def test_a_number_may_be_written_in_another_way() -> None:
    assert tr("{n} seasons", "one season", 12000, n="12,000") == "12,000 seasons"


def test_a_note_is_no_text() -> None:
    assert tr("Back", "to the page before") == "Back"


def test_a_catalogue_says_it_otherwise(monkeypatch: pytest.MonkeyPatch) -> None:
    known = {("{n} seasons", 1): "{n} Saison", ("{n} seasons", 3): "{n} Saisons", ("Back", -1): "Zurück"}
    monkeypatch.setattr(text, "_catalogue", lambda said, _, n: known.get((said, n), ""))
    assert [tr("{n} seasons", "{n} season", n) for n in (1, 3, 4)] == ["1 Saison", "3 Saisons", "4 seasons"]
    assert (tr("Back"), tr("Next")) == ("Zurück", "Next")


def test_the_language_is_chosen_before_the_first_text() -> None:
    tr("asked for")
    with pytest.raises(RuntimeError):
        text.use(lambda *_: "")

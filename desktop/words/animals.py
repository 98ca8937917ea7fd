"""What an animal carries, in the trade's words; the words themselves are shared with every explanation."""

from __future__ import annotations

from core.explain.animals import HET, animal, animal_title, form_words, het_name

__all__ = ["HET", "animal", "animal_title", "form_words", "het_name"]

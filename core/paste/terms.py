"""The words of one plan: genes, forms and combinations by every name a list may use."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Sequence

import msgspec

from core.plan.genotypes import NORMAL, WILD, Table, written
from core.plan.model import Plan, Sex

_SHORTEST_PREFIX = 3
_LONGEST_PHRASE = 5
_WORDS = re.compile(r"[^\s,;|/()+&:]+")


class Named(msgspec.Struct, frozen=True):
    """What a phrase names: a gene as such (`form` empty) or one visible form of it."""

    gene: str
    form: str = ""


Meaning = tuple[Named, ...]


class Terms(msgspec.Struct, frozen=True):
    """Every phrase of a plan with what it may mean, and the tables of its genes."""

    tables: dict[str, Table]
    phrases: dict[tuple[str, ...], frozenset[Meaning]]

    def longest(self, words: Sequence[str]) -> tuple[int, frozenset[Meaning]]:
        """Give how many of the first words make one known phrase, and its meanings; 0 for none."""
        for width in range(min(_LONGEST_PHRASE, len(words)), 0, -1):
            found = self.phrases.get(tuple(words[:width]))
            if found:
                return width, found
        return (1, found) if words and (found := self._by_prefix(words[0])) else (0, frozenset())

    def near(self, word: str) -> list[str]:
        """Give known phrases that a misspelt word may stand for."""
        known = [" ".join(phrase) for phrase in self.phrases]
        return difflib.get_close_matches(word, known, n=4, cutoff=0.6)

    def _by_prefix(self, word: str) -> frozenset[Meaning]:
        if len(word) < _SHORTEST_PREFIX:
            return frozenset()
        starts = [found for phrase, found in self.phrases.items() if phrase[0].startswith(word)]
        return _reduced(frozenset().union(*starts))

    def genotypes(self, named: Named, sex: Sex) -> list[str]:
        """Give the genotypes of an animal of `sex` that show the named form (any visible one for a gene)."""
        table = self.tables[named.gene]
        pairs = [pair for pair in table.pairs(sex) if pair not in table.lethal]
        shown = [pair for pair in pairs if table.form(pair) != NORMAL]
        return [written(pair) for pair in shown if not named.form or table.form(pair) == named.form]

    def one_copy(self, named: Named, sex: Sex) -> list[str]:
        """Give the genotypes with one wild-type copy that an animal called het for this may have."""
        table = self.tables[named.gene]
        alleles = [
            pair for pair in table.pairs(sex) if (WILD in pair) and pair != (WILD, WILD) and table.lone not in pair
        ]
        if named.form and len(alleles) > 1:
            own = [pair for pair in alleles if self._makes(table, pair, named.form)]
            alleles = own or alleles
        return [written(pair) for pair in alleles if pair not in table.lethal]

    @staticmethod
    def _makes(table: Table, pair: tuple[str, str], form: str) -> bool:
        mutant = next(allele for allele in pair if allele != WILD)
        return table.form((mutant, mutant)) == form


def terms_of(plan: Plan) -> Terms:
    """Collect the words of a plan."""
    tables = {gene.id: Table(gene, plan.species.sex_system) for gene in plan.genes}
    phrases: dict[tuple[str, ...], set[Meaning]] = {}
    for text, meaning in _entries(plan):
        phrase = tuple(_WORDS.findall(text.casefold()))
        if phrase:
            phrases.setdefault(phrase, set()).add(meaning)
    return Terms(tables, {phrase: _reduced(frozenset(found)) for phrase, found in phrases.items()})


def _entries(plan: Plan) -> Iterator[tuple[str, Meaning]]:
    for gene in plan.genes:
        yield gene.id, (Named(gene.id),)
        yield gene.name, (Named(gene.id),)
        for form in dict.fromkeys(gene.forms.values()):
            if form != NORMAL:
                yield form, (Named(gene.id, form),)
    known = {gene.id for gene in plan.genes}
    for combination in plan.combinations:
        shown = tuple(Named(gene, form) for gene, form in combination.forms.items() if gene in known and form != NORMAL)
        if shown:
            yield combination.name, shown


def _reduced(meanings: frozenset[Meaning]) -> frozenset[Meaning]:
    """Let a gene's name stand back where the same word also names one of its forms."""
    formed = {one.gene for meaning in meanings if len(meaning) == 1 for one in meaning if one.form}
    return frozenset(m for m in meanings if len(m) > 1 or m[0].form or m[0].gene not in formed)

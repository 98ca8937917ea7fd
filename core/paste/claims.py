"""The genes of a line: what is claimed of each, and the genotype that says it."""

from __future__ import annotations

from fractions import Fraction

import msgspec

from core.paste.numbers import share
from core.paste.parts import Choice
from core.paste.scan import LEAVE_OUT, Facts, Token, mark
from core.paste.terms import Meaning, Named, Terms
from core.plan.genotypes import GenotypeError, written
from core.plan.model import Carries, Hidden, Sex
from core.plan.sexes import sex_words
from core.text import tr

_HET = {"het", "hets", "heterozygous"}
_POSSIBLE = {"possible", "poss", "pos", "ph"}
_SEVERAL = {"double": 2, "dbl": 2, "triple": 3, "dh": 2}
_NORMAL = {"normal", "wildtype", "wt"}


class Claim(msgspec.Struct, frozen=True):
    """What is said of one named gene or form: shown, or one copy for sure (`chance` "1") or with a chance."""

    token: Token
    last: Token
    named: Named
    het: bool
    chance: str = "1"


class Claiming:
    """Reads gene words one after the other; "het" holds for the genes that follow it."""

    def __init__(self, terms: Terms, facts: Facts) -> None:
        self._terms = terms
        self._facts = facts
        self._het: Token | None = None
        self._chance = "1"
        self._several = 0
        self._given = 0
        self.normal: Token | None = None
        self.claims: list[Claim] = []
        self.literals: dict[str, tuple[Token, str]] = {}

    def read(self, tokens: list[Token], at: int) -> int:
        """Read what starts at a token; give how many tokens it took, 0 for no gene word."""
        token = tokens[at]
        if token.kind == "literal":
            return self._read_literal(token)
        if taken := self._read_opening(tokens, at):
            return taken
        if token.kind != "word" or (taken := self._read_normal(tokens, at)):
            return taken if token.kind == "word" else 0
        width, meanings = self._terms.longest([later.text for later in _words(tokens, at)])
        if meanings:
            self._claim(token, tokens[at + width - 1], meanings)
        return width

    def close(self) -> None:
        """End a "het" at the end of its genes: one that names too few is marked."""
        token, wanted, given = self._het, self._several or 1, self._given
        self._het, self._chance, self._several, self._given = None, "1", 0, 0
        if token is None or given == wanted or (given and wanted == 1):
            return
        genes = list(self._terms.tables)
        if not given and wanted == len(genes) and wanted > 1:
            self.claims.extend(Claim(token, token, Named(gene), het=True) for gene in genes)
            return
        choices = (
            [Choice(tr("het, for these only"), "het")]
            if given
            else [Choice(tr("het {gene}", gene=gene), f"het {gene}") for gene in genes[:6]]
        )
        mark(self._facts, token, tr("It is not clear for which genes it is het"), *choices, LEAVE_OUT)

    def stray(self, token: Token) -> Token:
        """Give an unknown word together with the "het" that waits for its gene."""
        opened = self._het
        if opened is None or self._given:
            return token
        self._het = None
        return Token("word", opened.start, token.end, token.text)

    def _read_literal(self, token: Token) -> int:
        gene, _, genotype = token.text.partition("=")
        found = next((known for known in self._terms.tables if known.casefold() == gene), None)
        if found is None:
            return 0
        self.close()
        self.literals[found] = (token, genotype)
        return 1

    def _read_opening(self, tokens: list[Token], at: int) -> int:
        """Read "het", "66% het", "possible het", "double het for" and the like."""
        taken, chance, several, possible = 0, "", 0, False
        for later in tokens[at : at + 6]:
            if later.kind == "number" and later.text.endswith("%") and not chance:
                chance = later.text
            elif later.text in _POSSIBLE or later.text == "%":
                possible = True
            elif later.text in _SEVERAL and not several:
                several = _SEVERAL[later.text]
            elif later.text in _HET or (later.text == "for" and taken):
                pass
            else:
                break
            taken += 1
        words = {later.text for later in tokens[at : at + taken]}
        if not taken or not (chance or possible or words & _HET or "dh" in words):
            return 0
        self.close()
        self._open(tokens[at], tokens[at + taken - 1], chance, several, possible)
        return taken

    def _open(self, token: Token, last: Token, chance: str, several: int, possible: bool) -> None:
        self._het = Token("word", token.start, last.end, token.text)
        self._several = several
        found = share(chance) if chance else "1"
        if (possible and not chance) or found is None:
            choices = [Choice(tr("{percent} % possible het", percent=n), f"{n}% het") for n in (66, 50, 33)]
            mark(
                self._facts,
                self._het,
                tr("How likely it is het is not said"),
                *choices,
                Choice(tr("surely het"), "het"),
            )
            self._het, found = None, None
        self._chance = found or "?"

    def _read_normal(self, tokens: list[Token], at: int) -> int:
        words = [later.text for later in _words(tokens, at)[:2]]
        taken = 2 if words == ["wild", "type"] else int(words[0] in _NORMAL or words[0] == "wild-type")
        if taken:
            self.close()
            self.normal = tokens[at]
        return taken

    def _claim(self, token: Token, last: Token, meanings: frozenset[Meaning]) -> None:
        if len(meanings) > 1:
            names = sorted({" ".join(one.form or one.gene for one in meaning) for meaning in meanings})
            mark(self._facts, token, tr("This can mean more than one thing"), *(Choice(n, n) for n in names), last=last)
            return
        meaning = next(iter(meanings))
        if self._chance not in ("1", "?") and self._given:
            name = " ".join(one.form or one.gene for one in meaning)
            percent = round(Fraction(self._chance) * 100 - Fraction(1, 3))
            options = (f"{percent}% het {name}", f"het {name}")
            reason = tr("It is not clear whether the chance holds for this one too")
            mark(self._facts, token, reason, *(Choice(option, option) for option in options), last=last)
            return
        self._given += len(meaning)
        het = self._het is not None or self._chance == "?"
        chance = "1" if self._chance == "?" else self._chance
        self.claims.extend(Claim(token, last, one, het, chance) for one in meaning)


def _words(tokens: list[Token], at: int) -> list[Token]:
    """The tokens from here on that can belong to one phrase."""
    found: list[Token] = []
    for token in tokens[at : at + 6]:
        if token.kind not in ("word", "number"):
            break
        found.append(token)
    return found


def carries_of(claiming: Claiming, terms: Terms, facts: Facts, sex: Sex) -> Carries:
    """Turn claims into genotypes; what fits no genotype, or more than one, is marked."""
    carries: dict[str, str | Hidden] = {}
    for gene, (token, genotype) in claiming.literals.items():
        try:
            carries[gene] = written(terms.tables[gene].read(_written(terms, gene, genotype), sex).pair)
        except GenotypeError:
            mark(facts, token, tr("No genotype of {gene} for a {sex}", gene=gene, sex=sex_words(sex)), LEAVE_OUT)
    if claiming.normal and any(not claim.het for claim in claiming.claims):
        mark(facts, claiming.normal, tr("Normal, yet visual for something"), LEAVE_OUT)
    for claim in claiming.claims:
        if claim.named.gene in carries:
            mark(facts, claim.token, tr("{gene} is named twice", gene=claim.named.gene), LEAVE_OUT, last=claim.last)
        elif genotype := _one_genotype(claim, terms, facts, sex):
            wild = written(terms.tables[claim.named.gene].wild(sex))
            rest = str(1 - Fraction(claim.chance))
            carries[claim.named.gene] = genotype if claim.chance == "1" else {genotype: claim.chance, wild: rest}
    return {gene: carries[gene] for gene in terms.tables if gene in carries}


def _written(terms: Terms, gene: str, folded: str) -> str:
    """Give a genotype with the letter case of the plan, where only one fits."""
    pairs = {"/".join(pair) for sex in ("male", "female") for pair in terms.tables[gene].pairs(sex)}
    fitting = [pair for pair in pairs if pair.casefold() == folded]
    return fitting[0] if len(fitting) == 1 else folded


def _one_genotype(claim: Claim, terms: Terms, facts: Facts, sex: Sex) -> str:
    gene = claim.named.gene
    found = terms.one_copy(claim.named, sex) if claim.het else terms.genotypes(claim.named, sex)
    if len(found) == 1:
        return found[0]
    table = terms.tables[gene]
    choices = [
        Choice(
            f"{table.form(_pair(pair))}, {pair}" if not claim.het else tr("het, {genotype}", genotype=pair),
            f"{gene}={pair}",
        )
        for pair in found
    ]
    name = claim.named.form or gene
    cannot = tr("A {sex} cannot be visual for {name}", sex=sex_words(sex), name=name)
    if claim.het:
        cannot = tr("A {sex} cannot be het for {name}", sex=sex_words(sex), name=name)
    reason = tr("More than one genotype fits") if found else cannot
    mark(facts, claim.token, reason, *choices, LEAVE_OUT, last=claim.last)
    return ""


def _pair(genotype: str) -> tuple[str, str]:
    one, _, two = genotype.partition("/")
    return one, two

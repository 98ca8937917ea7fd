"""A pasted list, read line by line against one plan."""

from __future__ import annotations

from msgspec.structs import replace

from core.paste.claims import Claiming, carries_of
from core.paste.numbers import may_be
from core.paste.parts import LONGEST_LINE, MOST_LINES, Choice, Line, Listing, Mark, Target
from core.paste.scan import LEAVE_OUT, Facts, mark, read_simple, tokens_of
from core.paste.table import lines_of
from core.paste.terms import Terms, terms_of
from core.plan import limits
from core.plan.model import Plan
from core.plan.sexes import sex_words
from core.text import tr


def read_list(text: str, plan: Plan, target: Target) -> Listing:
    """Read a list, or CSV with or without a header row, as animals of this plan's genes and species."""
    lines = lines_of(text)
    terms = terms_of(plan)
    return Listing(tuple(read_line(line, plan, target, terms) for line in lines[:MOST_LINES]), len(lines[MOST_LINES:]))


def read_line(text: str, plan: Plan, target: Target, terms: Terms | None = None) -> Line:
    """Read one line. Every word of it is either understood or marked."""
    if len(text) > LONGEST_LINE:
        whole = Mark(0, LONGEST_LINE, tr("Longer than {most} letters: not read", most=LONGEST_LINE))
        return Line(text[:LONGEST_LINE], marks=(whole,))
    terms = terms or terms_of(plan)
    facts = Facts()
    claiming = _scan(text, terms, facts, plan.currency.casefold())
    _mark_missing(facts, target)
    if target == "for sale":
        _mark_currencies(facts, plan.currency)
    carries = carries_of(claiming, terms, facts, facts.sex) if facts.sex else None
    if facts.hatchling and facts.sex:
        facts.ready_in = facts.ready_in or getattr(plan.species.matures, facts.sex)
    line = Line(text, facts.sex, facts.count * facts.times, carries, facts.price, facts.ready_in)
    label = text[text.find('"') + 1 :].split('"')[0].strip() if facts.label else ""
    _mark_bounds(line, facts)
    return replace(line, label=label, marks=tuple(sorted(facts.marks, key=_place)))


def _scan(text: str, terms: Terms, facts: Facts, currency: str) -> Claiming:
    tokens, at = tokens_of(text), 0
    claiming = Claiming(terms, facts)
    while at < len(tokens):
        taken = claiming.read(tokens, at)
        if not taken and (taken := read_simple(tokens, at, facts, currency)):
            claiming.close()
        if not taken:
            stray = claiming.stray(tokens[at])
            claiming.close()
            opening = text[stray.start : tokens[at].start]
            near = [Choice(opening + word, opening + word) for word in terms.near(tokens[at].text)]
            mark(facts, stray, tr("Not a word this plan knows"), *near, LEAVE_OUT)
        at += taken or 1
    claiming.close()
    return claiming


def _mark_missing(facts: Facts, target: Target) -> None:
    start = Mark(
        0, 0, tr("The sex is not said"), (Choice(sex_words("male"), "male"), Choice(sex_words("female"), "female"))
    )
    if facts.sex is None and "sexes" not in facts.seen:
        facts.marks.append(start)
    if facts.price is None and target == "for sale" and not any("number" in found.reason for found in facts.marks):
        facts.marks.append(Mark(0, 0, tr("No price: write one in the line")))


def _mark_currencies(facts: Facts, own: str) -> None:
    """What is priced in another currency than the plan: nothing here knows what that is worth."""
    reason = tr(
        "The plan counts in {currency}; write the price in {currency}, or take the number as it stands", currency=own
    )
    for token in facts.currencies:
        if not may_be(token.text, own):
            mark(facts, token, reason, Choice(tr("take the number as {currency}", currency=own), ""))


def _mark_bounds(line: Line, facts: Facts) -> None:
    if line.quantity > limits.MOST_FOR_SALE or line.quantity < 1:
        facts.marks.append(Mark(0, len(line.text), tr("At most {most} animals in a row", most=limits.MOST_FOR_SALE)))
    if line.price is not None and line.price > limits.MOST_MONEY:
        facts.marks.append(Mark(0, len(line.text), tr("The price is beyond what a plan can hold")))
    if line.ready_in > limits.MOST_SEASONS:
        facts.marks.append(Mark(0, len(line.text), tr("Ready within {most} seasons at most", most=limits.MOST_SEASONS)))


def _place(found: Mark) -> tuple[int, int]:
    return found.start, found.end

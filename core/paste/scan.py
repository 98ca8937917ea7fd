"""A line cut into tokens, and the simple ones understood: sex, quantity, price, readiness."""

from __future__ import annotations

import re

import msgspec

from core.paste.numbers import amount_readings, has_sign, is_currency, read_amount
from core.paste.parts import Choice, Mark
from core.plan.model import Sex
from core.text import tr

_TOKEN = re.compile(
    r"""(?P<label>"[^"]*")
    |(?P<literal>[^\s=,;|"]+=[^\s,;|"]+)
    |(?P<half>/\s?\+|\+\s?/)
    |(?P<number>\d{1,3}\s?%|[$€£¥]?\d+(?:[.,'’]\d+)*(?:[%$€£¥]|x(?!\w))?(?!\w))
    |(?P<word>[^\s,;|/()+&:"]+)""",
    re.VERBOSE | re.IGNORECASE,
)
_SEXES = re.compile(r"\d{1,3}\.\d{1,3}(?:\.\d{1,3})?")
_COUNT = re.compile(r"x(\d{1,4})|(\d{1,4})x")
_MALE = {"male", "males", "m", "♂"}
_FEMALE = {"female", "females", "f", "♀"}
_SEVERAL = {"males", "females"}
# So few are as likely animals as a price.
_FEW = 20
_READY = {"adult", "adults", "proven", "breeder", "breeders"}
_YOUNG = {"hatchling", "hatchlings", "neonate", "neonates"}
_VAGUE_AGE = {"juvenile", "juveniles", "juvie", "subadult", "sub-adult", "yearling", "yearlings", "grown"}
_QUIET = {"-", "–", "—", "*", "•", "each", "and", "visual", "season", "seasons", "#", "@", "="}
LEAVE_OUT = Choice(tr("leave it out"), "")


class Token(msgspec.Struct, frozen=True):
    """A piece of a line: its kind, its place and its text in lower case."""

    kind: str
    start: int
    end: int
    text: str


class Facts(msgspec.Struct):
    """What a line says besides the genes."""

    sex: Sex | None = None
    count: int = 1
    times: int = 1
    price: float | None = None
    ready_in: int = 0
    hatchling: bool = False
    label: str = ""
    seen: set[str] = msgspec.field(default_factory=set)
    currencies: list[Token] = msgspec.field(default_factory=list)
    marks: list[Mark] = msgspec.field(default_factory=list)


def tokens_of(text: str) -> list[Token]:
    """Cut a line into tokens."""
    return [
        Token(str(found.lastgroup), found.start(), found.end(), found.group().casefold())
        for found in _TOKEN.finditer(text)
    ]


def mark(facts: Facts, token: Token, reason: str, *choices: Choice, last: Token | None = None) -> None:
    """Mark a token, or the stretch up to `last`, for the person to settle."""
    facts.marks.append(Mark(token.start, (last or token).end, reason, choices))


def read_simple(tokens: list[Token], at: int, facts: Facts, currency: str) -> int:
    """Read what starts at a token, if it is no gene; give how many tokens it took, 0 for none."""
    token = tokens[at]
    following = tokens[at + 1] if at + 1 < len(tokens) else None
    if following and token.text.isdecimal() and following.text in _MALE | _FEMALE:
        return _read_counted(token, following, facts)
    if token.kind == "label":
        facts.label = token.text.strip('"')
        return 1
    if token.text in _MALE or token.text in _FEMALE:
        _set_sex(facts, token, "male" if token.text in _MALE else "female", 1)
        return 1
    if token.text in {"qty", "quantity"} and following and following.text.isdecimal():
        _set_times(facts, following, following.text)
        return 2
    if found := _COUNT.fullmatch(token.text):
        _set_times(facts, token, found[1] or found[2])
        return 1
    if token.text == "price" and following and following.kind == "number":
        _set_price(facts, following)
        return 2
    return _read_age(token, tokens[at + 1 : at + 3], facts) or _read_number(token, facts, currency)


def _read_counted(token: Token, following: Token, facts: Facts) -> int:
    """Read "3 females"; "200 male" may be a price, and "2 male" be either."""
    if following.text in _SEVERAL:
        _set_times(facts, token, token.text)
    elif 1 < int(token.text[:4]) <= _FEW:
        count, price = (
            Choice(tr("how many there are"), f"{token.text}x"),
            Choice(tr("the price"), f"price {token.text}"),
        )
        mark(facts, token, tr("This number can be read two ways"), count, price, LEAVE_OUT)
    else:
        _set_price(facts, token)
    return 1


def _read_age(token: Token, following: list[Token], facts: Facts) -> int:
    words = [later.text for later in following]
    if token.text == "ready" and len(words) == 2 and words[0] == "in" and words[1].isdecimal() and len(words[1]) < 3:
        facts.ready_in = int(words[1])
        return 3
    if token.text in _YOUNG:
        facts.hatchling = True
        return 1
    if token.text in _VAGUE_AGE:
        choices = [Choice(tr("ready in {n} seasons", "ready in {n} season", n), f"ready in {n}") for n in (1, 2)]
        mark(facts, token, tr("When it can breed is not said"), Choice(tr("breeds now"), "adult"), *choices)
        return 1
    return int(token.text in _READY)


def _read_number(token: Token, facts: Facts, currency: str) -> int:
    if token.kind != "number" or token.text.endswith("%"):
        if is_currency(token.text):
            facts.currencies.append(token)
            return 1
        return int(token.text in _QUIET or token.text == currency)
    if _SEXES.fullmatch(token.text) and facts.sex is None and "sexes" not in facts.seen:
        _read_sexes(token, facts)
    else:
        _set_price(facts, token)
    return 1


def _read_sexes(token: Token, facts: Facts) -> None:
    facts.seen.add("sexes")
    males, females, unsexed = [*map(int, token.text.split(".")), 0][:3]
    if sum(map(bool, (males, females, unsexed))) == 1 and not unsexed:
        _set_sex(facts, token, "male" if males else "female", males or females)
        return
    number = max(males, females, unsexed)
    males, females = (males or number, females or number) if unsexed else (males, females)
    choices = [
        Choice(tr("{count} male", count=males), f"{males}.0"),
        Choice(tr("{count} female", count=females), f"0.{females}"),
    ]
    reason = tr("A row holds animals of one sex")
    mark(facts, token, reason, *(choice for choice in choices if choice.text.strip("0.")))


def _set_sex(facts: Facts, token: Token, sex: Sex, count: int) -> None:
    if facts.sex not in (None, sex):
        mark(facts, token, tr("Both sexes are named"), LEAVE_OUT)
        return
    facts.sex = sex
    facts.count = max(facts.count, count)


def _set_times(facts: Facts, token: Token, digits: str) -> None:
    if "times" in facts.seen or int(digits) == 0 or len(digits) > 4:
        mark(facts, token, tr("How many there are is not clear"), LEAVE_OUT)
        return
    facts.seen.add("times")
    facts.times = int(digits)


def _set_price(facts: Facts, token: Token) -> None:
    if has_sign(token.text):
        at = 0 if is_currency(token.text[0]) else len(token.text) - 1
        facts.currencies.append(Token("word", token.start + at, token.start + at + 1, token.text[at]))
    amount = read_amount(token.text)
    if amount is None:
        readings = [Choice(tr("price {price}", price=text), f"price {text}") for text in amount_readings(token.text)]
        mark(facts, token, tr("This number can be read two ways"), *readings, LEAVE_OUT)
    elif facts.price is not None and facts.price != amount:
        many = (Choice(tr("how many there are"), f"{token.text}x"),) if _COUNT.fullmatch(f"{token.text}x") else ()
        leave = Choice(tr("not the price: leave it out"), "")
        mark(facts, token, tr("A second number that could be the price"), *many, leave)
    elif facts.price is None or has_sign(token.text):
        facts.price = amount

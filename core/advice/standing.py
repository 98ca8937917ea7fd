"""What always has to be said, short; shown in the program, on cards and in prints."""

from __future__ import annotations

from dataclasses import dataclass

from core.text import tr


@dataclass(frozen=True)
class Standing:
    """A standing caution: one sentence, why, and who says so."""

    sentence: str
    why: str
    source: str = ""


ODDS = Standing(
    tr("Odds, not promises."),
    tr("A chance of 80 of 100 fails 20 of 100 people who do everything right."),
)
LAW = Standing(
    tr(
        "Permits, trade in listed species, licences to sell, and rules on invasive species and "
        "release differ by place and change: ask your authority. Never release an animal."
    ),
    tr(
        "Royal pythons, for example, are listed by CITES; the USA list some large snakes as "
        "injurious, and states may restrict more; in England selling animals as pets as a business "
        "needs a licence; boas were brought to islands such as Aruba, Cozumel and Puerto Rico, and "
        "live wild there."
    ),
    (
        "Toudonou, CITES case study; Lacey Act listings of 2012 and 2015; gov.uk, guidance of 1 "
        "June 2024; IUCN Global Invasive Species Database, species 1439"
    ),
)
VET = Standing(
    tr("Weight and health decide whether an animal is fit to breed: ask a reptile vet."),
    tr("The plan counts seasons. No minimum weight in law was found for reptiles."),
)
HYGIENE = Standing(
    tr("Reptiles can carry Salmonella while they look healthy: wash your hands, and keep them out of kitchens."),
    tr("They are not advised in homes with children under 5, people over 65 or with weak immunity."),
    "Centers for Disease Control and Prevention, as relayed by health pages",
)
STANDING = (ODDS, LAW, VET, HYGIENE)

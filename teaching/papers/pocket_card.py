"""A nurse's pocket card: may do, may teach, not yet, until when. As big as a bank card (ISO/IEC 7810, ID-1)."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from teaching.papers.dated import day
from teaching.rules.competence import Standing, asked_of, spoken_day, standing
from teaching.rules.competence_facts import Nurse, Skill
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import GRADES
from teaching.rules.ward import Ward

MAY = {"change": "May do", "teach-bowel": "May teach", "teach-urostomy": "May teach"}
WHAT = {"change": "a pouch change", "teach-bowel": "bowel stoma", "teach-urostomy": "urostomy"}
NOT_YET = {"change": "do a pouch change", "teach-bowel": "teach, bowel stoma", "teach-urostomy": "teach, urostomy"}
SAID_TOO = ("lapsed", "ready for sign-off")


@dataclass(frozen=True, slots=True)
class CardLine:
    """`until` in words, "" where nothing runs. A card carried about does not say what was withdrawn, only "not yet"."""

    head: str
    what: str
    until: str


@dataclass(frozen=True, slots=True)
class PocketCard:
    name: str
    grade: str
    unit: str
    lines: tuple[CardLine, ...]
    printed_at: str


def pocket_card(
    *, nurse: Nurse, skills: Sequence[Skill], policy: Policy, ward: Ward, now: datetime, unit: str
) -> PocketCard:
    """What holds at `now` (UTC): first what may be done, then taught, then not yet."""
    found = [standing(nurse, skill, policy, now, ward) for skill in skills if asked_of(nurse, skill)]
    found.sort(key=lambda one: not one.valid)
    return PocketCard(
        name=nurse.name,
        grade=GRADES[nurse.grade],
        unit=unit,
        lines=tuple(_line(one, ward) for one in found),
        printed_at=day(ward.date(now)),
    )


def _line(one: Standing, ward: Ward) -> CardLine:
    code = one.skill.code
    if one.valid and one.until:
        return CardLine(MAY[code], WHAT[code], f"until {spoken_day(one.until, ward)}")
    return CardLine("Not yet", NOT_YET[code], one.state if one.state in SAID_TOO else "")

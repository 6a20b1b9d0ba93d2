"""What the rules are told of one nurse: frozen facts about skills. No person in care is named in them.

A nurse's confidence is kept apart from what was seen, and no rule reads it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

NOT_OBSERVED = "X"


@dataclass(frozen=True, slots=True)
class SkillRow:
    code: str
    title: str


@dataclass(frozen=True, slots=True)
class Skill:
    """A published version of one skill. `practices` in all, `at_five` of them last; `renewing` while it runs."""

    code: str
    title: str
    version: int
    rows: tuple[SkillRow, ...]
    practices: int
    at_five: int
    renewing: int
    settings: frozenset[str]
    grades: frozenset[str]


@dataclass(frozen=True, slots=True)
class Practice:
    """One observed practice. `levels` is {row: "1".."5" or "X"}; `version` the skill version it was rated by."""

    key: str
    skill: str
    version: int
    setting: str
    levels: Mapping[str, str]
    at: datetime
    assessor: str = ""
    words: str = ""
    assessor_key: str = ""
    taken_back: bool = False


@dataclass(frozen=True, slots=True)
class SignOff:
    """A grant or a withdrawal; the highest number that has begun is in force. `valid_until` is as stored.

    `written_at` is when it was put on record: a certificate from elsewhere may be valid from long before.
    """

    skill: str
    number: int
    valid_from: datetime
    valid_until: datetime
    kind: str = "granted"
    assessor: str = ""
    practice: str = ""
    certificate: str = ""
    reason: str = ""
    written_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class SelfRating:
    """How sure the nurse feels, 1 to 6. Never evidence."""

    skill: str
    confidence: int
    at: datetime


@dataclass(frozen=True)
class Nurse:
    """All facts of one nurse. `taught` is {skill: when last taught (or, for a change, last done)}."""

    key: str
    name: str
    grade: str
    practices: tuple[Practice, ...] = ()
    sign_offs: tuple[SignOff, ...] = ()
    self_ratings: tuple[SelfRating, ...] = ()
    taught: Mapping[str, datetime] | None = None

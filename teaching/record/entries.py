"""What comes in at the one door: frozen entries, as a form or an import gives them to a record verb.

Every time is an aware datetime, every length in mm. `None` or "" means: not said. Codes are words
of `rules.vocabulary`.
An entry is only carried, never trusted: the verb checks all of it and refuses with every fault at once.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from uuid import UUID

from teaching.models import Learner, Stay, Stoma, Unit


@dataclass(frozen=True, kw_only=True)
class StayEntry:
    """One admission. `expected`: listed, not yet admitted. `opened_at` None means now; the zone is the unit's."""

    unit: Unit
    authority: str
    mrn: str
    family_name: str
    given_names: str
    born: date
    language: str = "en"
    bed: str = ""
    surgery_at: datetime | None = None
    taught_before: bool = False
    visit_number: str = ""
    opened_at: datetime | None = None
    planned_at: datetime | None = None
    expected: bool = False


@dataclass(frozen=True, kw_only=True)
class StomaEntry:
    """`label` is how two stomas are told apart ("right", "upper"); "" takes the side's name."""

    kind: str
    construction: str = "end"
    side: str = "right"
    label: str = ""
    formed_at: datetime | None = None


@dataclass(frozen=True, kw_only=True)
class KitEntry:
    """What the stoma wears from `happened_at` (None: now). `interval_hours` None: nobody has said when it is due."""

    pieces: str = "two"
    shape: str = "flat"
    opening: str = "cut"
    closure: str = "drainable"
    outlet: str = "strip"
    items: tuple[str, ...] = ()
    interval_hours: int | None = None
    pre_cut_mm: Decimal | None = None
    cut_limit_mm: Decimal | None = None
    happened_at: datetime | None = None


@dataclass(frozen=True, kw_only=True)
class LearnerEntry:
    """A named helper (the person is a learner from the start). Both must say yes, here or later."""

    name: str
    relation: str = ""
    person_said_yes_at: datetime | None = None
    helper_said_yes_at: datetime | None = None
    week: str = ""
    lives_in: bool = False
    minutes_away: int | None = None


@dataclass(frozen=True, kw_only=True)
class RatingEntry:
    """One checklist row by one learner. `answer` is a level, a not-rated code, a judgement or a topic's answer."""

    learner: Learner
    code: str
    answer: str
    practice: bool = False
    reported: bool = False
    reason: str = ""
    aids: tuple[str, ...] = ()
    entered_as: str = "step"
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class FindingEntry:
    """What was seen, once an event. `skin` is {region: what was seen there}."""

    colour: str = ""
    wet: str = ""
    edge: str = ""
    stands: str = ""
    width_mm: Decimal | None = None
    height_mm: Decimal | None = None
    opening_width_mm: Decimal | None = None
    opening_height_mm: Decimal | None = None
    rod_length_mm: Decimal | None = None
    stents: int | None = None
    stent_length_mm: Decimal | None = None
    skin: Mapping[str, str] = field(default_factory=dict)
    noticed_by: str = ""
    bleeding: str = ""
    wear_end: str = ""
    leak_track: str = ""
    powder_where: str = ""


@dataclass(frozen=True, kw_only=True)
class SessionEntry:
    """A teaching session. `event_uid` is the draft's, where one was begun: it closes at signing.

    `role` taught, or student (counts once co-signed). `client_skew_s`: device clock minus server clock, in seconds.
    """

    stay: Stay
    stoma: Stoma
    procedure: str
    began_at: datetime
    ratings: tuple[RatingEntry, ...]
    ended_at: datetime | None = None
    finding: FindingEntry | None = None
    place: str = ""
    language: str = ""
    interpreter: str = ""
    ended_how: str = "finished"
    role: str = "taught"
    event_uid: UUID | None = None
    client_skew_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class CareEntry:
    """Care given by a nurse, nothing to rate. A leak is a change with `finding.wear_end` leak."""

    stay: Stay
    stoma: Stoma
    procedure: str
    at: datetime
    finding: FindingEntry | None = None
    event_uid: UUID | None = None
    client_skew_s: int | None = None


@dataclass(frozen=True, kw_only=True)
class RecheckEntry:
    """"Still manages all of this alone": renews the date of rows already held, adds no showing."""

    stay: Stay
    stoma: Stoma
    procedure: str
    learner: Learner
    at: datetime
    event_uid: UUID | None = None
    client_skew_s: int | None = None

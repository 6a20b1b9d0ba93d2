"""What the rules are told: frozen facts of one stay, as known at one moment.

Every time is an aware datetime in UTC; `Ward` turns one into the local date and the shift it fell in.
Facts hold codes from `vocabulary`, never free text that a rule would have to read.
Sequences come in any order; no rule may depend on it.

    Chart --- ward (zone, shifts)
      |------ checklist (items)
      |------ stomas ---- kits, findings, output totals
      |------ learners -- consents, needs
      |------ ratings (one row, one learner, one event), care, rechecks
      '------ body events, cautions, arrangements, visits, appointments
"""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from teaching.rules.arranged import Appointment as Appointment
from teaching.rules.arranged import Arrangement as Arrangement
from teaching.rules.arranged import Nothing as Nothing
from teaching.rules.arranged import Visit as Visit
from teaching.rules.items import Checklist as Checklist
from teaching.rules.items import Item as Item
from teaching.rules.vocabulary import LOWER_LATER, OWN_LANGUAGE
from teaching.rules.ward import Shift as Shift
from teaching.rules.ward import Ward as Ward


@dataclass(frozen=True, slots=True)
class Stoma:
    key: str
    label: str
    kind: str
    construction: str = "end"
    side: str = ""
    formed_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    """What one stoma wears from `since` on. Lengths in mm, interval in hours (None: nobody has said)."""

    stoma: str
    since: datetime
    pieces: str = "two"
    shape: str = "flat"
    opening: str = "cut"
    closure: str = "drainable"
    outlet: str = "strip"
    items: frozenset[str] = frozenset()
    interval_hours: int | None = None
    pre_cut_mm: float | None = None
    cut_limit_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Consent:
    """One yes or no: the person's to this helper, or the helper's own. The newest recorded wins."""

    learner: str
    whose: str
    yes: bool
    at: datetime


@dataclass(frozen=True, slots=True)
class Learner:
    """The person, or a named helper. `needs` are codes of vocabulary.NEEDS.

    `week`: 168 characters 0 or 1, an hour each from Monday 00:00 of the ward's clock; "" nobody has said.
    `exceptions` are (from, to, there) in UTC; the later one of two that overlap counts.
    """

    key: str
    kind: str = "person"
    name: str = ""
    relation: str = ""
    needs: frozenset[str] = frozenset()
    lives_in: bool = False
    minutes_away: int | None = None
    week: str = ""
    exceptions: tuple[tuple[datetime, datetime, bool], ...] = ()


@dataclass(frozen=True, slots=True)
class Witness:
    """Who signed what was seen: grade then, whether a sign-off to teach was valid then, co-signer's grade."""

    name: str = ""
    grade: str = "registered"
    signed_off: bool = False
    cosigned_by: str = ""


@dataclass(frozen=True, slots=True)
class Rating:
    """One row, one learner, one session. `at` is when it happened, as claimed; not when it was written."""

    stoma: str
    code: str
    learner: str
    answer: str
    at: datetime
    event: str
    witness: Witness = Witness()
    practice: bool = False
    reported: bool = False
    reason: str = ""
    aids: frozenset[str] = frozenset()
    interpreter: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Care:
    """Something done for the person with nothing to rate. `procedure` change resets the due time."""

    stoma: str
    procedure: str
    at: datetime
    event: str
    wear_end: str = ""


@dataclass(frozen=True, slots=True)
class Recheck:
    """"Still manages this alone": renews the date of rows already held; adds no showing."""

    stoma: str
    procedure: str
    learner: str
    at: datetime
    event: str
    witness: Witness = Witness()


@dataclass(frozen=True, slots=True)
class BodyEvent:
    """A state that began and may have ended. `stoma` is "" when it concerns the whole person."""

    code: str
    began: datetime
    ended: datetime | None = None
    stoma: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """What was seen, once an event. Lengths in mm; `skin` maps a region to what was seen there."""

    stoma: str
    at: datetime
    event: str
    colour: str = ""
    wet: str = ""
    edge: str = ""
    stands: str = ""
    width_mm: float | None = None
    height_mm: float | None = None
    opening_width_mm: float | None = None
    opening_height_mm: float | None = None
    skin: tuple[tuple[str, str], ...] = ()
    noticed_by: str = ""
    bleeding: str = ""
    wear_end: str = ""
    leak_track: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A sign someone tapped. `told` and `settled` are the moments of those steps, None while open."""

    key: str
    sign: str
    list: str
    words: str
    at: datetime
    stoma: str = ""
    told: datetime | None = None
    told_whom: str = ""
    answer: str = ""
    look_again_at: datetime | None = None
    settled: datetime | None = None
    withdrawn: bool = False


@dataclass(frozen=True, slots=True)
class OutputTotal:
    """A 24-hour total read from the fluid chart, mL, up to `until`. Never summed from sessions."""

    stoma: str
    until: datetime
    ml: int


@dataclass(frozen=True)
class Chart:
    """All facts of one stay as known at `known_at` (None: now). `state` is the newest stay event.

    `language` is the one to teach the person in, a code of spoken.LANGUAGES; "" where nobody has said.
    """

    stay: str
    ward: Ward
    checklist: Checklist
    stomas: tuple[Stoma, ...]
    learners: tuple[Learner, ...]
    kits: tuple[Kit, ...] = ()
    ratings: tuple[Rating, ...] = ()
    care: tuple[Care, ...] = ()
    rechecks: tuple[Recheck, ...] = ()
    consents: tuple[Consent, ...] = ()
    body_events: tuple[BodyEvent, ...] = ()
    findings: tuple[Finding, ...] = ()
    totals: tuple[OutputTotal, ...] = ()
    cautions: tuple[Caution, ...] = ()
    arrangements: tuple[Arrangement, ...] = ()
    visits: tuple[Visit, ...] = ()
    appointments: tuple[Appointment, ...] = ()
    nothing: tuple[Nothing, ...] = ()
    state: str = "opened"
    surgery_at: datetime | None = None
    planned_at: datetime | None = None
    goes_to: str = "home"
    taught_before: bool = False
    language: str = OWN_LANGUAGE
    known_at: datetime | None = None
    revision: int = 0

    def stoma(self, key: str) -> Stoma:
        return next(stoma for stoma in self.stomas if stoma.key == key)

    def learner(self, key: str) -> Learner:
        return next(learner for learner in self.learners if learner.key == key)

    @cached_property
    def by_row(self) -> dict[tuple[str, str, str], tuple[Rating, ...]]:
        """What was seen of each (stoma, code, learner), oldest first; reported ratings are left out.

        At one claimed moment the lower is the later; beyond that the order does not depend on who wrote first.
        """
        found = defaultdict(list)
        for rating in self.ratings:
            if not rating.reported:
                found[rating.stoma, rating.code, rating.learner].append(rating)
        return {row: tuple(sorted(seen, key=_in_order)) for row, seen in found.items()}

    @cached_property
    def moments(self) -> tuple[datetime, ...]:
        """Every moment at which a fact begins or ends to count, in order."""
        listed = (self.ratings, self.care, self.rechecks, self.consents, self.findings, self.arrangements)
        found = {fact.at for facts in listed for fact in facts}
        found |= {kit.since for kit in self.kits} | {total.until for total in self.totals}
        for event in self.body_events:
            found |= {event.began, event.ended or event.began}
        for caution in self.cautions:
            found |= {caution.at, caution.told or caution.at, caution.settled or caution.at}
        return tuple(sorted(found))


PLACE = {answer: place for place, answer in enumerate(LOWER_LATER)}


def _in_order(rating: Rating) -> tuple:
    return rating.at, PLACE[rating.answer], rating.event, rating.practice, rating.reason, rating.witness.name

"""Who teaches when a change is planned: somebody ticked at the huddle, or booked for it, who is signed off then.

It names a gap and nothing more; it never asks for a change to be moved.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from teaching.rules.arranged import Appointment
from teaching.rules.board import BoardRow, Due
from teaching.rules.competence_facts import Nurse
from teaching.rules.facts import Stoma
from teaching.rules.lines import Policy
from teaching.rules.reasons import Reason
from teaching.rules.to_facility import COMING
from teaching.rules.ward import Ward

WITH_A_TAP = ("urostomy", "wet-colostomy")
FULL_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class DueChange:
    """A planned change on this ward: of which stay, when (UTC), of what kind of stoma.

    `booked`: a teaching appointment, else worked out from the pouch. `teacher`: who is booked to teach it, or "".
    """

    stay: str
    at: datetime
    stoma_kind: str
    booked: bool = False
    teacher: str = ""


@dataclass(frozen=True, slots=True)
class Holder:
    """Somebody signed off: (skill, from, until) spans, in UTC."""

    key: str
    spans: tuple[tuple[str, datetime, datetime], ...]

    def holds(self, skill: str, at: datetime) -> bool:
        return any(name == skill and since <= at <= until for name, since, until in self.spans)


@dataclass(frozen=True, slots=True)
class Cover:
    """One shift with the changes that fall on it, soonest first (an overdue one falls on this shift), and its gaps.

    `untaught` are those of the changes that nobody ticked or booked is signed off to teach.
    """

    day: date
    shift: str
    changes: tuple[DueChange, ...]
    untaught: tuple[DueChange, ...]
    gaps: tuple[Reason, ...]
    anybody_ticked: bool


def skill_to_teach(stoma_kind: str) -> str:
    """The skill to teach with this stoma. A wet colostomy has the tap and the night bag of a urostomy."""
    return "teach-urostomy" if stoma_kind in WITH_A_TAP else "teach-bowel"


def holder(key: str, nurse: Nurse) -> Holder:
    """Spans of a nurse's sign-offs; the next grant or withdrawal of a skill ends the one before."""
    spans = []
    for each in nurse.sign_offs:
        later = [one.valid_from for one in nurse.sign_offs if one.skill == each.skill and one.number > each.number]
        if each.kind == "granted":
            spans.append((each.skill, each.valid_from, min([each.valid_until, *later])))
    return Holder(key, tuple(spans))


def planned_changes(
    rows: Iterable[BoardRow], booked: Mapping[str, Sequence[Appointment]], ward: Ward, now: datetime
) -> list[DueChange]:
    """Each person's next change of each stoma, overdue ones too, soonest first; `booked` by stay.

    A change booked up to the day one falls due takes its place; a change due sooner stands beside a later booking.
    What comes after the planned leaving is not done here. Nothing is planned while teaching is paused or waits: the
    pouch is changed all the same, and nobody taught. Bound for a facility only what is booked is taught.
    """
    found = [
        change
        for row in rows
        if not (row.paused or row.waits)
        for change in _of_one(row, booked.get(row.stay, ()), ward, now)
        if not _after_leaving(row, change.at, now)
    ]
    return sorted(found, key=lambda each: (each.at, each.stay))


def soon(changes: Iterable[DueChange], policy: Policy, now: datetime) -> list[DueChange]:
    """Those within the days that a huddle looks ahead."""
    return [each for each in changes if each.at <= now + policy.huddle_ahead]


def _of_one(row: BoardRow, booked: Sequence[Appointment], ward: Ward, now: datetime) -> Iterator[DueChange]:
    coming = [each for each in booked if _is_a_change(each) and each.at >= now]
    coming = [each for each in coming if not _after_leaving(row, each.at, now)]
    for stoma in row.stomas:
        own = [each for each in coming if each.stoma in ("", stoma.key)]
        yield from (DueChange(row.stay, each.at, stoma.kind, True, each.teacher) for each in own)
        due_here = () if row.only_booked else row.due
        for due in (each for each in due_here if each.procedure == "change" and _concerns(each, stoma)):
            if not any(ward.date(each.at) <= ward.date(max(due.at, now)) for each in own):
                yield DueChange(row.stay, due.at, stoma.kind)


def _is_a_change(one: Appointment) -> bool:
    return one.procedure == "change" and not one.practice and one.state in COMING


def _concerns(due: Due, stoma: Stoma) -> bool:
    return due.stoma in ("", stoma.label)


def _after_leaving(row: BoardRow, at: datetime, now: datetime) -> bool:
    """A planned leaving that has passed no longer says when somebody leaves."""
    return row.planned_at is not None and row.planned_at > now and at > row.planned_at


def cover(
    changes: Iterable[DueChange],
    ticked: Mapping[tuple[date, str], Collection[str]],
    holders: Mapping[str, Holder],
    ward: Ward,
    now: datetime,
) -> tuple[Cover, ...]:
    """The shifts that `changes` (soonest first) fall on. `ticked`, `holders` and teachers name nurses by one key."""
    falls: dict[tuple[date, str], list[DueChange]] = {}
    for each in changes:
        falls.setdefault(ward.shift(max(each.at, now)), []).append(each)
    return tuple(
        _covered(when, found, ticked.get(when, ()), holders, now) for when, found in falls.items()
    )


def _covered(
    when: tuple[date, str],
    changes: Sequence[DueChange],
    ticked: Collection[str],
    holders: Mapping[str, Holder],
    now: datetime,
) -> Cover:
    day, shift = when
    untaught = []
    for each in changes:
        skill, at = skill_to_teach(each.stoma_kind), max(each.at, now)
        teach = (holders[key] for key in {*ticked, each.teacher} if key in holders)
        if not any(one.holds(skill, at) for one in teach):
            untaught.append(each)
    gaps = []
    if untaught:
        said = "1 change falls" if len(untaught) == 1 else f"{len(untaught)} changes fall"
        gaps.append(
            Reason(
                "cover-nobody-signed-off" if ticked else "cover-nobody-ticked",
                changes=said, weekday=FULL_DAYS[day.weekday()], shift=shift,
            )
        )
    return Cover(day, shift, tuple(changes), tuple(untaught), tuple(gaps), bool(ticked))

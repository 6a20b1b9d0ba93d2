"""Who teaches when a change is due: whether its shift has somebody ticked at the huddle who is signed off then.

It names a gap and nothing more; it never asks for a change to be moved.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from teaching.rules.reasons import Reason
from teaching.rules.ward import Ward

WITH_A_TAP = ("urostomy", "wet-colostomy")
FULL_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class DueChange:
    """One person's next planned change: of which stay, when (UTC), of what kind of stoma."""

    stay: str
    at: datetime
    stoma_kind: str


@dataclass(frozen=True, slots=True)
class Holder:
    """Somebody signed off: (skill, from, until) spans, in UTC."""

    key: str
    spans: tuple[tuple[str, datetime, datetime], ...]

    def holds(self, skill: str, at: datetime) -> bool:
        return any(name == skill and since <= at <= until for name, since, until in self.spans)


@dataclass(frozen=True, slots=True)
class Cover:
    """A change, the shift it falls on (one that is overdue falls on this shift), and the gap, if there is one."""

    change: DueChange
    day: date
    shift: str
    gap: Reason | None


def skill_to_teach(stoma_kind: str) -> str:
    """The skill to teach with this stoma. A wet colostomy has the tap and the night bag of a urostomy."""
    return "teach-urostomy" if stoma_kind in WITH_A_TAP else "teach-bowel"


def cover(
    changes: Iterable[DueChange],
    ticked: Mapping[tuple[date, str], Collection[str]],
    holders: Mapping[str, Holder],
    ward: Ward,
    now: datetime,
) -> tuple[Cover, ...]:
    """Each change with its shift and gap, soonest first. `ticked` and `holders` name nurses by the same key."""
    return tuple(_covered(each, ticked, holders, ward, now) for each in sorted(changes, key=lambda each: each.at))


def _covered(
    change: DueChange,
    ticked: Mapping[tuple[date, str], Collection[str]],
    holders: Mapping[str, Holder],
    ward: Ward,
    now: datetime,
) -> Cover:
    at = max(change.at, now)
    day, shift = ward.shift(at)
    teach, skill = ticked.get((day, shift), ()), skill_to_teach(change.stoma_kind)
    weekday = FULL_DAYS[day.weekday()]
    if not teach:
        gap = Reason("cover-nobody-ticked", weekday=weekday, shift=shift)
    elif not any(key in holders and holders[key].holds(skill, at) for key in teach):
        gap = Reason("cover-nobody-signed-off", weekday=weekday, shift=shift)
    else:
        gap = None
    return Cover(change, day, shift, gap)

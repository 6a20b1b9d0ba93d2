"""Who teaches when a change is due: whether its shift has somebody ticked at the huddle who is signed off then.

It names a gap and nothing more; it never asks for a change to be moved.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
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
    """One shift with the changes that fall on it, soonest first (an overdue one falls on this shift), and its gaps.

    `untaught` are those of the changes that nobody ticked is signed off to teach.
    """

    day: date
    shift: str
    changes: tuple[DueChange, ...]
    untaught: tuple[DueChange, ...]
    gaps: tuple[Reason, ...]


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
    """The shifts that changes fall on, soonest first. `ticked` and `holders` name nurses by the same key."""
    falls: dict[tuple[date, str], list[DueChange]] = {}
    for each in sorted(changes, key=lambda each: (each.at, each.stay)):
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
    teach = [holders[key] for key in ticked if key in holders]
    untaught = [
        each
        for each in changes
        if not any(one.holds(skill_to_teach(each.stoma_kind), max(each.at, now)) for one in teach)
    ]
    gaps = []
    if untaught:
        said = "1 change falls" if len(untaught) == 1 else f"{len(untaught)} changes fall"
        gaps.append(
            Reason(
                "cover-nobody-signed-off" if ticked else "cover-nobody-ticked",
                changes=said, weekday=FULL_DAYS[day.weekday()], shift=shift,
            )
        )
    return Cover(day, shift, tuple(changes), tuple(untaught), tuple(gaps))

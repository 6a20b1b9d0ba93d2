"""Who teaches a shift, and what falls on it: names for those who may see the shift, counts for everybody else."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from urllib.parse import urlencode

from django.urls import reverse

from teaching.record.who_teaches import Teaching
from teaching.rules.board import BoardRow
from teaching.rules.huddle import spoken_date, when
from teaching.rules.huddle_cover import Cover, DueChange
from teaching.rules.lines import Policy
from teaching.rules.reasons import words
from teaching.rules.spoken import how_many
from teaching.rules.vocabulary import STOMA_KINDS
from teaching.rules.ward import Ward


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """Only made for those who may see the shift."""

    address: str
    who: str
    what: str


@dataclass(frozen=True, slots=True)
class ShiftPart:
    """A shift with changes on it: counts and gaps for everybody, `lines` only for those who may see the shift.

    `address` is "" for the shift that is being ticked.
    """

    words: str
    count: str
    gaps: tuple[str, ...]
    address: str
    lines: tuple[ChangeLine, ...]


@dataclass(frozen=True, slots=True)
class AskLine:
    name: str
    said: str
    acts: tuple[tuple[str, str], ...]


class HuddlePage:
    def __init__(
        self,
        unit,
        shift: tuple[date, str],
        rows: Sequence[BoardRow],
        teaching: Teaching,
        policy: Policy,
        ward: Ward,
        now: datetime,
        sees_shift: bool,
        asks: Sequence[AskLine] = (),
    ):
        self.unit, self.uid, self.day, self.shift = unit.name, unit.uid, *shift
        self.said = f"{spoken_date(self.day)}, {self.shift}"
        self.is_now = shift == ward.shift(now)
        self.asks, self.sees_shift = asks, sees_shift
        covers, names = teaching.covers, teaching.names
        self.counts = _counts(covers, policy.huddle_ahead.days)
        people = {row.stay: row for row in rows} if sees_shift else {}
        self.shifts = [
            ShiftPart(
                words=f"{spoken_date(each.day)}, {each.shift}",
                count=f"{how_many(len(each.changes), 'change')}." if each.untaught != each.changes else "",
                gaps=tuple(words(reason) for reason in each.gaps),
                address="" if (each.day, each.shift) == shift else shift_address(unit, each.day, each.shift),
                lines=tuple(
                    _line(one, people[one.stay], names, ward, now) for one in each.changes if one.stay in people
                ),
            )
            for each in covers
        ]


def _line(change: DueChange, row: BoardRow, names: Mapping[str, str], ward: Ward, now: datetime) -> ChangeLine:
    said = "booked" if change.booked else "was due" if change.at < now else "due"
    teacher = f", {names[change.teacher]} teaches" if change.teacher in names else ""
    return ChangeLine(
        reverse("person", args=[change.stay]),
        f"Bed {row.bed or 'not given'}, {row.name}",
        f"{STOMA_KINDS.get(change.stoma_kind, 'stoma')}, {said} {when(change.at, ward, now)}{teacher}",
    )


def _counts(covers: Sequence[Cover], days: int) -> str:
    planned, untaught = (sum(len(getattr(each, name)) for each in covers) for name in ("changes", "untaught"))
    ahead = f"within {how_many(days, 'day')}"
    if not planned:
        return f"No change is planned {ahead}."
    said = f"{how_many(planned, 'change is', 'changes are')} planned {ahead}"
    if not untaught:
        return f"{said}, each with somebody ticked or booked who is signed off to teach it."
    return f"{said}; {how_many(untaught, 'has', 'have')} nobody ticked or booked who is signed off to teach it."


def shift_address(unit, day: date, shift: str) -> str:
    return f"{reverse('who-teaches', args=[unit.uid])}?{urlencode({'day': day.isoformat(), 'shift': shift})}"

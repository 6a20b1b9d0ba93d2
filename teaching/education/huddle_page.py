"""Who teaches a shift, and what falls on it: names for those who may see the shift, counts for everybody else."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from urllib.parse import urlencode

from django.urls import reverse

from teaching.rules.board import BoardRow
from teaching.rules.competence_facts import Nurse
from teaching.rules.huddle import spoken_date, when
from teaching.rules.huddle_cover import Cover, DueChange, Holder, cover
from teaching.rules.reasons import words
from teaching.rules.vocabulary import STOMA_KINDS
from teaching.rules.ward import Ward

AHEAD = timedelta(days=3)


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


def holder(key: int, nurse: Nurse) -> Holder:
    """Spans of a nurse's sign-offs; the next grant or withdrawal of a skill ends the one before."""
    spans = []
    for each in nurse.sign_offs:
        later = [one.valid_from for one in nurse.sign_offs if one.skill == each.skill and one.number > each.number]
        if each.kind == "granted":
            spans.append((each.skill, each.valid_from, min([each.valid_until, *later])))
    return Holder(str(key), tuple(spans))


def due_changes(rows: Sequence[BoardRow], now: datetime) -> list[DueChange]:
    """Each person's next planned change of each stoma, overdue ones too, within the days ahead."""
    found = []
    for row in rows:
        for due in () if row.paused else row.due:
            if due.procedure == "change" and due.at <= now + AHEAD:
                stoma = next((one for one in row.stomas if due.stoma in ("", one.label)), None)
                found.append(DueChange(row.stay, due.at, stoma.kind if stoma else ""))
    return found


class HuddlePage:
    def __init__(
        self,
        unit,
        shift: tuple[date, str],
        rows: Sequence[BoardRow],
        ticked: Mapping[tuple[date, str], frozenset[int]],
        nurses: Mapping[int, Nurse],
        ward: Ward,
        now: datetime,
        sees_shift: bool,
        asks: Sequence[AskLine] = (),
    ):
        self.unit, self.uid, self.day, self.shift = unit.name, unit.uid, *shift
        self.said = f"{spoken_date(self.day)}, {self.shift}"
        self.is_now = shift == ward.shift(now)
        self.asks, self.sees_shift = asks, sees_shift
        named = {when_: {str(key) for key in who} for when_, who in ticked.items()}
        holders = {str(key): holder(key, nurse) for key, nurse in nurses.items()}
        covers = cover(due_changes(rows, now), named, holders, ward, now)
        self.counts = _counts(covers)
        people = {row.stay: row for row in rows} if sees_shift else {}
        self.shifts = [
            ShiftPart(
                words=f"{spoken_date(each.day)}, {each.shift}",
                count=f"{_plural(len(each.changes), 'change', 'changes')}." if each.untaught != each.changes else "",
                gaps=tuple(words(reason) for reason in each.gaps),
                address="" if (each.day, each.shift) == shift else shift_address(unit, each.day, each.shift),
                lines=tuple(_line(one, people[one.stay], ward, now) for one in each.changes if one.stay in people),
            )
            for each in covers
        ]


def _line(change: DueChange, row: BoardRow, ward: Ward, now: datetime) -> ChangeLine:
    due = f"{'was due' if change.at < now else 'due'} {when(change.at, ward, now)}"
    return ChangeLine(
        reverse("person", args=[change.stay]),
        f"Bed {row.bed or 'not given'}, {row.name}",
        f"{STOMA_KINDS.get(change.stoma_kind, 'stoma')}, {due}",
    )


def _counts(covers: Sequence[Cover]) -> str:
    planned, untaught = (sum(len(getattr(each, name)) for each in covers) for name in ("changes", "untaught"))
    if not planned:
        return f"No change is planned within {AHEAD.days} days."
    said = f"{_plural(planned, 'change is', 'changes are')} planned within {AHEAD.days} days"
    if not untaught:
        return f"{said}, each on a shift with somebody ticked who is signed off to teach it."
    return f"{said}; {_plural(untaught, 'has', 'have')} nobody ticked who is signed off to teach it."


def _plural(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def shift_address(unit, day: date, shift: str) -> str:
    return f"{reverse('who-teaches', args=[unit.uid])}?{urlencode({'day': day.isoformat(), 'shift': shift})}"

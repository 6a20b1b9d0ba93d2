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
    gap: str


@dataclass(frozen=True, slots=True)
class ShiftLine:
    """A coming shift with changes on it, in counts alone. `here` when it is the one being ticked."""

    words: str
    count: str
    gaps: tuple[str, ...]
    address: str
    here: bool


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
        self.shifts = _shifts(unit, covers, shift)
        self.changes = _lines(covers, rows, ward, now) if sees_shift else []
        self.counts = _counts(covers)


def _lines(covers: Sequence[Cover], rows: Sequence[BoardRow], ward: Ward, now: datetime) -> list[ChangeLine]:
    people = {row.stay: row for row in rows}
    return [
        ChangeLine(
            reverse("person", args=[each.change.stay]),
            f"Bed {people[each.change.stay].bed or 'not given'}, {people[each.change.stay].name}",
            f"{STOMA_KINDS.get(each.change.stoma_kind, 'stoma')}, change {_due(each.change.at, ward, now)}",
            words(each.gap) if each.gap else "",
        )
        for each in covers
    ]


def _due(at: datetime, ward: Ward, now: datetime) -> str:
    return f"{'was due' if at < now else 'due'} {when(at, ward, now)}"


def _counts(covers: Sequence[Cover]) -> str:
    gaps = sum(each.gap is not None for each in covers)
    planned = f"{_plural(len(covers), 'change is', 'changes are')} planned within {AHEAD.days} days"
    if not covers:
        return f"No change is planned within {AHEAD.days} days."
    if not gaps:
        return f"{planned}, each on a shift with somebody ticked and signed off."
    return f"{planned}; {_plural(gaps, 'falls', 'fall')} on a shift with nobody ticked or nobody signed off to teach it."


def _plural(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def _shifts(unit, covers: Sequence[Cover], chosen: tuple[date, str]) -> list[ShiftLine]:
    """The shifts that changes fall on, soonest first."""
    found: dict[tuple[date, str], list[Cover]] = {}
    for each in covers:
        found.setdefault((each.day, each.shift), []).append(each)
    return [
        ShiftLine(
            words=f"{spoken_date(day)}, {shift}",
            count=_plural(len(falls), "change", "changes"),
            gaps=tuple(dict.fromkeys(words(each.gap) for each in falls if each.gap)),
            address=shift_address(unit, day, shift),
            here=(day, shift) == chosen,
        )
        for (day, shift), falls in found.items()
    ]


def shift_address(unit, day: date, shift: str) -> str:
    return f"{reverse('who-teaches', args=[unit.uid])}?{urlencode({'day': day.isoformat(), 'shift': shift})}"

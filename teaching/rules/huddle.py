"""One line a person for the huddle: what the next shift must hear first, said from the record alone.

`huddle_line` is used by the screen and by the printed list, so the two can never say different things.
A line names cautions before anything else, then what is due, one aim, who comes, and the leaving day last.
"""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from teaching.rules.board import BoardRow, Due
from teaching.rules.facts import Caution, Stoma
from teaching.rules.vocabulary import CAUTION_LISTS, PROCEDURES, STOMA_KINDS
from teaching.rules.ward import Ward

CALL_NOW = "call_now"
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@dataclass(frozen=True, slots=True)
class HuddleCaution:
    """A caution in words, with its state and time. `list` says how soon, in words, not in colour."""

    list: str
    words: str
    state: str
    call_now: bool


@dataclass(frozen=True, slots=True)
class HuddleLine:
    """One person's line, in the order it is read aloud. Every part is words; an empty part is not said."""

    bed: str
    name: str
    number: str
    stoma: str
    cautions: tuple[HuddleCaution, ...]
    due: tuple[str, ...]
    standing: str
    aim: str
    helper: str
    begun: tuple[str, ...]
    leaving: str
    waits: str = ""

    @property
    def stands(self) -> str:
        """What is due and what the record shows."""
        return sentences(*self.due, self.standing)

    @property
    def besides(self) -> str:
        """Who learns instead, and what was begun and not signed."""
        return sentences(self.helper, *self.begun)

    @property
    def sentence(self) -> str:
        """All of it but cautions and leaving, to be read aloud."""
        aim = sentences(f"Teach: {self.aim}" if self.aim else self.waits)
        return " ".join(part for part in (self.stands, aim, self.besides) if part)


def sentences(*parts: str) -> str:
    """The parts that say something, one after the other, each with its full stop."""
    return " ".join(f"{part.rstrip('.')}." for part in parts if part)


def when(moment: datetime, ward: Ward, now: datetime) -> str:
    """A moment as it is said on the ward: "today 14:00", "tomorrow 10:00", "Wed 10:00", "Wed 9 Dec 10:00".

    Six days ahead takes its date: a night shift still carries the name of the day before.
    """
    here, today = ward.local(moment), ward.date(now)
    days = (here.date() - today).days
    clock = f"{here:%H:%M}"
    if days == 0:
        return f"today {clock}"
    if days == 1:
        return f"tomorrow {clock}"
    if days == -1:
        return f"yesterday {clock}"
    if -6 <= days <= 5:
        return f"{DAYS[here.weekday()]} {clock}"
    return f"{spoken_date(here.date())} {clock}"


def spoken_date(day: date) -> str:
    """Such as "Wed 9 Dec"."""
    return f"{DAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"


def day_since(formed_at: datetime | None, ward: Ward, now: datetime) -> str:
    """The day after surgery by local dates, the day itself being 0; before it, or unknown, words."""
    if formed_at is None:
        return "surgery not recorded"
    if formed_at > now:
        return "before surgery"
    return f"day {(ward.date(now) - ward.date(formed_at)).days}"


def stoma_words(stomas: tuple[Stoma, ...], ward: Ward, now: datetime) -> str:
    """Such as "day 4, ileostomy"; with two, each by its label."""
    said = []
    for stoma in stomas:
        kind = STOMA_KINDS.get(stoma.kind, stoma.kind)
        named = f"{stoma.label} {kind}" if len(stomas) > 1 and kind not in stoma.label else kind
        said.append((day_since(stoma.formed_at, ward, now), named))
    days = {day for day, _ in said}
    if len(days) == 1:
        return f"{said[0][0]}, {' and '.join(named for _, named in said)}"
    return "; ".join(f"{day}, {named}" for day, named in said)


def unsettled(cautions: tuple[Caution, ...]) -> tuple[Caution, ...]:
    """Open before told, call now before today, oldest first. Settled and withdrawn ones are not said."""
    running = [caution for caution in cautions if caution.settled is None and not caution.withdrawn]
    return tuple(sorted(running, key=lambda each: (each.told is not None, each.list != CALL_NOW, each.at)))


def caution_line(caution: Caution, ward: Ward, now: datetime) -> HuddleCaution:
    if caution.told is None:
        state = f"open since {when(caution.at, ward, now)}, nobody told yet"
    else:
        state = f"told {when(caution.told, ward, now)}"
        state += f" ({caution.told_whom})" if caution.told_whom else ""
        state += f", answer: {caution.answer}" if caution.answer else ", no answer written"
        state += look_again(caution, ward, now)
        state += ", not settled"
    soon = CAUTION_LISTS.get(caution.list, caution.list)
    return HuddleCaution(soon, caution.words, state, caution.list == CALL_NOW)


def look_again(caution: Caution, ward: Ward, now: datetime) -> str:
    """By when to look again, and that it is overdue once that is past; "" where nobody said."""
    if caution.look_again_at is None:
        return ""
    by = when(caution.look_again_at, ward, now)
    return f", look again {by}" if now <= caution.look_again_at else f", look again was due {by}, overdue"


def due_line(due: Due, ward: Ward, now: datetime) -> str:
    name = PROCEDURES.get(due.procedure, due.procedure)
    named = f"{name}, {due.stoma}," if due.stoma else name
    return f"{named} {'was due' if due.at < now else 'due'} {when(due.at, ward, now)}"


def leaving_line(planned_at: datetime | None, ward: Ward, now: datetime) -> str:
    if planned_at is None:
        return "no day planned"
    return ("was planned " if planned_at < now else "") + when(planned_at, ward, now)


def huddle_line(row: BoardRow, ward: Ward, now: datetime) -> HuddleLine:
    """What to say of one person. A paused stay keeps its cautions, says so, and prompts nothing."""
    due = () if row.paused else sorted(row.due, key=lambda each: each.at)
    return HuddleLine(
        bed=row.bed,
        name=row.name,
        number=row.mrn,
        stoma=stoma_words(row.stomas, ward, now),
        cautions=tuple(caution_line(each, ward, now) for each in unsettled(row.cautions)),
        due=tuple(due_line(each, ward, now) for each in due),
        standing="Teaching is paused." if row.paused else row.standing,
        aim="" if row.paused else row.aim,
        helper="" if row.paused else row.helper,
        begun=tuple(f"Begun {when(each.at, ward, now)} by {each.by}, not signed" for each in row.begun),
        leaving=leaving_line(row.planned_at, ward, now),
        waits="" if row.paused else row.waits,
    )


def huddle_order(row: BoardRow, now: datetime) -> tuple[int, bool, datetime, int, str]:
    """Who is read first: call now (open, then told), today (open, then told), then what is due soonest.

    Nothing due comes late, paused last; at the same place by bed, "2" before "10".
    """
    ranks = [(0 if each.list == CALL_NOW else 2) + (each.told is not None) for each in unsettled(row.cautions)]
    soonest = min((due.at for due in row.due), default=now + timedelta(days=365))
    return min(ranks, default=4), row.paused, soonest, len(row.bed), row.bed

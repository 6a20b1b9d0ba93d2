"""When something may be shown before a moment: teaching booked first, else what falls due, and who is there.

An opportunity says "not before", never "will be". A leak cannot be foreseen, so none is. Unknown counts as no.
Practice is only foreseen where it is booked; it is among the moves.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from teaching.rules.assess import TAUGHT_WHILE
from teaching.rules.chances import Opportunity
from teaching.rules.checklist import concerns, kit_at, lasts
from teaching.rules.cover import DAY, HOUR, Span, hours_of, next_hour, span_to
from teaching.rules.due import NextChange
from teaching.rules.facts import Appointment, Chart, Kit, Stoma
from teaching.rules.lines import Policy
from teaching.rules.scene import NO_STOOL_YET, has_agreed
from teaching.rules.to_facility import COMING

MORNING = frozenset({"nd-part", "nd-clean"})
URINE = ("urostomy", "wet-colostomy")


def opportunities(
    chart: Chart, policy: Policy, now: datetime, until: datetime, changes: tuple[NextChange, ...]
) -> tuple[Opportunity, ...]:
    """In order of time, after `now` and up to `until` (UTC). `changes`: when each stoma's change is due.

    None while teaching is paused or has stopped.
    """
    if chart.state not in TAUGHT_WHILE:
        return ()
    found: list[Opportunity] = []
    there = Presence(chart, policy, now, until)
    for stoma in chart.stomas:
        booked = [one for one in chart.appointments if _comes(one, stoma) and now < one.at <= until]
        found += [_appointment(one, stoma, there.person) for one in booked]
        kit = kit_at(chart, stoma.key, now)
        if kit is None:
            continue
        due = next((change.due for change in changes if change.stoma == stoma.key), None)
        if due is not None and kit.interval_hours:
            taught = sorted(one.at for one in booked if one.procedure == "change" and not one.practice)
            for at in _changes(chart, policy, now, until, max(due, next_hour(now)), kit.interval_hours, taught):
                found.append(Opportunity(at, "change", stoma.key, there.at(at), "due"))
        found += _daily(chart, policy, stoma, kit, there, now, until)
    return tuple(sorted((one for one in found if now < one.at <= until), key=lambda one: one.at))


class Presence:
    """Who is there at a moment: the person, and helpers who have agreed, at the hours that somebody has said."""

    def __init__(self, chart: Chart, policy: Policy, now: datetime, until: datetime) -> None:
        self.person = frozenset(one.key for one in chart.learners if one.kind == "person")
        self.span: Span = span_to(chart, policy, now, (until,))
        self.hours = {
            one.key: hours_of(chart, one, self.span) for one in chart.learners
            if one.kind == "helper" and has_agreed(chart, one, now)
        }

    def at(self, moment: datetime) -> frozenset[str]:
        if not self.hours or moment < self.span.begins:
            return self.person
        hour = (moment - self.span.begins) // HOUR
        return self.person | {key for key, hours in self.hours.items() if hours >> hour & 1}


def _comes(one: Appointment, stoma: Stoma) -> bool:
    return one.state in COMING and one.stoma in ("", stoma.key)


def _appointment(one: Appointment, stoma: Stoma, person: frozenset[str]) -> Opportunity:
    """Whoever is named is there; where nobody is, the person."""
    return Opportunity(
        one.at, one.procedure, stoma.key, frozenset(one.learners) or person, "appointment", one.practice,
        one.may_teach is True, one.teacher, one.interpreter, key=one.key,
    )


def _changes(
    chart: Chart, policy: Policy, now: datetime, until: datetime, due: datetime, interval_hours: int,
    taught: list[datetime],
) -> Iterator[datetime]:  # fmt: skip
    """By the person's own interval. A change that is booked up to the day one falls due takes its place."""
    date = chart.ward.date
    while due <= until:
        earlier = [at for at in taught if date(at) <= date(due)]
        if earlier:
            taught = taught[len(earlier) :]
            due = earlier[-1]
        else:
            at = by_day(chart, policy, due, now)
            yield at
        due += interval_hours * HOUR


def by_day(chart: Chart, policy: Policy, due: datetime, now: datetime) -> datetime:
    """Nobody is woken to be taught: a change that falls due at night is foreseen the evening before, as the bound it
    is, or in the morning where that evening is past.
    """
    here = chart.ward.local(due)
    if policy.teaching_starts <= here.hour < policy.teaching_ends:
        return due
    evening = here.date() if here.hour >= policy.teaching_ends else here.date() - DAY
    before = _at(chart, evening, policy.teaching_ends)
    return before if before > now else _at(chart, evening + DAY, policy.teaching_starts)


def _daily(
    chart: Chart, policy: Policy, stoma: Stoma, kit: Kit, there: Presence, now: datetime, until: datetime
) -> Iterator[Opportunity]:
    """A pouch to empty or swap in teaching hours, far enough apart; the night bag joined and parted.

    While real stool has not come there is nothing to empty.
    """
    urine = stoma.kind in URINE
    procedure = "urine" if urine else "swap" if kit.closure == "closed" else "emptying"
    nothing = not urine and any(
        event.code == NO_STOOL_YET and concerns(event, stoma.key) and lasts(event, now) for event in chart.body_events
    )
    apart = max(1, policy.spacing // HOUR)
    nights = frozenset(one.code for one in chart.checklist.items if one.procedure == "night") if urine else frozenset()
    day, last = chart.ward.date(now), chart.ward.date(until)
    while day <= last:
        for hour in () if nothing else range(policy.teaching_starts, policy.teaching_ends + 1, apart):
            at = _at(chart, day, hour)
            yield Opportunity(at, procedure, stoma.key, there.at(at), procedure)
        if nights:
            at = _at(chart, day, policy.night_part)
            yield Opportunity(at, "night", stoma.key, there.at(at), "morning", only=nights & MORNING)
            at = _at(chart, day, policy.night_join)
            yield Opportunity(at, "night", stoma.key, there.at(at), "evening", only=nights - MORNING)
        day += DAY


def _at(chart: Chart, day: date, hour: int) -> datetime:
    return datetime.combine(day, time(hour), ZoneInfo(chart.ward.zone)).astimezone(UTC)

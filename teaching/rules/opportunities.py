"""When something may be shown before a moment: teaching booked first, else what falls due, and who is there.

An opportunity says "not before", never "will be". A leak cannot be foreseen, so none is. Unknown counts as no.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from teaching.rules.chances import Opportunity
from teaching.rules.checklist import kit_at
from teaching.rules.cover import hours_of, next_hour
from teaching.rules.cover import span_to as _span
from teaching.rules.due import NextChange
from teaching.rules.facts import Appointment, Chart, Stoma
from teaching.rules.lines import Policy
from teaching.rules.scene import has_agreed

COMING = ("booked", "confirmed")
MORNING = frozenset({"nd-part", "nd-clean"})
HOUR = timedelta(hours=1)
DAY = timedelta(days=1)


def opportunities(
    chart: Chart, policy: Policy, now: datetime, until: datetime, changes: tuple[NextChange, ...]
) -> tuple[Opportunity, ...]:
    """In order of time, after `now` and up to `until` (UTC). `changes`: when each stoma's change is due."""
    booked = [one for one in chart.appointments if one.state in COMING and now < one.at <= until]
    found = [each for one in booked for each in _appointment(chart, one)]
    for stoma in chart.stomas:
        found += _changes(chart, policy, stoma, now, until, changes, found)
        found += _daily(chart, policy, stoma, now, until)
    return tuple(sorted(_with_who_is_there(chart, policy, now, until, found), key=lambda one: one.at))


def _appointment(chart: Chart, one: Appointment) -> Iterator[Opportunity]:
    for stoma in chart.stomas:
        if one.stoma in ("", stoma.key):
            yield Opportunity(
                one.at, one.procedure, stoma.key, frozenset(one.learners), "appointment", one.practice,
                bool(one.may_teach), one.teacher, one.interpreter, key=one.key,
            )


def _changes(
    chart: Chart, policy: Policy, stoma: Stoma, now: datetime, until: datetime, changes: tuple[NextChange, ...],
    found: list[Opportunity],
) -> Iterator[Opportunity]:  # fmt: skip
    """The person's own interval, from the last change or the last that is booked before."""
    kit = kit_at(chart, stoma.key, now)
    due = next((change.due for change in changes if change.stoma == stoma.key), None)
    if kit is None or not kit.interval_hours or due is None:
        return
    interval = kit.interval_hours * HOUR
    own = [one for one in found if one.procedure == "change" and one.stoma == stoma.key and not one.practice]
    booked = sorted(one.at for one in own)
    at = max(due, next_hour(now))
    while at <= until:
        earlier = [one for one in booked if one <= at]
        if earlier:  # a change that is booked takes the place of the one that falls due after it
            booked = [one for one in booked if one > at]
            at = earlier[-1] + interval
            continue
        yield Opportunity(_by_day(chart, policy, at, now), "change", stoma.key, frozenset(), "due")
        at += interval


def _by_day(chart: Chart, policy: Policy, due: datetime, now: datetime) -> datetime:
    """Nobody is woken to be taught: a change that falls due at night is foreseen the evening before, as the bound it
    is, or in the morning where that evening is past.
    """
    here = chart.ward.local(due)
    if policy.teaching_starts <= here.hour < policy.teaching_ends:
        return due
    evening = here.date() if here.hour >= policy.teaching_ends else here.date() - DAY
    before = _at(chart, evening, policy.teaching_ends)
    return before if before > now else _at(chart, evening + DAY, policy.teaching_starts)


def _daily(chart: Chart, policy: Policy, stoma: Stoma, now: datetime, until: datetime) -> Iterator[Opportunity]:
    """A pouch to empty or swap in teaching hours, far enough apart; the night bag joined and parted."""
    kit = kit_at(chart, stoma.key, now)
    if kit is None:
        return
    urine = stoma.kind in ("urostomy", "wet-colostomy")
    closed = kit.closure == "closed"
    procedure = "urine" if urine else "swap" if closed else "emptying"
    day = chart.ward.date(now)
    while day <= chart.ward.date(until):
        hour = policy.teaching_starts
        while hour <= policy.teaching_ends:
            yield Opportunity(_at(chart, day, hour), procedure, stoma.key, frozenset(), procedure)
            hour += max(1, policy.spacing // HOUR)
        if urine:
            nights = frozenset(one.code for one in chart.checklist.items if one.procedure == "night")
            yield Opportunity(
                _at(chart, day, policy.night_part), "night", stoma.key, frozenset(), "morning", only=nights & MORNING
            )
            yield Opportunity(
                _at(chart, day, policy.night_join), "night", stoma.key, frozenset(), "evening", only=nights - MORNING
            )
        day += DAY


def _at(chart: Chart, day: date, hour: int) -> datetime:
    return datetime.combine(day, time(hour), ZoneInfo(chart.ward.zone)).astimezone(UTC)


def _with_who_is_there(
    chart: Chart, policy: Policy, now: datetime, until: datetime, found: list[Opportunity]
) -> Iterator[Opportunity]:
    """Booked times name their learners; at others the person is there, and helpers at their hours."""
    begins = now.replace(minute=0, second=0, microsecond=0)
    span = _span(chart, policy, begins, (until,))
    hours = {
        one.key: hours_of(chart, one, span) for one in chart.learners
        if one.kind == "person" or has_agreed(chart, one, now)
    }
    for one in found:
        if not now < one.at <= until:
            continue
        if one.kind == "appointment":
            yield one
            continue
        bit = 1 << ((one.at - span.begins) // HOUR)
        there = frozenset(key for key, when in hours.items() if when & bit)
        if there:
            yield replace(one, learners=there)

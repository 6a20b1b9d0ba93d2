"""Who is there at which hour, from leaving on: each learner's hours as one integer, and sets that leave no hour bare.

    bit i of a learner's hours = hour i of the span = [span.hour(i), span.hour(i + 1))

Hours are those of the ward's clock; the first is the one in which leaving falls. Bits stand for real hours, so a night
on which the clock is put back has one more of them. A part of an hour is not an hour: who is there for some of it
is not counted for it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property
from itertools import combinations

from teaching.rules.due import NextChange, next_change
from teaching.rules.facts import Chart, Learner, Stoma
from teaching.rules.lines import Policy
from teaching.rules.standing import TICK

HOUR = timedelta(hours=1)
DAY = timedelta(days=1)
WEEK_HOURS = timedelta(weeks=1) // HOUR
HOURS_IN_A_DAY = DAY // HOUR


@dataclass(frozen=True)
class Span:
    """The hours that must be covered: `count` of them from `begins` (UTC, on the hour of the ward's clock)."""

    leaving: datetime
    begins: datetime
    count: int

    @cached_property
    def full(self) -> int:
        """Every hour of the span."""
        return (1 << self.count) - 1

    @property
    def ends(self) -> datetime:
        return self.hour(self.count)

    def hour(self, number: int) -> datetime:
        return self.begins + number * HOUR

    def between(self, since: datetime, until: datetime) -> int:
        """The hours that share any time with [since, until)."""
        first = max(0, (since - self.begins) // HOUR)
        last = min(self.count, -((self.begins - until) // HOUR))
        return ((1 << (last - first)) - 1) << first if last > first else 0

    def within(self, since: datetime, until: datetime) -> int:
        """The hours that lie wholly in [since, until]."""
        first = max(0, -((self.begins - since) // HOUR))
        last = min(self.count, (until - self.begins) // HOUR)
        return ((1 << (last - first)) - 1) << first if last > first else 0


def first_due(chart: Chart, stoma: Stoma, leaving: datetime, now: datetime) -> datetime | None:
    """R1: the first change due after leaving (UTC): last change + interval, not before now, repeated.

    Overdue counts as due at the next full hour, also for whoever leaves before that hour: nobody has changed it.
    None: no change, no kit or no interval is recorded.
    """
    return due_after(next_change(chart, stoma, now), leaving, now)


def due_after(change: NextChange, leaving: datetime, now: datetime) -> datetime | None:
    """As `first_due`, from the next change as it stands in an assessment."""
    if change.last is None or change.due is None:
        return None
    interval = change.due - change.last
    overdue = change.due < now
    if overdue and now <= leaving < next_hour(now + TICK):
        return next_hour(now + TICK)
    due = next_hour(now) if overdue else change.due
    if due <= leaving:
        due += ((leaving - due) // interval + 1) * interval
    return due


def next_hour(now: datetime) -> datetime:
    """This moment, or the next full hour after it."""
    begun = now.replace(minute=0, second=0, microsecond=0)
    return now if begun == now else begun + HOUR


def horizon(chart: Chart, policy: Policy, leaving: datetime, now: datetime) -> Span:
    """From leaving to the first change after it plus the margin, at least seven days; of two stomas the later."""
    return span_to(chart, policy, leaving, [first_due(chart, stoma, leaving, now) for stoma in chart.stomas])


def span_to(chart: Chart, policy: Policy, leaving: datetime, dues: Sequence[datetime | None]) -> Span:
    """The span for these first changes."""
    ends = max([leaving + policy.horizon, *(due + policy.visit_margin for due in dues if due)])
    here = chart.ward.local(leaving)
    begins = leaving - timedelta(minutes=here.minute, seconds=here.second, microseconds=here.microsecond)
    return Span(leaving, begins, -((begins - ends) // HOUR))


def hours_said(learner: Learner) -> bool:
    """Whether anybody has said when they are there. Living in says nothing of the hours; nor does a week of none."""
    return learner.kind == "person" or "1" in learner.week or bool(learner.exceptions)


def hours_of(chart: Chart, learner: Learner, span: Span) -> int:
    """The hours of the span at which this learner is there: the person at all, a helper at those said.

    Of two exceptions that overlap the later one told counts. Whether a helper has agreed is not asked here.
    """
    if learner.kind == "person":
        return span.full
    there = 0
    if "1" in learner.week:
        there = sum(1 << number for number, hour in enumerate(_week_hours(chart, span)) if learner.week[hour] == "1")
    for since, until, comes in learner.exceptions:
        if comes:
            there |= span.within(since, until)
        elif until > span.leaving:
            there &= ~span.between(since, until)
    return there


def night_hours(chart: Chart, policy: Policy, span: Span) -> int:
    """The hours of the span that are night on the ward's clock."""
    starts, ends = policy.night_starts, policy.night_ends
    return sum(
        1 << number for number, hour in enumerate(_week_hours(chart, span))
        if hour % HOURS_IN_A_DAY >= starts or hour % HOURS_IN_A_DAY < ends
    )


def _week_hours(chart: Chart, span: Span) -> Iterator[int]:
    """For each hour of the span, which hour of the ward's week it is: 0 is Monday 00:00."""
    local = chart.ward.local
    first, last = local(span.begins), local(span.ends)
    hour = first.weekday() * HOURS_IN_A_DAY + first.hour
    if first.utcoffset() == last.utcoffset():
        return ((hour + number) % WEEK_HOURS for number in range(span.count))
    clock = (local(span.hour(number)) for number in range(span.count))  # the clock is changed within the span
    return (here.weekday() * HOURS_IN_A_DAY + here.hour for here in clock)


def full_sets(hours: Mapping[str, int], wanted: int) -> tuple[frozenset[str], ...]:
    """The smallest sets of learners who between them leave no hour of `wanted` bare; none of them holds another.

    `hours`: those who count, by key, each with their hours. For all hours give `span.full`, else a mask such as
    `night_hours`. Nothing wanted: the empty set. Nobody enough: ().
    """
    found: list[frozenset[str]] = []
    for size in range(len(hours) + 1):
        for members in combinations(sorted(hours), size):
            group = frozenset(members)
            if any(smaller <= group for smaller in found):
                continue
            there = 0
            for key in members:
                there |= hours[key]
            if not wanted & ~there:
                found.append(group)
    return tuple(found)

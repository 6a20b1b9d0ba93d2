"""Everything readiness leans on, worked out once: who has agreed, their hours, what they hold, when a change is due."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.cover import Span, due_after, hours_of, hours_said, night_hours, span_to
from teaching.rules.facts import Chart, Learner
from teaching.rules.holding import (
    ALONE_HERE,
    SET_OUT,
    Level,
    Skill,
    as_shown,
    at_best,
    by_part,
    newest_asked,
    newest_teaching,
    skill,
)
from teaching.rules.leak import service_hours
from teaching.rules.lines import Policy
from teaching.rules.scene import has_agreed
from teaching.rules.standing import Standing


@dataclass(frozen=True, slots=True)
class Hands:
    """One learner beside one stoma: what they hold, when they are there, and when somebody is there to set out."""

    learner: str
    helper: bool
    skill: Skill
    hours: int
    set_out: int

    def at(self, level: str) -> int:
        """The hours at which something held at this level is done."""
        return self.hours if level == ALONE_HERE else self.hours & self.set_out if level == SET_OUT else 0


def covered(told: Iterable[tuple[Hands, str]]) -> int:
    """The hours at which at least one of these does it."""
    found = 0
    for hand, level in told:
        found |= hand.at(level)
    return found


@dataclass(frozen=True)
class Situation:
    """One stay at one moment, for one leaving. `leaving` None: not planned, and the span is a week from now.

    `skills` and `hours` are told twice: as shown, and with what is not known taken as good.
    """

    chart: Chart
    policy: Policy
    now: datetime
    leaving: datetime | None
    span: Span
    nights: int
    service: int
    dues: Mapping[str, datetime | None]
    learners: tuple[Learner, ...]
    rows: Mapping[tuple[str, str], Mapping[str, list[Standing]]]
    skills: tuple[Mapping[tuple[str, str], Skill], Mapping[tuple[str, str], Skill]]
    hours: tuple[Mapping[str, int], Mapping[str, int]]
    best_level: Level
    taught_at: datetime | None
    fresh_until: datetime | None

    def hands(self, stoma: str, person: bool, helpers: bool, best: bool) -> tuple[Hands, ...]:
        """Those who may be leaned on. Only a helper sets out, and only where helpers are."""
        skills, hours = self.skills[best], self.hours[best]
        return tuple(
            Hands(
                one.key, one.kind == "helper", skills[stoma, one.key], hours[one.key],
                _others(self.learners, hours, one) if helpers else 0,
            )
            for one in self.learners if (helpers if one.kind == "helper" else person)
        )

    def proved(self, row: Standing) -> bool:
        """Whether a row that is not held is proved wanting, rather than not known."""
        return self.best_level(row) != ALONE_HERE

    def parts(self, stoma: str) -> Mapping[str, list[Standing]]:
        """The essential rows of one stoma by part, as they stand for the person."""
        return self.rows.get((stoma, self.learners[0].key), {})

    def change_rows(self, stoma: str) -> Iterator[str]:
        return (one.code for one in self.parts(stoma).get("change", ()))

    def look_rows(self, stoma: str) -> Iterator[str]:
        return (one.code for one in self.parts(stoma).get("look", ()))


def _others(learners: tuple[Learner, ...], hours: Mapping[str, int], one: Learner) -> int:
    found = 0
    for other in learners:
        if other.kind == "helper" and other.key != one.key:
            found |= hours[other.key]
    return found


def leaving_of(chart: Chart, now: datetime) -> datetime | None:
    """The planned leaving, while it is still to come or the person has left."""
    planned = chart.planned_at
    return planned if planned and (planned >= now or chart.state == "left") else None


def _fresh_until(chart: Chart, policy: Policy, now: datetime, taught_at: datetime | None) -> datetime | None:
    """The last moment (UTC) at which the newest teaching, or "still manages alone", is recent enough."""
    if taught_at is None:
        return None
    return max(taught_at, newest_asked(chart, now) or taught_at) + policy.freshness


def situation_of(chart: Chart, assessment: Assessment, policy: Policy, now: datetime) -> Situation:
    leaving = leaving_of(chart, now)
    begins = leaving or now.replace(minute=0, second=0, microsecond=0)
    dues = {
        change.stoma: due_after(change, leaving, now) if leaving else None for change in assessment.changes
    }
    span = span_to(chart, policy, begins, tuple(dues.values()))
    helpers = [one for one in chart.learners if one.kind == "helper" and has_agreed(chart, one, now)]
    learners = (*(one for one in chart.learners if one.kind == "person"), *sorted(helpers, key=lambda one: one.key))
    rows = by_part(assessment.standings)
    taught_at = newest_teaching(chart, now)
    best = at_best(chart, now, taught_at is not None)
    keys = [(stoma.key, one.key) for stoma in chart.stomas for one in learners]
    hours = {one.key: hours_of(chart, one, span) for one in learners}
    return Situation(
        chart=chart, policy=policy, now=now, leaving=leaving, span=span,
        nights=night_hours(chart, policy, span),
        service=service_hours(chart, policy, span, now),
        dues=dues, learners=learners, rows=rows,
        skills=(
            {key: skill(rows.get(key, {}), as_shown, "") for key in keys},
            {key: skill(rows.get(key, {}), best, ALONE_HERE) for key in keys},
        ),
        hours=(hours, {one.key: hours[one.key] if hours_said(one) else span.full for one in learners}),
        best_level=best,
        taught_at=taught_at,
        fresh_until=_fresh_until(chart, policy, now, taught_at),
    )

"""What would bring a result nearer: each move is an edit of the facts, tried by the same rules. Nothing is advised.

Cheapest for the skin first. A change on the morning of leaving, and one extra change, are only ever an option for
the stoma nurse to agree.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.changes import change_visits
from teaching.rules.cover import HOUR, WEEK_HOURS, next_hour
from teaching.rules.facts import Appointment, Chart, Consent, Learner, Stoma, Visit
from teaching.rules.gaps import which
from teaching.rules.opportunities import by_day, opportunities
from teaching.rules.reach import REACHED, Reach, Reaching
from teaching.rules.reasons import Reason

FREE, A_CHANGE_EARLIER, A_CHANGE_MORE = range(len(REACHED))  # what a move costs the skin
GOOD_SKIN = ("good",)
TRIED = "tried"


@dataclass(frozen=True, slots=True)
class Move:
    """`cost` to the skin, 0 none; `result` it brings, by `at` (UTC); `agree`: only if the stoma nurse agrees."""

    code: str
    reason: Reason
    cost: int
    result: str
    at: datetime
    agree: bool = False


@dataclass(frozen=True, slots=True)
class Trial:
    """A move before it is judged: the facts as they would be. `joins`: who comes to what is foreseen already."""

    code: str
    reason: Reason
    cost: int
    chart: Chart
    joins: str = ""
    agree: bool = False


def moves(base: Reaching, assessment: Assessment, reach: Reach) -> tuple[Move, ...]:
    """Those that bring a better result by the planned moment, or the same one sooner; none that another beats."""
    found: list[Move] = []
    until = max(one.at for one in base.chances) if base.chances else base.planned
    for trial in _trials(base):
        chances = opportunities(trial.chart, base.policy, base.now, until, assessment.changes)
        if trial.joins:
            chances = tuple(replace(one, learners=one.learners | {trial.joins}) for one in chances)
        tried = Reaching(trial.chart, assessment, base.policy, base.now, base.planned, chances).reach()
        gained = _gained(reach, tried)
        if gained:
            result, at = gained
            found.append(Move(trial.code, trial.reason, trial.cost, result, at, trial.agree))
    return tuple(one for one in found if not any(_beats(other, one) for other in found))


def _gained(base: Reach, tried: Reach) -> tuple[str, datetime] | None:
    """The best result that it brings, if that holds at the planned moment and did not before, or holds sooner."""
    for result in REACHED:
        at, before = tried.first(result), base.first(result)
        if not tried.then(result) or at is None:
            continue
        if not base.then(result) or (before is not None and at < before):
            return result, at
        return None
    return None


def _beats(one: Move, other: Move) -> bool:
    """Not worse in result, cost or day, and better in one."""
    mine, theirs = (REACHED.index(one.result), one.cost), (REACHED.index(other.result), other.cost)
    as_good = mine[0] <= theirs[0] and mine[1] <= theirs[1] and one.at <= other.at
    return as_good and (mine, one.at) != (theirs, other.at)


def _trials(base: Reaching) -> Iterator[Trial]:
    if not base.ways or base.chart.goes_to == "facility":
        return
    for stoma in base.chart.stomas:
        yield from _practice(base, stoma)
        yield from _seen(base, stoma)
        yield from _visit(base, stoma)
        yield from _morning(base, stoma)
        yield from _extra(base, stoma)
    yield from _helper(base)


def _booking(chart: Chart, *more: Appointment) -> Chart:
    return replace(chart, appointments=(*chart.appointments, *more))


def _teaching(base: Reaching, stoma: Stoma, at: datetime, procedure: str, practice: bool = False) -> Appointment:
    """A time for everyone who learns; the stoma nurse, or a nurse signed off, is there."""
    learners = tuple(one.key for one in base.situation.learners)
    return Appointment(
        f"{TRIED} {procedure} {at}", at, "booked", procedure, learners, stoma.key, may_teach=True, practice=practice
    )


def _practice(base: Reaching, stoma: Stoma) -> Iterator[Trial]:
    """Of whatever may be practised, at the next hour of teaching and again on a separate occasion."""
    first = by_day(base.chart, base.policy, next_hour(base.now) + HOUR, base.now)
    again = by_day(base.chart, base.policy, first + base.policy.spacing, first)
    rows = base.ways[stoma.key].prospect.rows.values()
    procedures = sorted({row.item.procedure for row in rows if row.item.practice_share != "none"})
    booked = [
        _teaching(base, stoma, at, procedure, practice=True)
        for at in (first, again) if base.now < at < base.planned for procedure in procedures
    ]
    if booked:
        reason = Reason("move-practice", stoma=which(base.chart, stoma))
        yield Trial("practice", reason, FREE, _booking(base.chart, *booked))


def _seen(base: Reaching, stoma: Stoma) -> Iterator[Trial]:
    """Whoever may confirm a change is there at the next one that falls due."""
    coming = _next_change(base, stoma)
    if coming is not None and coming.kind == "due" and coming.at <= base.planned:
        reason = Reason("move-seen", stoma=which(base.chart, stoma), at=base.chart.ward.local(coming.at))
        yield Trial("seen", reason, FREE, _booking(base.chart, _teaching(base, stoma, coming.at, "change")))


def _next_change(base: Reaching, stoma: Stoma) -> Opportunity | None:
    return next((one for one in base.chances
                 if one.procedure == "change" and one.stoma == stoma.key and not one.practice), None)


def _helper(base: Reaching) -> Iterator[Trial]:
    """A helper comes to whatever is foreseen; where nobody is named, somebody who would be there day and night."""
    chart = base.chart
    for learner in base.situation.learners:
        if learner.kind == "helper":
            reason = Reason("move-helper", name=learner.name or learner.relation or "the helper")
            yield Trial("helper", reason, FREE, chart, learner.key)
    if all(one.kind == "person" for one in chart.learners):
        found = replace(
            chart, learners=(*chart.learners, Learner(TRIED, "helper", week="1" * WEEK_HOURS)),
            consents=(*chart.consents, *(Consent(TRIED, whose, True, base.now) for whose in ("person", "helper"))),
        )
        yield Trial("find-helper", Reason("move-find-helper"), FREE, found, TRIED)


def _visit(base: Reaching, stoma: Stoma) -> Iterator[Trial]:
    """A nurse's visit for the change, in time: after leaving, the margin before it is due."""
    due = base.situation.dues[stoma.key]
    if due is None or base.situation.leaving is None or change_visits(base.situation, stoma.key):
        return
    last = due - base.policy.visit_margin
    if last < base.planned:
        return
    other = any(one.for_change and one.state == "made" and one.stoma in ("", stoma.key) for one in base.chart.visits)
    local = base.chart.ward.local
    reason = Reason(
        "move-visit-time" if other else "move-visit", stoma=which(base.chart, stoma), by=local(last),
        since=local(base.planned), due=local(due), hours=base.policy.visit_margin // HOUR,
    )
    made = Visit(TRIED, last, "made", True, TRIED, stoma=stoma.key)
    code = "visit-time" if other else "visit"
    yield Trial(code, reason, FREE, replace(base.chart, visits=(*base.chart.visits, made)))


def _morning(base: Reaching, stoma: Stoma) -> Iterator[Trial]:
    """A change on the morning of leaving: it starts a new interval, and is one more chance to show it."""
    at, last = base.planned - base.policy.before_leaving, _last_change(base, stoma, base.planned)
    soon = last is not None and at - last < base.policy.extra_change_after
    if at <= base.now or soon or by_day(base.chart, base.policy, at, base.now) != at or base.situation.leaving is None:
        return
    reason = Reason("move-morning", stoma=which(base.chart, stoma), at=base.chart.ward.local(at))
    booked = _booking(base.chart, _teaching(base, stoma, at, "change"))
    yield Trial("morning", reason, A_CHANGE_EARLIER, booked, agree=True)


def _extra(base: Reaching, stoma: Stoma) -> Iterator[Trial]:
    """One extra change, only while the skin is good, the policy's time after the last and before the next."""
    last, coming = _last_change(base, stoma, base.now), _next_change(base, stoma)
    if last is None or not _good_skin(base.chart, stoma.key, base.now):
        return
    soonest = max(last + base.policy.extra_change_after, next_hour(base.now) + HOUR)
    at = by_day(base.chart, base.policy, soonest, base.now)
    if at < soonest:
        at = by_day(base.chart, base.policy, soonest, soonest)
    if at < soonest or at >= base.planned or (coming is not None and coming.at - at < base.policy.extra_change_after):
        return
    reason = Reason("move-extra", stoma=which(base.chart, stoma), at=base.chart.ward.local(at))
    yield Trial("extra", reason, A_CHANGE_MORE, _booking(base.chart, _teaching(base, stoma, at, "change")), agree=True)


def _last_change(base: Reaching, stoma: Stoma, before: datetime) -> datetime | None:
    """The last change made, or foreseen to be made by then."""
    made = [one.last for one in base.assessment.changes if one.stoma == stoma.key and one.last]
    made += [one.at for one in base.chances if one.procedure == "change" and one.stoma == stoma.key
             and not one.practice and one.at <= before]
    return max(made, default=None)


def _good_skin(chart: Chart, stoma: str, now: datetime) -> bool:
    """The newest skin that was recorded is good all round; not known is not good."""
    told = [one for one in chart.findings if one.stoma == stoma and one.at <= now and one.skin]
    return bool(told) and all(seen in GOOD_SKIN for _, seen in max(told, key=lambda one: one.at).skin)

"""What would bring a result nearer: each move is an edit of the facts, tried by the same rules. Nothing is advised.

Cheapest for the skin first. A change on the morning of leaving, and one extra change, are only ever an option for
the stoma nurse to agree.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.cover import due_after, next_hour
from teaching.rules.facts import Chart, Stoma, Visit
from teaching.rules.lines import Policy
from teaching.rules.reach import REACHED, Reach, Reaching
from teaching.rules.reasons import Reason

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
FREE, A_CHANGE_EARLIER, A_CHANGE_MORE = range(len(REACHED))  # what a move costs the skin
GOOD_SKIN = ("good",)


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
    """A move before it is judged: the facts and opportunities as they would be."""

    code: str
    reason: Reason
    cost: int
    chart: Chart
    chances: tuple[Opportunity, ...]
    agree: bool = False


def moves(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, planned: datetime,
    chances: tuple[Opportunity, ...], base: Reach,
) -> tuple[Move, ...]:  # fmt: skip
    """Those that bring a better result by the planned moment, or the same one sooner; none that another beats."""
    found: list[Move] = []
    for trial in _trials(chart, assessment, policy, now, planned, chances):
        reach = Reaching(trial.chart, assessment, policy, now, planned, trial.chances).reach()
        gained = _gained(base, reach)
        if gained:
            result, at = gained
            found.append(Move(trial.code, trial.reason, trial.cost, result, at, trial.agree))
    return tuple(one for one in found if not any(_beats(other, one) for other in found))


def _gained(base: Reach, reach: Reach) -> tuple[str, datetime] | None:
    """The best result that it brings, if that holds at the planned moment and did not before, or holds sooner."""
    for result in REACHED:
        at = reach.first(result)
        if not reach.then(result) or at is None:
            continue
        before = base.first(result)
        if not base.then(result) or (before is not None and at < before):
            return result, at
        return None
    return None


def _beats(one: Move, other: Move) -> bool:
    """Not worse in result, cost or day, and better in one."""
    mine, theirs = (REACHED.index(one.result), one.cost), (REACHED.index(other.result), other.cost)
    as_good = mine[0] <= theirs[0] and mine[1] <= theirs[1] and one.at <= other.at
    return as_good and (mine, one.at) != (theirs, other.at)


def _trials(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, planned: datetime,
    chances: tuple[Opportunity, ...],
) -> Iterator[Trial]:  # fmt: skip
    for stoma in chart.stomas:
        yield from _practice(chart, policy, now, planned, chances, stoma)
        yield from _visit(chart, assessment, policy, planned, chances, stoma, now)
        yield from _morning(chart, policy, now, planned, chances, stoma)
        yield from _extra(chart, assessment, policy, now, planned, chances, stoma)
    yield from _helper(chart, chances)


def _label(chart: Chart, stoma: Stoma) -> str:
    return f", {stoma.label} stoma" if len(chart.stomas) > 1 else ""


def _added(chances: tuple[Opportunity, ...], *more: Opportunity) -> tuple[Opportunity, ...]:
    return tuple(sorted((*chances, *more), key=lambda one: one.at))


def _all_learners(chart: Chart, chances: tuple[Opportunity, ...]) -> frozenset[str]:
    return frozenset().union(*(one.learners for one in chances)) or frozenset({chart.learners[0].key})


def _practice(
    chart: Chart, policy: Policy, now: datetime, planned: datetime, chances: tuple[Opportunity, ...], stoma: Stoma
) -> Iterator[Trial]:
    at = next_hour(now) + HOUR
    if at < planned:
        one = Opportunity(at, "change", stoma.key, _all_learners(chart, chances), "practice", practice=True)
        reason = Reason("move-practice", stoma=_label(chart, stoma))
        yield Trial("practice", reason, FREE, chart, _added(chances, one))


def _helper(chart: Chart, chances: tuple[Opportunity, ...]) -> Iterator[Trial]:
    """A helper who has agreed comes to the changes and appointments that are there already."""
    for learner in chart.learners:
        if learner.kind != "helper":
            continue
        joined = tuple(
            replace(one, learners=one.learners | {learner.key}) if one.kind in ("due", "appointment") else one
            for one in chances
        )
        if joined != chances:
            reason = Reason("move-helper", name=learner.name or learner.relation or "the helper")
            yield Trial("helper", reason, FREE, chart, joined)


def _visit(
    chart: Chart, assessment: Assessment, policy: Policy, planned: datetime, chances: tuple[Opportunity, ...],
    stoma: Stoma, now: datetime,
) -> Iterator[Trial]:  # fmt: skip
    """A nurse's visit for the change, in time: after leaving, the margin before it is due."""
    change = next((one for one in assessment.changes if one.stoma == stoma.key), None)
    due = due_after(change, planned, now) if change else None
    if due is None or chart.goes_to != "home":
        return
    last = due - policy.visit_margin
    if last < planned:
        return
    other = [one for one in chart.visits if one.for_change and one.state == "made" and one.stoma in ("", stoma.key)]
    by = chart.ward.local(last)
    made = Visit("tried", last, "made", True, "tried", stoma=stoma.key)
    label = _label(chart, stoma)
    reason = Reason("move-visit-time", stoma=label, by=by) if other else Reason("move-visit", stoma=label, by=by)
    yield Trial("visit-time" if other else "visit", reason, FREE, replace(chart, visits=(*chart.visits, made)), chances)


def _morning(
    chart: Chart, policy: Policy, now: datetime, planned: datetime, chances: tuple[Opportunity, ...], stoma: Stoma
) -> Iterator[Trial]:
    """A change on the morning of leaving: it starts a new interval, and is one more chance to show it."""
    at = planned - policy.before_leaving
    if at <= now or any(one.procedure == "change" and planned - DAY < one.at <= planned for one in chances):
        return
    one = Opportunity(at, "change", stoma.key, _all_learners(chart, chances), "morning-change", signed_off=True)
    reason = Reason("move-morning", stoma=_label(chart, stoma), at=chart.ward.local(at))
    yield Trial("morning", reason, A_CHANGE_EARLIER, chart, _added(chances, one), agree=True)


def _extra(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, planned: datetime,
    chances: tuple[Opportunity, ...], stoma: Stoma,
) -> Iterator[Trial]:  # fmt: skip
    """One extra change, only while the skin is good, the policy's time after the last."""
    change = next((one for one in assessment.changes if one.stoma == stoma.key), None)
    if change is None or change.last is None or not _good_skin(chart, stoma.key, now):
        return
    at = max(change.last + policy.extra_change_after, next_hour(now) + HOUR)
    if at >= planned:
        return
    one = Opportunity(at, "change", stoma.key, _all_learners(chart, chances), "extra", signed_off=True)
    reason = Reason("move-extra", stoma=_label(chart, stoma), at=chart.ward.local(at))
    yield Trial("extra", reason, A_CHANGE_MORE, chart, _added(chances, one), agree=True)


def _good_skin(chart: Chart, stoma: str, now: datetime) -> bool:
    """The newest skin that was recorded is good all round; not known is not good."""
    told = [one for one in chart.findings if one.stoma == stoma and one.at <= now and one.skin]
    return bool(told) and all(seen in GOOD_SKIN for _, seen in max(told, key=lambda one: one.at).skin)

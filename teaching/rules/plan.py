"""The teaching plan: what is still to be shown, fitted to what is still to come; one sentence, and what would help."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.facts import Chart
from teaching.rules.hands import leaving_of
from teaching.rules.huddle import spoken_date
from teaching.rules.lines import Policy
from teaching.rules.moves import Move, moves
from teaching.rules.opportunities import opportunities
from teaching.rules.reach import REACHED, Reach, Reaching
from teaching.rules.readiness import SELF_CARING
from teaching.rules.reasons import Reason
from teaching.rules.standing import Standing

WORKED_FOR = ("change", "night", "urine", "swap", "emptying")


@dataclass(frozen=True, slots=True)
class Plan:
    """`said` is the plan in a sentence. `slack`: how long before the planned moment the best result can be reached.

    `chances` is the timeline. `moves` are those that would help, cheapest for the skin first. `planned` (UTC) None: no
    day of leaving, and the plan looks the policy's days ahead.
    """

    said: Reason
    planned: datetime | None
    until: datetime
    chances: tuple[Opportunity, ...]
    reach: Reach
    slack: timedelta | None
    aims: tuple[Standing, ...]
    moves: tuple[Move, ...]


def plan(chart: Chart, assessment: Assessment, policy: Policy, now: datetime, try_moves: bool = True) -> Plan:
    """The plan of one stay at `now` (UTC), on the standings of this assessment of the same chart.

    `try_moves` False: the plan alone, without aims and moves, for many stays at once.
    """
    planned = leaving_of(chart, now)
    if planned is not None and planned <= now:
        planned = None
    until = planned or now + policy.plan_days
    chances = opportunities(chart, policy, now, until, assessment.changes)
    reaching = Reaching(chart, assessment, policy, now, until, chances)
    reach = reaching.reach()
    best = reach.best
    first = reach.first(best) if best else None
    tried = moves(chart, assessment, policy, now, until, chances, reach) if try_moves and best != SELF_CARING else ()
    return Plan(
        said=_said(chart, reaching, reach, planned, now, chances),
        planned=planned, until=until, chances=chances, reach=reach,
        slack=until - first if first else None,
        aims=_aims(reaching, assessment, policy, chances) if try_moves else (),
        moves=tuple(sorted(tried, key=lambda one: (one.cost, REACHED.index(one.result), one.at))),
    )  # fmt: skip


def _said(
    chart: Chart, reaching: Reaching, reach: Reach, planned: datetime | None, now: datetime,
    chances: tuple[Opportunity, ...],
) -> Reason:  # fmt: skip
    local = chart.ward.local
    left = [one for one in chances if one.procedure == "change" and not one.practice]
    for result in REACHED:
        at = reach.first(result)
        if at is not None and reach.then(result):
            if at <= now:
                return Reason("plan-held", result=result)
            if planned is None:
                return Reason("plan-from", result=result, at=local(at))
            return Reason("plan-by", result=result, at=local(at), changes=_changes(chart, left))
    late = next(((result, at) for result, at in reach.earliest if at is not None), None)
    if late:
        return Reason("plan-lost", result=late[0], at=local(late[1]))
    return Reason("plan-none", until=local(reaching.planned), changes=_changes(chart, left))


def _changes(chart: Chart, left: list[Opportunity]) -> str:
    """Such as "Thu 10:00 is the only change left"."""
    if not left:
        return "no change is left before then"
    first = chart.ward.local(left[0].at)
    said = f"{spoken_date(first.date())} {first:%H:%M}"
    return f"{said} is the only change left" if len(left) == 1 else f"{len(left)} changes are left, the next {said}"


def _aims(
    reaching: Reaching, assessment: Assessment, policy: Policy, chances: tuple[Opportunity, ...]
) -> tuple[Standing, ...]:
    """Rows whose loss of the next opportunity of their procedure would move the earliest day, in order of teaching."""
    found: list[Standing] = []
    line, base = reaching.line, reaching.held()
    for procedure in WORKED_FOR:
        coming = next((one for one in chances if one.procedure == procedure and one.at > reaching.now), None)
        for row in _wanting(assessment, coming) if coming else ():
            without = reaching.without(coming, row.code) if coming else base
            if any(_later(line.earliest(base[result]), line.earliest(held)) for result, held in without.items()):
                found.append(row)
            if len(found) == policy.aims:
                return tuple(found)
    return tuple(found)


def _wanting(assessment: Assessment, coming: Opportunity) -> Iterator[Standing]:
    for one in assessment.standings:
        if (
            one.stoma == coming.stoma and one.learner in coming.learners and one.row.essential and not one.held
            and not one.may_look and coming.shows(one.row.item)
        ):
            yield one


def _later(before: datetime | None, after: datetime | None) -> bool:
    return before is not None and (after is None or after > before)

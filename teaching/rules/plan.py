"""The teaching plan: what is still to be shown, fitted to what is still to come; one sentence, and what would help."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.assess import Assessment
from teaching.rules.chances import Opportunity
from teaching.rules.facts import Chart
from teaching.rules.hands import leaving_of
from teaching.rules.lines import Policy
from teaching.rules.moves import Move, moves
from teaching.rules.opportunities import opportunities
from teaching.rules.plan_said import plan_said
from teaching.rules.reach import REACHED, Reach, Reaching
from teaching.rules.readiness import SELF_CARING
from teaching.rules.reasons import Reason
from teaching.rules.standing import Standing
from teaching.rules.to_facility import taken_over

WORKED_FOR = ("change", "night", "urine", "swap", "emptying")


@dataclass(frozen=True, slots=True)
class Plan:
    """`said` is the plan in a sentence. `slack`: how long before the planned moment the best result can be reached;
    where none can by then, how long after it, as a negative.

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


def plan(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, try_moves: bool = True, find_aims: bool = True
) -> Plan:
    """The plan of one stay at `now` (UTC), on the standings of this assessment of the same chart.

    While somebody must be called first: no aims, no moves, and the sentence says so.
    `try_moves` False: the plan alone, without aims and moves; `find_aims` False: without aims. For many at once.
    """
    planned = leaving_of(chart, now)
    if planned is not None and planned <= now:
        planned = None
    until = planned or now + policy.plan_days
    chances = opportunities(chart, policy, now, max(until, now + policy.plan_days), assessment.changes)
    reaching = Reaching(chart, assessment, policy, now, until, chances)
    reach = reaching.reach()
    not_taught = assessment.waits is not None or taken_over(chart, now)
    try_moves = try_moves and not not_taught
    tried = moves(reaching, assessment, reach) if try_moves and reach.best != SELF_CARING else ()
    first = reach.first(reach.best) if reach.best else min((at for _, at in reach.beyond), default=None)
    return Plan(
        said=assessment.waits or plan_said(reaching, reach, planned),
        planned=planned, until=until, chances=tuple(one for one in chances if one.at <= until), reach=reach,
        slack=until - first if first and not not_taught else None,
        aims=_aims(reaching, assessment) if try_moves and find_aims else (),
        moves=tuple(sorted(tried, key=lambda one: (one.cost, REACHED.index(one.result), one.at))),
    )  # fmt: skip


def _aims(reaching: Reaching, assessment: Assessment) -> tuple[Standing, ...]:
    """Rows whose loss of the next opportunity of their procedure would move the earliest day, in order of teaching."""
    found: list[Standing] = []
    base = reaching.held()
    for procedure in WORKED_FOR:
        coming = next((one for one in reaching.chances if one.procedure == procedure and one.at > reaching.now), None)
        for row in _shown_in(assessment, coming) if coming else ():
            if coming and _costs_a_day(reaching, base, reaching.without(coming, row.code)):
                found.append(row)
            if len(found) == reaching.policy.aims:
                return tuple(found)
    return tuple(found)


def _shown_in(assessment: Assessment, coming: Opportunity) -> Iterator[Standing]:
    """One standing a row, of whoever is there and wants it most: the person before a helper, not held before held."""
    told = set()
    for one in sorted(assessment.standings, key=lambda one: one.held):
        if (
            one.stoma == coming.stoma and one.learner in coming.learners and one.row.essential
            and coming.shows(one.row.item) and one.code not in told
        ):
            told.add(one.code)
            yield one


def _costs_a_day(reaching: Reaching, base: dict[str, int], fewer: dict[str, int]) -> bool:
    """The best result that can be reached at all, a day later or never."""
    for result in REACHED:
        before, after = reaching.line.earliest(base[result]), reaching.line.earliest(fewer[result])
        if before is not None:
            date = reaching.chart.ward.date
            return after is None or date(after) > date(before)
    return False

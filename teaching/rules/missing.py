"""R11: facts of the whole stay without which nothing can be said. Rows that are not known are told by gaps.py."""

from teaching.rules.assess import Assessment
from teaching.rules.cover import HOUR
from teaching.rules.gaps import Gap, Way
from teaching.rules.hands import Situation
from teaching.rules.reasons import Reason


def missing_facts(situation: Situation, assessment: Assessment, to_facility: bool) -> list[Gap]:
    """No leaving planned, nobody taught here, nothing signed for two days (neither of a facility), no change known."""
    found = [] if situation.chart.stomas else [_no_stoma(situation)]
    if situation.leaving is None:
        past = situation.chart.planned_at
        reason = Reason("leaving-passed", at=situation.chart.ward.local(past)) if past else Reason("no-leaving")
        found.append(Gap("leaving", reason, (Way("planner", reason),)))
    if not to_facility:
        found += _of_teaching(situation)
    for change in assessment.changes:
        if change.unknown:
            way = Way("ward-nurse", change.unknown, situation.leaving)
            found.append(Gap("due", change.unknown, (way,), change.stoma))
    return found


def _no_stoma(situation: Situation) -> Gap:
    reason = Reason("no-stoma")
    return Gap("stoma", reason, (Way("ward-nurse", reason, situation.leaving),))


def _of_teaching(situation: Situation) -> list[Gap]:
    if situation.taught_at is None:
        reason = Reason("no-teaching-here")
    elif situation.fresh_until and situation.now > situation.fresh_until:
        last = situation.fresh_until - situation.policy.freshness
        hours = situation.policy.freshness // HOUR
        reason = Reason("not-fresh", at=situation.chart.ward.local(last), hours=hours)
    else:
        return []
    return [Gap("teaching", reason, (Way("ward-nurse", reason, situation.leaving),))]

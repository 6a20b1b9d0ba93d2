""""The helper is here now": what can be taught in a few minutes, without a pouch to change or to empty."""

from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.lines import Policy
from teaching.rules.standing import Standing
from teaching.rules.to_facility import taken_over
from teaching.rules.topics import TALK

WHILE = "while"


def teach_now(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, learner: str, minutes: int
) -> tuple[Standing, ...]:
    """Up to as many as there is time for, and never more than the policy's aims: what must be known first, and of
    that what can be said back now; then other topics; then steps that practice may show. Nothing while it waits.
    """
    if assessment.waits or taken_over(chart, now):
        return ()
    room = min(policy.aims, max(1, minutes // policy.minutes_each))
    wanting = [
        one for one in assessment.standings
        if one.learner == learner and one.row.essential and not one.held
        and not any(reason.code == WHILE for reason in one.reasons)
        and (one.row.item.topic or one.row.item.practice_share == "all")
    ]
    return tuple(sorted(wanting, key=lambda one: _rank(chart, policy, now, one))[:room])


def _rank(chart: Chart, policy: Policy, now: datetime, one: Standing) -> tuple[bool, bool, bool, int]:
    item = one.row.item
    talk = [entry for entry in chart.by_row.get((one.stoma, item.code, one.learner), ()) if entry.answer in TALK]
    echo = bool(talk) and now - talk[-1].at < policy.topic_wait  # asked back at once it is only an echo
    return not item.topic, not item.hard_minimum, echo, item.position

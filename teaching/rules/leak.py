"""R3: the hours at which a nurse comes for a leak, where such a service is arranged. A number alone is no service."""

from datetime import datetime

from teaching.rules.arrangements import LEAK_SERVICE
from teaching.rules.cover import HOUR, HOURS_IN_A_DAY, Span, hours_of
from teaching.rules.facts import Chart, Learner
from teaching.rules.in_place import MADE, newest
from teaching.rules.lines import Policy

DAYS, WEEKDAYS = "1111111", "1111100"


def service_hours(chart: Chart, policy: Policy, span: Span, now: datetime) -> int:
    """The hours of the span at which the service answers soon enough; 0 where none is arranged or its hours are unsaid.

    Day and night means every hour of every day. Else from an hour to an hour, past midnight too, at weekends only
    where that is said.
    """
    said = newest(chart, LEAK_SERVICE, now)
    if said is None or said.state != MADE:
        return 0
    within = said.detail("answers_hours")
    if not isinstance(within, int) or within * HOUR > policy.leak_answer:
        return 0
    if said.detail("day_and_night") is True:
        return span.full
    since, until = said.detail("from_hour"), said.detail("until_hour")
    if not isinstance(since, int) or not isinstance(until, int):
        return 0
    day = [_open(hour, since, until) for hour in range(HOURS_IN_A_DAY)]
    open_days = DAYS if said.detail("weekends") is True else WEEKDAYS
    week = "".join("1" if works == "1" and open_ else "0" for works in open_days for open_ in day)
    return hours_of(chart, Learner("service", "helper", week=week), span)


def _open(hour: int, since: int, until: int) -> bool:
    return since <= hour < until if since < until else hour >= since or hour < until

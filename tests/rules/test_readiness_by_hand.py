"""Cover of a full pouch, the night and a leak, worked out a second way: hour by hour, learner by learner, no bits."""

from datetime import timedelta

from hypothesis import given, settings
from test_readiness_properties import NOW, charts, ready

from teaching.rules.assess import assess
from teaching.rules.cover import hours_said
from teaching.rules.facts import Learner
from teaching.rules.policy import DEFAULT
from teaching.rules.scene import has_agreed

PROCEDURES = {"pouch": ("emptying", "swap", "urine"), "night": ("night",), "leak": ("change",)}


def there(chart, learner: Learner, hour):
    if learner.kind == "person":
        return True
    local = chart.ward.local(hour)
    return hours_said(learner) and learner.week[local.weekday() * 24 + local.hour] == "1"


def does(chart, standings, learner, part, hour):
    """Alone, or at 05 with a helper who has agreed there at that hour."""
    own = [one for one in standings if one.learner == learner.key and one.row.essential]
    if not all(one.held for one in own if one.row.item.topic and one.row.item.hard_minimum):
        return False
    rows = [one for one in own if one.row.item.procedure in PROCEDURES[part] and not one.row.item.looking]
    others = [one for one in chart.learners if one.kind == "helper" and one is not learner]
    set_out = any(has_agreed(chart, one, NOW) and there(chart, one, hour) for one in others)
    return bool(rows) and all(one.held or (one.second_floor and set_out) for one in rows)


@settings(max_examples=60, deadline=None)
@given(charts())
def test_hour_by_hour_by_hand(chart):
    found = ready(chart)
    standings = assess(chart, DEFAULT, NOW).standings
    service = any(one.code == "leak-service" for one in chart.arrangements)
    agreed = [one for one in chart.learners if has_agreed(chart, one, NOW)]
    for cover in found.cover:
        for number in range(found.span.count):
            hour = found.span.begins + timedelta(hours=number)
            night = chart.ward.local(hour).hour >= 22 or chart.ward.local(hour).hour < 6
            wanted = night if cover.part == "night" else True
            done = (cover.part == "leak" and service) or any(
                there(chart, one, hour) and does(chart, standings, one, cover.part, hour) for one in agreed
            )
            assert bool(cover.wanted >> number & 1) == wanted
            assert bool(cover.bare >> number & 1) == (wanted and not done), (cover.part, hour)

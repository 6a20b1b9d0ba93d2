"""A whole record through a file, and what the rules say of it before and after."""

import json
from dataclasses import fields
from datetime import UTC, datetime, timedelta

from teaching.management.demo.play import EVERYONE
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.whole_out import whole_record
from teaching.rules.assess import assess
from tests.bedside.ward import HOUSE

AFTERNOON = datetime(2026, 5, 13, 13, 0, tzinfo=UTC)
LATER = AFTERNOON + timedelta(hours=2)
FAMILIES = [story.family for story in EVERYONE]


def exported(stay):
    """As it is after a round through a file."""
    return json.loads(json.dumps(whole_record(actor=HOUSE, stay=stay)))


def judged(stay):
    chart = chart_for(stay)
    return chart, assess(chart, policy_for(stay.now.unit, LATER), LATER)


def same(found, wanted):
    """Named by the fact that differs, else pytest prints two whole charts."""
    for left, right in zip(found, wanted, strict=True):
        differ = [each.name for each in fields(left) if getattr(left, each.name) != getattr(right, each.name)]
        assert [(name, getattr(left, name), getattr(right, name)) for name in differ] == []
        assert left == right

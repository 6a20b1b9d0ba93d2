"""Who comes or rings after leaving, and where the person goes: in plain words, by day."""

from collections.abc import Iterator
from datetime import datetime

from teaching.papers.dated import weekday
from teaching.papers.take_home_facts import made
from teaching.rules.facts import Chart
from teaching.rules.handover.helper_hours import week_words
from teaching.rules.in_place import accepted
from teaching.rules.scene import has_agreed

BOOKED = {
    "first-contact": "We ring you or come", "first-stool-call": "We ring about your first stool",
    "follow-up": "You see the stoma nurse", "surgeon": "You see the team that did your operation",
    "rod-out": "The rod comes out", "stents-out": "The thin tubes come out",
}  # fmt: skip


def who_comes(chart: Chart, now: datetime, leaving: datetime | None) -> Iterator[str]:
    """One sentence each: nurses' visits, what is booked, and when helpers are there."""
    for visit in sorted(accepted(chart, leaving or now), key=lambda one: (one.at, one.key)):
        what = "to change the pouch" if visit.for_change else "to look"
        yield f"A nurse comes {what}: {_at(chart, visit.at)}{_of(visit.service)}."
    said = [(made(chart, code, now), words) for code, words in BOOKED.items()]
    booked = [(found.due_at, words, found) for found, words in said if found and found.due_at]
    for at, words, found in sorted(booked, key=lambda one: one[0]):
        yield f"{words}: {_at(chart, at)}{_of(found.detail('place') or found.detail('by') or '')}."
    for helper in chart.learners:
        if helper.kind == "helper" and has_agreed(chart, helper, now) and "1" in helper.week:
            name = helper.name or helper.relation
            yield f"{name[:1].upper()}{name[1:]} is there: {week_words(helper.week)}."


def _at(chart: Chart, at: datetime) -> str:
    return f"{weekday(chart.ward.date(at))}, {chart.ward.local(at):%H:%M}"


def _of(said: str) -> str:
    return f" ({said})" if said else ""

"""Bound for a care facility: its nurses take over (R8), so nobody is asked to learn unless somebody wants it.

A time booked for teaching says that the person or the unit wants it, of that procedure and those learners.
"""

from collections.abc import Iterator
from datetime import datetime

from teaching.rules.arrangements import FACILITY
from teaching.rules.cover import DAY
from teaching.rules.facts import Appointment, Chart
from teaching.rules.standing import Standing

COMING = ("booked", "confirmed")


def taken_over(chart: Chart, now: datetime) -> bool:
    """Nothing at all is asked of anybody."""
    return chart.goes_to == FACILITY and not any(_wanted(chart, now))


def asked_to_learn(chart: Chart, one: Standing, now: datetime) -> bool:
    """Going home every row is; bound for a facility what is booked. Where nobody is named, the person learns."""
    if chart.goes_to != FACILITY:
        return True
    persons = tuple(each.key for each in chart.learners if each.kind == "person")
    return any(
        booked.procedure == one.row.item.procedure and booked.stoma in ("", one.stoma)
        and one.learner in (booked.learners or persons)
        for booked in _wanted(chart, now)
    )  # fmt: skip


def asked_until(chart: Chart, now: datetime) -> Iterator[datetime]:
    """When (UTC) what is asked changes by itself: at the end of the day of each booked time."""
    if chart.goes_to == FACILITY:
        for booked in _wanted(chart, now):
            yield chart.ward.begins(chart.ward.date(booked.at) + DAY)


def _wanted(chart: Chart, now: datetime) -> Iterator[Appointment]:
    """Booked for this day or a later one: it counts until its day is over."""
    return (one for one in chart.appointments
            if one.state in COMING and chart.ward.date(one.at) >= chart.ward.date(now))

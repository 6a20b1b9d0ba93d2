"""Hours after leaving, each bound from both sides: the clock change, parts of an hour, exceptions, minimal sets."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from story import MONDAY, Story, at

from teaching.rules.cover import first_due, full_sets, horizon, hours_of, hours_said, night_hours
from teaching.rules.facts import Learner
from teaching.rules.policy import DEFAULT
from teaching.rules.ward import Ward

HOUR = timedelta(hours=1)


def week(**days):
    """168 characters; week(Mon=(8, 20)) is there on Mondays from 8 to 20."""
    said = [["0"] * 24 for _ in range(7)]
    for name, (since, until) in days.items():
        number = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun").index(name)
        said[number][since:until] = "1" * (until - since)
    return "".join("".join(day) for day in said)


DAILY = "".join("1" if 8 <= hour % 24 < 20 else "0" for hour in range(168))


def helper(said="", *exceptions, **more):
    return Learner("helper", "helper", week=said, exceptions=exceptions, **more)


def story(**kit):
    return Story(interval_hours=72, **kit).care("change", "Mon 10:00")


def test_the_horizon_is_a_week_or_the_first_change_and_its_margin():
    chart = story().chart
    assert horizon(chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00")).count == 7 * 24
    slow = Story(interval_hours=168).care("change", "Mon 10:00").chart
    assert first_due(slow, slow.stomas[0], at("Tue 12:00"), at("Mon 12:00")) == at("Mon+1 10:00")
    assert horizon(slow, DEFAULT, at("Tue 12:00"), at("Mon 12:00")).count == 7 * 24  # Tue 10:00 is within the week
    assert horizon(slow, DEFAULT, at("Mon 12:00"), at("Mon 11:00")).ends == at("Tue+1 12:00") - 2 * HOUR
    assert horizon(slow, DEFAULT, at("Tue 11:00"), at("Mon 12:00")).count == 7 * 24


@pytest.mark.parametrize(
    ("leaving", "now", "due"),
    [
        ("Thu 09:59", "Mon 12:00", "Thu 10:00"),
        ("Thu 10:00", "Mon 12:00", "Sun 10:00"),  # due at the very moment of leaving: it is done on the ward
        ("Fri 12:00", "Mon 12:00", "Sun 10:00"),
        ("Fri 12:00", "Thu 10:00", "Sun 10:00"),
        ("Fri 12:00", "Thu 10:20", "Sun 11:00"),  # overdue: not before now, told by the full hour
        ("Fri 12:00", "Thu 11:00", "Sun 11:00"),
        # leaving overdue, about the full hour: it goes along as it is, and nobody has changed it
        ("Thu 10:00", "Thu 10:00", "Sun 10:00"),  # due now is not overdue yet
        ("Thu 10:01", "Thu 10:01", "Thu 11:00"),
        ("Thu 10:59", "Thu 10:59", "Thu 11:00"),
        ("Thu 11:00", "Thu 11:00", "Thu 12:00"),
        ("Thu 11:01", "Thu 11:01", "Thu 12:00"),
        ("Thu 11:30", "Thu 11:00", "Thu 12:00"),
        ("Thu 11:59", "Thu 11:00", "Thu 12:00"),
        ("Thu 12:00", "Thu 11:00", "Sun 11:00"),  # a full hour is left to change it on the ward
        ("Thu 12:00", "Thu 11:01", "Sun 12:00"),
    ],
)
def test_r1_due_is_repeated_until_after_leaving_and_never_before_now(leaving, now, due):
    chart = story().chart
    assert first_due(chart, chart.stomas[0], at(leaving), at(now)) == at(due)


def test_r1_no_change_or_no_interval_is_not_known():
    for chart in (Story(interval_hours=72).chart, Story().care("change", "Mon 10:00").chart):
        assert first_due(chart, chart.stomas[0], at("Tue 12:00"), at("Mon 12:00")) is None


def test_hours_of_the_week_turn_with_the_hour_of_leaving():
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00"))
    bits = hours_of(chart, helper(DAILY), span)
    assert [number for number in range(30) if bits >> number & 1] == [*range(8), *range(20, 30)]
    assert hours_of(chart, Learner("person"), span) == span.full
    assert bits.bit_count() == 7 * 12


def test_leaving_within_an_hour_begins_with_that_hour():
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 12:40"), at("Mon 12:00"))
    assert span.begins == at("Tue 12:00") and span.ends >= at("Tue+1 12:40")
    assert hours_of(chart, helper(week(Tue=(12, 13))), span) & 1


def test_a_ward_whose_clock_stands_at_the_half_hour():
    chart = Story(ward=Ward("Asia/Kolkata"), interval_hours=72).care("change", "Mon 10:00").chart
    leaving = datetime(2026, 5, 12, 6, 30, tzinfo=UTC)  # Tuesday 12:00 there
    span = horizon(chart, DEFAULT, leaving, at("Mon 12:00"))
    bits = hours_of(chart, helper(week(Tue=(12, 13))), span)
    assert (span.begins, bits) == (leaving, 1)


@pytest.mark.parametrize(
    ("day", "hours", "nights"),
    [
        (datetime(2026, 10, 23, 11, tzinfo=UTC), 7 * 24, 57),  # back on Sunday 25 October: one night hour more
        (datetime(2027, 3, 26, 12, tzinfo=UTC), 7 * 24, 55),  # forward on Sunday 28 March: one less
        (datetime(2026, 10, 30, 12, tzinfo=UTC), 7 * 24, 56),
    ],
)
def test_the_clock_change_is_followed_hour_by_hour(day, hours, nights):
    chart = Story(ward=Ward("Europe/London"), interval_hours=72).chart
    span = horizon(chart, DEFAULT, day, day - HOUR)
    assert span.count == hours
    assert night_hours(chart, DEFAULT, span).bit_count() == nights
    there = hours_of(chart, helper(DAILY), span)
    for number in range(span.count):
        local = chart.ward.local(span.hour(number))
        assert bool(there >> number & 1) == (8 <= local.hour < 20)


def test_night_is_from_22_to_6_on_the_wards_clock():
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 21:00"), at("Mon 12:00"))
    nights = night_hours(chart, DEFAULT, span)
    assert [number for number in range(11) if nights >> number & 1] == list(range(1, 9))


def test_nobody_has_said_when_a_helper_is_there():
    lives_in = helper(lives_in=True, minutes_away=5)
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00"))
    assert not hours_said(lives_in) and hours_of(chart, lives_in, span) == 0
    assert not hours_said(helper("0" * 168)) and hours_said(helper(DAILY))


@pytest.mark.parametrize(
    ("exception", "hour", "there"),
    [
        (("Tue 14:00", "Tue 15:00", False), 2, False),
        (("Tue 14:00", "Tue 15:00", False), 1, True),
        (("Tue 14:00", "Tue 15:00", False), 3, True),
        (("Tue 13:59", "Tue 14:00", False), 1, False),  # away for part of an hour is away
        (("Tue 22:00", "Tue 23:00", True), 10, True),
        (("Tue 22:01", "Tue 23:00", True), 10, False),  # there for part of an hour is not there
        (("Tue 11:00", "Tue 12:00", False), 0, True),  # over before leaving
    ],
)
def test_exceptions_win_over_the_week(exception, hour, there):
    since, until, comes = exception
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00"))
    bits = hours_of(chart, helper(DAILY, (at(since), at(until), comes)), span)
    assert bool(bits >> hour & 1) == there


def test_the_later_of_two_exceptions_counts():
    chart = story().chart
    span = horizon(chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00"))
    away, back = (at("Tue 13:00"), at("Tue 17:00"), False), (at("Tue 14:00"), at("Tue 15:00"), True)
    assert hours_of(chart, helper(DAILY, away, back), span) >> 2 & 1
    assert not hours_of(chart, helper(DAILY, back, away), span) >> 2 & 1


def test_the_smallest_sets_alone():
    full = 0b1111
    hours = {"person": 0b1111, "wife": 0b0011, "son": 0b1100, "friend": 0b0110}
    assert full_sets(hours, full) == (frozenset({"person"}), frozenset({"son", "wife"}))
    assert full_sets(hours, 0b0010) == tuple(frozenset({key}) for key in ("friend", "person", "wife"))
    assert full_sets(hours, 0) == (frozenset(),)
    assert full_sets({"wife": 0b0011}, full) == ()


def test_the_hours_of_a_share_of_the_span():
    span = replace(horizon(story().chart, DEFAULT, at("Tue 12:00"), at("Mon 12:00")), count=5)
    assert span.full == 0b11111
    assert span.between(at("Tue 13:30"), at("Tue 14:00")) == 0b00010
    assert span.between(at("Tue 13:30"), at("Tue 14:01")) == 0b00110
    assert span.between(at("Tue 11:00"), at("Wed 12:00")) == span.full
    assert span.within(at("Tue 13:30"), at("Tue 15:00")) == 0b00100
    assert span.between(at("Wed 12:00"), at("Wed 13:00")) == span.within(MONDAY, at("Tue 12:00")) == 0

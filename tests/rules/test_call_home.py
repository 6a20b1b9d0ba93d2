"""Calls after leaving: both sides of each bound. 72 h: NHS Northern Care Alliance (seen within 72 h); the rest C."""

from datetime import UTC, datetime, timedelta

import pytest

from teaching.rules.call_home import Try, call_home, promised_by
from teaching.rules.policy import DEFAULT

LEFT = datetime(2026, 5, 14, 11, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)


def owed(*kinds, heard=(), after=30, promised=None):
    by = LEFT + promised * HOUR if promised else None
    return call_home(kinds, LEFT, heard, DEFAULT, LEFT + after * HOUR, by)


def test_an_ileostomy_is_rung_after_a_day_and_within_two():
    call = owed("ileostomy")
    assert (call.since, call.by) == (LEFT + 24 * HOUR, LEFT + 48 * HOUR)


@pytest.mark.parametrize("kind", ["colostomy", "urostomy", "wet-colostomy"])
def test_everybody_within_three_days(kind):
    call = owed(kind)
    assert (call.since, call.by) == (LEFT, LEFT + 72 * HOUR)


def test_with_two_stomas_the_earlier_bound_holds():
    assert owed("colostomy", "ileostomy").by == LEFT + 48 * HOUR


@pytest.mark.parametrize(("after", "overdue"), [(48, False), (48.01, True)])
def test_the_bound_itself_is_in_time(after, overdue):
    assert owed("ileostomy", after=after).overdue(LEFT + after * HOUR) is overdue


def test_a_try_that_nobody_answered_is_counted_and_the_call_is_still_owed():
    assert owed("colostomy", heard=[Try("no-answer", LEFT + 5 * HOUR), Try("no-answer", LEFT + 9 * HOUR)]).tries == 2


@pytest.mark.parametrize("kind", ["reached", "came-back"])
def test_heard_once_is_enough(kind):
    assert owed("ileostomy", heard=[Try("no-answer", LEFT), Try(kind, LEFT + HOUR)]) is None


@pytest.mark.parametrize(("days", "listed"), [(14, True), (14.01, False)])
def test_the_list_lets_go_after_two_weeks(days, listed):
    assert (owed("colostomy", after=days * 24) is not None) is listed


@pytest.mark.parametrize(
    ("kind", "promised", "by"), [("ileostomy", 16, 16), ("colostomy", 24, 24), ("urostomy", 80, 72)]
)
def test_of_a_promised_call_and_the_usual_one_the_earlier_stands(kind, promised, by):
    call = owed(kind, promised=promised)
    assert (call.since, call.by) == (LEFT, LEFT + by * HOUR)


def test_a_promise_after_the_usual_call_of_an_ileostomy_leaves_its_first_day_alone():
    assert owed("ileostomy", promised=60) == owed("ileostomy")


@pytest.mark.parametrize("hours", [24, 12])
def test_a_call_is_promised_within_what_the_hospital_has_set(hours):
    """24 hours unless a hospital asks for less (common practice, no source)."""
    policy = DEFAULT.with_overrides({"early_call": hours})
    assert promised_by(LEFT, policy) - LEFT == timedelta(hours=hours)

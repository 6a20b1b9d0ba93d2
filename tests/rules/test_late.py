"""Late entries. The limit is common practice, no source; the 25 minutes are worked out from the IANA tz database."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from teaching.rules.late import span_words, written_late
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words

THEN = datetime(2026, 5, 12, 16, 2, tzinfo=UTC)
NEW_YORK = ZoneInfo("America/New_York")


def said(after, policy=DEFAULT):
    reason = written_late(THEN, THEN + after, policy)
    return words(reason) if reason else ""


def test_written_nine_hours_and_twelve_minutes_after():
    assert said(timedelta(hours=9, minutes=12)) == "Late entry, written 9 h 12 min after."


@pytest.mark.parametrize(("after", "late"), [(timedelta(hours=2), False), (timedelta(hours=2, seconds=1), True)])
def test_the_bound_itself_is_in_time(after, late):
    assert bool(said(after)) is late


def test_a_unit_sets_its_own_limit():
    assert said(timedelta(hours=3), DEFAULT.with_overrides({"late_entry": 4})) == ""


@pytest.mark.parametrize(
    ("span", "words"),
    [
        (timedelta(minutes=25), "25 min"),
        (timedelta(hours=3), "3 h"),
        (timedelta(hours=47, minutes=59), "47 h 59 min"),
        (timedelta(days=2), "2 days"),
        (timedelta(days=2, hours=3, minutes=40), "2 days 3 h"),
        (timedelta(0), "0 min"),
    ],
)
def test_a_span_is_said_in_days_hours_and_minutes(span, words):
    assert span_words(span) == words


def test_over_the_hour_the_clocks_skip_0140_to_0305_is_25_minutes():
    happened = datetime(2026, 3, 8, 1, 40, tzinfo=NEW_YORK).astimezone(UTC)
    written = datetime(2026, 3, 8, 3, 5, tzinfo=NEW_YORK).astimezone(UTC)
    assert span_words(written - happened) == "25 min"


def test_over_the_hour_that_happens_twice_an_entry_is_late_by_what_passed():
    happened = datetime(2026, 11, 1, 0, 30, tzinfo=NEW_YORK).astimezone(UTC)
    written = datetime(2026, 11, 1, 1, 45, tzinfo=NEW_YORK, fold=1).astimezone(UTC)
    assert words(written_late(happened, written, DEFAULT)) == "Late entry, written 2 h 15 min after."

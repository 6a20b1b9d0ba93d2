"""Moments in a stay file. America/New_York turns its clocks on 8 March and 1 November 2026 (tz database)."""

from datetime import UTC, date, datetime, timedelta

import pytest

from teaching.exchange.stay_times import Clock, written

NEW_YORK = "America/New_York"
WARD = Clock(NEW_YORK, date(2026, 3, 6))


@pytest.mark.parametrize(
    ("text", "utc"),
    [
        ("2026-05-11 10:00", (2026, 5, 11, 14)),
        ("2026-05-11T10:00", (2026, 5, 11, 14)),
        ("2026-01-11 9:30", (2026, 1, 11, 14, 30)),
        ("2026-05-11 10:00-04:00", (2026, 5, 11, 14)),
        ("2026-05-11 10:00Z", (2026, 5, 11, 10)),
        ("2026-05-11 10:00+05:30", (2026, 5, 11, 4, 30)),
        ("2026-05-11 10:00:07.25", (2026, 5, 11, 14, 0, 7, 250000)),
        ("day 0 10:00", (2026, 3, 6, 15)),
        ("day 3 10:00", (2026, 3, 9, 14)),
        ("day -2 10:00", (2026, 3, 4, 15)),
        ("2026-11-01 01:30-04:00", (2026, 11, 1, 5, 30)),
        ("2026-11-01 01:30-05:00", (2026, 11, 1, 6, 30)),
    ],
)
def test_a_moment_is_read(text, utc):
    assert WARD.moment(text) == datetime(*utc, tzinfo=UTC)


def test_the_clocks_going_forward_shorten_the_time_between():
    assert WARD.moment("2026-03-08 03:05") - WARD.moment("2026-03-08 01:40") == timedelta(minutes=25)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("2026-03-08 02:30", "never was in America/New_York"),
        ("day 2 02:30", "2026-03-08 02:30 never was"),
        (
            "2026-11-01 01:30",
            'came twice in America/New_York: the clocks went back; add "-04:00" for the first or "-05:00"',
        ),
        ("2026-02-30 10:00", "2026-02-30 is not a day of the calendar"),
        ("2026-05-11 25:00", "25:00 is not a time of day"),
        ("2026-05-11 10:00+15:00", r"\+15:00 is not an offset"),
        ("2026-05-11", "is not a time; write"),
        ("Mon 10:00", "is not a time; write"),
        ("", "is not a time; write"),
        (5, "5 is not a time; write"),
    ],
)
def test_a_moment_that_cannot_be(text, sentence):
    with pytest.raises(ValueError, match=sentence):
        WARD.moment(text)


def test_a_day_after_surgery_needs_a_surgery():
    with pytest.raises(ValueError, match="needs the top key surgery as a date"):
        Clock(NEW_YORK).moment("day 3 10:00")


def test_what_is_written_is_read_as_the_same_moment_all_year():
    """Every half hour of 2026, both nights of change among them; an offset stands only where needed."""
    moment, end, with_offset = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC), 0
    while moment < end:
        text = written(moment, NEW_YORK)
        assert WARD.moment(text) == moment
        with_offset += len(text) > len("2026-01-01 00:00")
        moment += timedelta(minutes=30)
    assert with_offset == 4  # 01:00 and 01:30 of 1 November, twice each


def test_seconds_and_their_parts_are_kept():
    moment = datetime(2026, 5, 11, 14, 0, 7, 250000, tzinfo=UTC)
    assert (
        written(moment, NEW_YORK) == "2026-05-11 10:00:07.250000"
        and WARD.moment(written(moment, NEW_YORK)) == moment
    )

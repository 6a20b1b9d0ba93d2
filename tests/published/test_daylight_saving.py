"""Daylight saving in America/New_York, 2026 (IANA tz database): on at 02:00 on 8 March, back at 02:00 on 1 November."""

from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from teaching.rules.facts import Item, Rating
from teaching.rules.occasions import separate
from teaching.rules.policy import DEFAULT
from teaching.rules.ward import Shift, Ward

NEW_YORK = ZoneInfo("America/New_York")
WARD = Ward("America/New_York", (Shift("day", time(7), time(19)), Shift("night", time(19), time(7))))


def here(year, month, day, hour, minute, fold=0):
    return datetime(year, month, day, hour, minute, tzinfo=NEW_YORK, fold=fold)


def test_0140_to_0305_is_25_minutes():
    began, ended = here(2026, 3, 8, 1, 40), here(2026, 3, 8, 3, 5)
    assert ended.astimezone(UTC) - began.astimezone(UTC) == timedelta(minutes=25)
    assert ended - began == timedelta(minutes=85)  # why nothing may be subtracted on the ward's own clock


def test_0130_happens_twice():
    first, second = (here(2026, 11, 1, 1, 30, fold).astimezone(UTC) for fold in (0, 1))
    assert second - first == timedelta(hours=1)
    assert WARD.local(first).fold == 0
    assert WARD.local(second).fold == 1


@pytest.mark.parametrize(("evening", "hours"), [((2026, 3, 7), 11), ((2026, 10, 31), 13), ((2026, 5, 11), 12)])
def test_a_night_shift_lasts_11_12_or_13_hours(evening, hours):
    starts = here(*evening, 19, 0).astimezone(UTC)
    same = [step for step in range(20) if WARD.shift(starts + timedelta(hours=step)) == WARD.shift(starts)]
    assert same == list(range(hours))


def test_different_days_are_local_dates():
    late, early = datetime(2026, 5, 12, 2, 0, tzinfo=UTC), datetime(2026, 5, 12, 5, 0, tzinfo=UTC)
    assert (WARD.date(late).day, WARD.date(early).day) == (11, 12)
    assert late.date() == early.date()


@pytest.mark.parametrize(
    ("first", "second", "apart"),
    [
        (here(2026, 3, 8, 1, 30), here(2026, 3, 8, 5, 30), False),  # four hours on the clock, three in truth
        (here(2026, 3, 8, 1, 30), here(2026, 3, 8, 6, 30), True),
        (here(2026, 11, 1, 0, 30), here(2026, 11, 1, 3, 30), True),  # three on the clock, four in truth
    ],
)
def test_separate_occasions_are_hours_that_passed_not_hours_of_the_clock(first, second, apart):
    one, other = (
        Rating("s", "em-open", "person", "06", at.astimezone(UTC), f"{at}") for at in (first, second)
    )  # fmt: skip
    assert separate(one, other, Item("em-open", "emptying", 1), WARD, DEFAULT) is apart

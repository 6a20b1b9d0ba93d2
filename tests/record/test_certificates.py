"""A certificate from elsewhere: its last day is whole on the ward's own clock, and its length is judged by days."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
import time_machine

from teaching.record.places import set_policy
from teaching.record.refusals import Refused
from teaching.record.staff import accept_certificate, sign_offs_of, valid_among
from teaching.rules.ward import Ward
from tests.bedside.ward import HOUSE, NIGHT, build_ward

INSTANT = timedelta(microseconds=1)
NEW_YORK = ZoneInfo("America/New_York")


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=False):
        built = build_ward()
        built.unit.zone = "America/New_York"  # as the verb is handed it
        yield built


def accept(ward, first, last, hour=12):
    """With days as an hour of theirs in New York."""
    return accept_certificate(
        actor=ward.staff["linden"], nurse=ward.staff["amber"].clinician, skill="change", unit=ward.unit,
        certificate="County school, made up", valid_from=datetime(*first, hour, tzinfo=NEW_YORK),
        valid_until=datetime(*last, hour, tzinfo=NEW_YORK),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("last", "ends"),
    [
        ((2026, 10, 31), datetime(2026, 11, 1, 4, tzinfo=UTC)),  # summer time, four hours behind
        ((2026, 11, 1), datetime(2026, 11, 2, 5, tzinfo=UTC)),  # the clocks go back at 02:00: a day of 25 hours
        ((2027, 3, 14), datetime(2027, 3, 15, 4, tzinfo=UTC)),  # they go forward: a day of 23
    ],
)
@pytest.mark.parametrize("hour", [0, 12, 23])
def test_the_last_day_counts_whole_whatever_hour_of_it_is_given(ward, last, ends, hour):
    accept(ward, (2026, 5, 1), last, hour)
    signed = sign_offs_of(ward.staff["amber"].clinician)
    assert valid_among(signed, ("change",), ends - INSTANT)
    assert valid_among(signed, ("change",), ends) is None


@pytest.mark.parametrize(
    ("first", "last", "longest"),
    [
        ((2026, 5, 1), (2029, 5, 1), 36), ((2026, 5, 1), (2029, 5, 2), None),
        ((2026, 3, 8), (2029, 3, 8), 36), ((2026, 3, 8), (2029, 3, 9), None),  # both in the hours of a change of clocks
        ((2026, 11, 30), (2029, 11, 30), 36), ((2024, 2, 29), (2027, 2, 28), 36), ((2024, 2, 29), (2027, 3, 1), None),
    ],
)  # fmt: skip
@pytest.mark.parametrize("hour", [0, 23])
def test_how_long_is_judged_by_days(ward, first, last, longest, hour):
    if longest:
        assert accept(ward, first, last, hour).kind == "granted"
    else:
        with pytest.raises(Refused, match="36 months at most"):
            accept(ward, first, last, hour)


def test_the_hospitals_own_limit_is_the_one(ward):
    set_policy(actor=HOUSE, unit=None, overrides={"sign_off_longest": 12}, why="Made up.", effective_from=NIGHT)
    assert accept(ward, (2026, 5, 1), (2027, 5, 1)).number == 1
    with pytest.raises(Refused, match="12 months at most"):
        accept(ward, (2026, 5, 1), (2027, 5, 2))


def test_one_day_is_enough_and_the_day_before_is_not(ward):
    assert accept(ward, (2026, 5, 12), (2026, 5, 12)).kind == "granted"
    with pytest.raises(Refused, match="ends before it starts"):
        accept(ward, (2026, 5, 12), (2026, 5, 11))


def test_a_midnight_that_is_struck_twice_ends_at_the_second():
    """Asuncion, 24 March 2024: at 24:00 of the 23rd the clock went back to 23:00 (IANA tz, Paraguay until 2024)."""
    ward = Ward("America/Asuncion")
    assert ward.ends(date(2024, 3, 23)) == datetime(2024, 3, 24, 4, tzinfo=UTC) - INSTANT
    assert ward.begins(date(2024, 3, 24)) == datetime(2024, 3, 24, 4, tzinfo=UTC)

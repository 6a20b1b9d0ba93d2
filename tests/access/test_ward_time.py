"""Times by the ward's own clock. The nights of America/New_York, 2026: the IANA time zone data (RFC 6557)."""

from datetime import UTC, datetime, timedelta

import pytest
from django import forms

from teaching.access.ward_time import WardTimeField


def form_for(zone="America/New_York", **data):
    class One(forms.Form):
        at = WardTimeField(zone=zone, label="When", required=False)

    return One(data)


@pytest.mark.parametrize(
    ("said", "which", "utc"),
    [
        ("2026-05-11T10:00", "", "2026-05-11T14:00"),
        ("2026-03-08T01:59", "", "2026-03-08T06:59"),
        ("2026-03-08T03:05", "", "2026-03-08T07:05"),
        ("2026-11-01T01:30", "first", "2026-11-01T05:30"),
        ("2026-11-01T01:30", "second", "2026-11-01T06:30"),
        ("2026-11-01T02:00", "", "2026-11-01T07:00"),
        ("2026-05-11 10:00", "", "2026-05-11T14:00"),
    ],
)
def test_a_time_on_the_ward_clock_is_one_moment(said, which, utc):
    form = form_for(at_0=said, at_1=which)
    assert form.is_valid(), form.errors
    assert form.cleaned_data["at"] == datetime.fromisoformat(utc).replace(tzinfo=UTC)


def test_an_early_morning_across_the_gap_is_25_minutes():
    """01:40 to 03:05 on 8 March 2026 is 25 minutes; subtracting the clock's figures says 85."""
    began, ended = (form_for(at_0=f"2026-03-08T{said}") for said in ("01:40", "03:05"))
    assert began.is_valid() and ended.is_valid()
    assert ended.cleaned_data["at"] - began.cleaned_data["at"] == timedelta(minutes=25)


def test_a_skipped_time_is_refused_with_a_sentence():
    form = form_for(at_0="2026-03-08T02:30")
    assert form.errors["at"] == [
        "02:30 on 8 March 2026 does not exist here: the clocks went forward over it. "
        "Write what the ward clock showed."
    ]
    assert "<select" not in str(form["at"])


def test_a_time_that_happened_twice_asks_which():
    form = form_for(at_0="2026-11-01T01:30")
    assert form.errors["at"] == [
        "01:30 on 1 November 2026 happened twice: the clocks went back. Choose the first or the second."
    ]
    assert 'name="at_1"' in str(form["at"])
    assert 'name="at_1"' not in str(form_for(at_0="2026-11-01T03:30")["at"])


@pytest.mark.parametrize("said", ["tomorrow", "2026-13-01T10:00", "11/05/2026 10:00", "0001-01-01T00:00", "\x00"])
def test_what_is_no_time_is_refused_with_the_mend(said):
    assert form_for(at_0=said).errors["at"] == ["Write the day and the time, such as 2026-03-08 14:30."]


def test_left_empty_is_not_said():
    form = form_for(at_0="")
    assert form.is_valid() and form.cleaned_data["at"] is None


def test_a_stored_moment_is_shown_on_the_ward_clock():
    class One(forms.Form):
        at = WardTimeField(zone="America/New_York", label="When")

    shown = str(One(initial={"at": datetime(2026, 11, 1, 6, 30, tzinfo=UTC)})["at"])
    assert 'value="2026-11-01T01:30"' in shown
    assert '<option value="second" selected>' in shown

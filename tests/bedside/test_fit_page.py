"""Sizes and pouches on the person's page: drawn with a title, and in a table behind the drawing."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.record.entries import CareEntry, FindingEntry
from teaching.record.output import note_nothing_since
from teaching.record.sessions import record_care, record_output_total
from tests.bedside.reading import words


@pytest.fixture
def changed(ward, ada, stoma):
    def at(hours, **seen):
        when = ward.now - timedelta(hours=hours)
        entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=when, finding=FindingEntry(**seen))
        record_care(actor=ward.staff["amber"], entry=entry)

    return at


@pytest.fixture
def opened(ada, amber):
    return lambda: amber.get(reverse("person", args=[ada.uid]))


def titles(answer):
    return re.findall(r'class="drawing"[^>]*><title>([^<]*)</title>', answer.content.decode())


def test_sizes_and_pouches_are_drawn_and_told_in_words(changed, opened):
    changed(80, width_mm=38, height_mm=40, opening_width_mm=41)
    changed(50, width_mm=36, height_mm=38, wear_end="leak", leak_track="feet")
    changed(9, width_mm=33, height_mm=34, opening_width_mm=35.5, wear_end="planned")
    answer = opened()
    assert titles(answer) == [
        "Size over 3 measurements: across from 38 mm to 33 mm, up and down from 40 mm to 34 mm",
        "How long each of the last 3 pouches was worn; 1 of 2 that came off leaked",
    ]
    said = words(answer)
    assert "Cut 35 to 36 mm across, 36 to 37 mm up and down: 2 to 3 mm wider than the stoma in all" in said
    assert "Measure again by Tue 19 May 17:14." in said
    assert "leak, towards the feet" in said
    assert "30 h, leak" in answer.content.decode()


def test_the_bars_are_as_long_as_the_pouches_were_worn(changed, opened):
    changed(60)
    changed(40, wear_end="leak")
    changed(30, wear_end="planned")
    bars = re.findall(r'<rect x="1" y="\d+" width="([\d.]+)"', opened().content.decode())
    first, second, third = (float(bar) for bar in bars)
    assert (first / third, second / third) == (pytest.approx(20 / 30, abs=0.01), pytest.approx(10 / 30, abs=0.01))


def test_one_size_or_no_change_draws_nothing(changed, opened, stoma):
    assert titles(opened()) == []
    changed(9, width_mm=33, height_mm=34)
    assert [title for title in titles(opened()) if title.startswith("Size")] == []


def test_no_total_says_nothing_and_a_high_one_asks_for_a_fluid_plan(ward, stoma, opened):
    assert "24 hours to" not in words(opened())
    amber, at = ward.staff["amber"], ward.now - timedelta(hours=2)
    record_output_total(actor=amber, stoma=stoma, until_at=at, ml=1500)
    note_nothing_since(actor=amber, stoma=stoma, since_at=at)
    said = words(opened())
    assert "Output, 24 hours to today 00:14: 1500 mL, from the fluid chart." in said
    assert "Output reached 1500 mL (today 00:14): a fluid plan is asked for, and none is made yet." in said
    assert "Nothing out since today 00:14 (asked today 02:14)." in said


def test_a_planner_is_offered_no_form(ward, ada, stoma, signed_in):
    from teaching.record.staff import grant_role
    from tests.bedside.ward import HOUSE

    grant_role(actor=HOUSE, clinician=ward.staff["edda"].clinician, role="planner", unit=ward.unit)
    said = words(signed_in("edda").get(reverse("person", args=[ada.uid])))
    assert "Fit and output" in said and "Pause teaching" not in said and "fluid chart" not in said

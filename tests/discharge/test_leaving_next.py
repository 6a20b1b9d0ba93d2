"""After a sheet of leaving against the plan is kept: print it, note that they have left; never noted by itself."""

import uuid
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Paper, StayEvent, StayNow
from teaching.record.entries import CareEntry
from teaching.record.sessions import record_care
from teaching.record.staff import grant_role, revoke_role
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE, NIGHT

LEFT = "They have left"


@pytest.fixture
def opened(ada, signed_in):
    return lambda who="amber": signed_in(who).get(reverse("readiness", args=[ada.uid]))


@pytest.fixture
def left(ada):
    return reverse("stay-event", args=[ada.uid, "left"])


def test_nothing_is_offered_before_a_sheet_is_kept(opened, stoma):
    assert LEFT not in words(opened())


def test_it_is_the_next_action_and_nothing_was_noted(opened, ada, stoma, left, leaves_against_plan):
    leaves_against_plan(ada)
    body = opened().content.decode()
    nxt = body[body.index('aria-label="Next action"') :]
    assert f'href="{left}">{LEFT}</a>' in nxt
    assert f'href="{reverse("kept-paper", args=[Paper.objects.get().uid])}"' in nxt
    assert "000-A1" in nxt
    assert StayNow.objects.get(stay=ada).state == "opened"
    assert not StayEvent.objects.filter(stay=ada, kind="left").exists()


def test_a_tap_asks_first_and_only_the_form_notes_it(opened, ada, stoma, left, leaves_against_plan, amber):
    leaves_against_plan(ada)
    assert "Note that they have left" in words(amber.get(left))
    assert StayNow.objects.get(stay=ada).state == "opened"
    answer = amber.post(left, {"form_key": str(uuid.uuid4()), "left_to": "home"})
    assert answer.status_code == 303
    assert StayNow.objects.get(stay=ada).state == "left"
    assert LEFT not in words(opened())


def test_a_planner_prints_and_a_nurse_notes(opened, ada, stoma, ward, left, leaves_against_plan):
    leaves_against_plan(ada)
    basil = ward.staff["basil"].clinician
    grant_role(actor=HOUSE, clinician=basil, role="planner", unit=ward.unit)
    revoke_role(actor=HOUSE, clinician=basil, role="ward-nurse", unit=ward.unit)
    body = opened("basil").content.decode()
    assert "Print the sheet (PDF)" in body and left not in body


@pytest.mark.parametrize("stays", ["a new planned day", "paused"])
def test_who_stayed_after_all_is_not_asked(opened, ada, stoma, ward, leaves_against_plan, stays):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + timedelta(hours=1), tick=False):
        if stays == "paused":
            note_stay_event(actor=ward.staff["amber"], stay=ada, kind="paused", why="too ill")
        else:
            plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=3))
        assert LEFT not in words(opened())


def test_a_pouch_changed_at_the_door_leaves_it_offered(opened, ada, stoma, ward, leaves_against_plan):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + timedelta(hours=1), tick=False):
        entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT + timedelta(minutes=15))
        record_care(actor=ward.staff["amber"], entry=entry)
        assert LEFT in words(opened())

"""Calls after leaving: a work list with its tries, and one call."""

from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import AfterHome
from teaching.record.entries import CareEntry
from teaching.record.sessions import record_care
from teaching.record.staff import grant_role, revoke_role
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.reading import words as text_of
from tests.bedside.ward import HOUSE, NIGHT

HOUR = timedelta(hours=1)
BUDGET = 12
PROMISED = ", as promised on leaving against the plan: Sorrel Vane, stoma nurse."


@pytest.fixture
def gone(ward, ada, stoma):
    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home", at=NIGHT)
    return ada


@pytest.fixture
def calls(signed_in, ward):
    return lambda: text_of(signed_in("amber").get(reverse("calls", args=[ward.unit.uid])))


def test_an_ileostomy_is_listed_with_its_hours(calls, gone):
    assert "Ada Fernhollow" in calls()
    assert "Ring from tomorrow 02:14 by Fri 02:14. Not tried yet." in calls()


def test_a_try_is_counted_and_a_call_that_was_heard_ends_it(calls, gone, send):
    assert send("call", gone, kind="no-answer").status_code == 303
    assert "Tried once, last today 02:14: no answer." in calls()
    assert send("call", gone, kind="reached", leak="one", mood="low", words="sore at night").status_code == 303
    assert "Nobody is to be rung now." in calls()
    assert AfterHome.objects.order_by("pk").last().told == {"leak": "one", "mood": "low"}


def test_overdue_is_said(calls, gone):
    with time_machine.travel(NIGHT + 49 * HOUR, tick=False):
        assert "The call was due by today 02:14." in calls()


def test_who_is_still_here_is_not_rung(calls, ada, stoma, send):
    assert "Nobody is to be rung now." in calls()
    answer = send("call", ada, kind="reached")
    assert answer.status_code == 422
    assert "has not left yet" in answer.content.decode()


def test_whoever_has_left_is_in_no_bed(ada, gone, signed_in):
    """Somebody else may lie there by now."""
    page = signed_in("amber").get(reverse("call", args=[ada.uid]))
    assert "has left" in text_of(page) and "bed A1" not in text_of(page)
    assert "Left: " in text_of(page), "its title"


def test_why_they_came_back_is_asked(gone, send):
    answer = send("call", gone, kind="came-back")
    assert "Why they came back is missing" in answer.content.decode()
    assert not AfterHome.objects.exists()


def test_a_call_promised_on_leaving_against_the_plan_is_owed_before_anybody_notes_that_they_left(
    calls, ada, stoma, leaves_against_plan, signed_in, ward
):
    leaves_against_plan(ada)
    said = calls()
    assert "Ada Fernhollow" in said and "Not noted as left yet." in said
    assert f"Ring by today 18:14{PROMISED} Not tried yet." in said
    page = signed_in("amber").get(reverse("calls", args=[ward.unit.uid])).content.decode()
    assert reverse("stay-event", args=[ada.uid, "left"]) in page


def test_who_is_not_noted_as_left_leads_to_that_and_the_form_says_so_before_it_is_filled_in(
    ada, stoma, leaves_against_plan, signed_in, ward
):
    leaves_against_plan(ada)
    listed, left, call = reverse("calls", args=[ward.unit.uid]), *(
        reverse(name, args=[ada.uid, *more]) for name, more in (("stay-event", ["left"]), ("call", []))
    )
    body = signed_in("amber").get(listed).content.decode()
    assert call not in body and f'<a href="{left}">Ada Fernhollow</a>' in body
    page = signed_in("amber").get(call)
    assert "Not noted as left yet. Note that first" in text_of(page)
    assert f'href="{left}">Note that they have left</a>' in page.content.decode()
    assert "Store what was heard" not in text_of(page)


def test_a_planner_is_told_that_a_nurse_notes_it(ada, stoma, leaves_against_plan, signed_in, ward):
    leaves_against_plan(ada)
    basil = ward.staff["basil"].clinician
    grant_role(actor=HOUSE, clinician=basil, role="planner", unit=ward.unit)
    revoke_role(actor=HOUSE, clinician=basil, role="ward-nurse", unit=ward.unit)
    for page in (reverse("calls", args=[ward.unit.uid]), reverse("call", args=[ada.uid])):
        answer = signed_in("basil").get(page)
        assert "A nurse notes that they have left" in text_of(answer)
        assert reverse("stay-event", args=[ada.uid, "left"]) not in answer.content.decode()


def test_after_they_left_the_earlier_of_the_two_calls_stands(calls, ada, stoma, leaves_against_plan, ward):
    leaves_against_plan(ada)
    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home", at=NIGHT)
    said = calls()
    assert "Left today 02:14." in said and f"Ring by today 18:14{PROMISED}" in said


def test_a_promised_call_that_nobody_made_is_overdue_after_its_own_hours(calls, ada, stoma, leaves_against_plan):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + 17 * HOUR, tick=False):
        assert f"The call was due by today 18:14{PROMISED}" in calls()


def test_a_promised_call_that_was_heard_ends_it_for_whoever_left(calls, ada, stoma, leaves_against_plan, send, ward):
    leaves_against_plan(ada)
    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home", at=NIGHT)
    assert send("call", ada, kind="reached").status_code == 303
    assert "Nobody is to be rung now." in calls()


@pytest.mark.parametrize("shown_by", ["care", "plan", "move"])
def test_who_stayed_after_all_is_promised_nothing(calls, ada, stoma, leaves_against_plan, ward, shown_by):
    """Care shows it from the next day of the ward on."""
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + 25 * HOUR, tick=False):
        if shown_by == "care":
            entry = CareEntry(stay=ada, stoma=stoma, procedure="emptying", at=NIGHT + 24 * HOUR)
            record_care(actor=ward.staff["amber"], entry=entry)
        elif shown_by == "plan":
            plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + 48 * HOUR)
        else:
            note_stay_event(actor=ward.staff["amber"], stay=ada, kind="moved", bed="A2")
        assert "Nobody is to be rung now." in calls()


def test_a_pouch_changed_at_the_door_takes_no_promise_back(calls, ada, stoma, leaves_against_plan, ward):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + HOUR, tick=False):
        entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT + HOUR / 4)
        record_care(actor=ward.staff["amber"], entry=entry)
        assert f"Not noted as left yet. Ring by today 18:14{PROMISED}" in calls()
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home")
        assert f"Left today 03:14. Ring by today 18:14{PROMISED}" in calls()


@pytest.mark.parametrize("between", ["care past midnight", "plan", "move"])
def test_a_leaving_noted_before_the_call_is_due_restores_the_promise(
    calls, ada, stoma, leaves_against_plan, ward, between
):
    with time_machine.travel(NIGHT - 3 * HOUR, tick=False):
        leaves_against_plan(ada)  # 23:14 on the day before
    if between == "care past midnight":
        record_care(actor=ward.staff["amber"], entry=CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT))
    elif between == "plan":
        plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + HOUR)
    else:
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="moved", bed="A2")
    assert "Nobody is to be rung now." in calls()
    with time_machine.travel(NIGHT + HOUR, tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home")
        assert f"Left today 03:14. Ring by today 15:14{PROMISED}" in calls()


@pytest.mark.parametrize("stayed", [True, False])
def test_a_leaving_noted_days_later_breaks_the_promise_only_of_who_stayed(
    calls, ada, stoma, leaves_against_plan, ward, stayed
):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + 72 * HOUR, tick=False):
        if stayed:
            entry = CareEntry(stay=ada, stoma=stoma, procedure="emptying", at=NIGHT + 24 * HOUR)
            record_care(actor=ward.staff["amber"], entry=entry)
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home")
        said = "Ring from tomorrow 02:14 by Mon 02:14." if stayed else f"The call was due by Wed 18:14{PROMISED}"
        assert said in calls()


def test_who_came_back_to_the_ward_is_promised_nothing_more(calls, ada, stoma, leaves_against_plan, ward):
    leaves_against_plan(ada)
    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home", at=NIGHT)
    with time_machine.travel(NIGHT + HOUR, tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="reopened", bed="A1", why="back")
        assert "Nobody is to be rung now." in calls()


def test_care_written_down_late_is_no_staying(calls, ada, stoma, leaves_against_plan, ward):
    leaves_against_plan(ada)
    with time_machine.travel(NIGHT + 2 * HOUR, tick=False):
        entry = CareEntry(stay=ada, stoma=stoma, procedure="emptying", at=NIGHT - HOUR)
        record_care(actor=ward.staff["amber"], entry=entry)
        assert "Ada Fernhollow" in calls()


def test_a_sheet_kept_before_it_told_the_moment_promises_nothing_more(calls, ada, stoma, leaves_against_plan):
    leaves_against_plan(ada, call_due=None)
    assert "Nobody is to be rung now." in calls()


def test_what_was_heard_of_an_earlier_leaving_ends_no_later_call(calls, gone, send, ward):
    assert send("call", gone, kind="came-back", words="could not manage").status_code == 303
    with time_machine.travel(NIGHT + 24 * HOUR, tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=gone, kind="reopened", bed="A1", why="back")
        note_stay_event(actor=ward.staff["amber"], stay=gone, kind="left", left_to="home")
        assert "Ada Fernhollow" in calls()


@pytest.mark.parametrize("promised", [True, False])
def test_a_call_that_was_heard_before_they_were_noted_as_left_is_no_call_owed(
    calls, ada, stoma, leaves_against_plan, send, ward, promised
):
    """Reached at 02:14 and written down at 06:14, after leaving was noted with its time left empty."""
    if promised:
        with time_machine.travel(NIGHT - HOUR, tick=False):
            leaves_against_plan(ada)
    with time_machine.travel(NIGHT + 4 * HOUR, tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind="left", left_to="home")
        assert "Not tried yet." in calls()
        assert send("call", ada, kind="no-answer", at_0="2026-05-13T02:00").status_code == 303
        assert "Tried once, last today 02:00: no answer." in calls()
        assert send("call", ada, kind="reached", at_0="2026-05-13T02:14").status_code == 303
        assert "Nobody is to be rung now." in calls()


def test_what_ended_an_earlier_leaving_ends_no_later_one_whatever_hour_was_said(calls, gone, send, ward):
    """Back at 03:14 and noted so; taken up again with an earlier hour. A late word on that leaving changes nothing."""
    amber = ward.staff["amber"]
    with time_machine.travel(NIGHT + HOUR, tick=False):
        assert send("call", gone, kind="came-back", words="could not manage").status_code == 303
        note_stay_event(actor=amber, stay=gone, kind="reopened", bed="A1", why="back", at=NIGHT + HOUR / 2)
    with time_machine.travel(NIGHT + HOUR * 5 / 4, tick=False):
        note_stay_event(actor=amber, stay=gone, kind="left", left_to="home")
        assert send("call", gone, kind="reached", at_0="2026-05-13T02:20").status_code == 303
        assert "Ada Fernhollow" in calls() and "Not tried yet." in calls()


@pytest.mark.parametrize("count", [1, 3])
def test_queries_do_not_grow_with_people(ward, amber, count, assert_selects, leaves_against_plan):
    for number in range(count):
        leaves_against_plan(ward.stay("Still", f"Here{number}", f"C{number}"))
        stay = ward.stay("Person", f"Invented{number}", f"B{number}")
        ward.stoma(stay)
        note_stay_event(actor=ward.staff["amber"], stay=stay, kind="left", left_to="home", at=NIGHT)
    amber.get(reverse("calls", args=[ward.unit.uid]))
    with assert_selects(BUDGET):
        amber.get(reverse("calls", args=[ward.unit.uid]))

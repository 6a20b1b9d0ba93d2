"""Calls after leaving: a work list with its tries, and one call."""

from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import AfterHome
from teaching.record.stays import note_stay_event
from tests.bedside.reading import words as text_of
from tests.bedside.ward import NIGHT

HOUR = timedelta(hours=1)
BUDGET = 11


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


def test_why_they_came_back_is_asked(gone, send):
    answer = send("call", gone, kind="came-back")
    assert "Why they came back is missing" in answer.content.decode()
    assert not AfterHome.objects.exists()


@pytest.mark.parametrize("count", [1, 3])
def test_queries_do_not_grow_with_people(ward, amber, count, assert_selects):
    for number in range(count):
        stay = ward.stay("Person", f"Invented{number}", f"B{number}")
        ward.stoma(stay)
        note_stay_event(actor=ward.staff["amber"], stay=stay, kind="left", left_to="home", at=NIGHT)
    amber.get(reverse("calls", args=[ward.unit.uid]))
    with assert_selects(BUDGET):
        amber.get(reverse("calls", args=[ward.unit.uid]))

"""Who teaches this shift, and what only some may read beside it."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from teaching.models import HuddleTick
from teaching.record.arranged import booked_on
from teaching.record.arrangements import arrange_visit, book_teaching
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.entries import CareEntry
from teaching.record.huddle_ticks import ticked
from teaching.record.sessions import record_care
from teaching.record.skills import ask_to_be_observed
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT

TUESDAY = date(2026, 5, 12)  # at 02:14 on Wednesday it is still Tuesday's night shift


@pytest.fixture
def tick(ward, address, send):
    def post(*names, who="amber", day=TUESDAY, shift="night"):
        teach = [str(ward.staff[name].clinician.uid) for name in names]
        return send(who, address("who-teaches"), day=day.isoformat(), shift=shift, teach=teach)

    return post


def test_ticks_are_stored_and_only_what_changes(ward, tick, signed_in, address):
    assert tick("amber", "basil").status_code == 303
    assert tick("amber").status_code == 303
    rows = HuddleTick.objects.order_by("pk").values_list("clinician__user__username", "number", "may_teach")
    assert list(rows) == [("amber", 1, True), ("basil", 1, True), ("basil", 2, False)]
    amber = ward.staff["amber"].clinician
    assert ticked(ward.unit, [TUESDAY]) == {(TUESDAY, "night"): {amber.pk}}
    assert signed_in("amber").get(address("who-teaches")).content.decode().count("checked") == 1


def test_each_is_named_with_what_they_hold(signed_in, address):
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "Amber Oakley, signed off: teach, bowel stoma; teach, urostomy" in page
    assert "Basil Thorne, not signed off" in page
    assert page.index("Amber Oakley, signed") < page.index("Basil Thorne") < page.index("Sorrel Vane")


def test_a_change_on_a_shift_with_nobody_ticked_is_said(overdue, signed_in, address, tick):
    """An overdue change falls on this shift."""
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "1 change falls on Tuesday's night shift with nobody ticked." in page
    assert "Bed A1, Ada Fernhollow: ileostomy, was due yesterday 02:14." in page
    tick("basil")
    said = "1 change falls on Tuesday's night shift with nobody ticked who is signed off to teach."
    assert said in words(signed_in("amber").get(address("who-teaches")))
    tick("amber")
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "1 change is planned within 3 days, each with somebody ticked or booked who is signed off" in page
    assert said not in page


def test_another_shift_may_be_ticked_ahead(ward, tick, signed_in, address):
    thursday = date(2026, 5, 14)
    assert tick("amber", day=thursday, shift="day").status_code == 303
    assert ticked(ward.unit, [thursday]) != {}
    page = signed_in("amber").get(address("who-teaches"), {"day": "2026-05-14", "shift": "day"})
    assert "Thu 14 May, day" in words(page) and page.content.decode().count("checked") == 1


@pytest.mark.parametrize("asked", [{"day": "2026-05-14", "shift": "lunch"}, {"day": "soon", "shift": "day"}])
def test_a_shift_that_is_none_is_not_there(asked, signed_in, address):
    assert signed_in("amber").get(address("who-teaches"), asked).status_code == 404


def test_somebody_of_another_ward_cannot_be_ticked(tick):
    assert tick("wilma").status_code == 422


def test_who_asks_to_be_observed_stands_there_for_a_holder(ward, signed_in, address):
    ask_to_be_observed(
        actor=ward.staff["basil"], unit=ward.unit, skill="change", paired_at=NIGHT + timedelta(hours=9), bed="A1"
    )
    amber = signed_in("amber").get(address("who-teaches"))
    assert "Basil Thorne asks to be observed: do a change, at the change today 11:14, bed A1." in words(amber)
    assert address("record-practice", "basil", "change") in amber.content.decode()
    edda = signed_in("edda").get(address("who-teaches"))
    assert "at a due change." in words(edda) and "A1" not in words(edda)
    assert "record-practice" not in edda.content.decode() and "Record a practice" not in words(edda)


def test_the_shift_and_the_huddle_lead_there_for_those_who_may_tick(ward, signed_in, address):
    for name in ("this-shift", "huddle"):
        page = signed_in("amber").get(reverse(name, args=[ward.unit.uid])).content.decode()
        assert (address("who-teaches") in page) == (name == "this-shift")
        assert address("who-teaches") not in signed_in("tansy").get(
            reverse(name, args=[ward.unit.uid])
        ).content.decode()


@pytest.fixture
def book(ward):
    def booked(stay, hours, teacher="amber", **more):
        return book_teaching(
            actor=ward.staff["amber"], stay=stay, at=NIGHT + timedelta(hours=hours), **{
                "learners": [stay.learners.get(kind="person")],
                "teacher": ward.staff[teacher].clinician if teacher else None,
            } | more,
        )  # fmt: skip

    return booked


@pytest.fixture
def due_soon(ward, ada, stoma):
    """Changed two days ago, so due in a day."""
    at = NIGHT - timedelta(hours=48)
    record_care(actor=ward.staff["amber"], entry=CareEntry(stay=ada, stoma=stoma, procedure="change", at=at))
    return ada


def test_a_booked_change_stands_in_place_of_the_overdue_one(overdue, book, signed_in, address):
    book(overdue, 9)
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "Bed A1, Ada Fernhollow: ileostomy, booked today 11:14, Amber Oakley teaches." in page
    assert "was due" not in page and "nobody ticked" not in page


def test_moved_or_cancelled_the_newest_counts(overdue, book, signed_in, address):
    key = book(overdue, 9).key
    book(overdue, 10, teacher="basil", key=key)
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "booked today 12:14, Basil Thorne teaches." in page and "11:14" not in page
    assert "1 change falls on Wednesday's day shift with nobody ticked." in page
    book(overdue, 10, key=key, state="cancelled")
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "was due yesterday 02:14" in page and "booked" not in page.replace("ticked or booked", "")


def test_a_visit_after_leaving_is_no_change_on_the_ward(ward, overdue, signed_in, address):
    leaving = NIGHT + timedelta(hours=12)
    plan_home(actor=ward.staff["amber"], stay=overdue, at=leaving)
    arrange_visit(
        actor=ward.staff["amber"], stay=overdue, at=leaving + timedelta(hours=20), state="made", for_change=True,
        accepted_by="R. Invented",
    )
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "1 change is planned within 3 days" in page and "booked" not in page.replace("ticked or booked", "")


def pairing(ward, signed_in, address):
    ask_to_be_observed(actor=ward.staff["basil"], unit=ward.unit, skill="change")
    return words(signed_in("amber").get(address("pair-ask", "basil", "change")))


def test_a_change_that_is_not_taught_wants_no_teacher_and_no_pairing(ward, due_soon, signed_in, address):
    assert "1 change is planned" in words(signed_in("amber").get(address("who-teaches")))
    assert "Bed A1, " in pairing(ward, signed_in, address)
    plan_home(actor=ward.staff["amber"], stay=due_soon, at=NIGHT + timedelta(days=5), goes_to="facility")
    page = words(signed_in("amber").get(address("who-teaches")))
    assert "No change is planned within 3 days." in page and "nobody ticked" not in page
    assert "Bed A1, " not in words(signed_in("amber").get(address("pair-ask", "basil", "change")))
    strip = words(signed_in("amber").get(reverse("this-shift", args=[ward.unit.uid])))
    assert "Pouch change due" in strip, "the pouch is changed all the same"


def test_without_an_ask_or_a_change_it_says_so_and_shows_no_form(ward, ada, signed_in, address):
    amber, pair = signed_in("amber"), address("pair-ask", "basil", "change")
    page = amber.get(pair)
    assert "Basil Thorne does not ask to be observed for this now." in words(page) and not form_of(page)
    ask_to_be_observed(actor=ward.staff["basil"], unit=ward.unit, skill="change")
    page = amber.get(pair)
    assert "No change that fits this skill is planned now." in words(page) and not form_of(page)


def form_of(page):
    """What of the form stands there: its question, its button."""
    return [part for part in ('id="form"', 'form="form"', 'name="at"') if part in page.content.decode()]


def test_while_somebody_must_be_called_first_a_change_wants_no_teacher(ward, due_soon, signed_in, address):
    actor = ward.staff["amber"]
    open_one = raise_caution(actor=actor, stay=due_soon, sign="dark-stoma", at=NIGHT, stoma=due_soon.stomas.get())
    assert "No change is planned within 3 days." in words(signed_in("amber").get(address("who-teaches")))
    assert "Bed A1, " not in pairing(ward, signed_in, address)
    tell_caution(actor=actor, caution=open_one, whom="R. Invented", at=NIGHT)
    assert "1 change is planned within 3 days" in words(signed_in("amber").get(address("who-teaches")))


def test_bookings_of_those_who_have_left_are_not_read(ward, overdue, book):
    book(overdue, 9)
    assert list(booked_on(ward.unit)) == [str(overdue.uid)]
    note_stay_event(actor=ward.staff["amber"], stay=overdue, kind="left", left_to="home")
    assert booked_on(ward.unit) == {}


def test_an_educator_reads_of_a_booked_change_a_count_alone(overdue, book, signed_in, address):
    book(overdue, 9, teacher=None)
    page = words(signed_in("edda").get(address("who-teaches")))
    assert "1 change falls on Wednesday's day shift with nobody ticked." in page
    assert "Fernhollow" not in page and "11:14" not in page


@pytest.mark.parametrize("people", [1, 3])
def test_the_page_costs_the_same_queries_for_one_and_for_three(
    people, ward, book, signed_in, address, assert_selects
):
    for number in range(people):
        stay = ward.stay(f"Person {number}", bed=f"A{number}")
        ward.stoma(stay)
        book(stay, 9)
    client = signed_in("amber")
    client.get(address("who-teaches"))
    with assert_selects(21):
        client.get(address("who-teaches"))

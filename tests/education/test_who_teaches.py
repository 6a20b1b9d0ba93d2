"""Who teaches this shift, and what only some may read beside it."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from teaching.models import HuddleTick
from teaching.record.huddle_ticks import ticked
from teaching.record.skills import ask_to_be_observed
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
    assert "1 change is planned within 3 days, each on a shift with somebody ticked" in page and said not in page


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


@pytest.mark.parametrize("people", [1, 3])
def test_the_page_costs_the_same_queries_for_one_and_for_three(people, ward, signed_in, address, assert_selects):
    for number in range(people):
        ward.stoma(ward.stay(f"Person {number}", bed=f"A{number}"))
    client = signed_in("amber")
    client.get(address("who-teaches"))
    with assert_selects(19):
        client.get(address("who-teaches"))

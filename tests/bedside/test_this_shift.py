"""This shift: one strip a person, read aloud like a huddle line, what needs doing first on top."""

from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import TrailLine
from teaching.record.arrangements import book_teaching
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.stays import plan_home
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT


@pytest.fixture
def shift(ward, amber):
    def read(client=amber, name="this-shift"):
        return client.get(reverse(name, args=[ward.unit.uid]))

    return read


@pytest.fixture
def slipped(ward, ada, stoma):
    """Ada was alone twice; then she needed a cue to shut the outlet."""
    ward.teach(ada, stoma, 40)
    ward.teach(ada, stoma, 30)
    ward.teach(ada, stoma, 9, ["06", "06", "06", "04", "06"])


def test_a_strip_says_bed_name_day_due_aim_and_leaving(slipped, shift):
    page = words(shift())
    assert "Bed A1 Ada Fernhollow Day 4, ileostomy. Leaving Fri 02:14." in page
    assert "Teach: Shut the outlet and check it." in page


def test_whoever_has_a_caution_is_read_first(ward, ada, stoma, shift):
    bram = ward.stay("Bram", "Quillfeather", "A2")
    left = ward.stoma(bram, "colostomy", "left")
    raise_caution(actor=ward.staff["amber"], stay=bram, sign="dark-stoma", at=NIGHT, stoma=left)
    page = words(shift())
    assert page.index("Bram Quillfeather") < page.index("Ada Fernhollow")
    assert "2 people 1 with a call-now caution" in page
    assert "Call now: Stoma dark, dusky or pale. Open since today 02:14, nobody told yet." in page


def test_with_a_call_now_caution_open_the_strip_teaches_nothing_and_says_why(ward, slipped, ada, stoma, shift):
    caution = raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=NIGHT, stoma=stoma)
    for name in ("this-shift", "huddle"):
        page = words(shift(name=name))
        assert "Call first: Stoma dark, dusky or pale. Teaching waits." in page and "Teach:" not in page
    tell_caution(actor=ward.staff["amber"], caution=caution, whom="Dr Nettle", at=NIGHT)
    page = words(shift())
    assert "Call first" not in page and "Teach: Shut the outlet and check it." in page


def test_each_name_leads_to_the_person(ada, stoma, shift):
    assert f'href="{reverse("person", args=[ada.uid])}"' in shift().content.decode()


def test_nobody_here_is_said_in_words(shift):
    assert "Nobody with a stoma is on this unit now." in words(shift())


def test_a_person_on_another_unit_is_not_on_this_board(ward, shift):
    ward.stoma(ward.stay("Wenda", "Marsh", "Z9", unit=ward.other))
    assert "Wenda" not in words(shift())


def test_another_unit_is_not_there_and_a_lesser_role_is_refused(ward, ada, shift, signed_in):
    assert shift(signed_in("wilma")).status_code == 404
    assert shift(signed_in("edda")).status_code == 403
    assert "Ada" not in words(shift(signed_in("edda")))


def test_one_trail_line_for_the_board_however_many_people(ward, ada, stoma, shift):
    ward.stoma(ward.stay("Bram", "Quillfeather", "A2"))
    before = TrailLine.objects.count()
    shift()
    lines = list(TrailLine.objects.order_by("id").values_list("verb", "outcome", "unit", "stay"))[before:]
    assert lines == [("see_shift", "read", str(ward.unit.uid), "")]


def test_the_huddle_on_screen_is_one_line_a_person(slipped, shift):
    page = words(shift(name="huddle"))
    assert "Huddle, Heron Ward (made up)" in page
    assert "Ada Fernhollow, 000-A1, day 4, ileostomy." in page
    assert page.index("Teach: Shut the outlet and check it.") < page.index("Leaving Fri 02:14.")


def test_who_goes_to_a_facility_is_asked_nothing_until_a_time_is_booked(ward, slipped, ada, stoma, amber, shift):
    plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=2), goes_to="facility")
    for page in (words(shift()), words(shift(name="huddle"))):
        assert "Bound for a care facility: its nurses take over. Teach what the person asks for." in page
        assert "Shut the outlet and check it" not in page
    person = words(amber.get(reverse("person", args=[ada.uid])))
    assert "Nothing, unless the person asks." in person
    book_teaching(
        actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(hours=8), learners=[ada.learners.get(kind="person")],
        procedure="emptying",
    )  # fmt: skip
    page = words(shift())
    assert "Bound for a care facility" not in page and "Shut the outlet and check it" in page


def test_the_first_page_of_a_ward_nurse_is_her_shift(ward, amber):
    assert amber.get("/")["Location"] == reverse("this-shift", args=[ward.unit.uid])


@pytest.mark.parametrize("people", [1, 3])
def test_the_board_costs_the_same_queries_for_one_and_for_three(people, ward, shift, assert_selects):
    for number in range(people):
        stay = ward.stay(f"Person {number}", bed=f"A{number}")
        ward.teach(stay, ward.stoma(stay), 9)
    with assert_selects(13):
        shift()

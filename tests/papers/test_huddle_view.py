"""The huddle list's address: for nurses of the unit, in the browser, unnamed, with its line in the trail."""

import io
from datetime import date, timedelta

import pdfplumber
import pytest
from django.urls import reverse

from teaching.models import TrailLine
from teaching.record import staff
from teaching.record.arrangements import book_teaching
from teaching.record.entries import CareEntry
from teaching.record.huddle_ticks import tick_huddle
from teaching.record.sessions import record_care
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401
from tests.bedside.ward import HOUSE, NIGHT
from tests.skills import certify, publish


@pytest.fixture
def address(ward):  # noqa: F811
    return reverse("huddle-list", args=[ward.unit.uid])


@pytest.fixture
def paper(signed_in, address, ada, stoma):  # noqa: F811
    return signed_in("amber").get(address)


def test_a_nurse_of_the_unit_gets_a_pdf_that_no_cache_keeps(paper):
    assert paper.status_code == 200
    assert paper["Content-Type"] == "application/pdf"
    assert paper["Cache-Control"] == "no-store"
    assert paper.content.startswith(b"%PDF")


def test_the_file_name_and_address_name_nobody(paper, address):
    assert paper["Content-Disposition"] == 'inline; filename="huddle-list.pdf"'
    assert "Fernhollow" not in address and "000-" not in address


def test_it_says_what_the_board_says(paper):
    with pdfplumber.open(io.BytesIO(paper.content)) as opened:
        said = " ".join(opened.pages[0].extract_text().split())
    assert "Huddle list: Heron Ward (made up)" in said
    assert "Tue 12 May, night shift. 1 person" in said  # 02:14 belongs to the night that began on Tuesday
    assert "Ada Fernhollow" in said and "000-A1" in said
    assert "day 4, ileostomy" in said
    assert "Printed Wed 13 May 02:14 by Amber Oakley" in said


def test_printing_leaves_a_line_in_the_trail(paper, ward):  # noqa: F811
    line = TrailLine.objects.latest("id")
    assert (line.verb, line.outcome, line.unit) == ("print_huddle", "read", str(ward.unit.uid))


@pytest.mark.parametrize(("who", "status"), [("ashby", 403), ("tansy", 403), ("edda", 403), ("wilma", 404)])
def test_a_lesser_role_is_refused_and_a_stranger_finds_nothing(signed_in, address, ada, who, status):  # noqa: F811
    assert signed_in(who).get(address).status_code == status


def test_nobody_signed_in_is_sent_to_sign_in(client, address):
    answer = client.get(address)
    assert answer.status_code == 302
    assert reverse("sign-in") in answer.url


def said(answer):
    with pdfplumber.open(io.BytesIO(answer.content)) as opened:
        return " ".join(opened.pages[0].extract_text().split())


def test_it_says_who_is_ticked_for_this_shift_and_what_falls_on_one_with_nobody(
    ward, ada, stoma, signed_in, address,  # noqa: F811
):  # fmt: skip
    amber = ward.staff["amber"]
    changed = CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=96))
    record_care(actor=amber, entry=changed)
    paper = said(signed_in("amber").get(address))
    assert "Teaches this shift: ......" in paper and "Changes with nobody ticked to teach: Tue night: A1." in paper
    tick_huddle(
        actor=amber, unit=ward.unit, day=date(2026, 5, 12), shift="night", may_teach={amber.clinician.pk: True}
    )
    paper = said(signed_in("amber").get(address))
    assert "Teaches this shift: Amber Oakley (not signed off)" in paper
    assert "Changes with nobody signed off among those ticked: Tue night: A1." in paper
    publish(HOUSE)
    certify(ward.staff["linden"], amber, "teach-bowel")
    paper = said(signed_in("amber").get(address))
    assert "Teaches this shift: Amber Oakley Shred" in paper and "Changes with nobody" not in paper


def test_a_stoma_nurse_booked_today_is_named_with_her_time(ward, ada, stoma, signed_in, address):  # noqa: F811
    sorrel = staff.register_clinician(actor=HOUSE, name="Sorrel Vane", grade="stoma-nurse")
    staff.grant_role(actor=HOUSE, clinician=sorrel, role="stoma-nurse")
    for hours, state in ((9, "booked"), (11, "cancelled"), (33, "booked")):
        book_teaching(
            actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(hours=hours), state=state, teacher=sorrel,
            learners=[ada.learners.get(kind="person")], procedure="emptying",
        )  # fmt: skip
    paper = said(signed_in("amber").get(address))
    assert "Stoma nurse's times today: Sorrel Vane 11:14 A1 Bed Person" in paper


@pytest.mark.parametrize("people", [1, 3])
def test_it_costs_the_same_queries_for_one_and_for_three(
    people, ward, signed_in, address, assert_selects,  # noqa: F811
):  # fmt: skip
    for number in range(people):
        stay = ward.stay(f"Person {number}", bed=f"A{number}")
        ward.stoma(stay)
        book_teaching(
            actor=ward.staff["amber"], stay=stay, at=NIGHT + timedelta(hours=9),
            learners=[stay.learners.get(kind="person")], teacher=ward.staff["amber"].clinician,
        )  # fmt: skip
    client = signed_in("amber")
    client.get(address)
    with assert_selects(20):
        client.get(address)

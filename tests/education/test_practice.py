"""Recording a practice beside the nurse, signing off, withdrawing: through the pages."""

import re

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Practice, SignOff
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT, PASSWORD
from tests.skills import rows_of


@pytest.fixture
def practice():
    return lambda level="5", **more: dict.fromkeys(rows_of("teach-bowel"), level) | {"setting": "person"} | more


def test_nothing_is_chosen_beforehand_and_each_button_says_number_and_word(signed_in, address):
    page = signed_in("amber").get(address("record-practice", "basil", "teach-bowel"))
    html = page.content.decode()
    assert "checked" not in html
    first = re.search(r'<div class="levels">.*?</div>', html, re.S)[0]
    said = " ".join(re.sub(r"<[^>]+>", " ", first).split())
    assert said == "5 Independent 4 Supervised 3 Assisted 2 Marginal 1 Dependent X Not observed"


def test_a_practice_is_stored_as_it_was_tapped(send, address, practice):
    answer = send("sorrel", address("record-practice", "basil", "teach-bowel"), **practice(**{"tb-aim": "X"}))
    assert (answer.status_code, answer["Location"]) == (303, address("nurse-skills", "basil"))
    made = Practice.objects.order_by("-pk").first()
    assert (made.setting, made.levels["tb-aim"], made.levels["tb-start"], made.at) == ("person", "X", "5", NIGHT)


def test_a_ward_nurse_goes_back_to_who_teaches(send, address, practice):
    answer = send("amber", address("record-practice", "basil", "teach-bowel"), **practice())
    assert answer["Location"] == address("who-teaches")


def test_a_row_left_open_is_asked_for_beside_it_and_the_rest_is_kept(send, address, practice):
    left = practice()
    del left["tb-aim"]
    page = send("amber", address("record-practice", "basil", "teach-bowel"), **left)
    assert page.status_code == 422
    assert "Tap what you saw, or X where you did not see it." in words(page)
    assert page.content.decode().count("checked") == len(rows_of("teach-bowel")) - 1 + 1  # and where it was


def test_who_does_not_hold_it_is_told_so(send, address, practice):
    page = send("edda", address("record-practice", "basil", "teach-bowel"), **practice())
    assert page.status_code == 422 and "Only somebody signed off then observes it" in words(page)


def test_taking_one_back(ward, send, address):
    made = Practice.objects.order_by("-pk").first()
    to = reverse("take-back-practice", args=[made.uid])
    assert send("sorrel", to, words="Wrong nurse.").status_code == 422
    assert send("amber", to, words="").status_code == 422
    assert send("amber", to, words="Wrong nurse.").status_code == 303
    assert Practice.objects.get(takes_back=made).words == "Wrong nurse."


@pytest.fixture
def fresh(ward, client):
    """Amber, who has just given her password."""
    client.post(reverse("sign-in"), {"username": "amber", "password": PASSWORD})
    return client


def test_signing_off_shows_what_it_rests_on_and_until_when(fresh, address, send):
    to = address("sign-off", "basil", "change")
    page = words(fresh.get(to))
    assert "Until 13 May 2027." in page
    assert "11 May 2026, with a person, seen by Amber Oakley: 11 of 11 rows at 5." in page
    assert "Your password again" not in page
    assert send(fresh, to).status_code == 303
    assert SignOff.objects.get(nurse__user__username="basil").kind == "granted"


def test_after_a_quarter_of_an_hour_the_password_is_asked_again(ward, fresh, address, send):
    to = address("sign-off", "basil", "change")
    with time_machine.travel(NIGHT.replace(minute=30), tick=False):
        assert "Your password again" in words(fresh.get(to))
        assert send(fresh, to, password="not this one at all").status_code == 422
        assert not SignOff.objects.filter(nurse=ward.staff["basil"].clinician).exists()
        assert send(fresh, to, password=PASSWORD).status_code == 303


def test_before_it_is_met_the_page_says_what_is_missing_and_has_no_button(fresh, address, send):
    to = address("sign-off", "basil", "teach-bowel")
    page = fresh.get(to)
    assert "Observed practices: 0 of 3." in words(page) and "Sign:" not in words(page)
    assert send(fresh, to).status_code == 422


def test_withdrawing_needs_a_reason(ward, send, address):
    to = address("withdraw-sign-off", "amber", "change")
    assert send("edda", to).status_code == 422
    assert send("edda", to, reason="Asked for it herself.").status_code == 303
    newest = SignOff.objects.filter(nurse=ward.staff["amber"].clinician, skill="change").order_by("-number").first()
    assert (newest.kind, newest.reason) == ("withdrawn", "Asked for it herself.")


def test_a_lead_accepts_a_certificate_by_the_wards_days(ward, send, address):
    to = address("accept-certificate", "basil", "teach-bowel")
    said = {"certificate": "County school, May 2026", "valid_from": "2026-05-01", "valid_until": "2027-04-30"}
    assert send("linden", to, **said | {"valid_until": "2026-04-30"}).status_code == 422
    assert send("linden", to, **said).status_code == 303
    made = SignOff.objects.get(nurse=ward.staff["basil"].clinician)
    assert made.valid_until.isoformat() == "2027-04-30T22:59:59.999999+00:00"

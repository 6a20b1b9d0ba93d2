"""The sheet's page: what must be filled in first and by whom, its language; made, kept and reprinted as it was."""

import io
import uuid
from datetime import timedelta

import pdfplumber
import pytest
from django.urls import reverse

from teaching.models import Paper, PaperFile, PersonDetails
from teaching.record.arrangements import make_arrangement
from teaching.record.entries import FindingEntry, SessionEntry
from teaching.record.places import change_unit
from teaching.record.sessions import record_session
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401
from tests.bedside.ward import HOUSE

SLOTS = {"press-minutes": "10", "hours-without-urine": "4"}


@pytest.fixture
def amber(signed_in, ada, stoma):  # noqa: F811
    return signed_in("amber")


@pytest.fixture
def address(ada):  # noqa: F811
    return reverse("take-home", args=[ada.uid])


@pytest.fixture
def filled(ward, ada):  # noqa: F811
    """The number is arranged and the unit's clinician has filled the slots."""
    make_arrangement(
        actor=ward.staff["amber"], stay=ada, code="number", state="made",
        details={"phone": "00000 000 200", "day_and_night": True},
    )  # fmt: skip
    change_unit(actor=HOUSE, unit=ward.unit, slots=SLOTS)


def make(client, address, **fields):
    return client.post(address, {"form_key": str(uuid.uuid4()), "size": "14", **fields})


def words(pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return " ".join(" ".join(page.extract_text() for page in opened.pages).split())


def test_an_empty_slot_is_a_clear_page_that_names_who_can_fill_it_and_stores_nothing(amber, address):
    answer = make(amber, address)
    assert answer.status_code == 422
    for said in (answer.content.decode(), amber.get(address).content.decode()):
        assert "Not filled in for this unit: minutes of pressing on a bleeding spot before ringing." in said
        assert "by Linden Brook." in said
        assert "The number to ring, day and night, is not arranged yet." in said
        assert "hours without urine" not in said, "no urostomy, so nobody leans on that slot"
        assert "Make the sheet" not in said
    assert not Paper.objects.exists()


def test_a_urostomy_leans_on_hours_without_urine(amber, ada, address, ward):  # noqa: F811
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    assert "Not filled in for this unit: hours without urine before ringing." in amber.get(address).content.decode()


def test_the_lead_is_led_to_the_settings_and_a_nurse_is_not(amber, address, ward, signed_in):  # noqa: F811
    settings = reverse("unit-settings", args=[ward.unit.uid])
    assert settings not in amber.get(address).content.decode()


@pytest.mark.parametrize("size", ["14", "18"])
def test_it_is_made_kept_and_reprinted_byte_for_byte(amber, address, ada, filled, size):  # noqa: F811
    answer = make(amber, address, size=size)
    assert (answer.status_code, answer.url) == (303, reverse("readiness", args=[ada.uid]))
    paper = Paper.objects.get()
    assert (paper.kind, paper.signed_by, paper.content["size"]) == ("take-home", None, int(size))
    again = amber.get(reverse("kept-paper", args=[paper.uid])).content
    assert again == bytes(PaperFile.objects.get().bytes)
    said = words(again)
    assert "Ring now, day or night: 00000 000 200" in said
    assert "when you press on it for 10 minutes" in said
    page = amber.get(reverse("readiness", args=[ada.uid])).content.decode()
    assert f"{size} point, in English. Made by Amber Oakley" in page


def test_no_print_chosen_stores_nothing(amber, address, filled):
    answer = make(amber, address, size="9")
    assert answer.status_code == 422
    assert "Tap the print that this person can read." in answer.content.decode()
    assert not Paper.objects.exists()


def test_another_language_needs_a_translated_sheet_and_the_page_says_so(amber, address, ada):  # noqa: F811
    assert "translated sheet" not in amber.get(address).content.decode()
    known = PersonDetails.objects.get(person=ada.person)
    PersonDetails.objects.create(
        person=ada.person, number=2, authority=known.authority, mrn=known.mrn, family_name=known.family_name,
        given_names=known.given_names, born=known.born, language="pl",
    )  # fmt: skip
    assert "This person reads Polish. The sheet is in English: a translated sheet is needed" in (
        amber.get(address).content.decode()
    )


def measured(ward, ada, stoma, hours_ago=2, **seen):  # noqa: F811
    finding = FindingEntry(**{"width_mm": 32, "height_mm": 30, **seen})
    entry = SessionEntry(
        stay=ada, stoma=stoma, procedure="change", began_at=ward.now - timedelta(hours=hours_ago), finding=finding,
        ratings=(), role="taught",
    )  # fmt: skip
    return record_session(actor=ward.staff["amber"], entry=entry)


def test_without_a_size_there_is_no_size_page_and_the_page_says_why(amber, address, stoma):  # noqa: F811
    answer = amber.get(reverse("size-page", args=[stoma.uid]))
    assert (answer.status_code, answer.url) == (302, address)
    assert "Not measured on both axes yet" in amber.get(address).content.decode()


def test_a_place_to_go_that_nobody_filled_in_is_written_by_hand(amber, address, ward, filled):  # noqa: F811
    by_hand = "is not filled in for this unit: write it into the empty line by hand."
    assert by_hand in " ".join(amber.get(address).content.decode().split())
    change_unit(actor=HOUSE, unit=ward.unit, slots=SLOTS | {"place-to-go": "the ward on Elm Road"})
    assert by_hand not in " ".join(amber.get(address).content.decode().split())

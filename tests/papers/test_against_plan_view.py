"""Leaving against the plan: what is open, kit, number, who was told, a call within a day; signed, kept, no blame."""

import io
import re
import uuid
from datetime import UTC, datetime, timedelta

import pdfplumber
import pytest
from django.urls import reverse

from teaching.models import Paper, PaperFile
from teaching.papers.against_plan import WITHOUT_FIGURE
from teaching.record.arrangements import make_arrangement
from teaching.record.calls import calls_owed
from teaching.record.entries import CareEntry
from teaching.record.places import change_unit
from teaching.record.sessions import record_care
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401
from tests.bedside.ward import HOUSE, NIGHT, PASSWORD

HIDDEN = re.compile(r'name="(shown|judged_at)" value="([^"]+)"')
SAID = {
    "told": "Dr Nettle (made up), surgical team", "told_at_0": "2026-05-13T02:05", "kit_days": "7",
    "number": "00000 000 200", "call_by": "Sorrel Vane, stoma nurse", "call_at_0": "2026-05-13T18:00",
}  # fmt: skip


@pytest.fixture
def amber(signed_in, ada, stoma):  # noqa: F811
    return signed_in("amber")


@pytest.fixture
def address(ada):  # noqa: F811
    return reverse("against-plan", args=[ada.uid])


def send(client, address, fields=None, **said):
    hidden = fields or dict(HIDDEN.findall(client.get(address).content.decode()))
    body = {"form_key": str(uuid.uuid4()), "password": PASSWORD, **hidden, **SAID, **said}
    return client.post(address, body)


def pages(pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return [" ".join(page.extract_text().split()) for page in opened.pages]


def test_it_is_signed_kept_and_says_all_of_it(amber, address, ada):  # noqa: F811
    answer = send(amber, address)
    assert (answer.status_code, answer.url) == (303, reverse("readiness", args=[ada.uid]))
    paper = Paper.objects.get()
    assert (paper.kind, paper.signed_by.details.get().name) == ("against-plan", "Amber Oakley")
    first, sheet = pages(bytes(paper.file.bytes))
    assert "Leaving Wed 13 May 2026 02:14. Planned was Fri 15 May 2026 02:14." in first
    assert "Told Dr Nettle (made up), surgical team, Wed 13 May 2026 02:05" in first
    assert "Kit for 7 days." in first and "less than" not in first
    assert "Call to the person Sorrel Vane, stoma nurse, Wed 13 May 2026 18:00" in first
    assert "A number to ring, day and night: not arranged yet." in first
    assert "Ring now, day or night: 00000 000 200" in sheet
    assert "You can come back, or ring, at any time." in sheet
    assert reverse("kept-paper", args=[paper.uid]) in amber.get(answer.url).content.decode()


def test_it_is_judged_for_leaving_now_and_an_overdue_pouch_comes_off_first(amber, address, ada, stoma, ward):  # noqa: F811
    """Changed 80 hours ago, every 72; the planned day is in two days."""
    entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=80))
    record_care(actor=ward.staff["amber"], entry=entry)
    page = amber.get(address).content.decode()
    assert "Was due Tue 12 May 2026 18:14: to be changed before leaving." in page
    send(amber, address)
    first, sheet = pages(bytes(PaperFile.objects.get().bytes))
    assert "Was due Tue 12 May 2026 18:14: to be changed before leaving." in first
    assert "Sat 16 May" not in first
    assert "My next change: now, before you go." in sheet


def test_the_promised_call_is_owed_from_then_on(amber, address, ward):  # noqa: F811
    send(amber, address)
    (owed,) = calls_owed(ward.unit, NIGHT)
    assert (owed.name, owed.noted, owed.promised_by) == ("Ada Fernhollow", False, "Sorrel Vane, stoma nurse")
    assert owed.call.by == datetime(2026, 5, 13, 17, 0, tzinfo=UTC)  # 18:00 on the ward's clock


def test_an_unset_slot_never_keeps_the_short_sheet_back_and_no_figure_is_made_up(amber, address, ada, ward):  # noqa: F811
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    send(amber, address)
    sheet = pages(bytes(PaperFile.objects.get().bytes))[1]
    assert WITHOUT_FIGURE["press-minutes"] in sheet
    assert f"Left stoma: {WITHOUT_FIGURE['hours-without-urine']}" in sheet
    assert "minutes" not in sheet


def test_a_set_slot_is_said(amber, address, ward):  # noqa: F811
    change_unit(actor=HOUSE, unit=ward.unit, slots={"press-minutes": "10"})
    send(amber, address)
    assert "when you press on it for 10 minutes" in pages(bytes(PaperFile.objects.get().bytes))[1]


def test_less_than_a_week_of_kit_is_said_not_refused(amber, address):
    assert send(amber, address, kit_days="3").status_code == 303
    assert "Kit for 3 days. This is less than 7 days: more must be sent in time." in (
        pages(bytes(PaperFile.objects.get().bytes))[0]
    )


def test_no_argument_and_no_blame(amber, address):
    send(amber, address)
    said = " ".join(pages(bytes(PaperFile.objects.get().bytes))).lower()
    for word in ("against advice", "refus", "risk", "liab", "responsib", "fault", "must stay", "warned"):
        assert word not in said


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"told": ""}, "Write who was told"),
        ({"told_at_0": "2026-05-13T02:15"}, "This is still to come"),
        ({"kit_days": "-1"}, "Write a whole number of days, 0 or more."),
        ({"kit_days": ""}, "Write a whole number of days, 0 or more."),
        ({"number": ""}, "Write a number that is answered day and night."),
        ({"call_by": ""}, "Write who rings"),
        ({"call_at_0": "2026-05-14T02:15"}, "The call is to be within 24 hours from now"),
        ({"call_at_0": "2026-05-13T02:14"}, "This moment is already past"),
        ({"call_at_0": ""}, "Write when they ring"),
        ({"password": "not hers"}, "This is not your password."),
    ],
)
def test_bad_input_gets_a_sentence_and_stores_nothing(amber, address, said, sentence):
    answer = send(amber, address, **said)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert not Paper.objects.exists()


def test_a_call_at_the_very_24_hours_is_in_time(amber, address):
    assert send(amber, address, call_at_0="2026-05-14T02:14").status_code == 303


def test_moved_facts_are_refused(amber, address, ada, ward):  # noqa: F811
    fields = dict(HIDDEN.findall(amber.get(address).content.decode()))
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="spare-kit", state="made")
    answer = send(amber, address, fields)
    assert answer.status_code == 409
    assert "Read it again, then sign." in answer.content.decode()
    assert not Paper.objects.exists()


def test_a_place_to_go_that_nobody_filled_in_is_written_by_hand(amber, address, ward):  # noqa: F811
    by_hand = "is not filled in for this unit: write it into the empty line by hand."
    assert by_hand in " ".join(amber.get(address).content.decode().split())
    change_unit(actor=HOUSE, unit=ward.unit, slots={"place-to-go": "the ward on Elm Road"})
    assert by_hand not in " ".join(amber.get(address).content.decode().split())


def test_a_number_that_nobody_can_ring_is_refused_and_nothing_is_kept(amber, address):
    answer = send(amber, address, number="ask the ward")
    assert answer.status_code == 422
    assert "Nobody can ring this: write the number with its digits, at least 3." in answer.content.decode()
    assert not Paper.objects.exists()

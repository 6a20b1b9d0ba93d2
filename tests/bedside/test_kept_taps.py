"""What a device kept while the network was gone: sent once, under the same user, into an unsigned draft."""

import base64
import json
import uuid
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Account, Draft, DraftTap
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT

CLOCK = NIGHT.isoformat()


@pytest.fixture
def page(ada, stoma, amber):
    """What the recorder's page handed to Amber's device."""
    return amber.get(reverse("emptying", args=[ada.uid])).context["device"]


@pytest.fixture
def which(ada, stoma):
    return f"{stoma.uid}:{ada.learners.get(kind='person').uid}"


@pytest.fixture
def tap(which):
    def one(field, value, minutes_ago=10, base="", uid=None):
        at = (NIGHT - timedelta(minutes=minutes_ago)).isoformat()
        return {"id": uid or str(uuid.uuid4()), "field": field, "value": value, "which": which, "base": base, "at": at}

    return one


@pytest.fixture
def send(page, amber):
    def post(*taps, client=amber, token=None, clock=CLOCK, **more):
        body = {"token": token or page.token, "checklist": page.checklist, "taps": json.dumps(taps), "clock": clock}
        return client.post(reverse("kept-taps"), body | more)

    return post


def kept():
    return dict(DraftTap.objects.order_by("pk").values_list("field", "value"))


def test_it_becomes_an_unsigned_draft_begun_when_the_first_was_tapped(send, tap):
    answer = send(tap("alone", True, 10), tap("ratings.em-close", "04", 8))
    assert answer.status_code == 200
    draft = Draft.objects.get()
    assert answer.json()["draft"] == str(draft.uid)
    assert kept() == {"alone": True, "ratings.em-close": "04"}
    assert draft.begun_at == NIGHT - timedelta(minutes=10)
    assert Account.objects.count() == 0


def test_the_devices_own_clock_is_taken_out(send, tap):
    """A device an hour ahead says 03:14 now, and tapped at what it called 02:04: an hour and ten minutes ago by it."""
    send(tap("alone", True, 10), clock=(NIGHT + timedelta(hours=1)).isoformat())
    assert Draft.objects.get().begun_at == NIGHT - timedelta(hours=1, minutes=10)


def test_sent_twice_because_the_answer_was_lost_it_is_kept_once(send, tap):
    taps = tap("alone", True), tap("ratings.em-close", "04")
    first, second = send(*taps), send(*taps)
    assert first.json()["draft"] == second.json()["draft"]
    assert (Draft.objects.count(), DraftTap.objects.count()) == (1, 2)


def test_it_goes_on_in_the_draft_that_was_begun_before_the_network_went(send, tap):
    begun = send(tap("alone", True)).json()["draft"]
    assert send(tap("ratings.em-close", "04"), draft=begun).json()["draft"] == begun


def test_a_worrying_value_is_a_caution_once_it_is_sent(send, tap, ada):
    answer = send(tap("finding.colour", "dark")).json()
    assert ada.cautions.get().sign == "dark-stoma"
    assert answer["cautions"][0]["sentence"].startswith("Call now: ")


def test_another_user_cannot_send_it(send, tap, signed_in):
    answer = send(tap("alone", True), client=signed_in("basil"))
    assert (answer.status_code, Draft.objects.count()) == (422, 0)
    assert answer.json()["sentences"][0].startswith("What this device held was not yours")


def test_after_twelve_hours_it_is_not_taken(send, tap, signed_in):
    with time_machine.travel(NIGHT + timedelta(hours=12, seconds=2), tick=False):
        answer = send(tap("alone", True), client=signed_in("amber"))
    assert (answer.status_code, Draft.objects.count()) == (422, 0)


@pytest.mark.parametrize("token", ["", "made-up", "WyJhIl0:1w:x"])
def test_a_token_we_never_gave_opens_nothing(send, tap, token):
    assert send(tap("alone", True), token=token or " ").status_code == 422


def test_a_stay_that_moved_out_of_reach_is_not_written_to(send, tap, ward, ada):
    from teaching.record.stays import note_stay_event

    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="moved", unit=ward.other, bed="W1")
    assert (send(tap("alone", True)).status_code, Draft.objects.count()) == (422, 0)


def test_an_answer_that_fits_no_row_is_said_and_the_rest_is_kept(send, tap):
    answer = send(tap("ratings.of-nothing", "04"), tap("alone", True), checklist="another 9").json()
    assert kept() == {"alone": True}
    assert answer["sentences"] == [
        "The checklist has changed since. Look the session over before you sign it.",
        "Not saved: ratings.of-nothing is no answer here any more.",
    ]


@pytest.mark.parametrize("body", ["", '{"a": 1}', "[1]", '[{"id": "one"}]', "[{}]", "7"])
def test_what_our_script_never_sends_is_a_bad_request(amber, page, body):
    sent = {"token": page.token, "checklist": page.checklist, "taps": body, "clock": CLOCK}
    assert amber.post(reverse("kept-taps"), sent).status_code == 400
    assert not DraftTap.objects.exists()


def test_the_token_says_nothing_of_who_it_is(page, ada, ward):
    text = page.token + base64.urlsafe_b64decode(page.token.split(":")[0].lstrip(".") + "===").decode(errors="ignore")
    for told in ("Ada", "Fernhollow", "000-A1", "1958", "Amber", "amber"):
        assert told not in text


def test_the_page_says_what_is_kept_and_that_notes_are_shut(page, ada, amber):
    text = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "what you tap is kept on this device without a name" in text
    assert "Notes are shut meanwhile, and nothing can be signed." in text

"""Every tap is kept in the nurse's own draft, and gone on with later. Nothing counts unsigned."""

import json
import uuid
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Account, Draft, DraftTap
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def tap(ada, stoma, person, amber):
    """tap("alone", True) as the recorder's script sends it."""

    def send(field, value, client=amber, client_id=None, **more):
        body = {
            "which": f"{stoma.uid}:{person.uid}", "field": field, "value": json.dumps(value),
            "client_id": client_id or str(uuid.uuid4()), **more,
        }  # fmt: skip
        return client.post(reverse("tap-emptying", args=[ada.uid]), body)

    return send


def test_the_first_tap_begins_a_draft_and_says_when_it_was_saved(tap, stoma, ward):
    answer = tap("alone", True)
    assert answer.status_code == 200
    draft = Draft.objects.get()
    assert answer.json() == {"draft": str(draft.uid), "at": "02:14", "cautions": []}
    assert (draft.stoma, draft.procedure, draft.owner) == (stoma, "emptying", ward.staff["amber"].clinician)
    assert list(draft.taps.values_list("field", "value")) == [("alone", True)]
    assert Account.objects.count() == 0


def test_the_next_tap_stands_in_the_same_draft(tap):
    begun = tap("alone", True).json()["draft"]
    assert tap("ratings.em-close", "04", draft=begun).json()["draft"] == begun
    assert Draft.objects.count() == 1


def test_the_same_tap_sent_twice_is_kept_once(tap):
    mine = str(uuid.uuid4())
    begun = tap("alone", True, client_id=mine).json()["draft"]
    assert tap("alone", True, client_id=mine, draft=begun).status_code == 200
    assert DraftTap.objects.count() == 1


def test_what_was_tapped_stands_on_the_page_again(tap, ada, amber):
    begun = tap("alone", True).json()["draft"]
    tap("ratings.em-close", "04", draft=begun)
    page = amber.get(reverse("emptying", args=[ada.uid]), {"draft": begun}).content.decode()
    assert f'name="draft" value="{begun}"' in page
    form = amber.get(reverse("emptying", args=[ada.uid]), {"draft": begun}).context["form"]
    assert (form["alone"].value(), form["ratings.em-close"].value()) == (True, "04")


def test_a_draft_is_shown_to_all_and_gone_on_with_by_its_own_nurse(tap, ada, amber, signed_in):
    begun = tap("alone", True).json()["draft"]
    address = reverse("person", args=[ada.uid])
    own, other = amber.get(address), signed_in("basil").get(address)
    assert "Begun today 02:14 by you, not signed. It does not count yet. Go on with it" in words(own)
    assert "Amber Oakley is recording now, begun today 02:14, not signed. It does not count yet." in words(other)
    assert "Go on with it" not in words(other)
    with time_machine.travel(NIGHT + timedelta(minutes=5, seconds=1), tick=False):
        later = words(signed_in("basil").get(address))
    assert "Begun today 02:14 by Amber Oakley, not signed. It does not count yet. Take it over" in later
    there = signed_in("basil").get(reverse("emptying", args=[ada.uid]), {"draft": begun})
    assert there.context["form"]["alone"].value() is not True


def test_another_stoma_is_another_draft(ward, tap, ada, person):
    begun = tap("alone", True).json()["draft"]
    left = ward.stoma(ada, "colostomy", "left")
    answer = tap("which", "", draft=begun, which=f"{left.uid}:{person.uid}")
    assert answer.json()["draft"] != begun
    assert Draft.objects.get(state="open").stoma == left


@pytest.mark.parametrize(
    "wrong",
    [{"field": "signed_by"}, {"client_id": "one"}, {"value": "{"}, {"which": "nobody"}],
    ids=lambda wrong: next(iter(wrong)),
)
def test_a_tap_that_makes_no_sense_is_a_bad_request_and_keeps_nothing(wrong, ada, stoma, person, amber):
    body = {
        "which": f"{stoma.uid}:{person.uid}",
        "field": "alone",
        "value": "true",
        "client_id": str(uuid.uuid4()),
    }
    assert amber.post(reverse("tap-emptying", args=[ada.uid]), body | wrong).status_code == 400
    assert not DraftTap.objects.exists()


def test_a_tap_is_not_a_page(ada, stoma, amber):
    assert amber.get(reverse("tap-emptying", args=[ada.uid])).status_code == 405


def test_a_worrying_value_is_a_caution_at_the_tap(tap, ada, ward):
    answer = tap("finding.colour", "dark").json()
    caution = ada.cautions.get()
    assert (caution.sign, caution.list) == ("dark-stoma", "call_now")
    assert caution.event_uid == Draft.objects.get().event_uid
    assert answer["cautions"] == [
        {
            "list": "call_now",
            "sentence": f"Call now: {caution.words}. Stored; tell somebody and write whom.",
        }
    ]


def test_the_same_worrying_value_again_is_no_second_caution(tap, ada):
    mine = str(uuid.uuid4())
    begun = tap("finding.colour", "dark", client_id=mine).json()["draft"]
    assert tap("finding.colour", "dark", draft=begun, base=mine).status_code == 200
    assert ada.cautions.count() == 1


def test_a_normal_value_raises_nothing(tap, ada):
    assert tap("finding.colour", "pink-red").json()["cautions"] == []
    assert not ada.cautions.exists()


def test_sore_skin_in_one_region_is_a_caution_for_the_stoma_nurse(tap, ada):
    tap("skin.feet", "wet-raw")
    assert (ada.cautions.get().sign, ada.cautions.get().list) == ("sore-skin", "today")


def test_a_sign_that_is_asked_is_stored_when_it_is_ticked(tap, ada):
    tap("signs.call_now", ["fever-shakes"])
    assert ada.cautions.get().sign == "fever-shakes"


def test_a_field_changed_on_another_device_meanwhile_is_a_conflict_with_both_values(tap):
    first = str(uuid.uuid4())
    begun = tap("ratings.em-close", "04", client_id=first).json()["draft"]
    tap("ratings.em-close", "03", draft=begun, base=first)
    late = tap("ratings.em-close", "05", draft=begun, base=first)
    assert late.status_code == 409
    assert (late.json()["there"], late.json()["yours"]) == ("03", "05")
    assert late.json()["sentence"] == (
        "Not saved: another device changed this meanwhile. It says: You did less than half of the work. "
        "You tapped: You only set out before or cleared up after. Tap yours again to keep it."
    )
    assert list(DraftTap.objects.order_by("pk").values_list("value", flat=True)) == ["04", "03"]


def test_another_field_meanwhile_is_no_conflict(tap):
    begun = tap("ratings.em-close", "04").json()["draft"]
    assert tap("ratings.em-open", "06", draft=begun).status_code == 200


def test_tapping_again_on_top_of_what_was_shown_keeps_ones_own(tap):
    begun = tap("ratings.em-close", "04").json()["draft"]
    told = tap("ratings.em-close", "05", draft=begun).json()
    assert tap("ratings.em-close", "05", draft=begun, base=told["base"]).status_code == 200


def test_the_same_value_on_two_devices_is_no_conflict(tap):
    begun = tap("ratings.em-close", "04").json()["draft"]
    assert tap("ratings.em-close", "04", draft=begun).status_code == 200


def test_a_session_gone_on_with_knows_what_its_next_taps_stand_on(tap, ada, amber):
    mine = str(uuid.uuid4())
    begun = tap("ratings.em-close", "04", client_id=mine).json()["draft"]
    page = amber.get(reverse("emptying", args=[ada.uid]), {"draft": begun}).content.decode()
    assert f'<script id="bases" type="application/json">{{"ratings.em-close": "{mine}"}}</script>' in page


def test_a_tap_in_a_session_signed_meanwhile_is_said_and_begins_nothing_new(tap, ada, amber, stoma, person):
    begun = tap("ratings.em-close", "04").json()["draft"]
    which = f"{stoma.uid}:{person.uid}"
    body = {"which": which, "ratings.em-close": "04", "draft": begun, "form_key": str(uuid.uuid4())}
    amber.post(reverse("emptying", args=[ada.uid]), body)
    late = tap("ratings.em-open", "06", draft=begun)
    assert (late.status_code, late.json()["sentence"]) == (
        409, "Not saved: This session is already signed or dropped. Begin anew.",
    )  # fmt: skip
    assert Draft.objects.count() == 1

"""Care given and a leak: three choices, nothing rated."""

import re

from django.urls import reverse

from teaching.models import Account, Rating
from tests.bedside.reading import words


def test_a_leak_in_three_choices(ada, stoma, send):
    answer = send("care", ada, which=str(stoma.uid), what="leak")
    assert (answer.status_code, answer["Location"]) == (303, reverse("person", args=[ada.uid]))
    account = Account.objects.get()
    assert (account.event.kind, account.event.procedure) == ("care", "change")
    assert (account.finding.wear_end, account.finding.leak_track) == ("leak", "")
    assert not Rating.objects.exists()


def test_where_a_leak_tracked_is_kept(ada, stoma, send):
    send("care", ada, which=str(stoma.uid), what="leak", leak_track="own-left")
    assert Account.objects.get().finding.leak_track == "own-left"


def test_emptied_by_a_nurse(ada, stoma, send, signed_in):
    send("care", ada, client=signed_in("ashby"), which=str(stoma.uid), what="emptied")
    account = Account.objects.get()
    assert (account.event.procedure, account.rater_grade) == ("emptying", "assistant")
    assert not hasattr(account, "finding")


def test_a_urostomys_pouch_is_emptied_as_urine(ward, ada, send):
    tap = ward.stoma(ada, "urostomy", outlet="tap")
    send("care", ada, which=str(tap.uid), what="emptied")
    assert Account.objects.get().event.procedure == "urine"


def test_nothing_is_chosen_before_somebody_taps(ada, stoma, amber):
    page = amber.get(reverse("care", args=[ada.uid])).content.decode()
    assert 'value="leak"' in page
    assert re.findall(r'<input[^>]*name="(\w+)"[^>]* checked', page) == ["leak_track"]  # not seen


def test_nothing_tapped_is_refused_beside_the_fields(ada, stoma, send):
    answer = send("care", ada)
    assert answer.status_code == 422
    assert "Tap what you did." in words(answer)
    assert "Tap the stoma, once they have said their name and birth date." in words(answer)
    assert Account.objects.count() == 0


def test_a_track_without_a_leak_is_refused(ada, stoma, send):
    answer = send("care", ada, which=str(stoma.uid), what="changed", leak_track="feet")
    assert answer.status_code == 422
    assert "This goes with a leak." in words(answer)
    assert Account.objects.count() == 0


def test_emptying_a_closed_pouch_is_refused(ward, ada, stoma, send):
    closed = ward.stoma(ada, "colostomy", "left", closure="closed", outlet="")
    answer = send("care", ada, which=str(closed.uid), what="emptied")
    assert answer.status_code == 422
    assert Account.objects.count() == 0


def test_a_closed_pouch_is_swapped(ward, ada, send):
    closed = ward.stoma(ada, "colostomy", "left", closure="closed", outlet="")
    send("care", ada, which=str(closed.uid), what="swapped")
    assert Account.objects.get().event.procedure == "swap"


def test_a_time_still_to_come_is_refused(ada, stoma, send):
    answer = send("care", ada, which=str(stoma.uid), what="leak", at_0="2026-05-14T09:00")
    assert answer.status_code == 422
    assert "still to come" in words(answer)
    assert Account.objects.count() == 0


def test_two_leaks_in_a_day_raise_one_caution_for_the_stoma_nurse(ada, stoma, send, amber):
    leak = {"which": str(stoma.uid), "what": "leak"}
    send("care", ada, **leak, at_0="2026-05-12T20:00")
    assert not ada.cautions.exists()
    send("care", ada, **leak)
    caution = ada.cautions.get()
    assert (caution.sign, caution.list, caution.stoma) == ("two-leaks", "today", stoma)
    page = words(amber.get(reverse("person", args=[ada.uid])))
    assert "Stored a caution: 2 leaks or more in 24 hours. Tell somebody and write whom." in page
    send("care", ada, **leak, at_0="2026-05-12T22:00")
    assert ada.cautions.count() == 1

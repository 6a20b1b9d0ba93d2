"""What differed in a change: another learner, lower levels and why, powder and the skin, times, broken off."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import Account
from teaching.record.stomas import note_body_event
from tests.bedside.reading import words
from tests.bedside.test_change import ALONE, USUAL
from tests.bedside.ward import NIGHT

GOOD = {f"skin.{region}": "good" for region in ("head", "own-left", "feet", "own-right")}


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def hugo(ward, ada):
    return ward.helper(ada)


@pytest.fixture
def who(stoma, person):
    return {"which": f"{stoma.uid}:{person.uid}"}


def rated(learner=None):
    ratings = Account.objects.get().ratings.all()
    return {one.code: one for one in (ratings.filter(learner=learner) if learner else ratings)}


def test_the_person_did_three_parts_and_the_helper_cut(ada, person, hugo, who, send):
    send("change", ada, **who, **ALONE, **{
        "part_who.fit-protect": str(hugo.uid), "ratings.cut": "04", "part_who.put-on": str(hugo.uid),
    })  # fmt: skip
    assert set(rated(hugo)) == {
        "measure", "fit-check", "cut", "shut-first", "centre", "press", "join", "close", "next-due",
    }  # fmt: skip
    assert rated(hugo)["cut"].answer == "04"
    assert set(rated(person)) == set(USUAL) - set(rated(hugo))


def test_one_row_is_given_to_another_learner_within_a_part(ada, person, hugo, who, send):
    send("change", ada, **who, **ALONE, **{"who.cut": str(hugo.uid)})
    assert set(rated(hugo)) == {"cut"}
    assert (rated(hugo)["cut"].answer, rated(hugo)["cut"].entered_as) == ("06", "phase")


def test_a_row_goes_back_to_the_person_within_the_helpers_part(ada, person, hugo, who, send):
    send("change", ada, **who, **ALONE, **{
        "part_who.fit-protect": str(hugo.uid), "who.measure": str(person.uid),
    })  # fmt: skip
    assert "measure" in rated(person)
    assert "cut" in rated(hugo)


def test_with_one_learner_nobody_is_asked_who(ada, stoma, amber):
    page = amber.get(reverse("change", args=[ada.uid])).content.decode()
    assert 'name="who.' not in page and 'name="part_who.' not in page


def test_the_level_before_says_whose(ward, ada, stoma, hugo, amber):
    ward.teach(ada, stoma, 20, "03", learner=hugo, codes=["cut"], procedure="change")
    assert "Hugo, husband, yesterday 06:14" in words(amber.get(reverse("change", args=[ada.uid])))


def test_a_helper_whose_yes_is_missing_is_not_among_them(ward, ada, person, who, send):
    tom = ward.helper(ada, "Tom", "son", agreed=False)
    ward.helper(ada)
    answer = send("change", ada, **who, **ALONE, **{"who.cut": str(tom.uid)})
    assert answer.status_code == 422
    assert not Account.objects.exists()


def test_a_lower_level_carries_its_reason_its_aids_and_a_few_words(ada, who, send):
    send("change", ada, **who, **ALONE, **{
        "ratings.cut": "03", "reason.cut": "new-kit", "aids.cut": ["magnifier"], "note.cut": "scissors blunt",
    })  # fmt: skip
    cut = rated()["cut"]
    assert (cut.answer, cut.reason, cut.aids, cut.note, cut.entered_as) == (
        "03", "new-kit", ["magnifier"], "scissors blunt", "step",
    )  # fmt: skip


def test_an_aid_is_written_beside_a_sentence_too_and_lowers_nothing(ada, who, send):
    send("change", ada, **who, **ALONE, **{"aids.look-under": ["mirror"]})
    assert (rated()["look-under"].answer, rated()["look-under"].aids) == ("06", ["mirror"])


def test_reported_is_one_rows(ada, who, send):
    send("change", ada, **who, **{"ratings.press": "06", "reported.press": "on", "ratings.join": "06"})
    assert {code: one.reported for code, one in rated().items()} == {"press": True, "join": False}


def test_practice_is_one_rows_or_the_whole(ada, who, send):
    send("change", ada, **who, **{"ratings.cut": "06", "practised.cut": "on", "ratings.join": "06"})
    assert {code: one.practice for code, one in rated().items()} == {"cut": True, "join": False}


def test_nothing_said_of_any_part(ada, who, send):
    answer = send("change", ada, **who)
    assert answer.status_code == 422
    assert "Open a part and tap its sentence, or answer a step in it." in words(answer)


def test_a_refused_change_comes_back_with_its_parts_open(ada, who, send):
    answer = send("change", ada, **who, **{"alone.prepare": "on"}, began_at_0="tomorrow")
    parts = answer.context["page"].parts
    assert [part.code for part in parts if part.opened] == ["prepare"]
    assert re.search(r'name="alone.prepare"[^>]*checked', answer.content.decode())


@pytest.mark.parametrize(
    ("skin", "judged", "hint"),
    [
        ({}, "right", "No skin is written down for this event yet."),
        (GOOD, "not_needed", "Skin was found the same as nearby: powder is not needed on it."),
        ({"skin.feet": "wet-raw"}, "right", "Skin found: wet or raw towards the feet. A dusting there"),
        ({"skin.feet": "spots"}, "right", "Not raw or wet: powder does not mend it; ask the stoma nurse."),
    ],
    ids=["nothing found", "good", "raw", "spots"],
)
def test_powder_is_tied_to_the_skin_found_in_this_event(skin, judged, hint, ward, ada, person, send):
    dusted = ward.stoma(ada, items=("powder",))
    body = {"which": f"{dusted.uid}:{person.uid}", **skin}
    assert hint in words(send("change", ada, **body))  # nothing rated yet: it comes back
    send("change", ada, **body, **ALONE)
    assert rated()["powder"].answer == judged


def test_a_rod_asks_of_tubes(ward, ada, stoma, amber):
    note_body_event(
        actor=ward.staff["amber"], stay=ada, code="rod", change="began", at=NIGHT - timedelta(days=3), stoma=stoma
    )
    assert "Know which tubes must not be pulled" in words(amber.get(reverse("change", args=[ada.uid])))


def test_where_how_long_and_in_what_language(ada, who, send):
    send("change", ada, **who, **ALONE, minutes="20", place="bathroom", language="Polish", interpreter="trained")
    account = Account.objects.get()
    assert (account.place, account.language, account.interpreter) == ("bathroom", "Polish", "trained")
    assert account.ended_at == NIGHT
    assert account.ended_at - account.began_at == timedelta(minutes=20)


def test_a_late_entry_began_when_it_is_said_to_have(ada, who, send):
    send("change", ada, **who, **ALONE, began_at_0="2026-05-12T10:00", minutes="30")
    account = Account.objects.get()
    assert account.began_at.isoformat() == "2026-05-12T09:00:00+00:00"
    assert account.ended_at - account.began_at == timedelta(minutes=30)


def test_it_cannot_have_lasted_into_the_time_to_come(ada, who, send):
    answer = send("change", ada, **who, **ALONE, began_at_0="2026-05-13T02:10", minutes="30")
    assert answer.status_code == 422
    assert answer.context["form"].errors["minutes"]


def test_broken_off_is_normal_and_says_so(ada, who, send):
    send("change", ada, **who, **{"alone.prepare": "on"}, broken_off="on")
    assert Account.objects.get().ended_how == "broken-off"


def test_a_leak_found_at_the_change_is_a_wear_that_ended(ada, who, send):
    send("change", ada, **who, **ALONE, **{"finding.wear_end": "leak", "finding.leak_track": "feet"})
    assert Account.objects.get().finding.wear_end == "leak"


def test_two_stomas_keep_their_rows_apart(ward, ada, stoma, person, send):
    other = ward.stoma(ada, "colostomy", "left", pieces="one")
    send("change", ada, which=f"{other.uid}:{person.uid}", **ALONE)
    assert not {"join", "off-cover"} & set(rated())
    assert Account.objects.get().event.stoma == other

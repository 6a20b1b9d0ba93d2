"""An emptying recorded with scripts off: three choices and a signature."""

import re
import uuid

import pytest
from django.urls import reverse

from teaching.models import Account, Draft, RequestKey
from tests.bedside.reading import words
from tests.bedside.ward import EMPTYING, URINE


def which(stoma, learner):
    return f"{stoma.uid}:{learner.uid}"


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def taps(stoma, person):
    return {"which": which(stoma, person), "alone": "on"}


def test_three_taps_store_the_whole_emptying_alone(ada, taps, send):
    answer = send("emptying", ada, **taps)
    assert (answer.status_code, answer["Location"]) == (303, reverse("person", args=[ada.uid]))
    account = Account.objects.get()
    stored = account.ratings.order_by("row__position").values_list("code", "answer", "entered_as", "practice")
    assert list(stored) == [(code, "06", "phase", False) for code in EMPTYING]
    assert account.ended_how == "finished"
    assert account.rater.details.get().name == "Amber Oakley"


def test_nothing_is_chosen_before_somebody_taps(ada, stoma, amber):
    page = amber.get(reverse("emptying", args=[ada.uid])).content.decode()
    assert page.count('type="radio"') > 50
    assert not re.findall(r"<input[^>]* checked", page)
    assert set(re.findall(r'<option value="([^"]*)" selected', page)) == {""}  # skin: not looked at


def test_the_two_identifiers_are_asked_at_the_start_and_shown_again_at_signing(ada, stoma, amber):
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert page.count("Ada Fernhollow, born 2 Mar 1958, number 000-A1") == 2
    assert page.index("Ask them to say name and birth date") < page.index("You sign as Amber Oakley, registered nurse")


def test_a_row_that_was_opened_is_stored_as_it_was_said(ada, taps, send):
    send("emptying", ada, **taps, **{
        "ratings.em-close": "04", "reason.em-close": "rushed", "aids.em-close": ["mirror", "cue-card"],
    })  # fmt: skip
    close = Account.objects.get().ratings.get(code="em-close")
    assert (close.answer, close.entered_as, close.reason) == ("04", "step", "rushed")
    assert set(close.aids) == {"mirror", "cue-card"}
    assert set(Account.objects.get().ratings.exclude(code="em-close").values_list("answer", flat=True)) == {"06"}


def test_without_the_sentence_only_what_was_opened_is_rated(ada, stoma, person, send):
    send("emptying", ada, which=which(stoma, person), **{"ratings.em-open": "03", "ratings.em-wipe": "07"})
    stored = dict(Account.objects.get().ratings.values_list("code", "answer"))
    assert stored == {"em-open": "03", "em-wipe": "07"}


def test_practice_is_stored_as_practice_on_all_rows(ada, taps, send):
    send("emptying", ada, **taps, practice="on")
    assert set(Account.objects.get().ratings.values_list("practice", flat=True)) == {True}


def test_each_row_shows_the_level_before_and_what_to_watch_for(ward, ada, stoma, amber):
    ward.teach(ada, stoma, 5, ["06", "06", "06", "04", None])
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert (
        "Shut the outlet and check it 04 You had to cue, or steady with a touching hand last, yesterday 21:14" in page
    )
    assert "Wash hands not met before" in page
    assert "Watch for: shut only half way, or the wrong way round; not clean where it shuts." in page


def test_prompts_are_words_and_not_rated(ada, stoma, amber):
    page = amber.get(reverse("emptying", args=[ada.uid]))
    assert "Do it at a toilet, as at home" in words(page)
    assert 'name="ratings.em-place"' not in page.content.decode()


def test_09_is_never_offered(ada, stoma, amber):
    page = amber.get(reverse("emptying", args=[ada.uid])).content.decode()
    assert 'value="88"' in page
    assert 'value="09"' not in page


def test_a_urostomy_goes_through_the_same_page(ward, ada, send):
    tap = ward.stoma(ada, "urostomy", outlet="tap")
    send("emptying", ada, which=which(tap, ada.learners.get()), alone="on")
    assert list(Account.objects.get().ratings.order_by("row__position").values_list("code", flat=True)) == list(URINE)
    assert Account.objects.get().event.procedure == "urine"


def test_a_closed_pouch_is_swapped_through_the_same_page(ward, ada, send):
    closed = ward.stoma(ada, "colostomy", "left", closure="closed", outlet="")
    send("emptying", ada, which=which(closed, ada.learners.get()), alone="on")
    stored = Account.objects.get().ratings.order_by("row__position").values_list("code", flat=True)
    assert list(stored) == ["cl-when", "cl-off", "cl-on"]


def test_two_stomas_keep_their_rows_apart(ward, ada, stoma, person, send):
    tap = ward.stoma(ada, "urostomy", "left", outlet="tap")
    send("emptying", ada, which=which(tap, person), alone="on", **{"ratings.em-close": "01"})
    assert set(Account.objects.get().ratings.values_list("code", flat=True)) == set(URINE)


def test_a_helper_who_said_yes_is_rated_and_not_the_person(ward, ada, stoma, send):
    hugo = ward.helper(ada)
    send("emptying", ada, which=which(stoma, hugo), alone="on")
    assert set(Account.objects.get().ratings.values_list("learner", flat=True)) == {hugo.pk}


def test_a_students_session_is_a_students_entry(ada, taps, send, signed_in):
    send("emptying", ada, client=signed_in("tansy"), **taps)
    account = Account.objects.get()
    assert (account.role, account.rater_grade) == ("student", "student")


def test_the_same_form_five_times_is_stored_once(ada, taps, send):
    key = str(uuid.uuid4())
    answers = [send("emptying", ada, form_key=key, **taps) for _ in range(5)]
    assert {(answer.status_code, answer["Location"]) for answer in answers} == {
        (303, reverse("person", args=[ada.uid]))
    }
    assert Account.objects.count() == 1


def test_a_key_used_for_other_content_is_refused(ada, taps, send):
    key = str(uuid.uuid4())
    send("emptying", ada, form_key=key, **taps)
    assert send("emptying", ada, form_key=key, **taps, practice="on").status_code == 422
    assert Account.objects.count() == 1


def test_a_form_without_its_key_is_a_bad_request(ada, taps, amber):
    assert amber.post(reverse("emptying", args=[ada.uid]), taps).status_code == 400
    assert Account.objects.count() == 0


def test_what_the_server_decides_cannot_be_posted(ward, ada, taps, send):
    send(
        "emptying",
        ada,
        **taps,
        signed_by="basil",
        rater="2",
        recorded_at="2020-01-01",
        status="final",
        role="paired",
    )
    account = Account.objects.get()
    assert (account.rater, account.role) == (ward.staff["amber"].clinician, "taught")
    assert account.recorded_at.year == 2026


def test_signing_closes_the_draft_it_came_from(ward, ada, stoma, taps, send, amber):
    said = {"which": taps["which"], "client_id": str(uuid.uuid4()), "field": "alone", "value": "true"}
    begun = amber.post(reverse("tap-emptying", args=[ada.uid]), said).json()["draft"]
    send("emptying", ada, **taps, draft=begun)
    draft = Draft.objects.get()
    assert draft.state == "signed"
    assert Account.objects.get().event.uid == draft.event_uid


def test_a_refusal_burns_no_key(ada, taps, send):
    key = str(uuid.uuid4())
    assert send("emptying", ada, form_key=key, which=taps["which"]).status_code == 422
    assert not RequestKey.objects.exists()
    assert send("emptying", ada, form_key=key, **taps).status_code == 303


def test_topics_talked_about_are_stored_as_they_were_said_and_never_as_alone(ada, taps, send):
    send("emptying", ada, **taps, **{"ratings.t-call": "told", "ratings.t-leak": "own_words"})
    topics = Account.objects.get().ratings.filter(row__procedure="topics")
    assert dict(topics.values_list("code", "answer")) == {"t-call": "told", "t-leak": "own_words"}


def test_a_topic_alone_is_a_session_too(ada, stoma, person, send):
    send("emptying", ada, which=which(stoma, person), **{"ratings.t-call": "told"})
    assert dict(Account.objects.get().ratings.values_list("code", "answer")) == {"t-call": "told"}


def test_with_a_helper_the_level_before_says_whose(ward, ada, stoma, amber):
    ward.teach(ada, stoma, 5, "04", learner=ward.helper(ada))
    assert "Hugo, husband, yesterday 21:14" in words(amber.get(reverse("emptying", args=[ada.uid])))

"""A recheck and a talk about topics are corrected on a page of their own, or marked as entered in error."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import Account
from teaching.record.charts import chart_for
from teaching.record.entries import RatingEntry, RecheckEntry, SessionEntry
from teaching.record.sessions import record_recheck, record_session
from tests.bedside.reading import words
from tests.bedside.test_recheck import held
from tests.bedside.ward import PASSWORD

HOUR = timedelta(hours=1)


@pytest.fixture
def correct(signed_in):
    def post(account, name="correct-account", by="amber", **fields):
        address = reverse(name, args=[account.uid])
        return signed_in(by).post(address, {"form_key": str(uuid.uuid4()), "password": PASSWORD, **fields})

    return post


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def recheck(ward, ada, stoma, person):
    """Amber tapped at 01:14 that Ada still manages all of an emptying; Hugo holds it too."""
    held(ward, ada, stoma)
    helper = ward.helper(ada)
    for hours in (29, 20):
        ward.teach(ada, stoma, hours, "06", learner=helper)
    at = ward.now - HOUR + timedelta(seconds=33)
    entry = RecheckEntry(stay=ada, stoma=stoma, procedure="emptying", learner=person, at=at)
    return record_recheck(actor=ward.staff["amber"], entry=entry)


def hugo(ada, stoma):
    return f"emptying:{stoma.uid}:{ada.learners.get(kind='helper').uid}"


def test_a_recheck_leads_to_its_correction_filled_in_as_it_was_signed(recheck, ada, stoma, person, amber):
    session = amber.get(reverse("session", args=[recheck.event.uid]))
    assert "Correct this" in words(session) and "Entered in error" in words(session)
    page = amber.get(reverse("correct-account", args=[recheck.uid]))
    form = page.context["form"]
    assert form["which"].value() == f"emptying:{stoma.uid}:{person.uid}"
    assert dict(form.fields["which"].choices)[hugo(ada, stoma)] == "Hugo, husband: emptying"
    assert 'value="2026-05-13T01:14' in page.content.decode()


def test_the_other_learner_counts_from_then_on_and_the_first_stays_readable(recheck, ada, stoma, correct, amber):
    said = {"which": hugo(ada, stoma), "at_0": "2026-05-13T01:14", "reason": "It was Hugo."}
    answer = correct(recheck, **said)
    assert (answer.status_code, answer.url) == (303, reverse("session", args=[recheck.event.uid]))
    (tap,) = chart_for(ada).rechecks
    assert (tap.learner, tap.at) == (str(ada.learners.get(kind="helper").uid), recheck.began_at)
    told = words(amber.get(answer.url))
    assert "Replaced by a later version." in told and "It was Hugo." in told
    newest = Account.objects.get(kind="correction")
    assert {one.answer for one in newest.ratings.all()} == {"06"} and newest.ratings.count() == recheck.ratings.count()


def test_another_hour_and_nothing_changed(recheck, ada, stoma, person, correct):
    said = {"which": f"emptying:{stoma.uid}:{person.uid}", "reason": "Wrong hour."}
    same = correct(recheck, at_0="2026-05-13T01:14", **said)
    assert same.status_code == 422 and "Nothing is different from what stands" in words(same)
    later = correct(recheck, at_0="2026-05-13T04:00", **said)
    assert later.status_code == 422 and "This time is still to come" in words(later)
    assert Account.objects.filter(kind="correction").count() == 0
    assert correct(recheck, at_0="2026-05-12T23:10", **said).status_code == 303
    assert [one.at for one in chart_for(ada).rechecks] == [recheck.began_at - timedelta(hours=2, minutes=4, seconds=33)]


def test_who_holds_nothing_is_not_offered(ward, recheck, ada, correct, stoma):
    ward.helper(ada, "Ivo", "son")
    ivo = ada.learners.get(name="Ivo").uid
    answer = correct(recheck, which=f"emptying:{stoma.uid}:{ivo}", at_0="2026-05-13T01:14", reason="Ivo.")
    assert answer.status_code == 422 and "Tap one of these." in words(answer)


def test_a_recheck_corrected_twice_from_one_page_is_409_and_only_ones_own(recheck, ada, stoma, correct, signed_in):
    said = {"which": hugo(ada, stoma), "at_0": "2026-05-13T01:14", "reason": "It was Hugo."}
    assert correct(recheck, **said).status_code == 303
    assert correct(recheck, **said).status_code == 409
    assert signed_in("basil").get(reverse("correct-account", args=[recheck.uid])).status_code == 403


def test_a_recheck_entered_in_error_renews_nothing(recheck, ada, correct, amber):
    assert correct(recheck, "entered-in-error", reason="Wrong person.").status_code == 303
    assert chart_for(ada).rechecks == ()
    retraction = Account.objects.get(kind="retraction")
    assert amber.get(reverse("correct-account", args=[retraction.uid])).status_code == 404


def test_a_recheck_of_what_is_no_longer_held_is_still_opened(recheck, ada, stoma, person, correct, amber):
    """Nothing is held without them; whom it was signed of is offered all the same."""
    for account in Account.objects.filter(event__kind="teaching"):
        assert correct(account, "entered-in-error", reason="Another person.").status_code == 303
    page = amber.get(reverse("correct-account", args=[recheck.uid]))
    assert page.status_code == 200
    assert dict(page.context["form"].fields["which"].choices) == {
        f"emptying:{stoma.uid}:{person.uid}": "Ada Fernhollow: emptying"
    }
    assert 'value="2026-05-13T01:14' in page.content.decode()
    said = {"which": f"emptying:{stoma.uid}:{person.uid}", "at_0": "2026-05-13T00:10", "reason": "Wrong hour."}
    assert correct(recheck, **said).status_code == 303
    assert Account.objects.get(kind="correction").began_at < recheck.began_at


@pytest.fixture
def talk(ward, ada, stoma, person):
    """Two topics told to Ada, with a note on one, through a trained interpreter; it took twenty minutes."""
    began = ward.now - HOUR
    told = (
        RatingEntry(learner=person, code="t-call", answer="told", note="asked for large print"),
        RatingEntry(learner=person, code="t-leak", answer="own_words"),
    )
    entry = SessionEntry(
        stay=ada, stoma=stoma, procedure="topics", began_at=began, ended_at=began + HOUR / 3, ratings=told,
        interpreter="trained", language="pl", place="bed",
    )  # fmt: skip
    return record_session(actor=ward.staff["amber"], entry=entry)


def test_a_talk_is_corrected_from_what_it_said_and_keeps_the_rest(talk, ada, stoma, person, amber, correct):
    form = amber.get(reverse("correct-account", args=[talk.uid])).context["form"]
    assert (form["topic.t-call"].value(), form["topic.t-leak"].value(), form["topic.t-skin"].value()) == (
        "told", "own_words", None,
    )  # fmt: skip
    said = {"which": f"{stoma.uid}:{person.uid}", "at_0": "2026-05-13T01:14", "interpreter": "trained"}
    answer = correct(talk, **said, **{"topic.t-call": "told", "topic.t-leak": "not_yet"}, reason="He could not yet.")
    assert answer.status_code == 303
    assert {one.code: one.answer for one in chart_for(ada).ratings} == {"t-call": "told", "t-leak": "not_yet"}
    newest = Account.objects.get(kind="correction")
    assert newest.ratings.get(code="t-call").note == "asked for large print"
    assert (newest.place, newest.language, newest.interpreter) == ("bed", "pl", "trained")
    assert (newest.began_at, newest.ended_at) == (talk.began_at, talk.ended_at)


def test_a_talk_at_another_hour_took_as_long(talk, stoma, person, correct):
    said = {"which": f"{stoma.uid}:{person.uid}", "at_0": "2026-05-12T22:00", "interpreter": "trained"}
    assert correct(
        talk, **said, **{"topic.t-call": "told", "topic.t-leak": "own_words"}, reason="Wrong hour."
    ).status_code == 303  # fmt: skip
    newest = Account.objects.get(kind="correction")
    assert newest.ended_at - newest.began_at == HOUR / 3


def test_a_talk_is_not_rated_beside(talk, signed_in):
    basil = signed_in("basil")
    assert "rate it beside" not in words(basil.get(reverse("session", args=[talk.event.uid])))
    assert basil.get(reverse("rate-beside", args=[talk.uid])).status_code == 404


def test_the_time_is_asked_as_signed_and_not_left_empty(recheck, talk, ada, stoma, person, amber, correct):
    for account, field in ((recheck, "at"), (talk, "at")):
        form = amber.get(reverse("correct-account", args=[account.uid])).context["form"]
        assert (form.fields[field].label, form.fields[field].help_text) == ("When it happened", "")
    answer = correct(recheck, which=hugo(ada, stoma), at_0="", reason="It was Hugo.")
    assert answer.status_code == 422 and "Say when it happened." in words(answer)


def test_what_kind_of_event_it_is_stands_in_its_title(recheck, amber):
    page = words(amber.get(reverse("session", args=[recheck.event.uid])))
    assert "Still managed alone: emptying, today 01:14" in page

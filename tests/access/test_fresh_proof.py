"""The password asked again: when, of whom, how often; and what it leaves behind."""

import pytest
import time_machine
from django import forms
from django.contrib.sessions.backends.db import SessionStore
from django.urls import reverse

from teaching.access.fresh_proof import AGAIN, JUST_NOW, WRONG, ask_proof
from teaching.access.guards import actor_of
from teaching.models import TrailLine
from teaching.record.actor import Actor
from teaching.record.once import body_sha256
from teaching.record.proof import proof_of, proved
from teaching.record.refusals import Refused
from tests.access.house import PASSWORD
from tests.record.factories.house import UserFactory

pytestmark = pytest.mark.django_db
START = 1_773_000_000


class Signing(forms.Form):
    words = forms.CharField()


@pytest.fixture
def nurse():
    user = UserFactory(username="ann")
    user.set_password(PASSWORD)
    user.save()
    return user


@pytest.fixture
def asked(rf, nurse):
    """asked(seconds_since_proof, **posted) gives the request and the form asked for proof."""

    def ask(since=None, **posted):
        request = rf.post("/", posted)
        request.session, request.user, request.reference = SessionStore(), nurse, "made-up"
        if since is not None:
            request.session["proved_at"] = START - since
        request.actor = actor_of(request)
        return request, ask_proof(request, Signing(request.POST))

    with time_machine.travel(START, tick=False):
        yield ask


@pytest.mark.parametrize(("since", "fresh"), [(0, True), (14 * 60 + 59, True), (15 * 60, False), (None, False)])
def test_a_proof_holds_for_fifteen_minutes(asked, since, fresh):
    request, form = asked(since)
    assert ("password" in form.fields) is not fresh
    assert request.actor.proof == (JUST_NOW if fresh else "")


def test_a_proof_from_a_clock_that_ran_ahead_does_not_hold(asked):
    assert "password" in asked(-60)[1].fields


def test_the_right_password_is_remembered_and_named(asked):
    request, form = asked(words="said", password=PASSWORD)
    assert form.is_valid()
    assert (request.actor.proof, request.session["proved_at"]) == (AGAIN, START)
    assert list(TrailLine.objects.values_list("verb", "outcome")) == [("prove_again", "done")]
    assert proved(request.actor) == proof_of(request.actor) == AGAIN


@pytest.mark.parametrize(("password", "sentence"), [("wrong words altogether", WRONG), ("", "Write your password")])
def test_a_wrong_or_missing_password_proves_nothing(asked, password, sentence):
    request, form = asked(words="said", password=password)
    assert not form.is_valid()
    assert form.errors["password"][0].startswith(sentence)
    assert "proved_at" not in request.session
    with pytest.raises(Refused, match="fresh proof"):
        proved(request.actor)


def test_it_is_not_asked_for_again_when_the_form_comes_back_for_something_else(asked):
    _, form = asked(password=PASSWORD)
    assert not form.is_valid()
    assert form.fields["password"].given
    assert PASSWORD not in str(form)


def test_another_persons_password_proves_nothing(asked):
    other = UserFactory(username="bea")
    other.set_password("six slow otters in the reeds")
    other.save()
    assert not asked(words="said", password="six slow otters in the reeds")[1].is_valid()


def test_wrong_passwords_lock_as_at_signing_in(asked, client, nurse):
    for _ in range(6):
        asked(words="said", password="wrong words altogether")[1].is_valid()
    assert not asked(words="said", password=PASSWORD)[1].is_valid()


def test_signing_in_is_a_proof(client, nurse):
    with time_machine.travel(START, tick=False):
        client.post(reverse("sign-in"), {"username": "ann", "password": PASSWORD})
        assert client.session["proved_at"] == START


def test_work_without_a_sign_in_says_so(nurse):
    assert proved(Actor(clinician=nurse.clinician)) == "no sign-in"
    assert proof_of(Actor(clinician=nurse.clinician, user=nurse)) == "signed in"


def test_a_password_leaves_no_hash_with_the_forms_key():
    assert body_sha256({"words": "said", "password": PASSWORD}) == body_sha256({"words": "said"})

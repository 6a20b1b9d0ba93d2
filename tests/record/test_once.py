"""A form sent twice: one act and one answer, also when both copies arrive at the same moment."""

import threading
import uuid

import pytest
from django.db import IntegrityError, connection, connections
from django.http import QueryDict

from teaching.models import RequestKey
from teaching.record.actor import Actor
from teaching.record.once import KeyReused, MissingKey, once
from teaching.record.refusals import Refused, refuse
from tests.record.factories import UserFactory


class Act:
    """Counts how often it acted; each time another answer, so that a second act would show."""

    def __init__(self):
        self.times = 0

    def __call__(self):
        self.times += 1
        return f"/answer/{self.times}"


@pytest.fixture
def actor(db):
    user = UserFactory.create()
    return Actor(user.clinician, user)


@pytest.fixture
def act():
    return Act()


def send(actor, act, **changed):
    form = {"key": str(uuid.UUID(int=1)), "route": "session-new", "body": QueryDict("answer=06&answer=05")}
    return once(actor=actor, act=act, **form | changed)


def test_five_times_the_same_form_is_one_act_and_one_answer(actor, act):
    assert {send(actor, act) for _ in range(5)} == {"/answer/1"}
    assert act.times == 1
    assert RequestKey.objects.count() == 1


def test_a_fresh_csrf_token_does_not_make_it_another_form(actor, act):
    first = send(actor, act, body=QueryDict("answer=06&csrfmiddlewaretoken=a"))
    assert send(actor, act, body=QueryDict("csrfmiddlewaretoken=b&answer=06")) == first


@pytest.mark.parametrize(
    "changed",
    [
        {"body": QueryDict("answer=06")},
        {"body": QueryDict("answer=05&answer=06")},
        {"route": "session-correct"},
        {"body": b""},
    ],
    ids=["a value less", "values in another order", "another address", "nothing"],
)
def test_the_same_key_with_other_content_is_refused(actor, act, changed):
    send(actor, act)
    with pytest.raises(KeyReused):
        send(actor, act, **changed)
    assert act.times == 1


@pytest.mark.parametrize("key", [None, "", "1", "not a key", "x" * 36])
def test_a_form_without_a_key_is_refused(actor, act, key):
    with pytest.raises(MissingKey):
        send(actor, act, key=key)
    assert act.times == 0


def test_two_people_may_hold_the_same_key(actor, act):
    other = UserFactory.create()
    assert send(actor, act) != send(Actor(other.clinician, other), act)


def test_a_refusal_burns_nothing(actor, act):
    with pytest.raises(Refused) as refused:
        send(actor, lambda: refuse("began_at", "It cannot begin after it ends. Correct one time."))
    assert refused.value.faults[0].field == "began_at"
    assert RequestKey.objects.count() == 0
    assert send(actor, act, body=QueryDict("answer=04")) == "/answer/1"


def test_what_the_act_stored_goes_with_its_failure(actor):
    def store_and_fail():
        UserFactory.create(username="half-done")
        raise IntegrityError("somebody else was first")

    with pytest.raises(IntegrityError, match="first"):
        send(actor, store_and_fail)
    assert not type(actor.user).objects.filter(username="half-done").exists()
    assert RequestKey.objects.count() == 0


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("first_is_refused", [False, True])
def test_two_at_the_same_moment_on_two_connections(actor, act, first_is_refused, file_database):
    """The second waits for the first: it gets the same answer, or acts itself where the first was refused."""
    inside, sending, answers = threading.Event(), threading.Event(), {}

    def first_act():
        inside.set()
        assert sending.wait(5)
        second.join(0.3)  # the second has sent its copy by now, and cannot get past
        assert second.is_alive()
        if first_is_refused:
            refuse("", "No.")
        return act()

    def run(name, what):
        if name == "second":
            sending.set()
        try:
            answers[name] = send(actor, what)
        except Refused:
            answers[name] = "refused"
        finally:
            connections.close_all()

    first = threading.Thread(target=run, args=("first", first_act))
    second = threading.Thread(target=run, args=("second", act))
    first.start()
    assert inside.wait(5)
    second.start()
    for thread in (first, second):
        thread.join(20)
    assert answers == {"first": "refused" if first_is_refused else "/answer/1", "second": "/answer/1"}
    assert act.times == 1
    assert RequestKey.objects.using(connection.alias).count() == 1

"""Teaching paused, gone on with and stopped, each with why; nurses alone."""

import uuid

import pytest
from django.urls import reverse

from teaching.models import StayEvent
from tests.bedside.reading import words


@pytest.fixture
def step(ada, amber):
    def post(kind, client=amber, **fields):
        address = reverse("teaching-state", args=[ada.uid, kind])
        return client.post(address, {"form_key": str(uuid.uuid4()), **fields})

    return post


def newest():
    return StayEvent.objects.order_by("-number").values_list("kind", "why")[0]


def test_paused_resumed_stopped(step, ada, stoma, amber):
    assert step("paused", why_choice="Intensive care", why="bed 4").status_code == 303
    assert newest() == ("paused", "Intensive care: bed 4")
    assert "Teaching is paused." in words(amber.get(reverse("person", args=[ada.uid])))
    assert step("resumed").status_code == 303
    assert step("stopped", why_choice="Comfort care").status_code == 303
    assert newest() == ("stopped", "Comfort care")


def test_why_is_asked_and_something_else_is_written_in_words(step):
    assert "Tap why." in words(step("paused"))
    assert "Write in a few words why." in words(step("paused", why_choice="other"))
    assert newest()[0] == "opened"
    assert step("paused", why_choice="other", why="renovation").status_code == 303
    assert newest() == ("paused", "renovation")


def test_what_cannot_follow_is_refused_in_a_sentence(step):
    answer = step("resumed")
    assert answer.status_code == 422
    assert "from there it can be" in words(answer)


def test_a_student_or_an_assistant_does_not_pause(step, signed_in):
    for name in ("tansy", "ashby"):
        assert step("paused", client=signed_in(name), why_choice="Too ill").status_code == 403


def test_another_word_is_no_page(step, ada, amber):
    assert amber.get(reverse("teaching-state", args=[ada.uid, "closed"])).status_code == 404

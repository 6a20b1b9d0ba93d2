"""A session begun by one nurse and gone on with by another: each signs only what they saw."""

import uuid

import pytest
from django.urls import reverse

from teaching.models import Account, Draft
from teaching.record.charts import chart_for
from teaching.record.drafts import begin_draft, tap
from tests.bedside.reading import words


@pytest.fixture
def draft(ward, ada, stoma):
    """Amber began an emptying and tapped one row."""
    made = begin_draft(actor=ward.staff["amber"], stay=ada, stoma=stoma, procedure="emptying")
    tap(actor=ward.staff["amber"], draft=made, client_id=uuid.uuid4(), field="ratings.em-when", value="06")
    return made


@pytest.fixture
def take_over(signed_in, draft):
    def post(name="basil"):
        client = signed_in(name)
        answer = client.post(reverse("take-over", args=[draft.uid]), {"form_key": str(uuid.uuid4())})
        return client, answer

    return post


def test_it_is_shown_on_the_persons_page_and_leads_to_the_question(signed_in, draft, ada):
    page = signed_in("basil").get(reverse("person", args=[ada.uid]))
    assert "Amber Oakley is recording now, begun today 02:14, not signed." in words(page)
    assert reverse("take-over", args=[draft.uid]) in page.content.decode()


def test_it_changes_hands_and_what_was_tapped_before_is_not_mine_to_sign(take_over, draft, ada, stoma):
    client, answer = take_over()
    assert answer.status_code == 303
    assert Draft.objects.get().owner.details.last().name == "Basil Thorne"
    assert 'value="06" checked' not in client.get(answer.url).content.decode()
    person = ada.learners.get(kind="person").uid
    said = {"which": f"{stoma.uid}:{person}", "ratings.em-open": "04", "draft": str(draft.uid)}
    assert client.post(answer.url, {"form_key": str(uuid.uuid4()), **said}).status_code == 303
    assert {(one.code, one.answer) for one in chart_for(ada).ratings} == {("em-open", "04")}


def test_each_signs_their_own_part_of_one_event(take_over, draft, ada, stoma, signed_in):
    client, answer = take_over()
    person = ada.learners.get(kind="person").uid
    which = {"which": f"{stoma.uid}:{person}", "draft": str(draft.uid)}
    client.post(answer.url, {"form_key": str(uuid.uuid4()), **which, "ratings.em-open": "04"})
    amber = signed_in("amber")
    own = {"form_key": str(uuid.uuid4()), **which, "ratings.em-when": "06"}
    assert amber.post(reverse("emptying", args=[ada.uid]), own).status_code == 303
    assert Account.objects.values("event").distinct().count() == 1
    assert {(one.code, one.witness.name) for one in chart_for(ada).ratings} == {
        ("em-open", "Basil Thorne"), ("em-when", "Amber Oakley"),
    }  # fmt: skip


def test_ones_own_is_only_gone_on_with(take_over):
    _, answer = take_over("amber")
    assert answer.status_code == 422
    assert "yours already" in words(answer)


def test_what_the_first_tapped_is_shown_to_the_second_and_not_filled_in(take_over, draft):
    client, answer = take_over()
    page = client.get(answer.url)
    assert "Amber Oakley. Choose when to empty: Alone. You watched and said nothing" in words(page)
    assert page.context["form"]["ratings.em-when"].value() is None


def test_whoever_left_a_lesson_finds_their_part_to_sign(take_over, draft, ada, stoma, signed_in):
    take_over()
    amber, address = signed_in("amber"), reverse("person", args=[ada.uid])
    told = "Begun today 02:14, gone on with by Basil Thorne. What you tapped before that is not signed yet."
    assert f"{told} Sign your part" in words(amber.get(address))
    assert told not in words(signed_in("basil").get(address))
    own = f"{reverse('emptying', args=[ada.uid])}?draft={draft.uid}"
    assert amber.get(own).context["form"]["ratings.em-when"].value() == "06"
    person = ada.learners.get(kind="person").uid
    said = {"which": f"{stoma.uid}:{person}", "draft": str(draft.uid), "ratings.em-when": "06"}
    assert amber.post(own, {"form_key": str(uuid.uuid4()), **said}).status_code == 303
    assert told not in words(amber.get(address))


def test_a_tap_on_the_device_that_lost_it_says_who_has_it(take_over, draft, ada, stoma, signed_in):
    take_over()
    person = ada.learners.get(kind="person").uid
    body = {
        "which": f"{stoma.uid}:{person}", "field": "ratings.em-open", "value": '"06"', "draft": str(draft.uid),
        "client_id": str(uuid.uuid4()),
    }  # fmt: skip
    answer = signed_in("amber").post(reverse("tap-emptying", args=[ada.uid]), body)
    assert answer.status_code == 409
    assert answer.json()["sentence"].startswith("Not saved: Basil Thorne has taken this session over.")
    assert Draft.objects.count() == 1


def test_another_recorder_says_who_is_recording_now(draft, ada, signed_in):
    page = words(signed_in("basil").get(reverse("emptying", args=[ada.uid])))
    assert "Amber Oakley is recording now for this person." in page

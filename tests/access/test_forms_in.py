"""A form comes in once: on the form that adds a helper, so that the database shows what was stored."""

import re
import uuid

import pytest
from django.urls import reverse

from teaching.models import Learner, RequestKey, TrailLine

pytestmark = pytest.mark.django_db


@pytest.fixture
def nurse(signed_in):
    return signed_in("ward-nurse")


@pytest.fixture
def address(house):
    return reverse("add-helper", kwargs={"stay": house.stay.uid})


def key_on(page) -> str:
    return re.search(r'name="form_key" value="([^"]+)"', page.content.decode())[1]


def helpers():
    return sorted(Learner.objects.filter(kind="helper").values_list("name", flat=True))


def test_every_page_brings_a_new_key(nurse, address):
    first, second = key_on(nurse.get(address)), key_on(nurse.get(address))
    assert first != second
    assert uuid.UUID(first) and uuid.UUID(second)


def test_the_same_form_five_times_is_stored_once_with_the_same_answer(nurse, address):
    body = {"form_key": key_on(nurse.get(address)), "name": "Ben Invented", "relation": "son"}
    answers = [nurse.post(address, body) for _ in range(5)]
    assert [answer.status_code for answer in answers] == [303] * 5
    assert len({answer.url for answer in answers}) == 1
    assert helpers() == ["Ben Invented", "Joan Invented"]
    assert TrailLine.objects.filter(verb="add_learner", outcome="done").count() == 2


def test_the_same_key_with_other_content_is_refused_and_gets_a_new_one(nurse, address):
    key = key_on(nurse.get(address))
    nurse.post(address, {"form_key": key, "name": "Ben Invented"})
    other = nurse.post(address, {"form_key": key, "name": "Another Invented"})
    assert other.status_code == 422
    assert "This form was stored once already, with other content." in other.content.decode()
    assert key_on(other) != key
    assert helpers() == ["Ben Invented", "Joan Invented"]


@pytest.mark.parametrize("key", [None, "", "not-a-key"])
def test_a_form_without_its_key_is_a_bad_request(nurse, address, key):
    body = {"name": "Ben Invented"} | ({} if key is None else {"form_key": key})
    assert nurse.post(address, body).status_code == 400
    assert helpers() == ["Joan Invented"]


@pytest.mark.parametrize(
    "wrong", [{"name": ""}, {"name": "Joan Invented"}], ids=["by the form", "by the record"]
)
def test_a_refused_form_comes_back_with_its_own_key_unburnt(nurse, address, wrong):
    key = key_on(nurse.get(address))
    refused = nurse.post(address, {"form_key": key, "relation": "son", **wrong})
    assert refused.status_code == 422
    assert key_on(refused) == key
    assert 'value="son"' in refused.content.decode()
    assert not RequestKey.objects.filter(key=key).exists()
    assert helpers() == ["Joan Invented"]
    assert nurse.post(address, {"form_key": key, "relation": "son", "name": "Ben Invented"}).status_code == 303


def test_a_key_belongs_to_one_person_and_one_address(nurse, signed_in, address, house):
    body = {"form_key": key_on(nurse.get(address)), "name": "Ben Invented"}
    nurse.post(address, body)
    second = house.open_stay("A2")
    elsewhere = reverse("add-helper", kwargs={"stay": second.uid})
    assert nurse.post(elsewhere, body).status_code == 422
    body["name"] = "Cat Invented"
    assert signed_in("stoma-nurse").post(address, body).status_code == 303
    assert helpers() == ["Ben Invented", "Cat Invented", "Joan Invented"]


def test_what_nobody_may_post_is_not_read(nurse, address, house):
    body = {
        "form_key": key_on(nurse.get(address)), "name": "Ben Invented", "by": "1", "signed_by": "1",
        "recorded_at": "2020-01-01", "status": "independent", "kind": "person",
    }
    nurse.post(address, body)
    made = Learner.objects.get(name="Ben Invented")
    assert (made.by, made.kind) == (house.users["ward-nurse"].clinician, "helper")
    assert made.recorded_at.year > 2020

"""Day or night: kept in a cookie of the device, back to the page it was chosen on."""

import pytest
from django.urls import reverse

from teaching.templatetags.light import COOKIE

pytestmark = pytest.mark.django_db


def choose(client, light, back="/sign-in/"):
    return client.post(reverse("light"), {"light": light, "back": back})


def test_night_is_kept_and_the_night_sheet_is_used(client):
    answer = choose(client, "night")
    assert (answer.status_code, answer["Location"]) == (302, "/sign-in/")
    assert answer.cookies[COOKIE]["httponly"]
    page = client.get(reverse("sign-in")).content.decode()
    assert 'media="all" data-night' in page
    assert 'value="night" aria-pressed="true"' in page


def test_without_a_choice_the_device_decides(client):
    page = client.get(reverse("sign-in")).content.decode()
    assert 'media="(prefers-color-scheme: dark)" data-night' in page
    assert 'value="device" aria-pressed="true"' in page


def test_a_choice_that_is_none_is_not_kept(client):
    assert COOKIE not in choose(client, "purple").cookies
    client.cookies[COOKIE] = "purple"
    assert 'media="(prefers-color-scheme: dark)"' in client.get(reverse("sign-in")).content.decode()


def test_it_never_leads_off_the_house(client):
    assert choose(client, "day", "https://elsewhere.example/")["Location"] == "/"


def test_it_is_chosen_by_a_form_alone(client):
    assert client.get(reverse("light")).status_code == 405

"""The first password and what a password must be: NIST SP 800-63B 5.1.1.2, with 12 as our own least length."""

import pytest
from django.urls import reverse

from teaching.models import TrailLine
from teaching.record import staff
from teaching.record.actor import Actor

pytestmark = pytest.mark.django_db
HOUSE = Actor(clinician=None)


@pytest.fixture
def newcomer():
    clinician = staff.register_clinician(actor=HOUSE, name="Nurse Invented", grade="registered")
    return staff.open_account(actor=HOUSE, clinician=clinician, username="newcomer")


@pytest.fixture
def signed_in(client, newcomer):
    user, password = newcomer
    client.post(reverse("sign-in"), {"username": user.username, "password": password})
    return client


def choose(client, password, again=None, **more):
    return client.post(reverse("change-password"), {"password": password, "again": again or password, **more})


def test_the_first_password_opens_only_the_page_to_choose_ones_own(signed_in):
    assert signed_in.get(reverse("home")).url == reverse("change-password")
    assert signed_in.get("/setup/").url == reverse("change-password")
    page = signed_in.get(reverse("change-password"))
    assert "Your password now" not in page.content.decode()


def test_a_chosen_password_lets_in_and_keeps_this_session(signed_in, newcomer):
    user, first = newcomer
    assert choose(signed_in, "seven slow barges at dusk").url == reverse("home")
    assert signed_in.get(reverse("home")).status_code == 200
    user.refresh_from_db()
    assert user.check_password("seven slow barges at dusk")
    assert not user.must_change_password
    assert not user.check_password(first)
    assert TrailLine.objects.filter(verb="change_password", outcome="done").count() == 1


@pytest.mark.parametrize(
    ("password", "sentence"),
    [
        ("elevenchars", "at least 12 characters"),
        ("password1234", "too common"),
        ("newcomer-123", "too similar to the username"),
        ("", "Write a new password."),
    ],
)
def test_a_weak_password_is_refused_in_a_sentence(signed_in, newcomer, password, sentence):
    answer = choose(signed_in, password)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    newcomer[0].refresh_from_db()
    assert newcomer[0].must_change_password


@pytest.mark.parametrize(
    "password", ["abcdefmnopqr", "ж" * 40 + "heron", "a heron " * 8, "long " * 40, "  spaces count too  "]
)
def test_length_is_enough_no_rule_about_signs_and_64_or_more_are_allowed(signed_in, newcomer, password):
    assert len(password) >= 12
    assert choose(signed_in, password).status_code == 302
    newcomer[0].refresh_from_db()
    assert newcomer[0].check_password(password)


def test_two_that_differ_are_refused(signed_in):
    answer = choose(signed_in, "seven slow barges", "seven slow badgers")
    assert answer.status_code == 422
    assert "The two are not the same." in answer.content.decode()


def test_later_the_present_password_is_asked(signed_in):
    choose(signed_in, "seven slow barges at dusk")
    wrong = choose(signed_in, "another set of words", present="not this one")
    assert "This is not your password now." in wrong.content.decode()
    assert choose(signed_in, "another set of words", present="seven slow barges at dusk").status_code == 302

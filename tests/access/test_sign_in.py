"""Signing in and out, throttling, sessions that end. Passwords: NIST SP 800-63B 5.1.1.2 (length, no composition)."""

import pytest
import time_machine
from django.conf import settings
from django.contrib.sessions.models import Session
from django.urls import reverse

from teaching.models import TrailLine, User
from teaching.record import staff
from teaching.record.actor import Actor
from tests.record.factories.house import MembershipFactory, UnitFactory, UserFactory

pytestmark = pytest.mark.django_db
HOUSE = Actor(clinician=None)
PASSWORD = "three quiet herons by the weir"
START = "2026-03-02 09:00:00+00:00"


@pytest.fixture
def nurse():
    user = UserFactory(username="ann")
    user.set_password(PASSWORD)
    user.save()
    MembershipFactory(clinician=user.clinician, unit=UnitFactory(), role="educator")
    return user


def sign_in(client, username="ann", password=PASSWORD, address="10.0.0.7", **more):
    body = {"username": username, "password": password, **more}
    return client.post(reverse("sign-in"), body, REMOTE_ADDR=address)


def lines(verb):
    return list(TrailLine.objects.filter(verb=verb).order_by("id").values_list("outcome", flat=True))


def test_signing_in_gives_a_new_session_id_and_a_trail_line(client, nurse):
    client.get(reverse("sign-in"))
    session = client.session
    session["held before"] = True
    session.save()
    client.cookies[settings.SESSION_COOKIE_NAME] = before = session.session_key
    assert sign_in(client).status_code == 302
    after = client.cookies[settings.SESSION_COOKIE_NAME].value
    assert after != before
    assert not Session.objects.filter(session_key=before).exists()
    line = TrailLine.objects.get(verb="sign_in")
    assert (line.outcome, line.actor, line.origin) == ("done", str(nurse.clinician.uid), "10.0.0.7")


def test_a_wrong_password_and_an_unknown_name_get_the_same_answer(client, nurse):
    wrong = sign_in(client, password="not the password at all")
    unknown = sign_in(client, username="nobody-here", password="not the password at all")
    for answer in (wrong, unknown):
        assert answer.status_code == 422
        assert "This name and password do not go together." in answer.content.decode()
    assert lines("sign_in") == ["refused", "refused"]
    assert set(TrailLine.objects.values_list("actor", flat=True)) == {""}


def test_a_phone_that_writes_a_capital_still_signs_in(client, nurse):
    assert sign_in(client, username="Ann ").status_code == 302


def test_throttling_locks_the_name_at_that_address_and_nobody_else(client, nurse):
    UserFactory(username="ben", clinician=staff.register_clinician(actor=HOUSE, name="Ben", grade="registered"))
    User.objects.filter(username="ben").update(password=nurse.password)
    for _ in range(settings.AXES_FAILURE_LIMIT):
        last = sign_in(client, password="wrong again and again")
    assert last.status_code == 429
    locked = sign_in(client)
    assert locked.status_code == 429
    assert "Try again in 15 minutes" in locked.content.decode()
    assert sign_in(client, username="ANN").status_code == 429
    assert "_auth_user_id" not in client.session
    assert sign_in(client, username="ben").status_code == 302
    client.post(reverse("sign-out"))
    assert sign_in(client, address="10.0.0.8").status_code == 302


@pytest.mark.parametrize("away", ["https://evil.example/", "//evil.example/", "javascript:alert(1)"])
def test_signing_in_goes_on_to_pages_of_this_house_only(client, nurse, away):
    assert sign_in(client, next=away).url == reverse("home")
    client.post(reverse("sign-out"))
    assert sign_in(client, next="/password/").url == "/password/"


def test_signing_out_ends_every_session_of_the_person_and_clears_the_device(client, nurse):
    sign_in(client)
    other = client.__class__()
    sign_in(other)
    answer = client.post(reverse("sign-out"))
    assert answer["Clear-Site-Data"] == '"cache", "storage"'
    for each in (client, other):
        assert each.get(reverse("home")).url.startswith(reverse("sign-in"))
    assert client.get(reverse("sign-out")).status_code == 405


def test_a_closed_account_ends_its_sessions_and_signs_in_no_more(client, nurse):
    sign_in(client)
    assert client.get(reverse("change-password")).status_code == 200
    staff.close_account(actor=HOUSE, user=nurse)
    assert client.get(reverse("home")).url.startswith(reverse("sign-in"))
    assert sign_in(client).status_code == 422


def test_an_idle_session_ends_and_says_why(client, nurse):
    with time_machine.travel(START, tick=False) as clock:
        sign_in(client)
        client.get(reverse("home"))
        clock.shift(settings.SESSION_IDLE_SECONDS)
        assert client.get(reverse("still-here")).status_code == 204
        clock.shift(settings.SESSION_IDLE_SECONDS + 1)
        ended = client.get(reverse("home"), follow=True)
        assert ended.request["PATH_INFO"] == reverse("sign-in")
        assert "Nothing was done here for a while" in ended.content.decode()


def test_a_session_in_use_ends_after_its_longest_time(client, nurse):
    with time_machine.travel(START, tick=False) as clock:
        sign_in(client)
        client.get(reverse("home"))
        for _ in range(settings.SESSION_ABSOLUTE_SECONDS // 1500):
            clock.shift(1500)
            assert client.get(reverse("still-here")).status_code == 204
        clock.shift(1500)
        ended = client.get(reverse("home"), follow=True)
        assert "You were signed in for a whole shift" in ended.content.decode()


def test_a_session_is_touched_once_a_minute_at_most(client, nurse, django_assert_num_queries):
    with time_machine.travel(START, tick=False) as clock:
        sign_in(client)
        client.get(reverse("change-password"))
        seen = client.session["seen"]
        clock.shift(60)
        client.get(reverse("change-password"))
        assert client.session["seen"] == seen
        clock.shift(1)
        client.get(reverse("change-password"))
        assert client.session["seen"] == seen + 61


def test_no_page_is_kept_by_a_browser_or_a_proxy(client, nurse):
    pages = [client.get(reverse(name)) for name in ("sign-in", "healthy", "ready")]
    sign_in(client)
    pages += [client.get(reverse(name)) for name in ("home", "change-password")] + [client.get("/nowhere/")]
    assert {page["Cache-Control"] for page in pages} == {"no-store"}

"""What goes out with every page where HTTPS is on, and what the error pages and the log give away: nothing.

The __Host- prefix: RFC 6265bis, "The __Host- Prefix" (Secure, Path=/, no Domain). The rest: OWASP ASVS 5.0
chapter 3, from memory.
"""

import io
import logging
import runpy
from pathlib import Path

import pytest
from django.http import HttpResponse
from django.test import Client, RequestFactory, override_settings
from django.urls import path

from ostomy_teach import error_pages
from ostomy_teach.demo import OURS
from ostomy_teach.log_lines import OneLine
from ostomy_teach.reference import client_address, give_reference

BASE = Path(__file__).resolve().parent.parent
HEADERS = ("SECURE_", "SESSION_COOKIE_", "CSRF_COOKIE_", "ALLOWED_HOSTS", "HTTPS", "PROXIES")
A_YEAR = 365 * 24 * 3600


def broken(request):
    raise ValueError("Ada Example, number 4711\nforged line")


urlpatterns = [path("broken", broken), path("fine", lambda request: HttpResponse("fine"))]
handler500 = error_pages.failed


@pytest.fixture
def https(monkeypatch):
    """The settings as they are with HTTPS on, behind one proxy."""
    for name in OURS:
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("SECRET_KEY", "a-secret-of-the-test-0123456789-abcdefghijklmnopqrstuvwxyz-987")
    monkeypatch.setenv("TRAIL_KEY", "another-secret-of-the-test-0123456789-abcdefghijklm")
    monkeypatch.setenv("DATABASE_URL", "sqlite://:memory:")
    monkeypatch.setenv("ALLOWED_HOSTS", "ward.example")
    read = runpy.run_path(str(BASE / "ostomy_teach" / "settings.py"))
    with override_settings(**{name: value for name, value in read.items() if name.startswith(HEADERS)}):
        yield Client(headers={"host": "ward.example", "x-forwarded-proto": "https"})


@pytest.mark.django_db
def test_the_sign_in_page_goes_out_with_every_header(https):
    page = https.get("/sign-in/")
    assert page.status_code == 200
    assert page["Strict-Transport-Security"] == f"max-age={A_YEAR}; includeSubDomains; preload"
    assert page["X-Content-Type-Options"] == "nosniff"
    assert page["X-Frame-Options"] == "DENY"
    assert page["Referrer-Policy"] == "same-origin"
    assert page["Cache-Control"] == "no-store"
    policy = dict(part.strip().split(" ", 1) for part in page["Content-Security-Policy"].split(";"))
    for directive in ("default-src", "object-src", "base-uri", "frame-ancestors"):
        assert policy[directive] == "'none'"
    assert "unsafe" not in page["Content-Security-Policy"]
    cookie = page.cookies["__Host-csrf"]
    assert (cookie["secure"], cookie["httponly"], cookie["path"], cookie["domain"]) == (True, True, "/", "")
    assert cookie["samesite"] == "Lax"


@pytest.mark.django_db
def test_the_session_cookie_is_bound_to_the_host(https):
    session = https.session
    session["anything"] = 1
    session.save()
    assert https.cookies["__Host-session"].value == session.session_key


def test_plain_http_is_sent_on_to_https(https):
    page = Client(headers={"host": "ward.example"}).get("/sign-in/")
    assert (page.status_code, page["Location"]) == (301, "https://ward.example/sign-in/")


def test_another_host_name_is_refused(https):
    page = Client(headers={"host": "elsewhere.example", "x-forwarded-proto": "https"}).get("/sign-in/")
    assert page.status_code == 400
    assert b"elsewhere" not in page.content


@pytest.mark.parametrize("status", [400, 403, 404, 500])
def test_an_error_page_is_generic_and_carries_its_reference(rf, status):
    request = rf.get("/anywhere/secret-name")
    request.reference = "abcd1234"
    page = error_pages.error_page(request, status)
    assert page.status_code == status
    assert b"abcd1234" in page.content
    assert b"secret-name" not in page.content


@override_settings(ROOT_URLCONF=__name__)
def test_a_failure_shows_and_logs_one_reference_and_no_content_of_the_record():
    written = io.StringIO()
    handler = logging.StreamHandler(written)
    handler.setFormatter(OneLine())
    logging.getLogger("django.request").addHandler(handler)
    try:
        page = Client(raise_request_exception=False).get("/broken")
    finally:
        logging.getLogger("django.request").removeHandler(handler)
    line = written.getvalue()
    assert page.status_code == 500
    assert line.count("\n") == 1
    assert "ValueError" in line and "test_headers.py" in line
    assert "Ada" not in line and "4711" not in line
    assert b"Ada" not in page.content
    reference = line.split()[3]
    assert len(reference) == 8
    assert reference.encode() in page.content


@pytest.mark.parametrize("forged", ["\n", "\r\n", "\x1b[31m", "\x85", "\u2028", "\u2029", "\x00", "\x0b"])
def test_a_log_line_cannot_be_forged(forged):
    record = logging.LogRecord("house", logging.INFO, "", 0, "said %s", (f"x{forged}2026 ERROR house",), None)
    line = OneLine().format(record)
    assert len(line.splitlines()) == 1
    assert line.isprintable()


def test_each_request_has_a_reference_of_its_own(rf):
    seen = []
    answer = give_reference(lambda request: seen.append(request.reference) or HttpResponse())
    for _ in range(2):
        answer(rf.get("/", headers={"x-request-id": "mine"}))
    assert len(set(seen)) == 2 and "mine" not in seen


@pytest.mark.parametrize(
    ("proxies", "forwarded", "address"),
    [
        (0, "9.9.9.9", "10.0.0.1"),
        (1, "9.9.9.9", "9.9.9.9"),
        (1, "1.2.3.4, 9.9.9.9", "9.9.9.9"),  # what stands further left was written by the caller
        (2, "1.2.3.4, 9.9.9.9, 10.0.0.2", "9.9.9.9"),
        (1, "", "10.0.0.1"),
    ],
)
def test_the_address_of_a_caller_cannot_be_made_up(settings, proxies, forwarded, address):
    settings.PROXIES = proxies
    headers = {"x-forwarded-for": forwarded} if forwarded else {}
    assert client_address(RequestFactory().get("/", headers=headers, REMOTE_ADDR="10.0.0.1")) == address

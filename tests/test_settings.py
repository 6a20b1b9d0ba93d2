"""Settings: nonsense stops the start with a sentence, and what makes sense is set right.

Passwords (length before composition, common ones refused): NIST SP 800-63B on passwords, from memory.
"""

import os
import re
import runpy
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace

import dj_database_url
import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import ConnectionHandler

from ostomy_teach import checks
from ostomy_teach.demo import OURS
from ostomy_teach.readers import WrongSettings
from ostomy_teach.settings import for_a_ward

BASE = Path(__file__).resolve().parent.parent
FOR_REAL = {
    "SECRET_KEY": "a-secret-of-the-test-0123456789-abcdefghijklmnopqrstuvwxyz-987",
    "TRAIL_KEY": "another-secret-of-the-test-0123456789-abcdefghijklm",
    "DATABASE_URL": "sqlite://:memory:",
    "ALLOWED_HOSTS": "ostomy.hospital.example",
}


@pytest.fixture
def settings_from(monkeypatch):
    """The settings module, run anew with just these variables."""

    def read(**variables):
        for name in OURS:
            monkeypatch.delenv(name, raising=False)
        for name, value in (FOR_REAL | variables).items():
            if value is not None:
                monkeypatch.setenv(name, value)
        return runpy.run_path(str(BASE / "ostomy_teach" / "settings.py"))

    return read


NONSENSE = [
    ("SECRET_KEY", None, "SECRET_KEY is not set. Make one with"),
    ("SECRET_KEY", "", "SECRET_KEY is too short or too simple"),
    ("SECRET_KEY", "short", "SECRET_KEY is too short or too simple: it needs 50"),
    ("SECRET_KEY", "ab" * 40, "SECRET_KEY is too short or too simple"),
    ("TRAIL_KEY", None, "TRAIL_KEY is not set"),
    ("TRAIL_KEY_ID", "two words", "TRAIL_KEY_ID is not a short name"),
    ("TRAIL_KEY_ID", "", "TRAIL_KEY_ID is not a short name"),
    ("HTTPS", "perhaps", "HTTPS makes no sense. Write on or off."),
    ("HTTPS", "", "HTTPS makes no sense. Write on or off."),
    ("HTTPS", "off", "HTTPS is off, but ALLOWED_HOSTS names more than this machine"),
    ("ALLOWED_HOSTS", None, "ALLOWED_HOSTS is not set. Write the names people type"),
    ("ALLOWED_HOSTS", "", "ALLOWED_HOSTS is empty"),
    ("ALLOWED_HOSTS", "*", "ALLOWED_HOSTS makes no sense: names only"),
    ("ALLOWED_HOSTS", "https://ward.example", "ALLOWED_HOSTS makes no sense: names only"),
    ("PROXIES", "two", "PROXIES makes no sense. Write a whole number of proxies in front from 0 to 5."),
    ("PROXIES", "6", "PROXIES is 6, out of range"),
    ("DATABASE_URL", None, "DATABASE_URL is not set. Write sqlite:"),
    ("DATABASE_URL", "", "DATABASE_URL is empty. Write sqlite:"),
    ("DATABASE_URL", "ward.sqlite3", "DATABASE_URL is not a database address"),
    ("DATABASE_URL", "mysql://ward/name", "DATABASE_URL is not a database address"),
    ("DATABASE_URL", "postgres://host-only", "DATABASE_URL is not a database address"),
    ("DATABASE_URL", "postgres://u:p@host:port/name", "DATABASE_URL is not a database address"),
    (
        "DATABASE_URL",
        "sqlite:////not/a/folder/file",
        "DATABASE_URL names a file in a folder that is not there",
    ),
    ("DATABASE_OWNER_URL", "nonsense", "DATABASE_OWNER_URL is not a database address"),
    ("DATABASE_AS", "root", "DATABASE_AS is not known. Write one of: web, owner."),
    ("SESSION_IDLE_MINUTES", "-1", "SESSION_IDLE_MINUTES is -1, out of range"),
    ("SESSION_IDLE_MINUTES", "half", "SESSION_IDLE_MINUTES makes no sense"),
    ("SESSION_HOURS", "100", "SESSION_HOURS is 100, out of range"),
    ("LOG_LEVEL", "loud", "LOG_LEVEL is not known. Write one of: DEBUG"),
    ("VAR_DIR", "/not/a/folder", "VAR_DIR is not a folder"),
]


@pytest.mark.parametrize(("name", "value", "sentence"), NONSENSE)
def test_nonsense_stops_the_start(settings_from, name, value, sentence):
    with pytest.raises(WrongSettings) as stop:
        settings_from(**{name: value})
    assert sentence in str(stop.value)


def test_every_fault_is_said_at_once_and_no_secret_is_repeated(settings_from):
    with pytest.raises(WrongSettings) as stop:
        settings_from(SECRET_KEY="hush-hush", HTTPS="maybe", DATABASE_URL="mysql://u:hush@h/n", PROXIES="x")
    assert [line.split()[0] for line in str(stop.value).splitlines()] == [
        "SECRET_KEY", "HTTPS", "PROXIES", "DATABASE_URL",
    ]  # fmt: skip
    assert "hush" not in str(stop.value)


def manage_py(*words, **variables):
    """What manage.py answers under these settings, with every warning of Python an error."""
    ours = {*OURS, "DJANGO_ALLOW_ASYNC_UNSAFE"}
    shell = {name: value for name, value in os.environ.items() if name not in ours}
    shell |= FOR_REAL | variables | {"DJANGO_SETTINGS_MODULE": "ostomy_teach.settings"}
    command = [sys.executable, "-W", "error", "manage.py", *words]
    return subprocess.run(command, cwd=BASE, env=shell, capture_output=True, text=True, timeout=60)


def test_manage_py_says_the_sentence_without_a_traceback():
    done = manage_py("check", PROXIES="many")
    assert done.returncode == 1
    assert "PROXIES makes no sense" in done.stderr
    assert "Traceback" not in done.stderr


def test_check_deploy_has_no_warning():
    done = manage_py("check", "--deploy", "--fail-level", "WARNING")
    assert done.returncode == 0, done.stderr
    assert "no issues (0 silenced)" in done.stdout


def test_numbered_checks(settings):
    assert checks.settings_fit_together(None) == []
    settings.TRAIL_KEY = settings.SECRET_KEY.encode()
    settings.SESSION_IDLE_SECONDS = settings.SESSION_ABSOLUTE_SECONDS
    assert [found.id for found in checks.settings_fit_together(None)] == ["house.E001", "house.E002"]


@pytest.mark.parametrize(
    ("owner", "ids"), [("postgres://web@h/n", ["house.W001"]), ("postgres://owner@h/n", [])]
)
def test_the_web_should_not_own_its_tables(settings_from, monkeypatch, owner, ids):
    read = settings_from(DATABASE_URL="postgres://web@h/n", DATABASE_OWNER_URL=owner)
    monkeypatch.setattr(checks, "settings", SimpleNamespace(**read))
    assert [found.id for found in checks.the_web_does_not_own_its_tables(None)] == ids


def test_migrate_signs_in_as_the_owner(settings_from):
    both = {"DATABASE_URL": "postgres://web@h/n", "DATABASE_OWNER_URL": "postgres://owner@h/n"}
    assert settings_from(**both)["DATABASES"]["default"]["USER"] == "web"
    assert settings_from(**both, DATABASE_AS="owner")["DATABASES"]["default"]["USER"] == "owner"
    assert settings_from(**both)["DATABASE_WEB_USER"] == "web"
    assert settings_from(DATABASE_URL="postgres://web@h/n")["DATABASE_WEB_USER"] == ""


def test_a_database_is_set_for_a_ward(settings_from):
    for address in ("sqlite://:memory:", "postgres://web@h/n"):
        entry = settings_from(DATABASE_URL=address)["DATABASES"]["default"]
        assert entry["ATOMIC_REQUESTS"] is False
    assert entry["CONN_MAX_AGE"] > 0 and entry["CONN_HEALTH_CHECKS"] is True


def test_sqlite_runs_with_its_pragmas(tmp_path, django_db_blocker):
    """Asked of SQLite itself, on a file: in memory there is no write-ahead log."""
    database = ConnectionHandler(
        {"default": for_a_ward(dj_database_url.parse(f"sqlite:///{tmp_path}/w.sqlite3"))}
    )
    with django_db_blocker.unblock(), closing(database["default"]), database["default"].cursor() as cursor:
        asked = ("journal_mode", "synchronous", "foreign_keys", "recursive_triggers", "busy_timeout")
        found = {name: cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in asked}
    assert found == dict(zip(asked, ("wal", 2, 1, 1, 20_000), strict=True))  # synchronous 2 is FULL


def test_debug_is_off_and_no_variable_turns_it_on(settings_from):
    assert settings_from(DEBUG="on", DJANGO_DEBUG="1")["DEBUG"] is False


def variables_of_settings() -> set[str]:
    text = (BASE / "ostomy_teach" / "settings.py").read_text(encoding="utf-8")
    return set(re.findall(r'read\.\w+\(\s*"([A-Z_]+)"', text))


def test_readme_lists_every_variable_and_no_other():
    readme = (BASE / "README.md").read_text(encoding="utf-8")
    table = readme.split("### Settings")[1].split("\n#")[0]
    assert set(re.findall(r"^\| `([A-Z_]+)`", table, re.MULTILINE)) == variables_of_settings()


def test_the_demo_and_the_tests_leave_every_variable_of_the_shell_behind():
    assert set(OURS) == variables_of_settings()


@pytest.mark.parametrize(
    "password",
    [
        *("elevenchars", "passwordpassword", "123456789012", "qwertyuiopas", "lkjhgfdsapoi", "abababababab"),
        *("Password2026", "Ostomy-Teach-2026", "administrator1"),
    ],
)
def test_a_short_or_common_password_is_refused(password):
    with pytest.raises(ValidationError):
        validate_password(password)


@pytest.mark.parametrize(
    "password",
    ["twelve chars", "729401835526", "p" * 30 + " words without digits " + "q" * 30, "ÄÖ ß 漢字 öäü éè"],
)
def test_a_long_password_needs_no_composition(password):
    validate_password(password)

"""`start`: a real ward opened, served, stopped and started again; never the demo, never without its guards."""

import re
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from ostomy_teach import choices, demo, start
from tests.test_demo_served import Served, clone  # noqa: F401

UNIT = ("--unit", "Ward Nine", "--zone", "Europe/London", "--lead", "Rosa Lead", "--username", "rosa",
        "--grade", "other")


@pytest.fixture
def other_var(tmp_path, monkeypatch):
    for name in ("DEMO_DATABASE", "DEMO_SETTINGS", "SIGN_INS"):
        monkeypatch.setattr(choices, name, tmp_path / getattr(choices, name).name)
    monkeypatch.setattr(choices, "VAR", tmp_path)
    monkeypatch.setattr(choices, "WARD", tmp_path / "ward")
    choices.WARD.mkdir(mode=0o700)
    return tmp_path


def run(place, *words):
    command = [sys.executable, "-m", "ostomy_teach", "start", *words]
    return subprocess.run(
        command, cwd=place, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120
    )


def told(place, sql):
    with closing(sqlite3.connect(place / "var" / "ward" / "ward.sqlite3")) as database:
        return database.execute(sql).fetchall()


def sign_in(served, username, password):
    """Signed in as a browser would be: the page's key, then the form; the address it led on to."""
    import http.cookiejar
    import urllib.parse
    import urllib.request

    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))
    address = f"http://127.0.0.1:{served.port}/sign-in/"
    page = browser.open(address, timeout=20).read().decode()
    key = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1]
    said = {"csrfmiddlewaretoken": key, "username": username, "password": password}
    asked = urllib.request.Request(address, urllib.parse.urlencode(said).encode(), {"Referer": address})
    return browser.open(asked, timeout=20).url


def test_a_real_ward_is_opened_served_and_gone_on_with(clone):  # noqa: F811
    first = Served(clone, "start", *UNIT)
    try:
        password = re.search(r"First password, shown once: (\S+)", first.said)[1]
        assert "Ward Nine is open. Rosa Lead signs in as rosa." in first.said
        assert sign_in(first, "rosa", password).endswith("/password/"), "their own password comes first"
        other = run(clone, "--port", str(first.port))
        assert other.returncode == 1 and "The ward already runs" in other.stderr
    finally:
        assert first.stop() == 0
    assert told(clone, "SELECT name, zone FROM teaching_unit") == [("Ward Nine", "Europe/London")]
    assert told(clone, "SELECT count(*) FROM teaching_stay") == [(0,)], "nobody made up is loaded"
    assert told(clone, "SELECT grade FROM teaching_cliniciandetails") == [("other",)], "no nurse unasked"
    env = clone / "var" / "ward" / "ward.env"
    assert env.stat().st_mode & 0o777 == 0o600 and env.parent.stat().st_mode & 0o777 == 0o700
    assert password not in "".join(path.read_text("utf-8", "ignore") for path in env.parent.iterdir())
    keys = env.read_text()

    second = Served(clone, "start")
    try:
        assert second.get("/sign-in/").status == 200
        assert "going on with Ward Nine" in second.said and "First password" not in second.said
    finally:
        assert second.stop() == 0
    assert env.read_text() == keys
    assert told(clone, "SELECT count(*) FROM teaching_unit, teaching_user") == [(1,)]

    database = clone / "var" / "ward" / "ward.sqlite3"
    theirs = subprocess.run(
        [sys.executable, "-m", "ostomy_teach", "demo", "--database", f"sqlite:///{database}"],
        cwd=clone, capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert theirs.returncode == 1 and "This database holds a real ward" in theirs.stderr
    checked = subprocess.run(
        [sys.executable, "manage.py", "--ward", "examine_trail"], cwd=clone, capture_output=True, text=True, timeout=60
    )
    assert checked.returncode == 0, checked.stdout + checked.stderr

    (guard,) = told(clone, "SELECT name FROM sqlite_master WHERE name LIKE 'keep_teaching_rating_update%'")
    with closing(sqlite3.connect(database)) as torn:
        torn.execute(f"DROP TRIGGER {guard[0]}")
        torn.commit()
    down = run(clone)
    assert down.returncode == 1
    assert "Nothing is served: 1 of the guards" in down.stderr and "teaching_rating is not guarded" in down.stderr
    assert told(clone, f"SELECT 1 FROM sqlite_master WHERE name = '{guard[0]}'") == [], "it is not cured in silence"


@pytest.fixture(scope="module")
def unopened(tmp_path_factory, clone):  # noqa: F811
    """One house for all that is told wrongly: each attempt finds it as the one before left it."""
    place = tmp_path_factory.mktemp("unopened") / "house"
    return Path(shutil.copytree(clone, place, symlinks=True, ignore=shutil.ignore_patterns("var")))


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--zone", "Europe/London"), "The unit's name: not given. Add --unit"),
        (("--unit", "Ward Nine", "--zone", "Middle/Earth", *UNIT[4:]), "is not a time zone"),
        ((*UNIT[:1], "Ward (made up)", *UNIT[2:]), "is not called (made up)"),
        ((*UNIT[:6], "--username", " ", *UNIT[8:]), "The sign-in name is missing"),
        (UNIT[:8], "The lead's grade (stoma-nurse, registered, student, assistant or other): not given. Add --grade"),
        ((*UNIT[:9], "matron"), "The lead's grade: 'matron' is none. Write one of: stoma-nurse (stoma nurse)"),
    ],
)
def test_what_is_missing_or_wrong_is_said_and_no_unit_stands(unopened, words, sentence):
    done = run(unopened, *words)
    assert done.returncode == 1 and sentence in done.stderr, done.stderr
    assert told(unopened, "SELECT count(*) FROM teaching_unit") == [(0,)]
    assert told(unopened, "SELECT count(*) FROM teaching_clinician") == [(0,)]


def test_at_a_terminal_the_grade_is_asked_for_until_it_is_one(monkeypatch, capsys):
    answers, prompts = iter(["", "matron", "Registered nurse"]), []
    monkeypatch.setattr(start.sys.stdin, "isatty", lambda: True)
    monkeypatch.setattr("builtins.input", lambda words: prompts.append(words) or next(answers))
    assert start.grade_of(None) == "registered"
    assert "'matron' is none." in capsys.readouterr().out
    assert set(prompts) == {"  The lead's grade (stoma-nurse, registered, student, assistant or other): "}


@pytest.mark.parametrize(("said", "code"), [("other", "other"), (" Stoma-Nurse ", "stoma-nurse")])
def test_a_grade_is_known_by_its_code_or_its_words(said, code):
    assert start.grade_of(said) == code


@pytest.mark.parametrize("named", ["the demo's file", "loaded by the demo"])
def test_the_demos_database_is_refused(other_var, named):
    url = f"sqlite:///{choices.DEMO_DATABASE}"
    if named == "loaded by the demo":
        url = "postgres://user@host/shown"
        demo.sign_ins_kept(url).write_text("amber ...")
    with pytest.raises(SystemExit, match="This is the demo's database"):
        start.settled(url, None)
    assert not (choices.WARD / "ward.env").exists()


def test_the_wards_settings_are_made_once_and_changed_only_by_hand(other_var, capsys):
    made = start.settled(None, "ostomy.hospital.example")
    assert (made["HTTPS"], made["ALLOWED_HOSTS"]) == ("on", "ostomy.hospital.example")
    assert made["VAR_DIR"] == str(choices.WARD) and made["DATABASE_URL"].endswith("ward/ward.sqlite3")
    assert made["SECRET_KEY"] not in (made["TRAIL_KEY"], choices.demo_settings()["SECRET_KEY"])
    assert start.settled(None, None) == made
    with pytest.raises(SystemExit, match="DATABASE_URL of this ward is set already"):
        start.settled("postgres://user@host/other", None)

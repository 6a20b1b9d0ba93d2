"""Trail lines: signed, in the act's own transaction, free of content; and reads are never held up."""

import json
import logging
import re
import time
import uuid
from datetime import timedelta

import pytest
from django.db import DatabaseError, connection, transaction
from django.db.transaction import TransactionManagementError

from teaching.models import TrailLine
from teaching.models.macs import LINE_FIELDS, UnknownKey, line_mac
from teaching.record import spool
from teaching.record.actor import Actor
from teaching.record.trail import leave_line, leave_read_line
from tests.record.factories import AccountFactory, ClinicianFactory, UnitFactory
from tests.record.second_connection import second_connection

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.VAR_DIR = tmp_path


@pytest.fixture
def actor():
    clinician = ClinicianFactory.create()
    return Actor(clinician, roles=("ward-nurse", "lead"), address="10.1.2.3", request_id="ab12cd34")


def test_a_line_says_who_what_when_and_from_where(actor):
    account, unit = AccountFactory.create(), UnitFactory.create()
    leave_line(
        actor=actor, verb="record_session", outcome="done", unit=unit, stay=account.stay, object=account
    )
    line = TrailLine.objects.get()
    assert line.actor == str(actor.clinician.uid)
    assert line.role == "ward-nurse,lead"
    assert (line.verb, line.outcome) == ("record_session", "done")
    assert (line.unit, line.stay) == (str(unit.uid), str(account.stay.uid))
    assert line.object == f"account {account.uid}"
    assert (line.origin, line.request_id) == ("10.1.2.3", "ab12cd34")


CHANGES = {
    "uid": uuid.UUID(int=5),
    "at": timedelta(microseconds=1),
    "actor": str(uuid.UUID(int=6)),
    "role": "lead",
    "verb": "purge_stay",
    "outcome": "refused",
    "unit": str(uuid.UUID(int=7)),
    "stay": str(uuid.UUID(int=8)),
    "object": "board",
    "origin": "10.1.2.4",
    "request_id": "ab12cd35",
    "key_id": "key-2",
}


@pytest.mark.parametrize("field", LINE_FIELDS)
def test_the_mac_covers_every_field_as_the_database_gives_it_back(actor, settings, field):
    settings.TRAIL_OLD_KEYS = {"key-2": settings.TRAIL_KEY}
    leave_line(actor=actor, verb="tell_caution", outcome="done")
    line = TrailLine.objects.get()
    assert line_mac(line) == line.mac
    change = CHANGES[field]
    setattr(line, field, line.at + change if field == "at" else change)
    assert line_mac(line) != line.mac


def test_a_line_holds_no_more_than_its_mac_covers():
    assert {field.name for field in TrailLine._meta.fields} == {*LINE_FIELDS, "id", "mac"}


def test_the_mac_needs_the_key(actor, settings):
    leave_line(actor=actor, verb="tell_caution", outcome="done")
    line = TrailLine.objects.get()
    settings.TRAIL_KEY = b"another key, of somebody who has the database alone"
    assert line_mac(line) != line.mac
    settings.TRAIL_KEY_ID = "key-2"
    with pytest.raises(UnknownKey):
        line_mac(line)


@pytest.mark.parametrize(
    "content",
    [
        {"verb": "Mrs Invented"},
        {"verb": "read\nrecord_session done"},
        {"outcome": "800 ml"},
        {"stay": "M1234567"},
        {"unit": "Ward Invented"},
        {"object": "M1234567"},
        {"object": "Invented, Person"},
        {"object": "born 1960-05-01"},
        {"object": f"{uuid.UUID(int=1)}\nforged"},
        {"object": "board " * 30},
    ],
    ids=str,
)
def test_names_numbers_and_values_are_kept_out(actor, content):
    said = {"verb": "record_session", "outcome": "done"} | content
    with pytest.raises(ValueError, match="The trail's"):
        leave_line(actor=actor, **said)
    assert not TrailLine.objects.exists()


def test_what_a_caller_sends_cannot_forge_a_line():
    forged = "10.0.0.1\n2026-03-02 somebody else | \u2028 <script>" + "9" * 100
    leave_read_line(actor=Actor(None, address=forged, request_id=forged), verb="board")
    line = TrailLine.objects.get()
    assert re.fullmatch(r"[0-9A-Za-z.:%_?-]{60}", line.origin)
    assert re.fullmatch(r"[0-9A-Za-z.:%_?-]{40}", line.request_id)


@pytest.mark.django_db(transaction=True)
def test_a_line_of_an_act_stands_in_its_transaction(actor):
    with pytest.raises(TransactionManagementError):
        leave_line(actor=actor, verb="record_session", outcome="done")


def test_an_act_without_its_line_is_undone(actor, monkeypatch):
    def full(*args, **kwargs):
        raise DatabaseError("disk full")

    monkeypatch.setattr(TrailLine, "save", full)
    with pytest.raises(DatabaseError), transaction.atomic():
        made = UnitFactory.create()
        leave_line(actor=actor, verb="open_unit", outcome="done", unit=made)
    assert not type(made).objects.filter(pk=made.pk).exists()


@pytest.mark.benchmark
@pytest.mark.django_db(transaction=True)
def test_a_read_waits_a_quarter_of_a_second_at_most_and_its_line_comes_later(
    actor, file_database
):
    """Another connection holds the lock: the line is spooled, and in the trail after the next write."""
    lock = "BEGIN IMMEDIATE" if connection.vendor == "sqlite" else "BEGIN; LOCK TABLE teaching_trailline"
    with second_connection() as other:
        other.execute(lock)
        began = time.monotonic()
        leave_read_line(actor=actor, verb="board", object="board")
        assert 0.2 < time.monotonic() - began < 0.6
        other.execute("ROLLBACK")
    assert not TrailLine.objects.exists()
    assert len(spool.waiting()) == 1
    with transaction.atomic():
        leave_line(actor=actor, verb="record_session", outcome="done")
    verbs = TrailLine.objects.order_by("id").values_list("verb", flat=True)
    assert list(verbs) == ["record_session", "board"]
    assert all(line_mac(line) == line.mac for line in TrailLine.objects.all())
    assert spool.waiting() == []


def test_a_read_is_one_insert(actor, django_assert_num_queries):
    """PostgreSQL: savepoint, lock limit, shared lock, INSERT, release. SQLite: the limit is set and reset."""
    with django_assert_num_queries({"sqlite": 6, "postgresql": 5}[connection.vendor]) as caught:
        leave_read_line(actor=actor, verb="board", object="board")
    assert sum("INSERT" in query["sql"] for query in caught.captured_queries) == 1


def test_a_spooled_line_that_was_changed_is_not_loaded(actor, monkeypatch, tmp_path, caplog):
    caplog.set_level(logging.ERROR)
    spooled(actor, monkeypatch)
    path = spool.waiting()[0]
    path.write_text(path.read_text().replace('"board"', '"nothing"'))
    assert spool.load() == 0
    assert not TrailLine.objects.exists()
    assert [bad.stem for bad in spool.spoiled()] == [path.stem]
    assert "does not match its MAC" in caplog.text


def test_a_spooled_line_is_loaded_once(actor, monkeypatch):
    """Stopped between the commit and the removal of the file, the same file is met again."""
    spooled(actor, monkeypatch)
    path = spool.waiting()[0]
    text = path.read_text()
    assert spool.load() == 1
    path.write_text(text)
    assert spool.load() == 1
    assert TrailLine.objects.count() == 1
    assert set(json.loads(text)) == {*LINE_FIELDS, "mac"}


def test_a_disk_that_cannot_keep_the_spool_does_not_stop_a_read(actor, monkeypatch, settings, caplog):
    settings.VAR_DIR = settings.BASE_DIR / "manage.py"  # a file: nothing can be made below it
    spooled(actor, monkeypatch)
    assert "could not be kept" in caplog.text


def spooled(actor, monkeypatch):
    """A read's line while the trail cannot be written."""

    def locked(*args, **kwargs):
        raise DatabaseError("locked")

    with monkeypatch.context() as patch:
        patch.setattr(TrailLine, "save", locked)
        leave_read_line(actor=actor, verb="board", object="board")

"""Seals: whatever is done to the trail behind the house's back is reported, with its line or its batch."""

import threading
from datetime import timedelta

import pytest
from django.core.management import CommandError, call_command
from django.db import connection, connections, transaction
from django.utils import timezone

from teaching.models import Seal, TrailLine
from teaching.models.guards import Some, lift_guards
from teaching.record import seal_head, seals
from teaching.record.actor import Actor
from teaching.record.examining import examine
from teaching.record.seals import seal_batch, seal_if_due
from teaching.record.trail import leave_line

pytestmark = pytest.mark.django_db
LINE, SEAL = TrailLine._meta.db_table, Seal._meta.db_table
NOBODY = Actor(None)


@pytest.fixture(autouse=True)
def own_folder(settings, tmp_path):
    settings.VAR_DIR = tmp_path


def write(count):
    for _ in range(count):
        with transaction.atomic():
            leave_line(actor=NOBODY, verb="record_session", outcome="done")


def sql(*statements):
    """Done by somebody who owns the database and took its guards down."""
    lift_guards(connection, Some(tables=[LINE, SEAL]))
    with connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)


def sequence_begins_anew():
    """PostgreSQL goes on counting after a rollback; here lines are counted from the first to the last."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute(f"ALTER TABLE {LINE} ALTER id RESTART")
        else:
            cursor.execute("DELETE FROM sqlite_sequence WHERE name = %s", [LINE])


@pytest.fixture
def trail(db, django_capture_on_commit_callbacks):
    """Three sealed batches of five lines, 1 to 15, and two lines after them."""
    sequence_begins_anew()
    for _ in range(3):
        write(5)
        with django_capture_on_commit_callbacks(execute=True):
            seal_batch()
    write(2)


def test_a_trail_left_alone_holds(trail):
    assert examine() == []
    found = Seal.objects.order_by("number").values_list("number", "first_id", "last_id", "count")
    assert list(found) == [(1, 1, 5, 5), (2, 6, 10, 5), (3, 11, 15, 5)]


FLIPPED = {
    "verb": "UPDATE {line} SET verb = 'record_care' WHERE id = 7",
    "time": "UPDATE {line} SET at = '2026-01-01 00:00:00+00:00' WHERE id = 7",
    "stay": "UPDATE {line} SET stay = 'a' WHERE id = 7",
}


@pytest.mark.parametrize("statement", FLIPPED.values(), ids=FLIPPED)
def test_a_changed_line_is_named(trail, statement):
    sql(statement.format(line=LINE))
    assert examine() == ["Line 7 is not as it was written."]


def test_a_changed_line_after_the_last_seal_is_named(trail):
    sql(f"UPDATE {LINE} SET outcome = 'refused' WHERE id = 17")
    assert examine() == ["Line 17 is not as it was written."]


def test_a_changed_mac_is_named_with_its_batch(trail):
    sql(f"UPDATE {LINE} SET mac = '{'0' * 64}' WHERE id = 7")
    assert [sentence.split(" is ")[0] for sentence in examine()] == ["Line 7", "Batch 2 (lines 6 to 10)"]


def test_a_deleted_line_is_named(trail):
    sql(f"DELETE FROM {LINE} WHERE id = 7")
    first, second = examine()
    assert first == (
        "Batch 2 (lines 6 to 10) holds 4 lines where 5 were sealed. No line stands at 7."
    )
    assert second.startswith("Batch 2 (lines 6 to 10) is not as it was sealed")


def test_a_deleted_line_is_not_hidden_by_another_in_its_place(trail):
    """The number of lines is right and each line's own MAC too: only the seal knows."""
    sql(f"DELETE FROM {LINE} WHERE id = 7", f"UPDATE {LINE} SET id = 7 WHERE id = 16")
    assert any(sentence.startswith("Batch 2 (lines 6 to 10) is not as") for sentence in examine())


@pytest.mark.parametrize(("one", "other"), [(7, 8), (4, 12)], ids=["in a batch", "between batches"])
def test_swapped_lines_are_reported_with_their_batch(trail, one, other):
    sql(
        f"UPDATE {LINE} SET id = 1000 WHERE id = {one}",
        f"UPDATE {LINE} SET id = {one} WHERE id = {other}",
        f"UPDATE {LINE} SET id = {other} WHERE id = 1000",
    )
    batches = {f"Batch {(each - 1) // 5 + 1}" for each in (one, other)}
    assert {sentence.split(" (")[0] for sentence in examine()} == batches


def test_a_cut_tail_is_reported_with_its_batch(trail):
    sql(f"DELETE FROM {LINE} WHERE id >= 14")
    assert any("holds 3 lines where 5 were sealed. No line stands at 14, 15" in each for each in examine())


def test_a_tail_cut_off_with_its_seals_is_missed_outside_the_database(trail):
    sql(f"DELETE FROM {LINE} WHERE id > 10", f"DELETE FROM {SEAL} WHERE number = 3")
    assert "The end was cut off: seal 3 was made, and the newest here is 2." in examine()


def test_a_trail_emptied_whole_is_missed_outside_the_database(trail):
    sql(f"DELETE FROM {LINE}", f"DELETE FROM {SEAL}")
    assert "The end was cut off: seal 3 was made, and the newest here is none." in examine()


def test_a_missing_seal_is_named(trail):
    sql(f"DELETE FROM {SEAL} WHERE number = 2")
    assert examine() == ["Seal 2 is missing: seal 3 comes next.", "Lines 6 to 10 stand under no seal."]


def test_a_changed_seal_is_named(trail):
    sql(f"UPDATE {SEAL} SET sealed_at = '2026-01-01 00:00:00+00:00' WHERE number = 2")
    assert [sentence.split(" is ")[0] for sentence in examine()] == ["Batch 2 (lines 6 to 10)"]


def test_a_seal_made_again_without_its_followers_is_named(trail):
    """Somebody with the key re-seals an old batch: the seals after it and the one kept outside do not fit."""
    last = Seal.objects.get(number=3)
    sql(f"DELETE FROM {SEAL} WHERE number = 3")
    seal_batch()
    assert Seal.objects.get(number=3).mac != last.mac
    assert examine() == ["Seal 3 is not the one that was written down outside the database."]


@pytest.mark.parametrize("faulty", [False, True])
def test_the_command_says_it_and_exits_with_one(trail, capsys, faulty):
    if faulty:
        sql(f"DELETE FROM {LINE} WHERE id = 7")
        with pytest.raises(CommandError, match=r"2 faults\. 16 lines, 3 seals, 2 lines not") as stop:
            call_command("examine_trail")
        assert stop.value.returncode == 1
        assert "No line stands at 7" in capsys.readouterr().out
    else:
        call_command("examine_trail")
        assert capsys.readouterr().out == "The trail holds: 17 lines, 3 seals, 2 lines not sealed yet.\n"


def test_the_sealing_command(trail, capsys):
    call_command("seal_trail")
    call_command("seal_trail")
    assert capsys.readouterr().out == "Seal 4: 2 lines, 16 to 17.\nEvery line is sealed.\n"


def test_a_seal_is_due_after_a_minute_or_a_hundred_lines(trail, monkeypatch):
    assert seal_if_due() is None
    monkeypatch.setattr(seals, "DUE_LINES", 3)
    write(1)
    assert seal_if_due().count == 3
    assert seal_if_due() is None
    write(1)
    later = timezone.now() + timedelta(seconds=61)
    monkeypatch.setattr(timezone, "now", lambda: later)
    assert seal_if_due().count == 1


def test_a_newest_seal_that_cannot_be_read_is_said(trail):
    seal_head.place().write_text("{")
    assert examine() == ["trail-head.json, where the newest seal is written down, cannot be read."]


@pytest.mark.django_db(transaction=True)
def test_four_writers_at_once_leave_no_line_out(file_database, monkeypatch):
    """Each seals after its own lines; acts that are undone leave gaps on PostgreSQL."""
    sequence_begins_anew()
    monkeypatch.setattr(seals, "DUE_LINES", 7)
    failed = []

    def work():
        try:
            for turn in range(25):
                write(1)
                if turn % 5 == 0:
                    undo_one()
        except Exception as fault:
            failed.append(fault)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    seal_batch()
    assert failed == []
    assert sum(Seal.objects.values_list("count", flat=True)) == TrailLine.objects.count() == 100
    assert Seal.objects.count() > 3
    assert examine() == []


def undo_one():
    with transaction.atomic():
        leave_line(actor=NOBODY, verb="record_session", outcome="done")
        transaction.set_rollback(True)


if connection.vendor == "postgresql":

    @pytest.mark.django_db(transaction=True)
    def test_nothing_is_sealed_while_a_line_with_a_lower_id_is_not_committed():
        """The slow writer has its id already; a seal made now would leave it out for good."""
        sequence_begins_anew()
        written, go_on = threading.Event(), threading.Event()

        def slow():
            with transaction.atomic():
                leave_line(actor=NOBODY, verb="record_session", outcome="done")
                written.set()
                go_on.wait(10)
            connections.close_all()

        thread = threading.Thread(target=slow)
        thread.start()
        assert written.wait(10)
        write(1)
        assert seal_batch() is None
        with pytest.raises(CommandError, match="writing just now"):
            call_command("seal_trail")
        go_on.set()
        thread.join(10)
        seal_batch()
        assert sum(Seal.objects.values_list("count", flat=True)) == 2
        assert examine() == []

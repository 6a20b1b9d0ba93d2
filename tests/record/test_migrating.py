"""Guards through a real `migrate`: rebuilt tables are guarded again; only a Backfill fills old rows."""

from concurrent.futures import ThreadPoolExecutor

import pytest
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction

from teaching.models import Rating, Seal, TrailLine
from teaching.models.guards import missing_guards
from teaching.models.macs import line_mac
from tests.migrations_for_tests import NEWEST
from tests.record.factories import RatingFactory


def migrate(target):
    call_command("migrate", "teaching", target, verbosity=0)


def migrate_and_end(target):
    try:
        migrate(target)
    finally:
        connection.connection.close()  # the driver's own: rolls back whatever Django thinks


def sql(statement):
    with transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(statement)
        return cursor.fetchall() if cursor.description else None


@pytest.fixture
def rating(transactional_db, file_database, settings):
    settings.MIGRATION_MODULES = {"teaching": "tests.migrations_for_tests"}
    rating = RatingFactory.create(note="as written")
    yield rating
    migrate(NEWEST)
    assert missing_guards(connection) == []


def still_refuses(table):
    with pytest.raises(IntegrityError, match="only ever added"):
        sql(f"UPDATE {table} SET id = id")
    with pytest.raises(IntegrityError, match="only ever added"):
        sql(f"DELETE FROM {table}")


def test_a_rebuilt_table_is_guarded_again(rating):
    migrate("9001")
    assert missing_guards(connection) == []
    still_refuses("teaching_rating")
    still_refuses("teaching_stay")


def test_a_backfill_fills_the_new_column_and_says_so_in_the_trail(rating):
    migrate("9002")
    assert sql("SELECT only_in_tests, note FROM teaching_rating") == [("filled", "as written")]
    line = TrailLine.objects.get()
    assert (line.verb, line.outcome, line.object) == ("backfill", "done", "only-in-tests")
    assert line_mac(line) == line.mac
    assert missing_guards(connection) == []
    still_refuses("teaching_rating")


def test_a_migration_that_changes_the_past_is_refused(rating):
    migrate("9002")
    # In a thread: after a failed migration SQLite's connection stays in its broken transaction, as Django
    # leaves it.
    with ThreadPoolExecutor() as aside:
        fault = aside.submit(migrate_and_end, "9003").exception(timeout=60)
    assert "only ever added" in str(fault) + str(fault.__context__)
    assert Rating.objects.get().note == "as written"
    migrate("9002")
    assert missing_guards(connection) == []
    assert not Seal.objects.exists()

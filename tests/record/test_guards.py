"""Record rows stay as they were written, on every table and by every road there is to change them."""

from contextlib import contextmanager

import pytest
from django.apps import apps
from django.db import IntegrityError, connection, transaction

from teaching.models import Account, Purge, Rating, Seal, Stay, TrailLine
from teaching.models.append_only import DERIVED, OPERATIONAL, RECORD, AppendOnlyError
from teaching.models.guards import Some, bound_to_a_stay, install_guards, lift_guards, missing_guards, record_models
from tests.record.factories import factory_for

pytestmark = pytest.mark.django_db

SQLITE = connection.vendor == "sqlite"
every_record_model = pytest.mark.parametrize("model", record_models(), ids=lambda model: model.__name__)


def rows(table):
    with connection.cursor() as cursor:
        cursor.execute(f'SELECT * FROM "{table}" ORDER BY id')
        return cursor.fetchall()


@pytest.fixture
def row(model):
    made = factory_for(model).create()
    connection.check_constraints()  # PostgreSQL checks keys late, and would refuse TRUNCATE for that alone
    return made


@contextmanager
def recursive_triggers(state):
    """SQLite's second belt on or off; PostgreSQL has nothing like it."""
    with connection.cursor() as cursor:
        if SQLITE:
            cursor.execute(f"PRAGMA recursive_triggers = {state}")
        yield
        if SQLITE:
            cursor.execute("PRAGMA recursive_triggers = ON")


def again(model, verb, after="", new_id=False):
    """INSERT of a row that stands, with all its values, or all but the id."""
    fields = [field for field in model._meta.fields if not (new_id and field.primary_key)]
    columns = ", ".join(f'"{field.column}"' for field in fields)
    table = model._meta.db_table
    return f'{verb} INTO "{table}" ({columns}) SELECT {columns} FROM "{table}" WHERE true {after}'


def every_column_to_itself(model):
    values = ", ".join(f'"{field.column}" = "{field.column}"' for field in model._meta.fields)
    return f'UPDATE "{model._meta.db_table}" SET {values}'


# The roads past the models: name -> the SQL that tries. REPLACE must fail also on a connection that forgot
# PRAGMA recursive_triggers, such as the sqlite3 shell; with a new id it would still remove the uid's row.
ROADS = {
    "update": every_column_to_itself,
    "update of the id": lambda model: f'UPDATE "{model._meta.db_table}" SET id = id',
    "delete": lambda model: f'DELETE FROM "{model._meta.db_table}"',
    "upsert": lambda model: again(model, "INSERT", "ON CONFLICT (id) DO UPDATE SET id = excluded.id"),
}
if SQLITE:
    ROADS |= {
        "replace": lambda model: again(model, "INSERT OR REPLACE"),
        "replace under a new id": lambda model: again(model, "INSERT OR REPLACE", new_id=True),
        "update or replace": lambda model: f'UPDATE OR REPLACE "{model._meta.db_table}" SET id = id',
    }
else:
    ROADS |= {
        "truncate": lambda model: f'TRUNCATE "{model._meta.db_table}" CASCADE',
        "merge": lambda model: f'MERGE INTO "{model._meta.db_table}" t USING (SELECT 1) s ON true '
        "WHEN MATCHED THEN UPDATE SET id = t.id",
    }


def test_every_model_says_how_it_is_kept():
    models = apps.get_app_config("teaching").get_models(include_auto_created=True)
    words = (RECORD, OPERATIONAL, DERIVED)
    assert [model.__name__ for model in models if getattr(model, "keeps", "") not in words] == []


def test_there_is_a_record():
    assert {Account, Rating, TrailLine, Seal, Purge} <= set(record_models())
    assert missing_guards(connection) == []


@every_record_model
@pytest.mark.parametrize("road", ROADS.values(), ids=ROADS)
@pytest.mark.parametrize("second_belt", ["ON", "OFF"] if SQLITE else ["-"])
def test_a_row_that_stands_cannot_be_changed(model, road, second_belt, row):
    """An IntegrityError with a sentence, and every row as it was."""
    before = rows(model._meta.db_table)
    refused = pytest.raises(IntegrityError, match="only ever added")
    with recursive_triggers(second_belt), refused, transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(road(model))
    assert rows(model._meta.db_table) == before


@every_record_model
def test_models_refuse_before_the_database_does(model, row):
    """Record models say so at once; the trail's own two, which have no such base, rely on the database."""
    field = model._meta.fields[-1].name
    for change in (
        lambda: model.objects.filter(pk=row.pk).update(**{field: getattr(row, field)}),
        lambda: model.objects.filter(pk=row.pk).delete(),
        lambda: model.objects.bulk_update([row], [field]),
        lambda: row.save(),
        lambda: row.delete(),
        lambda: model._base_manager.filter(pk=row.pk).update(**{field: getattr(row, field)}),
    ):
        with pytest.raises((AppendOnlyError, IntegrityError)), transaction.atomic():
            change()
    assert model._base_manager.filter(pk=row.pk).exists()


@every_record_model
def test_a_row_that_leans_on_a_stay_says_which(model):
    """Purging finds rows by stay_id alone, so a row that points to a stay's row must carry it too."""
    leans = [field.name for field in model._meta.fields
             if field.related_model in record_models() and bound_to_a_stay(field.related_model)]  # fmt: skip
    assert not leans or bound_to_a_stay(model)


def test_lifted_guards_are_missed_and_put_back():
    lift_guards(connection, Some(tables=[Stay._meta.db_table]))
    missed = missing_guards(connection)
    assert missed and all(sentence.startswith("teaching_stay is not guarded") for sentence in missed)
    assert len(install_guards(connection)) == len(missed)
    assert missing_guards(connection) == []
    assert install_guards(connection) == []


def test_an_emptied_guard_of_the_right_name_is_missed():
    """A guard is known by its text, not by its name alone."""
    with connection.cursor() as cursor:
        if SQLITE:
            cursor.execute("SELECT name FROM sqlite_master WHERE name LIKE 'keep_teaching_stay_update_%'")
            name = cursor.fetchone()[0]
            cursor.execute(f'DROP TRIGGER "{name}"')
            cursor.execute(f'CREATE TRIGGER "{name}" BEFORE UPDATE ON teaching_stay BEGIN SELECT 1; END')
        else:
            cursor.execute("SELECT tgname FROM pg_trigger WHERE tgname LIKE 'keep_teaching_stay_update_%'")
            cursor.execute(f'ALTER TABLE teaching_stay DISABLE TRIGGER "{cursor.fetchone()[0]}"')
    assert [sentence for sentence in missing_guards(connection) if "teaching_stay is" in sentence]
    assert len(install_guards(connection)) == 1
    assert missing_guards(connection) == []

"""The web's own role on PostgreSQL, and the warning where a guard is missing."""

from contextlib import contextmanager

import pytest
from django.core import checks
from django.db import DatabaseError, connection, transaction

from teaching.models import Stay
from teaching.models.grants import grant_web_role
from teaching.models.guard_hooks import after_migrate
from teaching.models.guards import Some, lift_guards, record_models
from teaching.record.actor import Actor
from teaching.record.purging import purge_stay
from teaching.record.refusals import Refused
from teaching.record.trail import leave_line, leave_read_line
from tests.record.factories import ClinicianFactory, StayFactory, UserFactory, factory_for

pytestmark = pytest.mark.django_db


def test_the_database_check_warns_of_a_missing_guard():
    assert checks.run_checks(tags=["database"], databases=["default"]) == []
    lift_guards(connection, Some(["teaching_stay"], ["UPDATE"]))
    (found,) = checks.run_checks(tags=["database"], databases=["default"])
    assert found.msg == "teaching_stay is not guarded against UPDATE. Run: manage.py migrate"
    assert not found.is_serious(), "migrate checks first, and is the cure: an error would keep it from running"


def test_migrate_puts_guards_up_without_a_role_of_the_web(settings):
    assert settings.DATABASE_WEB_USER == ""
    lift_guards(connection)
    after_migrate("default")
    assert checks.run_checks(tags=["database"], databases=["default"]) == []


if connection.vendor == "postgresql":
    ROLE = "ostomy_web_in_tests"

    @pytest.fixture
    def web():
        """Signed in as the web's own role, inside the test's transaction, which takes the role away again."""
        with connection.cursor() as cursor:
            cursor.execute(f"CREATE ROLE {ROLE}")
        grant_web_role(connection, ROLE)

        @contextmanager
        def signed_in():
            with connection.cursor() as cursor:
                connection.check_constraints()
                cursor.execute(f"SET LOCAL ROLE {ROLE}")
                yield cursor
                cursor.execute("RESET ROLE")

        return signed_in

    @pytest.mark.parametrize("model", record_models(), ids=lambda model: model.__name__)
    def test_the_web_adds_to_the_record_and_reads_it(web, model):
        with web():
            made = factory_for(model).create()
            connection.check_constraints()
            assert model.objects.filter(pk=made.pk).exists()

    @pytest.mark.parametrize("model", record_models(), ids=lambda model: model.__name__)
    @pytest.mark.parametrize("statement", ["UPDATE {} SET id = id", "DELETE FROM {}", "TRUNCATE {} CASCADE"])
    def test_the_web_may_not_try_to_change_it(web, model, statement):
        with web() as cursor, pytest.raises(DatabaseError, match="permission denied"), transaction.atomic():
            cursor.execute(statement.format(model._meta.db_table))

    @pytest.mark.parametrize(
        "statement",
        [
            "ALTER TABLE teaching_stay DISABLE TRIGGER ALL",
            "DROP TABLE teaching_seal",
            "CREATE TABLE mine (id int)",
            "UPDATE django_migrations SET name = 'x'",
            "SET session_replication_role = replica",
        ],
    )
    def test_the_web_cannot_get_round_the_guards(web, statement):
        refused = pytest.raises(DatabaseError, match=r"must be owner|permission denied")
        with web() as cursor, refused, transaction.atomic():
            cursor.execute(statement)

    def test_the_web_works_with_the_rest(web):
        with web():
            user = UserFactory.create()
            user.username = "renamed"
            user.save()
            user.delete()
            leave_line(actor=Actor(None), verb="record_session", outcome="done")
            leave_read_line(actor=Actor(None), verb="board")

    def test_the_web_is_told_where_to_purge(web):
        stay, asks, agrees = StayFactory.create(), ClinicianFactory.create(), ClinicianFactory.create()
        with web(), pytest.raises(Refused, match=r"manage.py purge_stay"):
            purge_stay(actor=Actor(asks), agreed_by=agrees, stay=stay, why="Asked for.")
        assert Stay.objects.filter(pk=stay.pk).exists()

    def test_granting_again_takes_back_what_is_too_much(web):
        with connection.cursor() as cursor:
            cursor.execute(f"GRANT ALL ON teaching_stay TO {ROLE}")
        grant_web_role(connection, ROLE)
        with web() as cursor, pytest.raises(DatabaseError, match="permission denied"), transaction.atomic():
            cursor.execute("DELETE FROM teaching_stay")

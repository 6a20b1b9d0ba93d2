import pytest
from django.db import connection
from django.urls import reverse

from teaching.access import health
from teaching.models.guards import lift_guards

pytestmark = pytest.mark.django_db


def test_it_is_healthy_and_ready(client):
    assert client.get(reverse("healthy")).content == b"healthy\n"
    answer = client.get(reverse("ready"))
    assert (answer.status_code, answer.json()) == (200, {"database": True, "migrations": True, "guards": True})


def test_it_is_not_ready_without_the_guards(client):
    lift_guards(connection)
    answer = client.get(reverse("ready"))
    assert (answer.status_code, answer.json()["guards"]) == (503, False)
    assert client.get(reverse("healthy")).status_code == 200


def test_it_is_not_ready_with_a_migration_to_come(client, monkeypatch):
    monkeypatch.setattr(health.MigrationExecutor, "migration_plan", lambda self, targets: [("teaching", "next")])
    answer = client.get(reverse("ready"))
    assert (answer.status_code, answer.json()["migrations"]) == (503, False)

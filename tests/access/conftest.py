import pytest
from django.test import Client

from tests.access.house import House


@pytest.fixture
def house(db):
    return House()


@pytest.fixture
def signed_in(house):
    """signed_in("lead"): a client of the user with that role on the own unit."""

    def of(role: str) -> Client:
        client = Client()
        client.force_login(house.users[role], "django.contrib.auth.backends.ModelBackend")
        return client

    return of

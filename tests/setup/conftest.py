import re

import pytest
from django.urls import reverse

from tests.access.conftest import house, signed_in  # noqa: F401


@pytest.fixture
def lead(signed_in):  # noqa: F811
    return signed_in("lead")


@pytest.fixture
def nurse(signed_in):  # noqa: F811
    return signed_in("ward-nurse")


@pytest.fixture
def send():
    """send(client, name of the address, what it names, **said): the form fetched for its key, then sent."""

    def post(client, name, named, /, **said):
        path = reverse(name, kwargs=named)
        key = re.search(r'name="form_key" value="([^"]+)"', client.get(path).content.decode())[1]
        return client.post(path, {"form_key": key, **said})

    return post

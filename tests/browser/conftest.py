"""A ward in a served house, and pages of a real browser signed in as somebody of the cast."""

from datetime import UTC, datetime

import pytest
from django.conf import settings
from django.test import Client

from tests.bedside.ward import build_ward


@pytest.fixture
def ward(transactional_db):
    return build_ward(datetime.now(UTC).replace(microsecond=0))


@pytest.fixture
def ada(ward):
    return ward.stay()


@pytest.fixture
def stoma(ward, ada):
    return ward.stoma(ada)


@pytest.fixture
def sign_in(ward, live_server):
    """sign_in(context, "amber") puts her session on a browser context."""

    def on(context, name):
        client = Client()
        client.force_login(ward.user(name))
        cookie = settings.SESSION_COOKIE_NAME
        context.add_cookies([{"name": cookie, "value": client.cookies[cookie].value, "url": live_server.url}])
        return context

    return on


@pytest.fixture
def amber(page, context, sign_in):
    """Amber's page: she nurses on Heron Ward."""
    sign_in(context, "amber")
    return page

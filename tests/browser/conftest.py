"""A ward in a served house, and pages of a real browser signed in as somebody of the cast."""

import threading
from datetime import UTC, datetime
from time import monotonic, sleep

import pytest
from django.conf import settings
from django.core.signals import request_finished, request_started
from django.test import Client

from tests.bedside.ward import build_ward


@pytest.fixture(autouse=True)
def all_answered(live_server):
    """Once the page is closed, the server answers what it began before the tables are emptied under it."""
    underway, changing = [0], threading.Lock()

    def count(by):
        def counted(**_):
            with changing:
                underway[0] += by

        return counted

    began, ended = count(1), count(-1)
    request_started.connect(began)
    request_finished.connect(ended)
    yield
    until = monotonic() + 10
    while underway[0] > 0 and monotonic() < until:
        sleep(0.01)
    request_started.disconnect(began)
    request_finished.disconnect(ended)


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

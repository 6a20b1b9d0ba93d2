"""The ward of these tests, at 02:14 in the night of 13 May 2026, and a client for each of the cast."""

import uuid
from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.record.charts import chart_for
from teaching.record.kept_papers import keep_paper
from tests.bedside.ward import NIGHT, build_ward


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


@pytest.fixture
def ward(db, at_night):
    return build_ward()


@pytest.fixture
def ada(ward):
    return ward.stay()


@pytest.fixture
def stoma(ward, ada):
    return ward.stoma(ada)


@pytest.fixture
def signed_in(ward):
    """signed_in("amber") gives her client."""

    def of(name):
        client = Client()
        client.force_login(ward.user(name))
        return client

    return of


@pytest.fixture
def amber(signed_in):
    return signed_in("amber")


@pytest.fixture
def send(amber):
    """send("emptying", stay, **fields) posts a form of this room as a browser without scripts would."""

    def post(name, thing, client=amber, form_key=None, **fields):
        body = {"form_key": form_key or str(uuid.uuid4()), **fields}
        return client.post(reverse(name, args=[thing.uid]), body)

    return post


@pytest.fixture
def leaves_against_plan(ward):
    """The sheet is signed and kept now; the call is promised in so many hours."""

    def of(stay, hours=16, **content):
        due = (timezone.now() + timedelta(hours=hours)).isoformat()
        keep_paper(
            actor=replace(ward.staff["amber"], proof="password given again"), stay=stay, kind="against-plan",
            content={"call_due": due, "call_by": "Sorrel Vane, stoma nurse"} | content, pdf=b"%PDF",
            revision=chart_for(stay).revision, policy_version="1a2b3c", meaning="I gave this sheet.",
        )  # fmt: skip

    return of

"""The same ward as at the bedside, at 02:14 of 13 May 2026; Amber and Sorrel hold every skill, Basil practises."""

import uuid
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.entries import CareEntry
from teaching.record.sessions import record_care
from tests.bedside.conftest import ada, at_night, signed_in, stoma  # noqa: F401
from tests.bedside.ward import HOUSE, NIGHT, build_ward
from tests.skills import certify, observe, publish

SKILLS = ("change", "teach-bowel", "teach-urostomy")


def with_skills(ward):
    """Amber and the stoma nurse hold all three; Basil was seen three times, the last two at 5."""
    publish(HOUSE)
    clinician = staff.register_clinician(actor=HOUSE, name="Sorrel Vane", grade="stoma-nurse")
    staff.grant_role(actor=HOUSE, clinician=clinician, role="stoma-nurse")
    user, _ = staff.open_account(actor=HOUSE, clinician=clinician, username="sorrel")
    user.must_change_password = False
    user.save()
    ward.staff["sorrel"] = Actor(clinician=clinician, user=user)
    for name in ("amber", "sorrel"):
        for skill in SKILLS:
            certify(ward.staff["linden"], ward.staff[name], skill)
    for days, level in ((9, "4"), (6, "5"), (2, "5")):
        observe(ward.staff["amber"], ward.staff["basil"], ward.unit, level=level, hours_ago=24 * days)
    return ward


@pytest.fixture
def ward(db, at_night):  # noqa: F811
    return with_skills(build_ward())


@pytest.fixture
def overdue(ward, ada, stoma):  # noqa: F811
    """Ada's pouch was changed four days ago and is due every 72 hours, so it was due 02:14 yesterday."""
    at = NIGHT - timedelta(hours=96)
    record_care(actor=ward.staff["amber"], entry=CareEntry(stay=ada, stoma=stoma, procedure="change", at=at))
    return ada


@pytest.fixture
def address(ward):
    """address("sign-off", "basil", "change"), address("own-skills"): on Heron Ward."""

    def of(name, nurse=None, skill=None):
        named = [ward.staff[nurse].clinician.uid] if nurse else []
        return reverse(name, args=[ward.unit.uid, *named, *([skill] if skill else [])])

    return of


@pytest.fixture
def send(signed_in):  # noqa: F811
    """send("edda", address, **fields): as a browser without scripts would."""

    def post(who, to, **fields):
        client = who if hasattr(who, "post") else signed_in(who)
        return client.post(to, {"form_key": str(uuid.uuid4()), **fields})

    return post

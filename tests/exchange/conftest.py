"""Everybody of the demo as a file, and another house to take them in."""

import pytest
import time_machine
from django.db import transaction

from teaching.management.demo.cast import LEAVE_HOUR, SHIFTS, ZONE
from teaching.management.demo.play import play
from teaching.record import places
from teaching.record.actor import Actor
from teaching.record.checklists import publish_checklist
from teaching.record.staff import register_clinician
from tests.bedside.ward import HOUSE, checklist_file
from tests.exchange.moving import AFTERNOON, LATER, exported, judged


@pytest.fixture(scope="session")
def files(django_db_setup, django_db_blocker):
    """{family: (file, chart, assessment)} of everybody in the demo; the house they came from is then gone."""
    with django_db_blocker.unblock(), time_machine.travel(AFTERNOON, tick=False), transaction.atomic():
        demo = play(AFTERNOON)
        found = {family: (exported(stay), *judged(stay)) for family, stay in demo.stays.items()}
        transaction.set_rollback(True)
    return found


@pytest.fixture
def other_house(db):
    """Another house: one unit that works by the same hours, and somebody who brings a record in."""
    with time_machine.travel(LATER, tick=False):
        version = publish_checklist(actor=HOUSE, content=checklist_file())
        unit = places.open_unit(
            actor=HOUSE, name="Ward Nine", zone=ZONE, shifts=SHIFTS, leave_hour=LEAVE_HOUR, checklist=version
        )
        yield Actor(register_clinician(actor=HOUSE, name="Rosa Invented", grade="registered")), unit

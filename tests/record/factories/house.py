"""Staff, places, the checklist, and the trail."""

import uuid
from datetime import UTC, datetime, timedelta

import factory
from factory import Sequence, SubFactory
from factory.django import DjangoModelFactory

from teaching import models

MORNING = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
SHIFTS = [
    {"name": "day", "starts": "07:30", "ends": "19:30"},
    {"name": "night", "starts": "19:30", "ends": "07:30"},
]


class ClinicianFactory(DjangoModelFactory):
    class Meta:
        model = models.Clinician


class Row(DjangoModelFactory):
    by = SubFactory(ClinicianFactory)

    class Meta:
        abstract = True


class ClinicianDetailsFactory(Row):
    clinician = SubFactory(ClinicianFactory)
    name = Sequence("Nurse Invented {}".format)
    grade = "registered"

    class Meta:
        model = models.ClinicianDetails


class UserFactory(DjangoModelFactory):
    username = Sequence("nurse-{}".format)
    clinician = SubFactory(ClinicianFactory)

    class Meta:
        model = models.User


class UnitFactory(Row):
    name = "Ward Invented"
    zone = "Europe/London"

    class Meta:
        model = models.Unit


class ChecklistVersionFactory(Row):
    code = "stoma"
    number = Sequence(lambda n: n + 1)
    sha256 = "0" * 64
    content = factory.Dict({})
    published_at = MORNING

    class Meta:
        model = models.ChecklistVersion


class ChecklistRowFactory(Row):
    version = SubFactory(ChecklistVersionFactory)
    code = Sequence("step-{}".format)
    procedure = "change"
    position = 1
    applies = "always"
    essential = "always"
    practice_share = "all"

    class Meta:
        model = models.ChecklistRow


class UnitSettingFactory(Row):
    unit = SubFactory(UnitFactory)
    shifts = SHIFTS
    checklist = SubFactory(ChecklistVersionFactory)

    class Meta:
        model = models.UnitSetting


class PolicyVersionFactory(Row):
    unit = SubFactory(UnitFactory)
    overrides = factory.Dict({})
    why = "The unit asked for it."
    effective_from = MORNING

    class Meta:
        model = models.PolicyVersion


class MembershipFactory(Row):
    clinician = SubFactory(ClinicianFactory)
    unit = SubFactory(UnitFactory)
    role = "ward-nurse"
    action = "grant"

    class Meta:
        model = models.Membership


class SignOffFactory(Row):
    nurse = SubFactory(ClinicianFactory)
    assessor = SubFactory(ClinicianFactory)
    skill = "change"
    valid_from = MORNING
    valid_until = MORNING + timedelta(days=365)
    kind = "granted"

    class Meta:
        model = models.SignOff


class TrailLineFactory(DjangoModelFactory):
    uid = factory.LazyFunction(uuid.uuid4)
    verb, outcome, key_id, mac = "test", "done", "key-1", "0" * 64

    class Meta:
        model = models.TrailLine


class SealFactory(DjangoModelFactory):
    number = Sequence(lambda n: n + 1)
    first_id, last_id, count, key_id, mac = 1, 1, 1, "key-1", "0" * 64

    class Meta:
        model = models.Seal

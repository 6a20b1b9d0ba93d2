"""The person, the stay, the stoma and its kit, who is learning, and the permit to purge."""

import uuid
from datetime import date, timedelta

import factory
from factory import SelfAttribute, Sequence, SubFactory

from teaching import models
from tests.record.factories.house import MORNING, ClinicianFactory, Row, UnitFactory


class PersonFactory(Row):
    class Meta:
        model = models.Person


class PersonDetailsFactory(Row):
    person = SubFactory(PersonFactory)
    authority = "hospital-invented"
    mrn = Sequence("M{}".format)
    family_name = "Invented"
    given_names = "Person"
    born = date(1960, 5, 1)

    class Meta:
        model = models.PersonDetails


class StayFactory(Row):
    person = SubFactory(PersonFactory)
    zone = "Europe/London"

    class Meta:
        model = models.Stay


class OfStay(Row):
    stay = SubFactory(StayFactory)

    class Meta:
        abstract = True


class StayDetailsFactory(OfStay):
    authority = "hospital-invented"
    visit_number = Sequence("V{}".format)

    class Meta:
        model = models.StayDetails


class StayEventFactory(OfStay):
    kind = "opened"
    unit = SubFactory(UnitFactory)
    happened_at = MORNING

    class Meta:
        model = models.StayEvent


class PlannedHomeFactory(OfStay):
    at = MORNING + timedelta(days=5)

    class Meta:
        model = models.PlannedHome


class StomaFactory(OfStay):
    label = Sequence("stoma {}".format)
    kind = "ileostomy"
    construction = "end"
    side = "right"

    class Meta:
        model = models.Stoma


class OfStoma(Row):
    stoma = SubFactory(StomaFactory)
    stay = SelfAttribute("stoma.stay")

    class Meta:
        abstract = True


class KitFactory(OfStoma):
    pieces, shape, opening, closure = "two", "flat", "cut", "drainable"
    happened_at = MORNING

    class Meta:
        model = models.Kit


class BodyEventFactory(OfStay):
    code = "sedation"
    change = "began"
    happened_at = MORNING

    class Meta:
        model = models.BodyEvent


class ArrangementFactory(OfStay):
    code = "supplies"
    state = "asked"
    happened_at = MORNING

    class Meta:
        model = models.Arrangement


class AfterHomeFactory(OfStay):
    kind = "no-answer"
    at = MORNING

    class Meta:
        model = models.AfterHome


class PaperFactory(OfStay):
    kind = "readiness"
    content = factory.Dict({})
    content_sha256 = "0" * 64
    revision = 1
    policy_version = "0" * 12
    code_version = "test"

    class Meta:
        model = models.Paper


class PaperFileFactory(Row):
    paper = SubFactory(PaperFactory)
    stay = SelfAttribute("paper.stay")
    sha256 = "0" * 64
    bytes = b"%PDF"

    class Meta:
        model = models.PaperFile


class ImportOriginFactory(OfStay):
    object_uid = factory.LazyFunction(uuid.uuid4)
    object_kind = "account"
    file_sha256 = "0" * 64

    class Meta:
        model = models.ImportOrigin


class LearnerFactory(OfStay):
    kind = "helper"
    name = "Helper Invented"

    class Meta:
        model = models.Learner


class OfLearner(Row):
    learner = SubFactory(LearnerFactory)
    stay = SelfAttribute("learner.stay")

    class Meta:
        abstract = True


class LearnerConsentFactory(OfLearner):
    whose = "person"
    yes = True
    at = MORNING

    class Meta:
        model = models.LearnerConsent


class LearnerHoursFactory(OfLearner):
    week = "0" * 168

    class Meta:
        model = models.LearnerHours


class LearnerNeedFactory(OfLearner):
    code = "sight"

    class Meta:
        model = models.LearnerNeed


class PurgeFactory(Row):
    stay = factory.LazyFunction(lambda: str(uuid.uuid4()))
    stay_key = Sequence(lambda n: 900_000 + n)
    asked_by = SelfAttribute("by")
    agreed_by = SubFactory(ClinicianFactory)
    why = "A test asked for it."

    class Meta:
        model = models.Purge


class PurgeDoneFactory(Row):
    purge = SubFactory(PurgeFactory)
    rows = 0

    class Meta:
        model = models.PurgeDone

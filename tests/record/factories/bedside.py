"""What happened at the bedside, and cautions."""

from factory import SelfAttribute, SubFactory

from teaching import models
from tests.record.factories.house import MORNING, ChecklistRowFactory, Row
from tests.record.factories.stays import LearnerFactory, OfStay, OfStoma


class EventFactory(OfStoma):
    kind = "teaching"
    procedure = "change"
    opened_at = MORNING

    class Meta:
        model = models.Event


class AccountFactory(Row):
    event = SubFactory(EventFactory)
    stay = SelfAttribute("event.stay")
    rater = SelfAttribute("by")
    rater_grade = "registered"
    began_at = MORNING
    zone = "Europe/London"
    began_offset = 0
    content_sha256 = "0" * 64
    meaning = "I taught and observed this"
    signed_at = MORNING
    proof = "session"

    class Meta:
        model = models.Account


class OfAccount(Row):
    account = SubFactory(AccountFactory)
    stay = SelfAttribute("account.stay")

    class Meta:
        abstract = True


class CosignFactory(OfAccount):
    cosigner_grade = "registered"
    at = MORNING
    proof = "session"

    class Meta:
        model = models.Cosign


class RatingFactory(OfAccount):
    learner = SubFactory(LearnerFactory, stay=SelfAttribute("..account.stay"))
    row = SubFactory(ChecklistRowFactory)
    code = SelfAttribute("row.code")
    answer = "04"

    class Meta:
        model = models.Rating


class FindingFactory(OfAccount):
    stoma = SelfAttribute("account.event.stoma")

    class Meta:
        model = models.Finding


class OutputTotalFactory(OfStoma):
    until_at = MORNING
    ml = 800

    class Meta:
        model = models.OutputTotal


class CautionFactory(OfStay):
    sign = "dark-stoma"
    list = "call_now"
    words = "The stoma looks dark."
    policy_version = "1"
    at = MORNING

    class Meta:
        model = models.Caution


class CautionStepFactory(Row):
    caution = SubFactory(CautionFactory)
    stay = SelfAttribute("caution.stay")
    kind = "told"
    happened_at = MORNING

    class Meta:
        model = models.CautionStep


class NothingSinceFactory(OfStoma):
    since_at = MORNING

    class Meta:
        model = models.NothingSince

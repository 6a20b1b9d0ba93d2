"""Skills of nurses, what was seen of them, and who teaches this shift."""

from factory import Dict, SelfAttribute, Sequence, SubFactory

from teaching import models
from tests.record.factories.house import MORNING, ClinicianFactory, Row, UnitFactory


class SkillVersionFactory(Row):
    skill = "change"
    number = Sequence(lambda n: n + 1)
    sha256 = "0" * 64
    content = Dict({})
    published_at = MORNING

    class Meta:
        model = models.SkillVersion


class PracticeFactory(Row):
    nurse = SubFactory(ClinicianFactory)
    assessor = SelfAttribute("by")
    skill_version = SubFactory(SkillVersionFactory)
    unit = SubFactory(UnitFactory)
    setting = "person"
    at = MORNING

    class Meta:
        model = models.Practice


class SelfRatingFactory(Row):
    nurse = SelfAttribute("by")
    skill = "change"
    confidence = 3
    at = MORNING

    class Meta:
        model = models.SelfRating


class ObservationAskFactory(Row):
    nurse = SelfAttribute("by")
    skill = "change"
    unit = SubFactory(UnitFactory)
    state = "asked"

    class Meta:
        model = models.ObservationAsk


class HuddleTickFactory(Row):
    unit = SubFactory(UnitFactory)
    day = MORNING.date()
    shift = "day"
    clinician = SelfAttribute("by")
    may_teach = True

    class Meta:
        model = models.HuddleTick


class StaffPaperFactory(Row):
    unit = SubFactory(UnitFactory)
    kind = "competence"
    number = Sequence(lambda n: n + 1)
    content = Dict({})
    content_sha256 = "0" * 64
    code_version = "test"
    sha256 = "0" * 64
    bytes = b"%PDF"

    class Meta:
        model = models.StaffPaper

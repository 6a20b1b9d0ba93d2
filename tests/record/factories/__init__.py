"""A row of every record table, with whatever it stands on. Every name is invented.

They write rows straight into the tables, past the verbs: for tests of what lies below the verbs. What belongs
together shares its stay; say more by hand, such as RatingFactory(account=account, learner=learner).
"""

from tests.record.factories.bedside import (
    AccountFactory,
    CautionFactory,
    CautionStepFactory,
    CosignFactory,
    EventFactory,
    FindingFactory,
    NothingSinceFactory,
    OutputTotalFactory,
    RatingFactory,
)
from tests.record.factories.house import (
    MORNING,
    SHIFTS,
    ChecklistRowFactory,
    ChecklistVersionFactory,
    ClinicianDetailsFactory,
    ClinicianFactory,
    MembershipFactory,
    PolicyVersionFactory,
    SealFactory,
    SignOffFactory,
    TrailLineFactory,
    UnitFactory,
    UnitSettingFactory,
    UserFactory,
)
from tests.record.factories.skills import (
    HuddleTickFactory,
    ObservationAskFactory,
    PracticeFactory,
    SelfRatingFactory,
    SkillVersionFactory,
    StaffPaperFactory,
)
from tests.record.factories.stays import (
    AfterHomeFactory,
    ArrangementFactory,
    BodyEventFactory,
    ImportOriginFactory,
    KitFactory,
    LearnerConsentFactory,
    LearnerFactory,
    LearnerHoursFactory,
    LearnerNeedFactory,
    PaperFactory,
    PaperFileFactory,
    PersonDetailsFactory,
    PersonFactory,
    PlannedHomeFactory,
    PurgeDoneFactory,
    PurgeFactory,
    StayDetailsFactory,
    StayEventFactory,
    StayFactory,
    StomaFactory,
)

__all__ = [
    "MORNING",
    "SHIFTS",
    "AccountFactory",
    "AfterHomeFactory",
    "ArrangementFactory",
    "BodyEventFactory",
    "CautionFactory",
    "CautionStepFactory",
    "ChecklistRowFactory",
    "ChecklistVersionFactory",
    "ClinicianDetailsFactory",
    "ClinicianFactory",
    "CosignFactory",
    "EventFactory",
    "FindingFactory",
    "HuddleTickFactory",
    "ImportOriginFactory",
    "KitFactory",
    "LearnerConsentFactory",
    "LearnerFactory",
    "LearnerHoursFactory",
    "LearnerNeedFactory",
    "MembershipFactory",
    "NothingSinceFactory",
    "ObservationAskFactory",
    "OutputTotalFactory",
    "PaperFactory",
    "PaperFileFactory",
    "PersonDetailsFactory",
    "PersonFactory",
    "PlannedHomeFactory",
    "PolicyVersionFactory",
    "PracticeFactory",
    "PurgeDoneFactory",
    "PurgeFactory",
    "RatingFactory",
    "SealFactory",
    "SelfRatingFactory",
    "SignOffFactory",
    "SkillVersionFactory",
    "StaffPaperFactory",
    "StayDetailsFactory",
    "StayEventFactory",
    "StayFactory",
    "StomaFactory",
    "TrailLineFactory",
    "UnitFactory",
    "UnitSettingFactory",
    "UserFactory",
    "factory_for",
]


def factory_for(model):
    """The factory that makes rows of this model. Raises LookupError where there is none yet."""
    for name in __all__:
        if name.endswith("Factory") and globals()[name]._meta.model is model:
            return globals()[name]
    raise LookupError(f"tests/record/factories makes no {model.__name__} yet; add it there.")

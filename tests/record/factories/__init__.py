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
from tests.record.factories.stays import (
    ArrangementFactory,
    BodyEventFactory,
    KitFactory,
    LearnerConsentFactory,
    LearnerFactory,
    LearnerHoursFactory,
    LearnerNeedFactory,
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
    "KitFactory",
    "LearnerConsentFactory",
    "LearnerFactory",
    "LearnerHoursFactory",
    "LearnerNeedFactory",
    "MembershipFactory",
    "OutputTotalFactory",
    "PersonDetailsFactory",
    "PersonFactory",
    "PlannedHomeFactory",
    "PolicyVersionFactory",
    "PurgeDoneFactory",
    "PurgeFactory",
    "RatingFactory",
    "SealFactory",
    "SignOffFactory",
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

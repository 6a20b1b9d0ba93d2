"""What is kept. Each model says how: record (append-only), operational or derived (`append_only.py`)."""

from teaching.models.cautions import Caution, CautionStep
from teaching.models.checklist import ChecklistRow, ChecklistVersion
from teaching.models.drafts import Draft, DraftTap, RequestKey
from teaching.models.events import Account, Cosign, Event, Finding, OutputTotal, Rating
from teaching.models.figures import StayNow
from teaching.models.places import PolicyVersion, Unit, UnitSetting
from teaching.models.staff import Clinician, ClinicianDetails, Membership, SignOff, User
from teaching.models.stays import (
    Arrangement,
    BodyEvent,
    Kit,
    Learner,
    LearnerConsent,
    LearnerHours,
    LearnerNeed,
    Person,
    PersonDetails,
    PlannedHome,
    Stay,
    StayDetails,
    StayEvent,
    Stoma,
)
from teaching.models.trail import Purge, PurgeDone, Seal, TrailLine

__all__ = [
    "Account",
    "Arrangement",
    "BodyEvent",
    "Caution",
    "CautionStep",
    "ChecklistRow",
    "ChecklistVersion",
    "Clinician",
    "ClinicianDetails",
    "Cosign",
    "Draft",
    "DraftTap",
    "Event",
    "Finding",
    "Kit",
    "Learner",
    "LearnerConsent",
    "LearnerHours",
    "LearnerNeed",
    "Membership",
    "OutputTotal",
    "Person",
    "PersonDetails",
    "PlannedHome",
    "PolicyVersion",
    "Purge",
    "PurgeDone",
    "Rating",
    "RequestKey",
    "Seal",
    "SignOff",
    "Stay",
    "StayDetails",
    "StayEvent",
    "StayNow",
    "Stoma",
    "TrailLine",
    "Unit",
    "UnitSetting",
    "User",
]

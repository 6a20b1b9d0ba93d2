"""What is kept. Each model says how: record (append-only), operational or derived (`append_only.py`)."""

from teaching.models.arrangements import AfterHome, Arrangement
from teaching.models.cautions import Caution, CautionStep
from teaching.models.checklist import ChecklistRow, ChecklistVersion
from teaching.models.drafts import Draft, DraftTap, RequestKey, TakeOver
from teaching.models.events import Account, Cosign, Event, Finding, NothingSince, OutputTotal, Rating
from teaching.models.figures import StayNow
from teaching.models.imports import ImportOrigin
from teaching.models.papers import Paper, PaperFile, StaffPaper
from teaching.models.places import PolicyVersion, Unit, UnitSetting
from teaching.models.skills import HuddleTick, ObservationAsk, Practice, SelfRating, SkillVersion
from teaching.models.staff import Clinician, ClinicianDetails, Membership, SignOff, User
from teaching.models.stays import (
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
    "AfterHome",
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
    "HuddleTick",
    "ImportOrigin",
    "Kit",
    "Learner",
    "LearnerConsent",
    "LearnerHours",
    "LearnerNeed",
    "Membership",
    "NothingSince",
    "ObservationAsk",
    "OutputTotal",
    "Paper",
    "PaperFile",
    "Person",
    "PersonDetails",
    "PlannedHome",
    "PolicyVersion",
    "Practice",
    "Purge",
    "PurgeDone",
    "Rating",
    "RequestKey",
    "Seal",
    "SelfRating",
    "SignOff",
    "SkillVersion",
    "StaffPaper",
    "Stay",
    "StayDetails",
    "StayEvent",
    "StayNow",
    "Stoma",
    "TakeOver",
    "TrailLine",
    "Unit",
    "UnitSetting",
    "User",
]

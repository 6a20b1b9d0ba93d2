"""A made-up ward built by the product's own verbs: two units, a small cast, their people. Times are UTC."""

import json
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from functools import cache
from pathlib import Path

from teaching.record import checklists, learners, places, sessions, staff, stays, stomas
from teaching.record.actor import Actor
from teaching.record.entries import (
    KitEntry,
    LearnerEntry,
    RatingEntry,
    SessionEntry,
    StayEntry,
    StomaEntry,
)

NIGHT = datetime(2026, 5, 13, 1, 14, tzinfo=UTC)  # 02:14 on the ward's clock in London
HOUSE = Actor(clinician=None)
SHIFTS = (
    {"name": "day", "starts": "07:30", "ends": "19:30"},
    {"name": "night", "starts": "19:30", "ends": "07:30"},
)
EMPTYING = ("em-when", "em-open", "em-wipe", "em-close", "em-hands")
URINE = ("ue-when", "ue-open", "ue-shut", "ue-look", "ue-hands")
PASSWORD = "three quiet herons by the weir"
CAST = {
    "amber": ("Amber Oakley", "registered", "ward-nurse"),
    "basil": ("Basil Thorne", "registered", "ward-nurse"),
    "tansy": ("Tansy Reed", "student", "student"),
    "ashby": ("Ashby Crane", "assistant", "assistant"),
    "edda": ("Edda Marsh", "registered", "educator"),
    "linden": ("Linden Brook", "registered", "lead"),
}


@cache
def checklist_file():
    return json.loads((Path(__file__).parents[2] / "fixtures" / "checklist-1.json").read_text())


@dataclass
class Ward:
    unit: object
    other: object
    now: datetime
    staff: dict[str, Actor] = field(default_factory=dict)

    def user(self, name):
        return self.staff[name].user

    def stay(self, given="Ada", family="Fernhollow", bed="A1", unit=None, days=4):
        """Somebody admitted: surgery so many days before this night, leaving in two days."""
        return stays.open_stay(
            actor=self.staff["amber"],
            entry=StayEntry(
                unit=unit or self.unit, authority="made up", mrn=f"000-{bed}", family_name=family,
                given_names=given, born=date(1958, 3, 2), bed=bed, surgery_at=self.now - timedelta(days=days),
                opened_at=self.now - timedelta(days=days + 1), planned_at=self.now + timedelta(days=2),
            ),
        )  # fmt: skip

    def stoma(self, stay, kind="ileostomy", side="right", days=4, **kit):
        """A stoma with its kit; `closure=None` leaves the kit unwritten."""
        made = stomas.add_stoma(
            actor=self.staff["amber"], stay=stay,
            entry=StomaEntry(kind=kind, side=side, formed_at=self.now - timedelta(days=days)),
        )  # fmt: skip
        if kit.get("closure", "drainable"):
            entry = KitEntry(happened_at=self.now - timedelta(days=days), interval_hours=72, **kit)
            stomas.fit_kit(actor=self.staff["amber"], stoma=made, entry=entry)
        return made

    def helper(self, stay, name="Hugo", relation="husband", agreed=True):
        yes = self.now - timedelta(days=2) if agreed else None
        entry = LearnerEntry(name=name, relation=relation, person_said_yes_at=yes, helper_said_yes_at=yes)
        return learners.add_learner(actor=self.staff["amber"], stay=stay, entry=entry)

    def teach(
        self, stay, stoma, hours_ago, levels="06", by="amber", learner=None, codes=EMPTYING, procedure="", **rating
    ):
        """A signed session: one level for all rows, or a level for each (None: not rated)."""
        said = [levels] * len(codes) if isinstance(levels, str) else levels
        who = learner or stay.learners.get(kind="person")
        return sessions.record_session(
            actor=self.staff[by],
            entry=SessionEntry(
                stay=stay, stoma=stoma, procedure=procedure or ("urine" if codes is URINE else "emptying"),
                began_at=self.now - timedelta(hours=hours_ago),
                role="student" if by == "tansy" else "taught",
                ratings=tuple(
                    RatingEntry(learner=who, code=code, answer=level, **rating)
                    for code, level in zip(codes, said, strict=True)
                    if level
                ),
            ),
        )  # fmt: skip


def build_ward(now: datetime = NIGHT) -> Ward:
    """Everything is told relative to `now`."""
    version = checklists.publish_checklist(actor=HOUSE, content=checklist_file())
    here, there = (
        places.open_unit(actor=HOUSE, name=name, zone="Europe/London", shifts=SHIFTS, checklist=version)
        for name in ("Heron Ward (made up)", "Wren Ward (made up)")
    )
    ward = Ward(here, there, now)
    for username, (name, grade, role) in CAST.items():
        ward.staff[username] = _hire(username, name, grade, role, here)
    ward.staff["wilma"] = _hire("wilma", "Wilma Sedge", "registered", "ward-nurse", there)
    return ward


def _hire(username, name, grade, role, unit) -> Actor:
    clinician = staff.register_clinician(actor=HOUSE, name=name, grade=grade)
    staff.grant_role(actor=HOUSE, clinician=clinician, role=role, unit=unit)
    user, _ = staff.open_account(actor=HOUSE, clinician=clinician, username=username)
    user.set_password(PASSWORD)
    user.must_change_password = False
    user.save()
    return Actor(clinician=clinician, user=user)

"""Two units made by the house's own verbs: one with a stay and all it holds, one for strangers; a user of each role."""

import json
from datetime import date, timedelta
from pathlib import Path

from django.utils import timezone

from teaching.models import User
from teaching.record import arrangements, cautions, checklists, learners, places, sessions, staff, stays, stomas
from teaching.record.actor import Actor
from teaching.record.charts import chart_for
from teaching.record.drafts import begin_draft
from teaching.record.entries import KitEntry, LearnerEntry, RatingEntry, SessionEntry, StayEntry, StomaEntry
from teaching.record.kept_papers import keep_paper
from teaching.record.kept_staff_papers import keep_staff_paper
from teaching.rules.vocabulary import HOSPITAL_ROLES, ROLES
from tests import skills

HOUSE = Actor(clinician=None)
KEY = "3d5c0a52-8a0c-4d5e-9c0b-0f6a2c1e7b11"
CHECKLIST = Path(__file__).resolve().parents[2] / "fixtures" / "checklist-1.json"
GRADE = {"stoma-nurse": "stoma-nurse", "assistant": "assistant", "student": "student"}
SHIFTS = [
    {"name": "day", "starts": "07:30", "ends": "19:30"},
    {"name": "night", "starts": "19:30", "ends": "07:30"},
]
PASSWORD = "three quiet herons by the weir"


class House:
    """`own` and `other` units, `users` by role, and `stay`, `stoma`, `kit`, `learner` and the like on the own unit."""

    def __init__(self) -> None:
        checklist = checklists.publish_checklist(actor=HOUSE, content=json.loads(CHECKLIST.read_text()))
        self.own, self.other = (
            places.open_unit(
                actor=HOUSE, name=name, zone="America/New_York", shifts=SHIFTS, checklist=checklist,
                languages=("en", "pl"),
            )
            for name in ("Heron Ward", "Kestrel Ward")
        )
        self.users = {role: self.somebody(role, role) for role in ROLES}
        self.users["nobody"] = self.somebody("nobody")
        strangers = [role for role in ROLES if role not in HOSPITAL_ROLES]
        self.users["stranger"] = self.somebody("stranger", *strangers, unit=self.other)
        self.actor = Actor(clinician=self.users["ward-nurse"].clinician, user=self.users["ward-nurse"])
        self.stay = self.open_stay("A1")
        self.stoma = self.add_stoma(self.stay)
        self.kit = stomas.fit_kit(actor=self.actor, stoma=self.stoma, entry=KitEntry())
        self.learner = self.add_helper(self.stay, "Joan Invented")
        self.arrange()
        self.caution = cautions.raise_caution(
            actor=self.actor, stay=self.stay, sign="gap", at=timezone.now(), stoma=self.stoma
        )
        self.account = self.record_session()
        self.event = self.account.event
        self.draft = begin_draft(actor=self.actor, stay=self.stay, stoma=self.stoma, procedure="change")
        self.paper = self.keep_paper()
        lead, holder = (self.actor_of(role) for role in ("lead", "stoma-nurse"))
        skills.publish(HOUSE)
        skills.certify(lead, holder)
        self.practice = skills.observe(holder, self.actor, self.own)
        self.staff_paper = keep_staff_paper(
            actor=lead, unit=self.own, kind="unit-evidence", content={"headline": "Invented."}, pdf=b"%PDF-",
            still=lambda: {"headline": "Invented."},
        )

    def record_session(self):
        rating = RatingEntry(learner=self.stay.learners.get(kind="person"), code="em-open", answer="06")
        entry = SessionEntry(
            stay=self.stay, stoma=self.stoma, procedure="emptying", began_at=timezone.now(), ratings=(rating,)
        )
        return sessions.record_session(actor=self.actor, entry=entry)

    def keep_paper(self):
        """A readiness record that nobody signed, with hardly a word in it."""
        return keep_paper(
            actor=self.actor, stay=self.stay, kind="readiness", content={"headline": "Not yet."}, pdf=b"%PDF-",
            revision=chart_for(self.stay).revision, policy_version="invented",
        )

    def arrange(self) -> None:
        """A visit and a time for teaching under keys that an address can name."""
        soon = timezone.now() + timedelta(days=3)
        arrangements.arrange_visit(actor=self.actor, stay=self.stay, at=soon, key=KEY)
        own = [self.stay.learners.get(kind="person")]
        arrangements.book_teaching(actor=self.actor, stay=self.stay, at=soon, learners=own, key=KEY)

    def actor_of(self, role: str) -> Actor:
        return Actor(clinician=self.users[role].clinician, user=self.users[role])

    def somebody(self, name: str, *roles: str, unit=None) -> User:
        clinician = staff.register_clinician(
            actor=HOUSE, name=f"{name.capitalize()} Invented", grade=GRADE.get(name, "registered")
        )
        for role in roles:
            where = None if role in HOSPITAL_ROLES else unit or self.own
            staff.grant_role(actor=HOUSE, clinician=clinician, role=role, unit=where)
        user, _ = staff.open_account(actor=HOUSE, clinician=clinician, username=name)
        user.set_password(PASSWORD)
        user.must_change_password = False
        user.save()
        return user

    def open_stay(self, mrn: str, unit=None):
        entry = StayEntry(
            unit=unit or self.own, authority="Invented Hospital", mrn=mrn, family_name="Invented",
            given_names=f"Person {mrn}", born=date(1958, 4, 23), bed=mrn,
        )
        return stays.open_stay(actor=self.actor, entry=entry)

    def add_stoma(self, stay, **more):
        return stomas.add_stoma(actor=self.actor, stay=stay, entry=StomaEntry(kind="ileostomy", **more))

    def add_helper(self, stay, name):
        now = timezone.now()
        entry = LearnerEntry(name=name, person_said_yes_at=now, helper_said_yes_at=now)
        return learners.add_learner(actor=self.actor, stay=stay, entry=entry)

    @property
    def named(self) -> dict[str, str]:
        """What an address may name, each of the own unit."""
        return {
            "unit": str(self.own.uid),
            "clinician": str(self.users["ward-nurse"].clinician.uid),
            **{
                name: str(getattr(self, name).uid)
                for name in (
                    "stay", "stoma", "kit", "learner", "caution", "practice", "paper", "staff_paper", "account",
                    "event", "draft",
                )
            },
            "nurse": str(self.users["ward-nurse"].clinician.uid),
        }

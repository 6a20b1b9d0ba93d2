"""Bad input to every verb: refused with its field and a sentence that says the mend, and nothing is stored anywhere."""

from datetime import date, timedelta

import pytest
import time_machine
from django.apps import apps

from teaching.record import arrangements, learners, places, sessions, staff, stays, stomas
from teaching.record.checklists import publish_checklist
from teaching.record.entries import (
    CareEntry,
    FindingEntry,
    KitEntry,
    LearnerEntry,
    RatingEntry,
    RecheckEntry,
    SessionEntry,
    StayEntry,
    StomaEntry,
)
from teaching.record.refusals import Refused
from tests.bedside.ward import NIGHT, build_ward, checklist_file

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
TODAY = {"began_at": NIGHT - HOUR}


@pytest.fixture
def scene(db):
    with time_machine.travel(NIGHT, tick=False):
        yield Scene()


class Scene:
    """One ward, one person with an ileostomy and a helper who has not said yes; somebody else next to her."""

    def __init__(self):
        self.ward = build_ward()
        self.stay = self.ward.stay()
        self.stoma = self.ward.stoma(self.stay)
        self.person = self.stay.learners.get(kind="person")
        self.helper = self.ward.helper(self.stay, agreed=False)
        self.bo = self.ward.stay("Bo", "Fen", "A2")
        self.urostomy = self.ward.stoma(self.bo, kind="urostomy", outlet="tap")

    def by(self, name):
        return self.ward.staff[name]

    def session(self, code="em-open", answer="06", by="amber", rating=None, **more):
        one = RatingEntry(learner=self.person, code=code, answer=answer, **(rating or {}))
        told = {"stay": self.stay, "stoma": self.stoma, "procedure": "emptying", "ratings": (one,)} | TODAY | more
        sessions.record_session(actor=self.by(by), entry=SessionEntry(**told))

    def care(self, by="amber", **more):
        told = {"stay": self.stay, "stoma": self.stoma, "procedure": "change", "at": NIGHT - HOUR} | more
        sessions.record_care(actor=self.by(by), entry=CareEntry(**told))

    def recheck(self, by="amber", **more):
        told = {"stay": self.stay, "stoma": self.stoma, "procedure": "emptying", "learner": self.person, "at": NIGHT}
        sessions.record_recheck(actor=self.by(by), entry=RecheckEntry(**told | more))

    def open(self, **more):
        told = {
            "unit": self.ward.unit, "authority": "made up", "mrn": "000-new", "family_name": "Ash",
            "given_names": "Cy", "born": date(1960, 1, 1),
        } | more  # fmt: skip
        stays.open_stay(actor=self.by("amber"), entry=StayEntry(**told))

    def note(self, kind, stay=None, **more):
        stays.note_stay_event(actor=self.by("amber"), stay=stay or self.stay, kind=kind, **more)

    def fit(self, stoma=None, **kit):
        stomas.fit_kit(actor=self.by("amber"), stoma=stoma or self.stoma, entry=KitEntry(**kit))

    def body(self, code, change, **more):
        told = {"stay": self.stay, "code": code, "change": change, "at": NIGHT} | more
        stomas.note_body_event(actor=self.by("amber"), **told)

    def certify(self, by="linden", nurse="amber", skill="teach-bowel", days=300):
        staff.accept_certificate(
            actor=self.by(by), nurse=self.by(nurse).clinician, skill=skill, unit=self.ward.unit,
            certificate="A course, made up", valid_from=NIGHT, valid_until=NIGHT + days * DAY,
        )  # fmt: skip

    def policy(self, unit=None, **overrides):
        places.set_policy(actor=self.by("linden"), unit=unit, overrides=overrides, why="Made up.")


# what is wrong: (the act, the field it stands beside, words of the sentence)
WRONG = {
    # a session
    "a student signing as the teacher": (lambda s: s.session(by="tansy"), "role", "co-signs"),
    "a nurse signing as a student": (lambda s: s.session(role="student"), "role", "Only a student"),
    "an assistant rating a change": (
        lambda s: s.session("prep-kit", procedure="change", by="ashby"), "procedure", "Record care given"),
    "an assistant explaining a topic": (
        lambda s: s.session("t-call", "told", by="ashby"), "ratings.t-call", "nurse explains"),
    "09": (lambda s: s.session(answer="09"), "ratings.em-open", "leave out a row"),
    "a topic's answer for a step": (lambda s: s.session(answer="told"), "ratings.em-open", "no answer for a step"),
    "a level for a decision": (
        lambda s: s.session("hair", procedure="change"), "ratings.hair", "no answer for a decision"),
    "a reason with 06": (lambda s: s.session(rating={"reason": "unwell"}), "ratings.em-open", "lower level"),
    "an unknown reason": (
        lambda s: s.session(answer="04", rating={"reason": "lazy"}), "ratings.em-open", "choose one of"),
    "reported without a level": (
        lambda s: s.session(answer="10", rating={"reported": True}), "ratings.em-open", "level of help"),
    "reported practice": (
        lambda s: s.session(rating={"reported": True, "practice": True}), "ratings.em-open", "never reported"),
    "an unknown aid": (lambda s: s.session(rating={"aids": ("miror",)}), "ratings.em-open", "did you mean mirror"),
    "one row twice": (
        lambda s: s.session(ratings=(RatingEntry(learner=s.person, code="em-open", answer="06"),) * 2),
        "ratings.em-open", "rated twice"),
    "a prompt rated": (lambda s: s.session("em-run"), "ratings.em-run", "prompt"),
    "a row of a kit not there": (
        lambda s: s.session("powder", "right", procedure="change"), "ratings.powder", "does not apply"),
    "an unknown procedure": (lambda s: s.session(procedure="emptyng"), "procedure", "did you mean emptying"),
    "swapping a drainable pouch": (lambda s: s.session("cl-on", procedure="swap"), "procedure", "a closed pouch"),
    "a tap on an ileostomy": (lambda s: s.session("ue-open", procedure="urine"), "procedure", "passes urine"),
    "another person's learner": (
        lambda s: s.session(ratings=(RatingEntry(
            learner=s.bo.learners.get(kind="person"), code="em-open", answer="06"),)), "learner", "another person"),
    "a real showing before surgery": (
        lambda s: s.session(began_at=NIGHT - 5 * DAY + HOUR), "procedure", "Write down the kit"),
    "a finding before surgery": (
        lambda s: s.session("t-call", "told", procedure="topics", began_at=NIGHT - 4 * DAY - HOUR,
                            finding=FindingEntry(colour="pink-red")), "finding", "before surgery"),
    "a size in cm": (lambda s: s.session(finding=FindingEntry(width_mm=3.2)), "finding.width_mm", "8 to 120 mm"),
    "a track without a leak": (
        lambda s: s.session(finding=FindingEntry(leak_track="feet")), "finding.leak_track", "pouch leaked"),
    "a time without its zone": (
        lambda s: s.session(began_at=(NIGHT - HOUR).replace(tzinfo=None)), "began_at", "zone"),
    # care and rechecks
    "care of another person's stoma": (lambda s: s.care(stoma=s.urostomy), "stoma", "another person"),
    "care still to come": (lambda s: s.care(at=NIGHT + HOUR), "at", "still to come"),
    "topics as care": (lambda s: s.care(procedure="topics"), "procedure", "session"),
    "a recheck by an assistant": (lambda s: s.recheck(by="ashby"), "", "registered nurse"),
    "a recheck of a change": (lambda s: s.recheck(procedure="change"), "procedure", "rechecked"),
    "a recheck of a helper who has not said yes": (lambda s: s.recheck(learner=s.helper), "learner", "not said yes"),
    "a total of a bucket": (
        lambda s: sessions.record_output_total(
            actor=s.by("amber"), stoma=s.stoma, until_at=NIGHT, ml=90000), "ml", "20000 mL"),
    # stays
    "a birth date to come": (lambda s: s.open(born=date(2031, 1, 1)), "born", "wristband"),
    "no family name": (lambda s: s.open(family_name=" "), "family_name", "missing"),
    "leaving before coming": (lambda s: s.open(planned_at=NIGHT - DAY), "planned_at", "before the stay"),
    "a person who is already here": (
        lambda s: s.open(mrn="000-A1", born=date(1958, 3, 2)), "mrn", "has not ended"),
    "a number with another birth date": (lambda s: s.open(mrn="000-A1"), "born", "another birth date"),
    "a move to nowhere": (lambda s: s.note("moved"), "unit", "Moved where"),
    "resuming what goes on": (lambda s: s.note("resumed"), "kind", "can be"),
    "leaving before opening": (lambda s: s.note("left", at=NIGHT - 9 * DAY), "at", "later time"),
    "a leaving that is past": (
        lambda s: stays.plan_home(actor=s.by("amber"), stay=s.stay, at=NIGHT - HOUR), "at", "already past"),
    # stoma, kit, body, arrangement
    "a second stoma of the same name": (
        lambda s: stomas.add_stoma(actor=s.by("amber"), stay=s.stay, entry=StomaEntry(kind="colostomy")),
        "label", "another name"),
    "a closed pouch with an outlet": (lambda s: s.fit(closure="closed"), "outlet", "no outlet"),
    "a drainable pouch without one": (lambda s: s.fit(outlet=""), "outlet", "how the outlet shuts"),
    "a strip on a urostomy": (lambda s: s.fit(s.urostomy), "outlet", "tap or a cap"),
    "an interval of a month": (lambda s: s.fit(interval_hours=720), "interval_hours", "168 hours"),
    "an end of what never began": (lambda s: s.body("delirium", "ended"), "change", "not noted before"),
    "a rod of another's stoma": (lambda s: s.body("rod", "began", stoma=s.urostomy), "stoma", "another stay"),
    "an arrangement half made": (
        lambda s: arrangements.make_arrangement(actor=s.by("amber"), stay=s.stay, code="kit", state="half"),
        "state", "choose one of"),
    # learners
    "the same helper twice": (
        lambda s: learners.add_learner(actor=s.by("amber"), stay=s.stay, entry=LearnerEntry(name="hugo")),
        "name", "already a helper"),
    "a yes asked of the person": (
        lambda s: learners.record_consent(
            actor=s.by("amber"), learner=s.person, whose="helper", yes=True, at=NIGHT), "learner", "Only a helper"),
    "a week of nine days": (
        lambda s: learners.record_hours(actor=s.by("amber"), learner=s.helper, week="1" * 216), "week", "168 hours"),
    # staff, units, checklists
    "an unknown grade": (
        lambda s: staff.register_clinician(actor=s.by("linden"), name="Al", grade="matron"), "grade", "choose one of"),
    "a role for oneself": (
        lambda s: staff.grant_role(
            actor=s.by("linden"), clinician=s.by("linden").clinician, role="auditor", unit=s.ward.unit),
        "clinician", "themselves"),
    "a stoma nurse of one unit": (
        lambda s: staff.grant_role(
            actor=s.by("linden"), clinician=s.by("basil").clinician, role="stoma-nurse", unit=s.ward.unit),
        "unit", "whole hospital"),
    "a sign-in name that is taken": (
        lambda s: staff.open_account(actor=s.by("linden"), clinician=s.by("basil").clinician, username="Amber"),
        "username", "taken"),
    "a certificate for oneself": (lambda s: s.certify(by="amber"), "nurse", "themselves"),
    "a certificate for ten years": (lambda s: s.certify(days=3650), "valid_until", "36 months"),
    "a shift without an end": (
        lambda s: places.change_unit(actor=s.by("linden"), unit=s.ward.unit, shifts=[{"name": "day"}]),
        "shifts", "07:30"),
    "a threshold past its bound": (lambda s: s.policy(spacing=400), "spacing", "from 1 to 24 hours"),
    "an unknown threshold": (lambda s: s.policy(spaceing=4), "spaceing", "not a line"),
    "a published version edited": (
        lambda s: publish_checklist(actor=s.by("linden"), content=checklist_file() | {"title": {"en": "Other"}}),
        "number", "next number"),
}  # fmt: skip


@pytest.mark.parametrize("name", WRONG)
def test_refused_with_its_field_and_nothing_stored(scene, name):
    act, field, sentence = WRONG[name]
    before = rows_of_every_table()
    with pytest.raises(Refused) as refused:
        act(scene)
    said = [(fault.field, fault.sentence) for fault in refused.value.faults]
    assert any(fault == field and sentence in told for fault, told in said), said
    assert all(told.rstrip().endswith((".", "?")) for _, told in said)
    assert rows_of_every_table() == before


def rows_of_every_table():
    return {
        model.__name__: list(model._default_manager.order_by("pk").values())
        for model in apps.get_app_config("teaching").get_models()
    }


def test_every_fault_is_told_at_once(scene):
    with pytest.raises(Refused) as refused:
        scene.session(answer="11", began_at=NIGHT + HOUR, place="roof", procedure="emptyng")
    assert {fault.field for fault in refused.value.faults} == {"ratings.em-open", "began_at", "place", "procedure"}


@pytest.mark.parametrize(("kind", "words"), [("left", "had left"), ("stopped", "had ended"), ("paused", "paused")])
def test_a_stay_that_is_not_open_takes_no_session_but_a_late_one(scene, kind, words):
    scene.note(kind, at=NIGHT - 2 * HOUR)
    with pytest.raises(Refused, match=words):
        scene.session()
    scene.session(began_at=NIGHT - 3 * HOUR)


def test_a_cancelled_stay_takes_nothing(scene):
    scene.note("cancelled")
    for act in (scene.session, scene.care):
        with pytest.raises(Refused, match="cancelled"):
            act()


@pytest.mark.parametrize("kind", ["left", "stopped", "cancelled"])
def test_what_a_reopening_took_back_never_was(scene, kind):
    scene.note(kind, at=NIGHT - 2 * HOUR)
    scene.note("reopened", at=NIGHT)
    scene.session(began_at=NIGHT - HOUR)


def test_care_goes_on_while_teaching_is_paused(scene):
    scene.note("paused", at=NIGHT - 2 * HOUR)
    scene.care()


def test_a_leak_is_logged_by_an_assistant(scene):
    scene.care(by="ashby", finding=FindingEntry(wear_end="leak", leak_track="feet"))


def test_a_helper_learns_once_both_have_said_yes_and_not_after_one_takes_it_back(scene):
    rated = (RatingEntry(learner=scene.helper, code="em-open", answer="06"),)
    for whose in ("person", "helper"):
        with pytest.raises(Refused, match="not said yes"):
            scene.session(ratings=rated)
        learners.record_consent(actor=scene.by("amber"), learner=scene.helper, whose=whose, yes=True, at=NIGHT)
    scene.session(ratings=rated)
    learners.record_consent(
        actor=scene.by("amber"), learner=scene.helper, whose="helper", yes=False, at=NIGHT - DAY
    )  # said earlier, written last: the newest by time recorded counts
    with pytest.raises(Refused, match="not said yes"):
        scene.session(ratings=rated)


def test_hospital_values_that_clash_with_a_units_own_are_refused_by_name(scene):
    scene.policy(unit=scene.ward.unit, output_today=1900)
    with pytest.raises(Refused, match=r"own values of Heron Ward \(made up\): output_now is below"):
        scene.policy(output_now=1800)
    with pytest.raises(Refused, match="output_now is below"):
        scene.policy(unit=scene.ward.unit, output_today=2100)
    assert places.policy_for(scene.ward.unit, NIGHT).output_today == 1900

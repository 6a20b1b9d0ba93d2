"""An example of every page of the house, by the name of its address, and who opens it.

Every named address of the resolver stands here or in NOT_PAGES, with why; one that stands in neither fails.
"""

from collections.abc import Callable
from datetime import timedelta

from django.urls import URLPattern, URLResolver, get_resolver

from teaching.record.arrangements import arrange_visit, book_teaching
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.drafts import begin_draft
from teaching.record.kept_staff_papers import keep_staff_paper
from teaching.record.places import change_unit
from teaching.record.skills import ask_to_be_observed
from teaching.record.staff import grant_role, register_clinician
from tests import skills
from tests.bedside.ward import HOUSE

NOT_PAGES = {
    "skills": "leads on to the grid, or to one's own page",
    "home": "leads on to the first page of a role",
    "everybody-going-home": "leads on to the list of a unit",
    "learning-first": "leads on to the learning of a unit",
    "sign-out": "a form's answer",
    "light": "a form's answer",
    "healthy": "plain text for a watcher",
    "ready": "JSON for a watcher",
    "tap-emptying": "JSON for the recorder's script",
    "tap-change": "JSON for the recorder's script",
    "tap-night": "JSON for the recorder's script",
    "tap-meeting": "JSON for the recorder's script",
    "kept-taps": "JSON for the script that sends what a device held",
    "still-here": "an answer for the script that keeps a session alive",
    "huddle-list": "a PDF; tests/papers looks at it",
    "handover-paper": "a PDF; tests/papers looks at it",
    "shift-handover": "a PDF; tests/papers looks at it",
    "transfer-form": "a PDF; tests/papers looks at it",
    "blank-session": "a PDF; tests/papers looks at it",
    "own-record-paper": "a PDF; tests/papers looks at it",
    "own-pocket-card": "a PDF; tests/papers looks at it",
    "record-paper": "a PDF; tests/papers looks at it",
    "nurse-pocket-card": "a PDF; tests/papers looks at it",
    "kept-staff-paper": "a PDF; tests/papers looks at it",
    "learning-report": "a PDF; tests/papers looks at it",
    "blank-practice": "a PDF; tests/papers looks at it",
    "readiness-draft": "a PDF; tests/papers looks at it",
    "size-page": "a PDF; tests/papers looks at it",
    "kept-paper": "a PDF; tests/papers looks at it",
    "changed-since": "a PDF; tests/papers looks at it",
}


def named_addresses() -> set[str]:
    """The names of every address, those of included files too."""

    def walk(patterns):
        for pattern in patterns:
            if isinstance(pattern, URLResolver):
                yield from walk(pattern.url_patterns)
            elif isinstance(pattern, URLPattern):
                yield pattern.name or f"unnamed {pattern.pattern}"

    return set(walk(get_resolver().url_patterns))


class Examples:
    """A ward with everything on it that a page can show."""

    def __init__(self, ward):
        self.ward = ward
        amber = ward.staff["amber"]
        self.stay = ward.stay()
        self.stoma = ward.stoma(self.stay, items=("seal", "powder"))
        ward.stoma(self.stay, "urostomy", "left", outlet="tap", items=("night-bag",))
        self.helper = ward.helper(self.stay)
        ward.teach(self.stay, self.stoma, 60, ["01", "02", "03", "04", None])
        self.account = ward.teach(self.stay, self.stoma, 40, ["05", None, "07", "10", "88"], by="basil")
        self.draft = begin_draft(actor=amber, stay=self.stay, stoma=self.stoma, procedure="change")
        self.students = ward.teach(self.stay, self.stoma, 30, "06", by="tansy")
        ward.teach(self.stay, self.stoma, 20, "06", practice=True)
        self.caution = self.raised("dark-stoma", 1)
        self.told = self.raised("sore-skin", 9)
        tell_caution(
            actor=amber, caution=self.told, whom="Sorrel Vane, stoma nurse", answer="comes at 10:00",
            at=ward.now - timedelta(hours=8),
        )  # fmt: skip
        soon = ward.now + timedelta(days=3)
        self.visit = arrange_visit(
            actor=amber, stay=self.stay, at=soon, state="made", for_change=True, accepted_by="Nurse Invented"
        )
        self.appointment = book_teaching(
            actor=amber, stay=self.stay, at=ward.now + timedelta(hours=9), learners=[self.helper], aim="shut first"
        )
        grant_role(actor=HOUSE, clinician=ward.staff["linden"].clinician, role="auditor", unit=ward.unit)
        self.newcomer = register_clinician(actor=HOUSE, name="Nan Newcomer", grade="registered")
        grant_role(actor=HOUSE, clinician=self.newcomer, role="ward-nurse", unit=ward.unit)
        ward.stoma(ward.stay("Bram", "Quillfeather-Longlastname", "A2"), "colostomy", "left")

        change_unit(
            actor=ward.staff["linden"], unit=ward.unit, languages=["en", "pl"], slots={"press-minutes": "10"},
            phones=[{"label": "Stoma nurses (made up)", "number": "00000 000 100", "hours": "08:00-16:00"}],
            phrases={"pl": [{"english": "Does it hurt?", "words": "Czy boli?"}]},
        )  # fmt: skip
        skills.publish(HOUSE)
        for skill in ("change", "teach-bowel"):
            skills.certify(ward.staff["linden"], amber, skill, days_left=30)
        for days, where in ((9, "simulation"), (6, "person"), (2, "person")):
            self.practice = skills.observe(amber, ward.staff["basil"], ward.unit, setting=where, hours_ago=24 * days)
        skills.observe(amber, ward.staff["basil"], ward.unit, "teach-bowel", "4", tb_helper="X", tb_hands="2")
        ask_to_be_observed(actor=ward.staff["basil"], unit=ward.unit, skill="change")
        kept = {"headline": "Wed 13 May 2026 02:14, 5 nurses, kept by Edda Marsh"}
        keep_staff_paper(
            actor=ward.staff["edda"], unit=ward.unit, kind="unit-evidence", content=kept, pdf=b"%PDF-",
            still=lambda: kept,
        )  # fmt: skip

    @property
    def unit(self):
        return {"unit": self.ward.unit.uid}

    @property
    def person(self):
        return {"stay": self.stay.uid}

    def nurse(self, name):
        return self.unit | {"clinician": self.ward.staff[name].clinician.uid}

    def skill_of(self, name, skill="change"):
        return self.unit | {"nurse": self.ward.staff[name].clinician.uid, "skill": skill}

    def own(self, skill="change"):
        return self.unit | {"skill": skill}

    def raised(self, sign, hours_ago):
        at = self.ward.now - timedelta(hours=hours_ago)
        amber = self.ward.staff["amber"]
        return raise_caution(actor=amber, stay=self.stay, sign=sign, at=at, stoma=self.stoma)


# name: (who opens it, what stands in the address)
PAGES: dict[str, tuple[str, Callable[[Examples], dict]]] = {
    "sign-in": ("", lambda ex: {}),
    "change-password": ("amber", lambda ex: {}),
    "this-shift": ("amber", lambda ex: ex.unit),
    "huddle": ("amber", lambda ex: ex.unit),
    "person": ("amber", lambda ex: ex.person),
    "handover": ("amber", lambda ex: ex.person),
    "emptying": ("amber", lambda ex: ex.person),
    "change": ("amber", lambda ex: ex.person),
    "night": ("amber", lambda ex: ex.person),
    "meeting": ("amber", lambda ex: ex.person),
    "care": ("amber", lambda ex: ex.person),
    "recheck": ("amber", lambda ex: ex.person),
    "topics": ("amber", lambda ex: ex.person),
    "output-total": ("amber", lambda ex: ex.person),
    "nothing-since": ("amber", lambda ex: ex.person),
    "body-event": ("amber", lambda ex: ex.person),
    "teaching-state": ("amber", lambda ex: ex.person | {"kind": "paused"}),
    "caution-told": ("amber", lambda ex: {"caution": ex.caution.uid}),
    "caution-settled": ("amber", lambda ex: {"caution": ex.told.uid}),
    "caution-mistake": ("amber", lambda ex: {"caution": ex.caution.uid}),
    "waiting": ("amber", lambda ex: ex.unit),
    "take-over": ("basil", lambda ex: {"draft": ex.draft.uid}),
    "put-away": ("amber", lambda ex: {"draft": ex.draft.uid}),
    "session": ("amber", lambda ex: {"event": ex.account.event.uid}),
    "correct-account": ("basil", lambda ex: {"account": ex.account.uid}),
    "add-note": ("amber", lambda ex: {"account": ex.account.uid}),
    "entered-in-error": ("basil", lambda ex: {"account": ex.account.uid}),
    "cosign": ("amber", lambda ex: {"account": ex.students.uid}),
    "rate-beside": ("amber", lambda ex: {"account": ex.account.uid}),
    "going-home": ("amber", lambda ex: ex.unit),
    "weekend": ("amber", lambda ex: ex.unit),
    "readiness": ("amber", lambda ex: ex.person),
    "arrange": ("amber", lambda ex: ex.person | {"code": "fluid-plan"}),
    "new-visit": ("amber", lambda ex: ex.person),
    "visit": ("amber", lambda ex: ex.person | {"key": ex.visit.key}),
    "new-appointment": ("amber", lambda ex: ex.person),
    "appointment": ("amber", lambda ex: ex.person | {"key": ex.appointment.key}),
    "sign-readiness": ("amber", lambda ex: ex.person),
    "take-home": ("amber", lambda ex: ex.person),
    "against-plan": ("amber", lambda ex: ex.person),
    "calls": ("amber", lambda ex: ex.unit),
    "call": ("amber", lambda ex: ex.person),
    "learning": ("edda", lambda ex: ex.unit),
    "agreement": ("edda", lambda ex: ex.unit),
    "setup": ("linden", lambda ex: {}),
    "trail": ("linden", lambda ex: {}),
    "open-stay": ("amber", lambda ex: ex.unit),
    "stay-setup": ("amber", lambda ex: ex.person),
    "add-stoma": ("amber", lambda ex: ex.person),
    "add-helper": ("amber", lambda ex: ex.person),
    "fit-kit": ("amber", lambda ex: {"stoma": ex.stoma.uid}),
    "record-consent": ("amber", lambda ex: {"learner": ex.helper.uid, "whose": "helper", "answer": "no"}),
    "staff": ("linden", lambda ex: ex.unit),
    "register-nurse": ("linden", lambda ex: ex.unit),
    "unit-settings": ("linden", lambda ex: ex.unit),
    "unit-words": ("linden", lambda ex: ex.unit),
    "unit-languages": ("linden", lambda ex: ex.unit),
    "unit-phrases": ("linden", lambda ex: ex.unit | {"language": "pl"}),
    "unit-phones": ("linden", lambda ex: ex.unit),
    "unit-slots": ("linden", lambda ex: ex.unit),
    "unit-policy": ("linden", lambda ex: ex.unit),
    "policy-line": ("linden", lambda ex: ex.unit | {"name": "output_now"}),
    "policy-sign": ("linden", lambda ex: ex.unit | {"name": "gap"}),
    "stay-event": ("amber", lambda ex: ex.person | {"kind": "moved"}),
    "taught-in": ("amber", lambda ex: ex.person),
    "planned-home": ("amber", lambda ex: ex.person),
    "helper-hours": ("amber", lambda ex: {"learner": ex.helper.uid}),
    "learning-needs": ("amber", lambda ex: {"learner": ex.helper.uid}),
    "staff-member": ("linden", lambda ex: ex.nurse("basil")),
    "grant-role": ("linden", lambda ex: ex.nurse("basil")),
    "revoke-role": ("linden", lambda ex: ex.nurse("basil") | {"role": "ward-nurse"}),
    "open-account": ("linden", lambda ex: ex.unit | {"clinician": ex.newcomer.uid}),
    "close-account": ("linden", lambda ex: ex.nurse("basil")),
    "give-first-password": ("linden", lambda ex: ex.nurse("basil")),
    "nurses-by-skill": ("edda", lambda ex: ex.unit),
    "nurse-skills": ("edda", lambda ex: ex.unit | {"nurse": ex.ward.staff["basil"].clinician.uid}),
    "own-skills": ("basil", lambda ex: ex.unit),
    "rate-oneself": ("basil", lambda ex: ex.own()),
    "ask-to-be-observed": ("basil", lambda ex: ex.own()),
    "take-back-ask": ("basil", lambda ex: ex.own()),
    "record-practice": ("amber", lambda ex: ex.skill_of("basil")),
    "pair-ask": ("amber", lambda ex: ex.skill_of("basil")),
    "take-back-practice": ("amber", lambda ex: {"practice": ex.practice.uid}),
    "sign-off": ("amber", lambda ex: ex.skill_of("basil")),
    "withdraw-sign-off": ("edda", lambda ex: ex.skill_of("amber")),
    "accept-certificate": ("linden", lambda ex: ex.skill_of("basil")),
    "unit-evidence": ("edda", lambda ex: ex.unit),
    "who-teaches": ("amber", lambda ex: ex.unit),
}

"""Every address of the house: which roles are let in on their own unit. A room adds its rows here.

A role that is not named gets 403 on its own unit; everyone of another unit gets 404 (a stoma nurse works everywhere);
whoever is not signed in gets the sign-in page. `status` is what a GET answers for those let in, 405 where only a
POST is taken. `fill` gives what an address names beside uids.
"""

from dataclasses import dataclass, field

from tests.access.house import KEY

NURSES = "ward-nurse stoma-nurse"
BEDSIDE = f"{NURSES} assistant student"


@dataclass(frozen=True)
class Row:
    roles: str
    status: int = 200
    not_theirs: str = ""  # roles that the guard lets in, and the view refuses: it is somebody else's
    fill: dict[str, str] = field(default_factory=dict)

    @property
    def let_in(self) -> set[str]:
        return set(self.roles.split())


@dataclass(frozen=True)
class Open:
    """An address without a guard: what a GET answers when signed out and when signed in."""

    signed_out: int
    signed_in: int


TABLE: dict[str, Row | Open] = {
    # signing in
    "home": Open(302, 302),
    "sign-in": Open(200, 302),
    "sign-out": Open(405, 405),
    "change-password": Open(302, 200),
    "still-here": Open(302, 204),
    "healthy": Open(200, 200),
    "ready": Open(200, 200),
    "light": Open(405, 405),
    # set-up: staff and unit
    "setup": Row(f"{NURSES} lead"),
    "trail": Row("auditor"),
    "staff": Row("lead"),
    "register-nurse": Row("lead"),
    "staff-member": Row("lead"),
    "grant-role": Row("lead"),
    "revoke-role": Row("lead", fill={"role": "ward-nurse"}),
    "open-account": Row("lead"),
    "close-account": Row("lead"),
    "give-first-password": Row("lead"),
    "unit-settings": Row("lead"),
    "unit-words": Row("lead"),
    "unit-languages": Row("lead"),
    "unit-phrases": Row("lead", fill={"language": "pl"}),
    "unit-phones": Row("lead"),
    "unit-slots": Row("lead"),
    "unit-policy": Row("lead"),
    "policy-line": Row("lead", fill={"name": "spacing"}),
    "policy-sign": Row("lead", fill={"name": "gap"}),
    # set-up: a stay
    "open-stay": Row(NURSES),
    "stay-setup": Row(NURSES),
    "taught-in": Row(NURSES),
    "add-stoma": Row(NURSES),
    "fit-kit": Row(NURSES),
    "add-helper": Row(NURSES),
    "stay-event": Row(NURSES, fill={"kind": "moved"}),
    "planned-home": Row(f"{NURSES} planner"),
    "helper-hours": Row(NURSES),
    "learning-needs": Row(NURSES),
    "record-consent": Row(NURSES, fill={"whose": "helper", "answer": "yes"}),
    # the bedside
    "this-shift": Row(f"{BEDSIDE} planner"),
    "huddle": Row(f"{BEDSIDE} planner"),
    "person": Row(f"{BEDSIDE} planner"),
    "handover": Row(f"{NURSES} planner"),
    "emptying": Row(BEDSIDE),
    "tap-emptying": Row(BEDSIDE, status=405),
    "change": Row(f"{NURSES} student"),
    "tap-change": Row(f"{NURSES} student", status=405),
    "night": Row(BEDSIDE),
    "tap-night": Row(BEDSIDE, status=405),
    "meeting": Row(BEDSIDE),
    "tap-meeting": Row(BEDSIDE, status=405),
    "care": Row(BEDSIDE),
    "recheck": Row(NURSES),
    "topics": Row(f"{NURSES} student"),
    "output-total": Row(BEDSIDE),
    "nothing-since": Row(BEDSIDE),
    "body-event": Row(BEDSIDE),
    "teaching-state": Row(NURSES, fill={"kind": "paused"}),
    "caution-told": Row(BEDSIDE),
    "caution-settled": Row(NURSES),
    "caution-mistake": Row(NURSES),
    # what was signed
    "waiting": Row(NURSES),
    "take-over": Row(BEDSIDE),
    "put-away": Row(BEDSIDE),
    "kept-taps": Row(BEDSIDE, status=405),
    "session": Row(f"{BEDSIDE} planner"),
    "correct-account": Row("ward-nurse", not_theirs="stoma-nurse assistant student"),
    "add-note": Row(BEDSIDE),
    "entered-in-error": Row(BEDSIDE),
    "cosign": Row(NURSES),
    "rate-beside": Row(NURSES),
    # going home
    "everybody-going-home": Row(f"{NURSES} planner", status=302),
    "going-home": Row(f"{NURSES} planner"),
    "weekend": Row(f"{NURSES} planner"),
    "readiness": Row(f"{NURSES} planner"),
    "arrange": Row(f"{NURSES} planner", fill={"code": "supplies"}),
    "new-visit": Row(f"{NURSES} planner"),
    "visit": Row(f"{NURSES} planner", fill={"key": KEY}),
    "new-appointment": Row(f"{NURSES} planner"),
    "appointment": Row(f"{NURSES} planner", fill={"key": KEY}),
    "calls": Row(f"{NURSES} planner"),
    "call": Row(f"{NURSES} planner"),
    # nurses' skills
    "skills": Row(f"{BEDSIDE} educator lead planner", status=302),
    "nurses-by-skill": Row("educator lead stoma-nurse"),
    "nurse-skills": Row("educator lead stoma-nurse"),
    "own-skills": Row(f"{BEDSIDE} educator lead planner"),
    "rate-oneself": Row(f"{BEDSIDE} educator lead planner", fill={"skill": "change"}),
    "ask-to-be-observed": Row(f"{BEDSIDE} educator lead planner", fill={"skill": "change"}),
    "take-back-ask": Row(f"{BEDSIDE} educator lead planner", fill={"skill": "change"}),
    "record-practice": Row(f"{NURSES} educator", fill={"skill": "change"}),
    "pair-ask": Row(NURSES, fill={"skill": "change"}),
    "take-back-practice": Row(f"{NURSES} educator"),
    "sign-off": Row(f"{NURSES} educator", fill={"skill": "change"}),
    "withdraw-sign-off": Row("educator lead stoma-nurse", fill={"skill": "change"}),
    "accept-certificate": Row("lead", fill={"skill": "change"}),
    "who-teaches": Row(f"{NURSES} educator lead"),
    # the educator's desk: what the unit learns
    "learning-first": Row("educator lead", status=302),
    "learning": Row("educator lead"),
    "agreement": Row("educator lead"),
    # papers about nurses and the unit
    "own-record-paper": Row(f"{BEDSIDE} educator lead planner"),
    "own-pocket-card": Row(f"{BEDSIDE} educator lead planner"),
    "record-paper": Row("educator lead stoma-nurse"),
    "nurse-pocket-card": Row("educator lead stoma-nurse"),
    "unit-evidence": Row("educator lead"),
    "kept-staff-paper": Row("educator lead"),
    "learning-report": Row("educator lead"),
    "blank-practice": Row(f"{NURSES} educator", fill={"skill": "change"}),
    # papers
    "huddle-list": Row(NURSES),
    "handover-paper": Row(f"{NURSES} planner"),
    "shift-handover": Row(f"{NURSES} planner"),
    "transfer-form": Row(f"{NURSES} planner"),
    "blank-session": Row(f"{NURSES} planner", fill={"kind": "bowel"}),
    "sign-readiness": Row(f"{NURSES} planner"),
    "readiness-draft": Row(f"{NURSES} planner"),
    "against-plan": Row(f"{NURSES} planner"),
    "take-home": Row(f"{NURSES} planner"),
    "size-page": Row(f"{NURSES} planner", status=302),
    "kept-paper": Row(f"{NURSES} planner"),
    "changed-since": Row(f"{NURSES} planner"),
}

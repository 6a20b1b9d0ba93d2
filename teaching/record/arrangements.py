"""What must be in place for home, nurses' visits after leaving, and times booked for teaching.

All three are arrangement rows: the newest of a code and key is in force, and what was said before stays readable.
"""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any
from uuid import uuid4

from django.utils import timezone

from teaching.models import Arrangement, Clinician, ClinicianDetails, Learner, PlannedHome, Stay, Stoma
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.figures import refresh
from teaching.record.refusals import refuse
from teaching.record.sessions import skill_for
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, next_number, writing
from teaching.rules.arranged import TEACHING, VISIT
from teaching.rules.arrangements import KINDS, PHONE
from teaching.rules.vocabulary import APPOINTMENT_STATES, ARRANGEMENT_STATES, PROCEDURES

FACILITY = "facility"
NO_ZONE = "This time has no zone, so it could mean two moments; give it with its zone."
BEFORE_LEAVING = "This visit is before the planned leaving. Give a time after it, or say that it is meant so."
TO_HOME = "The planned leaving is to home. Change where the person goes first, or leave the facility out."
TO_FACILITY = "The person goes to a care facility with nurses of its own. Change that first, or leave out the visit."


def make_arrangement(
    *,
    actor: Actor,
    stay: Stay,
    code: str,
    state: str,
    value: str = "",
    due_at: datetime | None = None,
    details: Mapping[str, Any] | None = None,
    at: datetime | None = None,
) -> Arrangement:
    """Something that must be in place for home. `details` by name: text, a whole number from 0, True or False."""
    faults = Faults()
    faults.text("code", code, 30, "What is arranged")
    if code in (VISIT, TEACHING):
        faults.add("code", "A visit and a teaching appointment have forms of their own.")
    faults.word("state", state, ARRANGEMENT_STATES)
    faults.text("value", value, 200)
    _check_details(faults, code, details or {})
    _check_moments(faults, due_at, at)
    faults.stop()
    return _store(
        actor, stay, "make_arrangement", code=code, state=state, value=value, due_at=due_at,
        details=dict(details or {}), at=at,
    )  # fmt: skip


def arrange_visit(
    *,
    actor: Actor,
    stay: Stay,
    at: datetime,
    state: str = "asked",
    for_change: bool = False,
    accepted_by: str = "",
    service: str = "",
    stoma: Stoma | None = None,
    key: str = "",
    meant_so: bool = False,
) -> Arrangement:
    """A nurse comes after leaving; `key` names the visit that is changed, "" a new one. Accepted by whom is kept.

    `meant_so`: a time before the planned leaving was asked about and confirmed.
    """
    faults = Faults()
    faults.word("state", state, ARRANGEMENT_STATES)
    faults.text("service", service, 80)
    faults.text("accepted_by", accepted_by, 80)
    if state == "made" and not accepted_by.strip():
        faults.add("accepted_by", "Say who accepted the visit, by name; until somebody has, it is only asked for.")
    _check_moments(faults, at, None)
    _check_stoma(faults, stay, stoma)
    faults.stop()
    planned = _planned(stay)
    if planned and state in ("made", "asked"):
        if planned.goes_to == "facility":
            faults.add("state", TO_FACILITY)
        if planned.at and at < planned.at and not meant_so:
            faults.add("at", BEFORE_LEAVING)
    faults.stop()
    told = {"for_change": for_change, "accepted_by": accepted_by.strip(), "service": service.strip()}
    if stoma:
        told["stoma"] = str(stoma.uid)
    return _store(
        actor, stay, "arrange_visit", code=VISIT, key=key or str(uuid4()), state=state, due_at=at, details=told
    )


def book_teaching(
    *,
    actor: Actor,
    stay: Stay,
    at: datetime,
    learners: Iterable[Learner],
    procedure: str = "change",
    state: str = "booked",
    stoma: Stoma | None = None,
    teacher: Clinician | None = None,
    may_teach: bool | None = None,
    interpreter: bool = False,
    practice: bool = False,
    aim: str = "",
    why: str = "",
    key: str = "",
) -> Arrangement:
    """A time for teaching: booked, confirmed, held, missed (and why) or cancelled.

    Whether the named teacher may teach is read from their sign-offs for that time, or taken from `may_teach` where
    nobody is named; None: not known yet.
    """
    own = list(learners)
    faults = Faults()
    faults.word("procedure", procedure, PROCEDURES)
    faults.word("state", state, APPOINTMENT_STATES)
    faults.text("aim", aim, 120)
    faults.text("why", why, 200)
    _check_moments(faults, at, None)
    _check_stoma(faults, stay, stoma)
    if not own:
        faults.add("learners", "Say who is to learn: the person, a helper, or both.")
    if any(learner.stay_id != stay.pk for learner in own):
        faults.add("learners", "This learner belongs to another stay; go back and open the right person.")
    if state == "missed" and not why.strip():
        faults.add("why", "Say why it was missed, so that the next one is planned better.")
    if state in ("booked", "confirmed") and at.tzinfo and at < timezone.now():
        faults.add("at", "This moment is already past; give the coming one.")
    faults.stop()
    told = {
        "procedure": procedure, "learners": sorted(str(learner.uid) for learner in own),
        "may_teach": _may_teach(teacher, stay, stoma, at) if teacher else may_teach,
        "teacher": str(teacher.uid) if teacher else "", "interpreter": interpreter, "practice": practice,
        "aim": aim.strip(), "stoma": str(stoma.uid) if stoma else "",
    }  # fmt: skip
    return _store(
        actor, stay, "book_teaching", code=TEACHING, key=key or str(uuid4()), state=state, value=why, due_at=at,
        details=told,
    )  # fmt: skip


def _may_teach(teacher: Clinician, stay: Stay, stoma: Stoma | None, at: datetime) -> bool:
    """A stoma nurse, or signed off then to teach every stoma it is about."""
    grades = ClinicianDetails.objects.filter(clinician=teacher).order_by("-number").values_list("grade", flat=True)
    if grades.first() == "stoma-nurse":
        return True
    signed = sign_offs_of(teacher)
    about = [stoma] if stoma else list(Stoma.objects.filter(stay=stay))
    return bool(about) and all(valid_among(signed, (skill_for(each),), at) for each in about)


def _check_details(faults: Faults, code: str, details: Mapping[str, Any]) -> None:
    asked = KINDS[code].details if code in KINDS else ()
    rung = {detail.name for detail in asked if detail.kind == PHONE}
    for name, said in details.items():
        if isinstance(said, str):
            faults.text(name, said, 300)
            if name in rung and said.strip():
                faults.phone(name, said)
        elif isinstance(said, bool) or said is None:
            continue
        elif not isinstance(said, int):
            faults.add(name, "Write this as text, a whole number, or yes or no.")
        elif said < 0:
            faults.add(name, f"{said} is less than none; write 0 or more.")


def _check_moments(faults: Faults, due_at: datetime | None, at: datetime | None) -> None:
    if due_at is not None and due_at.tzinfo is None:
        faults.add("at" if at is None else "due_at", NO_ZONE)
    faults.moment("at", at, timezone.now(), needed=False)


def _check_stoma(faults: Faults, stay: Stay, stoma: Stoma | None) -> None:
    if stoma is not None and stoma.stay_id != stay.pk:
        faults.add("stoma", "This stoma belongs to another stay; go back and open the right person.")


def _planned(stay: Stay) -> PlannedHome | None:
    return PlannedHome.objects.filter(stay=stay).order_by("-number").first()


def _store(
    actor: Actor, stay: Stay, verb: str, *, code: str, key: str = "", at: datetime | None = None, **told: Any
) -> Arrangement:
    clinician = somebody(actor)
    with writing(stay) as locked:
        assert locked is not None
        planned = _planned(stay)
        if code == FACILITY and told["state"] == "made" and planned and planned.goes_to == "home":
            refuse("state", TO_HOME)
        number = next_number(Arrangement, stay=stay, code=code, key=key)
        if code in (VISIT, TEACHING) and number == 1 and Arrangement.objects.filter(code=code, key=key).exists():
            refuse("key", "This belongs to another stay; go back and open the right person.")
        told["value"] = told.get("value", "").strip()
        made = Arrangement.objects.create(
            stay=stay, code=code, key=key, number=number, happened_at=at or timezone.now(), by=clinician, **told
        )
        refresh(stay)
        done(actor, verb, made, stay=stay, unit=locked.unit)
    return made

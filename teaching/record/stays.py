"""A stay from listing to leaving: opened, moved, paused, left; and the planned day home."""

from datetime import datetime, timedelta
from typing import Any

from django.utils import timezone

from teaching.models import (
    Learner,
    Person,
    PersonDetails,
    PlannedHome,
    Stay,
    StayDetails,
    StayEvent,
    StayNow,
    Unit,
)
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.drafts_of import open_drafts
from teaching.record.entries import StayEntry
from teaching.record.figures import refresh
from teaching.record.refusals import refuse
from teaching.record.writing import done, lock, next_number, one_at_a_time, writing, writing_all
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import GOES_TO, PROCEDURES, STAY_EVENTS

OPEN = frozenset({"opened", "resumed", "reopened"})
ENDED = frozenset({"left", "stopped", "cancelled"})
MAY_FOLLOW = {
    "expected": {"opened", "moved", "cancelled"},
    "open": {"moved", "paused", "stopped", "left", "cancelled"},
    "paused": {"resumed", "moved", "stopped", "left", "cancelled"},
    "ended": {"reopened"},
}
OLDEST = timedelta(days=365 * 120)
DETAILS = ("authority", "mrn", "family_name", "given_names", "born", "language")


def open_stay(*, actor: Actor, entry: StayEntry) -> Stay:
    """One admission (or a listing for surgery). A known person, by authority and number, is not made twice."""
    clinician = somebody(actor)
    now = timezone.now()
    check_stay(entry, now)
    with writing():
        one_at_a_time("person", entry.authority.strip(), entry.mrn.strip())
        person = _person(actor, entry)
        stay = Stay.objects.create(person=person, zone=entry.unit.zone, by=clinician)
        StayDetails.objects.create(
            stay=stay, surgery_at=entry.surgery_at, taught_before=entry.taught_before,
            authority=entry.authority.strip(), visit_number=entry.visit_number.strip(), by=clinician,
        )
        kind = "expected" if entry.expected else "opened"
        StayEvent.objects.create(
            stay=stay, kind=kind, unit=entry.unit, bed=entry.bed.strip(),
            happened_at=entry.opened_at or now, by=clinician,
        )
        if entry.planned_at:
            PlannedHome.objects.create(stay=stay, at=entry.planned_at, by=clinician)
        Learner.objects.create(stay=stay, kind="person", by=clinician)
        StayNow.objects.create(
            stay=stay, unit=entry.unit, state=kind, bed=entry.bed.strip(), born=entry.born,
            name=f"{entry.given_names} {entry.family_name}", mrn=entry.mrn,
        )
        refresh(stay, moved_on=False)
        done(actor, "open_stay", stay, stay=stay, unit=entry.unit)
    return stay


def check_stay(entry: StayEntry, now: datetime) -> None:
    """Raises Refused with every fault."""
    faults = Faults()
    faults.text("authority", entry.authority, 60, "Who gave the number")
    faults.text("mrn", entry.mrn, 40, "The person's number")
    faults.text("family_name", entry.family_name, 80, "The family name")
    faults.text("given_names", entry.given_names, 80, "The given name")
    faults.text("language", entry.language, 20, "The language")
    faults.text("bed", entry.bed, 20)
    faults.text("visit_number", entry.visit_number, 40)
    if not now.date() - OLDEST <= entry.born <= now.date():
        faults.add("born", "This birth date is not possible; check it against the wristband.")
    faults.moment("opened_at", entry.opened_at, now, needed=False)
    for field, moment in (("surgery_at", entry.surgery_at), ("planned_at", entry.planned_at)):
        if moment is not None and moment.tzinfo is None:
            faults.add(field, "This time has no zone, so it could mean two moments; give it with its zone.")
    faults.stop()
    opened = entry.opened_at or now
    if entry.planned_at and entry.planned_at <= opened:
        faults.add("planned_at", "The planned leaving is before the stay opened; correct one of the two.")
    visit = entry.visit_number.strip()
    if visit and StayDetails.objects.filter(number=1, authority=entry.authority.strip(), visit_number=visit).exists():
        faults.add("visit_number", "A stay with this visit number is already here; open that one.")
    faults.stop()


def _person(actor: Actor, entry: StayEntry) -> Person:
    """The person with this number, with what is newly known of them; refused while another stay is running."""
    told = {name: getattr(entry, name).strip() if name != "born" else entry.born for name in DETAILS}
    known = PersonDetails.objects.filter(authority=told["authority"], mrn=told["mrn"]).order_by("-number").first()
    if known is None:
        person = Person.objects.create(by=actor.clinician)
        PersonDetails.objects.create(person=person, by=actor.clinician, **told)
        return person
    if known.born != entry.born:
        refuse("born", "The person with this number has another birth date here; check both against the wristband.")
    running = StayNow.objects.filter(stay__person=known.person_id).exclude(state__in=ENDED).select_related("unit")
    for row in running[:1]:
        refuse("mrn", f"This person already has a stay on {row.unit.name} that has not ended; go on with that one.")
    if any(getattr(known, name) != value for name, value in told.items()):
        _told_anew(actor, known.person, told)
    return known.person


def language_of(stay: Stay) -> str:
    """The code of the language to teach in, as newly as it is known. One query."""
    return PersonDetails.objects.filter(person=stay.person_id).order_by("-number").values_list("language", flat=True)[0]


def teach_in(*, actor: Actor, stay: Stay, language: str) -> PersonDetails:
    """The language to teach the person in from now on; the same again changes nothing."""
    somebody(actor)
    faults = Faults()
    faults.word("language", language, LANGUAGES)
    faults.stop()
    with writing_all(list(Stay.objects.filter(person=stay.person_id))):
        newest = PersonDetails.objects.filter(person=stay.person_id).order_by("-number")[0]
        if newest.language == language:
            return newest
        told = {name: getattr(newest, name) for name in DETAILS} | {"language": language}
        made = _told_anew(actor, stay.person, told)
        done(actor, "teach_in", made, stay=stay)
    return made


def _told_anew(actor: Actor, person: Person, told: dict[str, Any]) -> PersonDetails:
    """What is newly known of a person; every stay of theirs is worked out again."""
    number = next_number(PersonDetails, person=person)
    made = PersonDetails.objects.create(person=person, number=number, by=actor.clinician, **told)
    stays = list(Stay.objects.filter(person=person).order_by("pk"))
    lock(stays)
    for each in stays:
        refresh(each)
    return made


def may_follow(state: str) -> set[str]:
    """What may become of a stay that is in this state."""
    return MAY_FOLLOW["open" if state in OPEN else "ended" if state in ENDED else state]


def note_stay_event(
    *,
    actor: Actor,
    stay: Stay,
    kind: str,
    unit: Unit | None = None,
    bed: str | None = None,
    left_to: str = "",
    why: str = "",
    at: datetime | None = None,
    leaves_drafts: bool = False,
) -> StayEvent:
    """What becomes of the stay: moved, paused, resumed, left and so on. Without a unit or bed, those stay.

    The newest event by number is in force. Raises Refused where it cannot follow the state the stay is in.
    `leaves_drafts`: of somebody who has left, sessions begun and not signed were asked about, and are left as they are.
    """
    clinician = somebody(actor)
    now = timezone.now()
    faults = Faults()
    faults.word("kind", kind, STAY_EVENTS)
    faults.moment("at", at, now, needed=False)
    faults.text("bed", bed or "", 20)
    faults.text("left_to", left_to, 80)
    faults.text("why", why, 200)
    faults.stop()
    with writing(stay) as locked:
        assert locked is not None
        state = locked.state
        if kind not in may_follow(state):
            can = ", ".join(sorted(STAY_EVENTS[each] for each in may_follow(state)))
            refuse("kind", f"The stay is {STAY_EVENTS[state]}; from there it can be {can}.")
        newest = StayEvent.objects.filter(stay=stay).order_by("-number")[0]
        moment = at or now
        if moment < newest.happened_at:
            refuse("at", "This is before what was last noted of the stay; give a later time.")
        if kind == "moved" and unit in (None, locked.unit) and bed in (None, locked.bed):
            refuse("unit", "Moved where? Name the new unit or the new bed.")
        if kind == "left" and not leaves_drafts:
            _ask_about_drafts(stay, clinician.pk)
        made = StayEvent.objects.create(
            stay=stay, number=newest.number + 1, kind=kind, unit=unit or locked.unit,
            bed=locked.bed if bed is None else bed.strip(), left_to=left_to.strip(), why=why.strip(),
            happened_at=moment, by=clinician,
        )
        refresh(stay)
        done(actor, "note_stay_event", made, stay=stay, unit=made.unit)
    return made


def _ask_about_drafts(stay: Stay, seen_by: int) -> None:
    """What was begun and never signed does not count: named, so that it is signed or put away while it is known."""
    if begun := open_drafts(stay, seen_by):
        named = ", ".join(f"{PROCEDURES[draft.procedure].lower()} ({draft.owner_name})" for draft in begun)
        refuse("leaves_drafts", f"Begun and not signed: {named}. Sign or put it away first, or say that it may stay.")


def plan_home(
    *, actor: Actor, stay: Stay, at: datetime | None, why: str = "", goes_to: str = "home"
) -> PlannedHome:
    """The planned moment of leaving, and whether home or to a facility; None takes the plan back.

    The newest wins, earlier ones stay on record.
    """
    clinician = somebody(actor)
    faults = Faults()
    faults.word("goes_to", goes_to, GOES_TO)
    faults.text("why", why, 200)
    if at is not None and at.tzinfo is None:
        faults.add("at", "This time has no zone, so it could mean two moments; give it with its zone.")
    elif at is not None and at < timezone.now():
        faults.add("at", "This moment is already past; give the coming one, or note that the person has left.")
    faults.stop()
    with writing(stay) as locked:
        assert locked is not None
        if locked.state in ENDED:
            refuse("at", f"The stay is {STAY_EVENTS[locked.state]}; there is no leaving to plan.")
        made = PlannedHome.objects.create(
            stay=stay, number=next_number(PlannedHome, stay=stay), at=at, why=why.strip(), goes_to=goes_to,
            by=clinician,
        )
        refresh(stay)
        done(actor, "plan_home", made, stay=stay, unit=locked.unit)
    return made

"""Finished stays brought in many at once, such as from paper: the bulk door for what is long over.

Each is checked like one that is written at the bedside; one fault and none is stored. Whoever taught is named; who
brought it in stands in `by`. Nobody here had a sign-in then, so the rows say "no sign-in".
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils import timezone

from teaching.models import (
    Clinician,
    ClinicianDetails,
    Kit,
    Learner,
    Person,
    PersonDetails,
    PlannedHome,
    Stay,
    StayDetails,
    StayEvent,
    StayNow,
    Stoma,
    Unit,
)
from teaching.record.accounts import Written
from teaching.record.actor import Actor
from teaching.record.charts import Sheet, sheets_for
from teaching.record.checking import Faults, somebody
from teaching.record.entries import KitEntry, RatingEntry, SessionEntry, StayEntry, StomaEntry
from teaching.record.figures import assessed
from teaching.record.learned import share_of_one_that_left
from teaching.record.places import policy_for
from teaching.record.refusals import Fault, Refused
from teaching.record.session_checks import Look
from teaching.record.sessions import looked_over, store_written, written_of
from teaching.record.staff import sign_offs_of
from teaching.record.stays import DETAILS, check_stay
from teaching.record.stomas import check_kit
from teaching.record.writing import done, writing
from teaching.rules import vocabulary as words

OWN_WAY = ("items", "happened_at")  # of a kit: not copied as they stand
ALREADY = "Somebody with this number is here already; bring in only stays of people who are not."


@dataclass(frozen=True, slots=True)
class PastSession:
    """One session of the person: `answers` are (row code, answer). `beside`: rated by a second nurse as well."""

    procedure: str
    at: datetime
    rater: Clinician
    answers: tuple[tuple[str, str], ...]
    second_rater: Clinician | None = None
    beside: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class PastStay:
    """One stay that is over, with one stoma. `left_at` after its sessions."""

    entry: StayEntry
    stoma: StomaEntry
    kit: KitEntry
    left_at: datetime
    sessions: tuple[PastSession, ...] = ()


@dataclass
class _Made:
    past: PastStay
    stay: Stay
    stoma: Stoma
    learner: Learner


def record_past_stays(*, actor: Actor, unit: Unit, stays: Sequence[PastStay]) -> list[Stay]:
    """All of them or none, each with its share in the unit's learning kept at once.

    A fault's field begins with the place of its stay in the list.
    """
    by, now = somebody(actor), timezone.now()
    _refuse(_faults_of(place, past, now) for place, past in enumerate(stays))
    with writing():
        _refuse(_known_here(stays))
        made = _stays(by, unit, stays)
        sheets = sheets_for([one.stay for one in made])
        written = _sessions(actor, made, sheets, now)
        store_written(written)
        StayEvent.objects.bulk_create(_left(one, unit, by) for one in made)
        _figures(unit, made, now)
        for one in made:
            done(actor, "record_past_stay", one.stay, stay=one.stay, unit=unit)
    return [one.stay for one in made]


def _opened(past: PastStay) -> datetime:
    assert past.entry.opened_at is not None
    return past.entry.opened_at


def _left(one: _Made, unit: Unit, by: Clinician) -> StayEvent:
    return StayEvent(
        stay=one.stay, number=2, kind="left", unit=unit, bed=one.past.entry.bed, left_to="home",
        happened_at=one.past.left_at, by=by,
    )  # fmt: skip


def _refuse(found: Iterable[list[Fault]]) -> None:
    faults = [fault for each in found for fault in each]
    if faults:
        raise Refused(*faults)


def _placed(place: int, faults: Iterable[Fault], part: str = "") -> list[Fault]:
    return [Fault(f"{place}.{part}{fault.field}", fault.sentence) for fault in faults]


def _faults_of(place: int, past: PastStay, now: datetime) -> list[Fault]:
    faults = Faults()
    for check in (lambda: check_stay(past.entry, now), lambda: check_kit(past.stoma.kind, past.kit, now)):
        try:
            check()
        except Refused as refused:
            faults.found += refused.faults
    faults.word("kind", past.stoma.kind, words.STOMA_KINDS)
    faults.word("side", past.stoma.side, words.SIDES)
    if past.entry.opened_at is None:
        faults.add("opened_at", "Say when the stay was opened.")
    faults.moment("left_at", past.left_at, now)
    if past.sessions and past.left_at < max(session.at for session in past.sessions):
        faults.add("left_at", "There is a session after this; correct one of the two.")
    return _placed(place, faults.found)


def _known_here(stays: Sequence[PastStay]) -> Iterable[list[Fault]]:
    numbers = {(past.entry.authority, past.entry.mrn): place for place, past in enumerate(stays)}
    if len(numbers) < len(stays):
        yield [Fault("mrn", "Two of these stays have the same number; bring in one stay of a person at a time.")]
    known = PersonDetails.objects.filter(mrn__in=[mrn for _, mrn in numbers]).values_list("authority", "mrn")
    for key in known:
        if key in numbers:
            yield [Fault(f"{numbers[key]}.mrn", ALREADY)]


def _stays(by: Clinician, unit: Unit, stays: Sequence[PastStay]) -> list[_Made]:
    entries = [past.entry for past in stays]
    people = Person.objects.bulk_create(Person(by=by) for _ in stays)
    PersonDetails.objects.bulk_create(
        PersonDetails(person=person, by=by, **{name: getattr(entry, name) for name in DETAILS})
        for person, entry in zip(people, entries, strict=True)
    )
    rows = Stay.objects.bulk_create(Stay(person=person, zone=unit.zone, by=by) for person in people)
    pairs = list(zip(rows, stays, strict=True))
    StayDetails.objects.bulk_create(
        StayDetails(stay=stay, by=by, surgery_at=past.entry.surgery_at, taught_before=past.entry.taught_before)
        for stay, past in pairs
    )
    StayEvent.objects.bulk_create(
        StayEvent(stay=stay, by=by, kind="opened", unit=unit, bed=past.entry.bed, happened_at=_opened(past))
        for stay, past in pairs
    )
    PlannedHome.objects.bulk_create(PlannedHome(stay=stay, by=by, at=past.left_at) for stay, past in pairs)
    learners = Learner.objects.bulk_create(Learner(stay=stay, by=by, kind="person") for stay in rows)
    stomas = Stoma.objects.bulk_create(
        Stoma(
            stay=stay, by=by, label=words.SIDES[past.stoma.side], kind=past.stoma.kind, side=past.stoma.side,
            construction=past.stoma.construction, formed_at=past.stoma.formed_at,
        )
        for stay, past in pairs
    )  # fmt: skip
    Kit.objects.bulk_create(
        Kit(
            stay=stay, by=by, stoma=stoma, happened_at=past.kit.happened_at or _opened(past),
            **{name: getattr(past.kit, name) for name in KitEntry.__dataclass_fields__ if name not in OWN_WAY},
            items=sorted(past.kit.items),
        )
        for (stay, past), stoma in zip(pairs, stomas, strict=True)
    )  # fmt: skip
    return [_Made(past, stay, stoma, who) for (stay, past), stoma, who in zip(pairs, stomas, learners, strict=True)]


def _sessions(actor: Actor, made: Sequence[_Made], sheets: Sequence[Sheet], now: datetime) -> list[Written]:
    raters = {each for one in made for session in one.past.sessions for each in (session.rater, session.second_rater)}
    known = {rater.pk: _rater(rater) for rater in raters if rater}
    faults: list[list[Fault]] = []
    written = []
    for place, (one, sheet) in enumerate(zip(made, sheets, strict=True)):
        for session in one.past.sessions:
            first = _written(actor, one, sheet, session, session.rater, session.answers, known, now)
            faults.append(_placed(place, first[1]))
            written.append(first[0])
            if session.second_rater:
                second = _written(actor, one, sheet, session, session.second_rater, session.beside, known, now)
                faults.append(_placed(place, second[1], "beside."))
                second[0].event = second[0].account.event = first[0].event
                second[0].account.role = "paired"
                second[0].seal()
                written.append(second[0])
    _refuse(faults)
    return written


def _rater(rater: Clinician) -> tuple[Any, list]:
    details = ClinicianDetails.objects.filter(clinician=rater).order_by("-number")[0]
    return details, sign_offs_of(rater)


def _written(
    actor: Actor, one: _Made, sheet: Sheet, session: PastSession, rater: Clinician, answers: Iterable[tuple[str, str]],
    known: dict[int, tuple[Any, list]], now: datetime,
) -> tuple[Written, list[Fault]]:  # fmt: skip
    details, sign_offs = known[rater.pk]
    entry = SessionEntry(
        stay=one.stay, stoma=one.stoma, procedure=session.procedure, began_at=session.at,
        ratings=tuple(RatingEntry(learner=one.learner, code=code, answer=answer) for code, answer in answers),
    )  # fmt: skip
    faults = looked_over(Look(sheet, one.stay, details.grade, now), entry).found
    made = written_of(Actor(clinician=rater), entry, sheet, details, sign_offs, now)
    for row in (made.event, made.account, *made.ratings):
        row.by = somebody(actor)
    made.seal()
    return made, faults


def _figures(unit: Unit, made: Sequence[_Made], now: datetime) -> None:
    """The derived rows, worked out from what now stands in the record."""
    policy, rows = policy_for(unit, now), []
    for one, sheet in zip(made, sheets_for([one.stay for one in made]), strict=True):
        entry = one.past.entry
        row = StayNow(
            stay=one.stay, unit=unit, state="left", bed=entry.bed, born=entry.born, mrn=entry.mrn,
            name=f"{entry.given_names} {entry.family_name}", **assessed(sheet.chart, sheet, policy, now),
        )  # fmt: skip
        for name, value in share_of_one_that_left(row, sheet, policy).items():
            setattr(row, name, value)
        row.assessed_revision = row.revision
        rows.append(row)
    StayNow.objects.bulk_create(rows)

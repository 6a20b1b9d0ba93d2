"""What happened at the bedside, signed: teaching sessions, care given, rechecks, co-signatures, output totals."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.utils import timezone

from teaching.models import (
    Account,
    ClinicianDetails,
    Cosign,
    Draft,
    Event,
    Finding,
    OutputTotal,
    Rating,
    SignOff,
    StayNow,
    Stoma,
)
from teaching.record.accounts import Written, ratings_of, write
from teaching.record.actor import Actor
from teaching.record.charts import Sheet, sheets_for
from teaching.record.checking import Faults, somebody
from teaching.record.checklists import row_keys
from teaching.record.entries import CareEntry, RatingEntry, RecheckEntry, SessionEntry
from teaching.record.figures import refresh, refresh_with
from teaching.record.prepared import read
from teaching.record.proof import proof_of
from teaching.record.refusals import Fault, Refused, refuse
from teaching.record.session_checks import NURSES, Look
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import Superseded, done, next_number, writing, writing_all
from teaching.rules.checklist import applicable
from teaching.rules.vocabulary import UNAIDED

Entry = SessionEntry | CareEntry | RecheckEntry
KINDS: dict[type, tuple[str, str]] = {
    SessionEntry: ("teaching", "record_session"),
    CareEntry: ("care", "record_care"),
    RecheckEntry: ("recheck", "record_recheck"),
}


def record_session(*, actor: Actor, entry: SessionEntry) -> Account:
    """Sign a teaching session. Raises Refused with every fault; then nothing is stored."""
    return _record(actor, [entry])[0]


def record_sessions(*, actor: Actor, entries: Sequence[SessionEntry]) -> list[Account]:
    """Many sessions signed at once by one rater, all or none; a fault's field begins with its place in the list."""
    return _record(actor, entries)


def record_care(*, actor: Actor, entry: CareEntry) -> Account:
    """Care given, nothing to rate. A change resets the due time; a leak is a change whose wear ended by a leak."""
    return _record(actor, [entry])[0]


def record_recheck(*, actor: Actor, entry: RecheckEntry) -> Account:
    """Still manages all of this alone: renews the date of rows already held.

    Kept as the whole procedure confirmed: 06 (a decision: right) on each essential row that applies now.
    """
    return _record(actor, [entry])[0]


def skill_for(stoma: Stoma) -> str:
    """The skill to teach with this stoma. A wet colostomy has the tap and the night bag of a urostomy."""
    return "teach-urostomy" if stoma.kind in ("urostomy", "wet-colostomy") else "teach-bowel"


def details_of(actor: Actor) -> Any:
    """The signer's name and grade as they stand now."""
    known = read(ClinicianDetails, ("number", "name", "grade"), "clinician_id", [somebody(actor).pk])
    return max(known, key=lambda row: row.number)


def grade_of(actor: Actor) -> str:
    return details_of(actor).grade


def _record(actor: Actor, entries: Sequence[Entry]) -> list[Account]:
    if not entries:
        return []
    rater, now = somebody(actor), timezone.now()
    details = details_of(actor)
    sign_offs = sign_offs_of(rater) if any(isinstance(each, SessionEntry) for each in entries) else []
    stays = list({entry.stay.pk: entry.stay for entry in entries}.values())
    with writing_all(stays) as locked:
        sheets = dict(zip((stay.pk for stay in stays), sheets_for(stays), strict=True))
        drafts = _drafts([entry.event_uid for entry in entries if entry.event_uid])
        _refuse_faults(actor, entries, sheets, drafts, details.grade, now)
        written = [written_of(actor, entry, sheets[entry.stay.pk], details, sign_offs, now) for entry in entries]
        store_written(written)
        if drafts:
            Draft.objects.filter(pk__in=[draft.pk for draft in drafts.values()]).update(state="signed")
        for entry, made in zip(entries, written, strict=True):
            unit = locked[entry.stay.pk].unit
            done(actor, KINDS[type(entry)][1], made.account, stay=entry.stay, unit=unit)
        for stay in stays:
            ours = [made for made in written if made.event.stay == stay]
            refresh_with(locked[stay.pk], sheets[stay.pk], ours, now)
    return [made.account for made in written]


def _drafts(uids: Sequence[UUID]) -> dict[UUID, Draft]:
    return {draft.event_uid: draft for draft in Draft.objects.filter(event_uid__in=uids)} if uids else {}


def _refuse_faults(
    actor: Actor,
    entries: Sequence[Entry],
    sheets: dict[int, Sheet],
    drafts: dict[UUID, Draft],
    grade: str,
    now: datetime,
) -> None:
    found = []
    for index, entry in enumerate(entries):
        look = Look(sheets[entry.stay.pk], entry.stay, grade, now)
        faults = looked_over(look, entry)
        _check_draft(faults, actor, entry, drafts.get(entry.event_uid) if entry.event_uid else None)
        before = f"{index}." if len(entries) > 1 else ""
        found += [Fault(f"{before}{field}", sentence) for field, sentence in faults.found]
    if found:
        raise Refused(*found)


def looked_over(look: Look, entry: Entry) -> Faults:
    if isinstance(entry, SessionEntry):
        return look.session(entry)
    return look.care(entry) if isinstance(entry, CareEntry) else look.recheck(entry)


def _check_draft(faults: Faults, actor: Actor, entry: Entry, draft: Draft | None) -> None:
    if draft is None:
        return
    if draft.state != "open":
        faults.add("event_uid", "What was begun here is already signed or dropped. Begin anew.")
    if draft.owner_id != somebody(actor).pk:
        faults.add("event_uid", "This session was begun by somebody else. Each signs only what they saw.")
    if draft.stay_id != entry.stay.pk or draft.stoma_id != entry.stoma.pk:
        faults.add("stoma", "This session was begun for another stoma. Go back and begin it for this one.")


def written_of(
    actor: Actor, entry: Entry, sheet: Sheet, details: Any, sign_offs: Sequence[SignOff], now: datetime
) -> Written:
    kind, grade = KINDS[type(entry)][0], details.grade
    keys = row_keys(sheet.checklist_uid)
    if isinstance(entry, CareEntry):
        written = write(entry, kind, actor, grade, now)
    elif isinstance(entry, RecheckEntry):
        written = write(entry, kind, actor, grade, now, checklist_id=sheet.checklist_id)
        written.ratings = ratings_of(rechecked(entry, sheet), written.account, keys, actor, now)
    else:
        leaned_on = valid_among(sign_offs, (skill_for(entry.stoma),), entry.began_at)
        written = write(entry, kind, actor, grade, now, checklist_id=sheet.checklist_id, sign_off=leaned_on)
        written.ratings = ratings_of(entry.ratings, written.account, keys, actor, now)
    written.witness_name = details.name
    written.seal()
    return written


def rechecked(entry: RecheckEntry, sheet: Sheet) -> list[RatingEntry]:
    """A recheck as the rows it confirms."""
    rows = applicable(sheet.chart, str(entry.stoma.uid), entry.at)
    return [
        RatingEntry(
            learner=entry.learner,
            code=row.code,
            answer="right" if row.item.decision else UNAIDED,
            entered_as="phase",
        )
        for row in rows
        if row.item.procedure == entry.procedure and row.essential
    ]


def store_written(written: Sequence[Written]) -> None:
    """Four inserts, however many sessions and rows; two accounts may tell of one event."""
    Event.objects.bulk_create({each.event.uid: each.event for each in written}.values())
    Account.objects.bulk_create([each.account for each in written])
    Rating.objects.bulk_create([rating for each in written for rating in each.ratings])
    Finding.objects.bulk_create([each.finding for each in written if each.finding])


def cosign(*, actor: Actor, account: Account) -> Cosign:
    """A registered nurse puts their name beside a student's account; only then does it count."""
    signer, grade = somebody(actor), details_of(actor).grade
    faults = Faults()
    if grade not in NURSES:
        faults.add("", "Only a registered nurse co-signs. Ask one who was there.")
    if account.role != "student" or account.kind in ("addendum", "retraction"):
        faults.add("account", "Only a student's own entry is co-signed.")
    if account.rater_id == signer.pk:
        faults.add("", "Nobody co-signs their own entry. Ask a registered nurse who was there.")
    faults.stop()
    with writing(account.stay) as locked:
        if Cosign.objects.filter(account=account).exists():
            refuse("account", "This entry is already co-signed.")
        told = Account.objects.filter(event=account.event_id, rater=account.rater_id).exclude(kind="addendum")
        if told.filter(number__gt=account.number).exists():
            raise Superseded("This entry was corrected meanwhile, or taken back. Read and co-sign what stands now.")
        now = timezone.now()
        made = Cosign.objects.create(
            stay_id=account.stay_id,
            account=account,
            cosigner_grade=grade,
            at=now,
            by=signer,
            recorded_at=now,
            proof=proof_of(actor),
        )
        refresh(account.stay)
        done(actor, "cosign", made, stay=account.stay, unit=_unit(locked))
    return made


def record_output_total(*, actor: Actor, stoma: Stoma, until_at: datetime, ml: int) -> OutputTotal:
    """A 24-hour total in mL, read from the fluid chart, up to a moment. A newer number for it corrects it."""
    signer, now = somebody(actor), timezone.now()
    faults = Faults()
    faults.moment("until_at", until_at, now)
    faults.between("ml", ml, 0, 20000, "mL")
    if details_of(actor).grade == "other":
        faults.add("", "Output is recorded by nursing staff. Ask a nurse to record it.")
    faults.stop()
    with writing(stoma.stay) as locked:
        made = OutputTotal.objects.create(
            stay_id=stoma.stay_id,
            stoma=stoma,
            until_at=until_at,
            ml=ml,
            by=signer,
            number=next_number(OutputTotal, stoma=stoma, until_at=until_at),
        )
        refresh(stoma.stay)
        done(actor, "record_output_total", made, stay=stoma.stay, unit=_unit(locked))
    return made


def _unit(locked: StayNow | None) -> Any:
    assert locked is not None
    return locked.unit

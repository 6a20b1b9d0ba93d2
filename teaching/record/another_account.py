"""One more account of an event that stands already: a correction, a note, a rating beside, the rest of a lesson.

Each is a whole statement with a number of its own among what this rater says of this event.
"""

from dataclasses import replace
from datetime import datetime
from typing import Any

from teaching.models import Account, Clinician, Event, Finding, Rating
from teaching.record.accounts import Written, content, ratings_of, sha256_of, write
from teaching.record.actor import Actor
from teaching.record.charts import Sheet, sheet_for
from teaching.record.checking import Faults, somebody
from teaching.record.checklists import checklist_of, row_keys
from teaching.record.entries import CareEntry, RecheckEntry, SessionEntry
from teaching.record.session_checks import Look
from teaching.record.sessions import KINDS, Entry, looked_over, rechecked
from teaching.record.writing import Superseded, next_number

MEANWHILE = "This entry was changed meanwhile, in another window or on another device. Look at what stands now first."
ANOTHER_EVENT = (
    "This was recorded for another stoma or procedure. Mark it as entered in error, then record it anew for this one."
)


def kind_of(entry: Entry) -> str:
    return KINDS[type(entry)][0]


def began(entry: Entry) -> datetime:
    return entry.began_at if isinstance(entry, SessionEntry) else entry.at


def sheet_of(event: Event) -> Sheet:
    """The stay's sheet with the checklist version that the event was recorded by: a session keeps its own."""
    sheet = sheet_for(event.stay)
    version = event.checklist
    if version is None:
        return sheet
    chart = replace(sheet.chart, checklist=checklist_of(version))
    return replace(sheet, chart=chart, checklist_id=version.pk, checklist_uid=str(version.uid))


def newest(event: Event, rater: Clinician) -> Account | None:
    """The rater's account in force, a retraction too; None where they wrote none, or only notes."""
    own = Account.objects.filter(event=event, rater=rater).exclude(kind="addendum")
    return own.order_by("-number").first()


def must_be_newest(account: Account) -> None:
    """Raises Superseded (HTTP 409) for whoever writes on top of what no longer stands."""
    if newest(account.event, account.rater) != account:
        raise Superseded(MEANWHILE)


def look_over(event: Event, entry: Entry, sheet: Sheet, grade: str, now: datetime) -> Faults:
    """Every fault of the entry, and whether it is about this event at all."""
    faults = looked_over(Look(sheet, event.stay, grade, now), entry)
    told = entry.stay, entry.stoma, entry.procedure, kind_of(entry)
    if told != (event.stay, event.stoma, event.procedure, event.kind):
        faults.add("", ANOTHER_EVENT)
    return faults


def put_beside(
    actor: Actor, event: Event, entry: Entry, sheet: Sheet, grade: str, now: datetime, **columns: Any
) -> Account:
    """Store a whole account of the event, with the next number of this rater. `columns` of Account win."""
    written = write(entry, event.kind, actor, grade, now)
    written.event = written.account.event = event
    for name, value in columns.items():
        setattr(written.account, name, value)
    if not isinstance(entry, CareEntry):
        ratings = rechecked(entry, sheet) if isinstance(entry, RecheckEntry) else entry.ratings
        written.ratings = ratings_of(ratings, written.account, row_keys(sheet.checklist_uid), actor, now)
    return _store(written)


def without_ratings(actor: Actor, account: Account, now: datetime, **columns: Any) -> Account:
    """Store an account that rates nothing, of the same event and times: a note, or entered in error."""
    copied = {
        name: getattr(account, name)
        for name in ("stay", "event", "rater", "rater_grade", "place", "language", "interpreter", "role", "began_at",
                     "ended_at", "zone", "began_offset", "ended_offset", "ended_how")
    }  # fmt: skip
    signed = {"by": somebody(actor), "signed_at": now, "recorded_at": now, "replaces": account}
    return _store(Written(account.event, Account(**copied | signed | columns)))


def _store(written: Written) -> Account:
    account = written.account
    if account.event._state.adding:
        account.event.save()
    account.number = next_number(Account, event=account.event, rater=account.rater)
    account.content_sha256 = sha256_of(content(account, written.ratings, written.finding))
    account.save()
    Rating.objects.bulk_create(written.ratings)
    Finding.objects.bulk_create([written.finding] if written.finding else [])
    return account

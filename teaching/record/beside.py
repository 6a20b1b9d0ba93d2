"""Two nurses and one event: a second one rates it alone, or a lesson is begun by one and gone on with by another."""

from dataclasses import replace
from typing import Any

from django.utils import timezone

from teaching.models import Account, Draft, Event, TakeOver
from teaching.record.actor import Actor
from teaching.record.another_account import Entry, began, kind_of, look_over, newest, put_beside, sheet_of
from teaching.record.charts import sheet_for
from teaching.record.checking import somebody
from teaching.record.entries import SessionEntry
from teaching.record.figures import refresh
from teaching.record.proof import proof_of
from teaching.record.refusals import refuse
from teaching.record.session_checks import NURSES
from teaching.record.sessions import grade_of, skill_for
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, writing

SAW = "I rated beside, alone, what is written here."
ALREADY = "You have already signed what you saw of this. Correct that entry instead."


def rate_beside(*, actor: Actor, event: Event, entry: SessionEntry) -> Account:
    """A second nurse's own rating of the same event, made without the first one's. Raises Superseded, Refused."""
    grade, entry = grade_of(actor), replace(entry, role="paired")
    if event.kind != "teaching":
        refuse("", "Only a teaching session is rated by a second nurse.")
    if grade not in NURSES:
        refuse("", "Only a registered nurse rates beside another. Ask one who was there.")
    with writing(event.stay) as locked:
        if newest(event, somebody(actor)):
            refuse("", ALREADY)
        if not standing_accounts(event):
            refuse("", "This was entered in error, so there is nothing to rate beside. Record what you saw anew.")
        made = _signed(actor, event, entry, grade, meaning=SAW)
        done(actor, "rate_beside", made, stay=event.stay, unit=locked.unit if locked else "")
    return made


def record_part(*, actor: Actor, draft: Draft, entry: Entry) -> Account:
    """One nurse's part of a lesson that changed hands: one event, and each signs only what they saw.

    Whoever has it now closes it; whoever left it may sign before or after that. Raises Superseded, Refused.
    """
    signer, grade = somebody(actor), grade_of(actor)
    with writing(draft.stay) as locked:
        draft = Draft.objects.select_for_update().get(pk=draft.pk)
        had = TakeOver.objects.filter(draft=draft, left_by=signer).exists()
        if draft.owner_id != signer.pk and not had:
            refuse("event_uid", "This session was begun by somebody else. Each signs only what they saw.")
        if draft.state == "dropped" and draft.owner_id == signer.pk:
            refuse("event_uid", "What was begun here was dropped. Begin anew.")
        event = Event.objects.filter(uid=draft.event_uid).first()
        if event and newest(event, signer):
            refuse("", ALREADY)
        made = _signed(actor, event or _event_of(actor, draft, entry), entry, grade)
        if draft.owner_id == signer.pk:
            Draft.objects.filter(pk=draft.pk).update(state="signed")
        done(actor, "record_part", made, stay=draft.stay, unit=locked.unit if locked else "")
    return made


def standing_accounts(event: Event) -> list[Account]:
    """The accounts of the event that count now, one a rater, in the order they were signed."""
    told = Account.objects.filter(event=event).exclude(kind="addendum").order_by("number")
    in_force = {row.rater_id: row for row in told}
    return sorted((row for row in in_force.values() if row.kind != "retraction"), key=lambda row: row.pk)


def _event_of(actor: Actor, draft: Draft, entry: Entry) -> Event:
    """The event as the draft began it, not yet stored."""
    kind = kind_of(entry)
    return Event(
        uid=draft.event_uid, stay=draft.stay, stoma=draft.stoma, kind=kind, procedure=draft.procedure,
        checklist_id=sheet_for(draft.stay).checklist_id if kind == "teaching" else None,
        opened_at=began(entry), by=somebody(actor),
    )  # fmt: skip


def _signed(actor: Actor, event: Event, entry: Entry, grade: str, **columns: Any) -> Account:
    now, sheet = timezone.now(), sheet_of(event)
    look_over(event, entry, sheet, grade, now).stop()
    if isinstance(entry, SessionEntry):
        own = sign_offs_of(somebody(actor))
        columns["sign_off"] = valid_among(own, (skill_for(event.stoma),), entry.began_at)
    columns = {"proof": proof_of(actor), **columns}
    made = put_beside(actor, event, entry, sheet, grade, now, **columns)
    refresh(event.stay)
    return made
